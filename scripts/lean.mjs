// Takes out of the built page the texts that are out of sight, and the names that are only heard, until the
// program has written them from its catalogue: a first visit need not load them twice. staged.mjs runs this on
// the staged site.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

// Sections and popovers hold no others of their kind.
const OUT_OF_SIGHT =
  /<dialog\b[\s\S]*?<\/dialog>|<section\b[^>]*\shidden\b[\s\S]*?<\/section>|<div\b[^>]*\spopover\b[\s\S]*?<\/div>/g;
const WRITTEN_TEXT = /(\sdata-words="?[\w.-]+"?(?:\s[^>]*)?>)[^<]*(?=<)/g;
const UNSEEN_TEXT = /(<\w+\b[^>]*\bclass="?unseen\b[^>]*\sdata-words="?[\w.-]+"?(?:\s[^>]*)?>)[^<]*(?=<)/g;
const NAMED = /<[a-z]+\b[^>]*\sdata-words-label=[^>]*>/g;
const NAME = /\saria-label=(?:"[^"]*"|[^\s>]+)/;

const page = join(process.env.TRUNK_STAGING_DIR ?? "dist", "index.html");
const html = readFileSync(page, "utf8");
const seen = html.replace(OUT_OF_SIGHT, (part) => part.replace(WRITTEN_TEXT, "$1"));
writeFileSync(page, seen.replace(UNSEEN_TEXT, "$1").replace(NAMED, (tag) => tag.replace(NAME, "")));
