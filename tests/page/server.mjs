// A small static server for the built site, at the root or under a sub-path. `make serve` runs it; the
// page tests import it. It listens on this machine only.
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import { extname, join, normalize } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

export const DIST = fileURLToPath(new URL("../../dist/", import.meta.url));
const HOST = "127.0.0.1";

const MIME = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".ico": "image/x-icon",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".mjs": "text/javascript; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
  ".woff2": "font/woff2",
};

/** The file a request asks for, or null when it lies outside `base` (always ending in a slash). */
function fileFor(url, base, root) {
  let path;
  try {
    path = decodeURIComponent(new URL(url, "http://host").pathname);
  } catch {
    return null;
  }
  if (!path.startsWith(base) || path.includes("\0")) return null;
  const inside = normalize("/" + path.slice(base.length));
  return join(root, inside.endsWith("/") ? inside + "index.html" : inside);
}

/**
 * Serves `root` under `base` and resolves to `{ url, port, close }`. Port 0 takes any free one. Who asks for an
 * address that matches `cut` loses the connection.
 */
export async function serve({ base = "/", root = DIST, port = 0, cut } = {}) {
  const server = createServer(async (request, response) => {
    if (cut?.test(request.url)) {
      request.socket.destroy();
      return;
    }
    const file = fileFor(request.url, base, root);
    try {
      const body = await readFile(file);
      response.writeHead(200, {
        "content-type": MIME[extname(file)] ?? "application/octet-stream",
        // Always fresh: the next build is seen at the next reload.
        "cache-control": "no-cache",
        "x-content-type-options": "nosniff",
      });
      response.end(request.method === "HEAD" ? undefined : body);
    } catch {
      response.writeHead(404, { "content-type": "text/plain; charset=utf-8" });
      response.end("Not found\n");
    }
  });
  await new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, HOST, resolve);
  });
  const close = () =>
    new Promise((resolve) => {
      server.close(resolve);
      server.closeAllConnections();
    });
  const taken = server.address().port;
  return { url: `http://localhost:${taken}${base}`, port: taken, close };
}

async function main() {
  const wanted = Number(process.env.PORT ?? 8080);
  let site;
  try {
    site = await serve({ port: wanted });
  } catch (error) {
    if (error.code !== "EADDRINUSE" || process.env.PORT) throw error;
    console.log(`==> Port ${wanted} is taken; using a free one`);
    site = await serve();
  }
  console.log(`==> Noonwedge is at ${site.url} (Ctrl-C stops it)`);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) await main();
