// Gives what is loaded later names with hashes, as Trunk does for the rest, and tells the page's loader.
// staged.mjs runs this on the staged site.
import { createHash } from "node:crypto";
import { readFileSync, renameSync, writeFileSync } from "node:fs";
import { extname, join } from "node:path";

const site = process.env.TRUNK_STAGING_DIR ?? "dist";
const page = join(site, "index.html");
const read = (name) => readFileSync(join(site, name), "utf8");

/** Renames a file by what is in it, and tells its new name. */
function named(name, as = name) {
  const hash = createHash("sha256").update(readFileSync(join(site, name))).digest("hex").slice(0, 16);
  const kind = extname(as);
  const renamed = `${as.slice(0, -kind.length)}-${hash}${kind}`;
  renameSync(join(site, name), join(site, renamed));
  return renamed;
}

/** Puts one text in another's place; it must be there. */
function put(text, was, is) {
  if (!text.includes(was)) throw new Error(`${was} not found: has Trunk's output changed?`);
  return text.replaceAll(was, is);
}

const wasm = named("desk_bg.wasm");
writeFileSync(join(site, "desk.js"), put(read("desk.js"), "desk_bg.wasm", wasm));

// In a debug build Trunk writes the signs "-", "." and "_" of an attribute as references.
const sign = (_, code) => String.fromCodePoint(Number.parseInt(code, 16));
let html = read("index.html").replace(/&#x(2D|2E|5F);/g, sign);
html = put(html, "desk_program.js", named("desk.js", "desk_program.js"));
for (const name of ["desk.html", "desk.css"]) html = put(html, name, named(name));
writeFileSync(page, html);
