// What is done to the staged site before it becomes dist/. Trunk would run several hooks of one stage side by
// side; these come one after the other, as each takes what the one before has written.
import "./lean.mjs";
import "./minify.mjs";
import "./later.mjs";
import "./languages.mjs";
import "./csp.mjs";
import "./precache.mjs";
