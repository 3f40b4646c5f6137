// Writes the hashes of the page's inline scripts into its content security policy. Trunk starts the
// program from an inline module script; allowing that one text by its hash keeps all others forbidden.
// staged.mjs runs this on the staged site, before it becomes dist/.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const PLACEHOLDER = "{{inline-script-hashes}}";
const INLINE_SCRIPT = /<script(?![^>]*\ssrc\s*=)[^>]*>([\s\S]*?)<\/script>/gi;

const page = join(process.env.TRUNK_STAGING_DIR ?? "dist", "index.html");
// The browser hashes the text after turning line ends into "\n", so the same is done here.
const html = readFileSync(page, "utf8").replace(/\r\n?/g, "\n");

const policy = html.match(/<meta[^>]*Content-Security-Policy[^>]*>/i)?.[0] ?? "";
if (!policy.includes(PLACEHOLDER)) {
  console.error(`${page}: no Content-Security-Policy meta tag with ${PLACEHOLDER} in it`);
  process.exit(1);
}

const hashes = [...html.matchAll(INLINE_SCRIPT)].map(
  ([, text]) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`,
);
if (hashes.length === 0) {
  console.error(`${page}: no inline script found, though Trunk writes one; has its output changed?`);
  process.exit(1);
}

writeFileSync(page, html.replace(policy, () => policy.replace(PLACEHOLDER, hashes.join(" "))));
