// Takes out of the built page the texts that are out of sight until the program has written them from its
// catalogue: a first visit need not load them twice. staged.mjs runs this on the staged site.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const OUT_OF_SIGHT = /<dialog\b[\s\S]*?<\/dialog>|<section\b[^>]*\bid="?editor\b[\s\S]*?<\/section>/g;
const WRITTEN_TEXT = /(\sdata-words="?[\w.-]+"?(?:\s[^>]*)?>)[^<]*(?=<)/g;

const page = join(process.env.TRUNK_STAGING_DIR ?? "dist", "index.html");
const html = readFileSync(page, "utf8");
writeFileSync(page, html.replace(OUT_OF_SIGHT, (part) => part.replace(WRITTEN_TEXT, "$1")));
