// Prints what a first visit loads, raw and gzipped, and fails when it is over the budget.
import { readdirSync, readFileSync, statSync } from "node:fs";
import { extname, join, relative } from "node:path";
import { gzipSync } from "node:zlib";

const BUDGET_BYTES = 350 * 1000;
// What the page asks for before it can be used; pictures and the like come after.
const FIRST_LOAD = new Set([".html", ".css", ".js", ".wasm"]);
// The second program and its parts, loaded when something of them is first asked for; and the service worker,
// which the page asks for after it has been loaded, and works without.
const LATER = /^(desk|service-worker\.js$)/;

const dist = process.argv[2] ?? "dist";

if (!statSync(join(dist, "index.html"), { throwIfNoEntry: false })) {
  console.error(`${dist} holds no built site`);
  process.exit(1);
}

const kb = (bytes) => `${(bytes / 1000).toFixed(1)} kB`.padStart(10);
const line = (raw, gzip, name) => console.log(`${kb(raw)}${kb(gzip)}  ${name}`);

const total = { raw: 0, gzip: 0 };
const later = { raw: 0, gzip: 0 };
console.log("       raw   gzipped");
for (const entry of readdirSync(dist, { recursive: true, withFileTypes: true })) {
  if (!entry.isFile() || !FIRST_LOAD.has(extname(entry.name))) continue;
  const file = join(entry.parentPath ?? entry.path, entry.name);
  const body = readFileSync(file);
  const gzip = gzipSync(body, { level: 9 }).length;
  line(body.length, gzip, relative(dist, file));
  const sum = LATER.test(entry.name) ? later : total;
  sum.raw += body.length;
  sum.gzip += gzip;
}
line(later.raw, later.gzip, "loaded later");
line(total.raw, total.gzip, `first load, of ${kb(BUDGET_BYTES).trim()} gzipped`);

if (total.gzip > BUDGET_BYTES) {
  console.error("The first load is over its budget.");
  process.exit(1);
}
