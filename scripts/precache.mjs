// Writes the staged site's service worker: www/service-worker.js with the list of what it keeps, which is every
// file of the site, and the build's name. Files that are added to the site later are in it by themselves.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { join, sep } from "node:path";

const WORKER = "service-worker.js";

const site = process.env.TRUNK_STAGING_DIR ?? "dist";
// A debug build is there to be changed, so nothing of it is kept.
const isKept = process.env.TRUNK_PROFILE !== "debug";

/** The hash of a content as the browser is to check it. */
const integrity = (body) => `sha256-${createHash("sha256").update(body).digest("base64")}`;

/** The address of a file, from the site's folder. The page has the folder's own: some servers allow no other. */
function addressOf(file) {
  return file === "index.html" ? "./" : file.split(sep).map(encodeURIComponent).join("/");
}

function siteFiles() {
  const names = readdirSync(site, { recursive: true }).filter((name) => name !== WORKER);
  return names.filter((name) => statSync(join(site, name)).isFile()).sort();
}

/** The worker with a value in the place of the empty one that its source gives a constant. */
function filled(worker, name, value) {
  const empty = new RegExp(`^(const ${name} = )(""|\\{\\});$`, "m");
  if (!empty.test(worker)) {
    console.error(`www/${WORKER}: no empty constant ${name}`);
    process.exit(1);
  }
  return worker.replace(empty, (_, start) => `${start}${JSON.stringify(value, null, 2)};`);
}

let worker = readFileSync(new URL(`../www/${WORKER}`, import.meta.url), "utf8");
if (isKept) {
  const files = siteFiles().map((file) => [addressOf(file), integrity(readFileSync(join(site, file)))]);
  worker = filled(worker, "FILES", Object.fromEntries(files));
  worker = filled(worker, "BUILD", createHash("sha256").update(worker).digest("hex").slice(0, 16));
}
writeFileSync(join(site, WORKER), worker);
