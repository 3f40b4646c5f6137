// Takes spaces, remarks and long names out of the site's scripts, which Trunk can't do with those that
// wasm-bindgen writes: 3 kB less to load. The page's checksums of them follow. staged.mjs runs this on the
// staged site.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { minify_sync } from "terser";

const site = process.env.TRUNK_STAGING_DIR ?? "dist";
const page = join(site, "index.html");
const integrity = (body) => `sha384-${createHash("sha384").update(body).digest("base64")}`;

if (process.env.TRUNK_PROFILE !== "debug") {
  let html = readFileSync(page, "utf8");
  for (const name of readdirSync(site, { recursive: true }).filter((name) => name.endsWith(".js"))) {
    const file = join(site, name);
    const body = readFileSync(file, "utf8");
    // In one go, since the scripts of staged.mjs don’t wait for one another.
    // All of them are modules but the ones that run before the page is drawn, which have no names to give away.
    const { code } = minify_sync(body, { module: true, compress: { passes: 2 } });
    writeFileSync(file, code);
    html = html.replaceAll(integrity(body), () => integrity(code));
  }
  writeFileSync(page, html);
}
