// Makes the lists of languages from the catalogues in src/words, and puts each but English, which is in
// the program, beside the page under a name with a hash. A catalogue put there is all a language needs.
// csp.mjs runs this on the staged site.
import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";

const IN_THE_PROGRAM = "en";
const LIST = /(<select\b[^>]*\bclass="?languages\b[^>]*>)(<\/select>)/g;

const site = process.env.TRUNK_STAGING_DIR ?? "dist";
const folder = join(import.meta.dirname, "../src/words");

const tags = readdirSync(folder)
  .filter((file) => file.endsWith(".json"))
  .map((file) => basename(file, ".json"));
const later = tags.filter((tag) => tag !== IN_THE_PROGRAM).sort();

mkdirSync(join(site, "words"), { recursive: true });
const options = [IN_THE_PROGRAM, ...later].map((tag) => {
  const words = JSON.parse(readFileSync(join(folder, `${tag}.json`), "utf8"));
  let file = "";
  if (tag !== IN_THE_PROGRAM) {
    const text = JSON.stringify(words);
    const hash = createHash("sha256").update(text).digest("hex").slice(0, 16);
    file = ` data-file="words/${tag}-${hash}.json"`;
    writeFileSync(join(site, `words/${tag}-${hash}.json`), text);
  }
  const [name, direction] = [words["language.name"], words["language.direction"]];
  return `<option value="${tag}" lang="${tag}" dir="${direction}"${file}>${name}</option>`;
});

const page = join(site, "index.html");
const html = readFileSync(page, "utf8");
const filled = html.replace(LIST, `$1${options.join("")}$2`);
if (filled === html) throw new Error(`${page}: no empty list of languages`);
writeFileSync(page, filled);
