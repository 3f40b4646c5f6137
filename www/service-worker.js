// Keeps the built site in the browser, so that it opens without a network. It answers for the files of its own
// build and leaves everything else to the browser; a newer build waits until the page lets it take over.
"use strict";

// scripts/precache.mjs writes both: the build's name, and the address of each of its files, as seen from here,
// with the hash of its content. They stay empty in a debug build, and then nothing is kept or answered for.
const BUILD = "";
const FILES = {};

const PAGE = "./";
const SCOPE = registration.scope;
// An origin has one store for all its folders: a copy of the site in another folder keeps a cache of its own.
const OUR_CACHES = `noonwedge ${SCOPE} `;
const CACHE = OUR_CACHES + BUILD;

/** Fetches all files of the build, or fails: what is kept is never a part of a build, nor two builds mixed. */
async function fill() {
  // A server asked "no-cache" sends only what the browser does not have already.
  const wanted = ([name, integrity]) => new Request(name, { integrity, cache: "no-cache" });
  const cache = await caches.open(CACHE);
  await cache.addAll(Object.entries(FILES).map(wanted));
}

/** Drops the older builds and answers for the pages that are open. */
async function takeOver() {
  const old = (await caches.keys()).filter((name) => name.startsWith(OUR_CACHES) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
  await clients.claim();
}

/** The name in FILES that an address in the scope stands for; the folder itself is the page. */
function nameOf(url) {
  const name = url.slice(SCOPE.length).replace(/[?#].*/, "");
  return name === "" || name === "index.html" ? PAGE : name;
}

async function kept(name, request) {
  const cache = await caches.open(CACHE);
  // A browser short of room may have dropped it.
  return (await cache.match(name)) ?? fetch(request);
}

function answer(event) {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(SCOPE)) return;
  const name = nameOf(request.url);
  if (Object.hasOwn(FILES, name)) {
    event.respondWith(kept(name, request));
  } else if (request.mode === "navigate") {
    // Whoever asks for a page that can't be had without a network comes to this one.
    event.respondWith(fetch(request).catch(() => Response.redirect(SCOPE)));
  }
}

addEventListener("install", (event) => event.waitUntil(fill()));
addEventListener("activate", (event) => event.waitUntil(takeOver()));
addEventListener("message", () => skipWaiting());
if (BUILD) {
  addEventListener("fetch", answer);
} else {
  skipWaiting();
}
