// The site without a network, a newer build of it, and the site as a program to install.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { violations } from "./axe.mjs";
import { DIST, serve } from "./server.mjs";
import { browser, site } from "./stage.mjs";
import { changed, reading, text, visit } from "./visit.mjs";

const PRECACHE = fileURLToPath(new URL("../../scripts/precache.mjs", import.meta.url));
const SUB_PATH = "/garden/noonwedge/";

/** Opens the page and waits until its build is kept. */
async function keptVisit(url) {
  const visited = await visit(browser, url);
  await visited.page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
  return visited;
}

/** A copy of the built site whose page describes itself otherwise, with a list of its own; gone after the test. */
function anotherBuild(t, profile = "release") {
  const root = mkdtempSync(join(tmpdir(), "noonwedge-build-"));
  t.after(() => rmSync(root, { recursive: true }));
  cpSync(DIST, root, { recursive: true });
  const page = join(root, "index.html");
  writeFileSync(page, readFileSync(page, "utf8").replace("A teaching simulator", "Another build: a teaching simulator"));
  const env = { ...process.env, TRUNK_STAGING_DIR: root, TRUNK_PROFILE: profile };
  execFileSync(process.execPath, [PRECACHE], { env });
  return root;
}

/** Whether it is another build that is on the screen. */
const isAnother = (page) =>
  page.evaluate(() => document.querySelector("meta[name=description]").content.startsWith("Another build"));

const anotherComes = (page) =>
  page.waitForFunction(() =>
    document.querySelector("meta[name=description]")?.content.startsWith("Another build"),
  );

const cacheNames = (page) => page.evaluate(() => caches.keys());

/** What the browser tells a page that is looked at again: the page then asks for a newer build. */
const lookAgain = (page) => page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));

/** Waits until a question that the page can only answer by a promise is answered with yes. */
async function until(page, question) {
  for (let tries = 0; tries < 400; tries += 1) {
    if (await page.evaluate(question)) return;
    await page.waitForTimeout(50);
  }
  assert.fail(`in vain: ${question}`);
}

const newerWaits = (page) =>
  until(page, async () => (await navigator.serviceWorker.getRegistration()).waiting !== null);

/** Has the page look for a newer build; resolves to what becomes of it: "installed" or "redundant". */
const fateOfNewer = (page) =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    const fate = new Promise((resolve) => {
      const follow = () => {
        const newer = registration.installing;
        newer.addEventListener("statechange", () => resolve(newer.state));
      };
      registration.addEventListener("updatefound", follow, { once: true });
    });
    document.dispatchEvent(new Event("visibilitychange"));
    return fate;
  });

/** That the page does its work: the moment moves, the figures follow, the second program makes a sheet. */
async function works(page) {
  await page.waitForFunction(() => document.getElementById("day-time")?.textContent);
  const before = { time: await text(page, "#day-time"), reading: await reading(page) };
  assert.match(before.reading, /\d/);
  await page.locator("#day-place").press("Shift+ArrowRight");
  await changed(page, "#day-time", before.time);
  await page.waitForFunction(
    (was) => [...document.querySelectorAll("#figures .figure")].map((it) => it.innerText).join(" ") !== was,
    before.reading,
  );
  await page.locator("#prepare").click();
  await page.waitForFunction(() => document.getElementById("sheet-title")?.textContent);
  await page.locator("#prepare-close").click();
}

for (const base of ["/", SUB_PATH]) {
  test(`without a network the page opens and works at ${base}`, async (t) => {
    const there = await serve({ base });
    t.after(there.close);
    const { page, complaints } = await keptVisit(there.url);

    await page.context().setOffline(true);
    await there.close();
    await page.reload();
    await works(page);

    // A link with a moment, by the page's own name, and an address that has never been.
    await page.goto(`${there.url}index.html?from=a-link#t=2026-06-21T09:00`);
    await works(page);
    await page.goto(`${there.url}nowhere/at-all`);
    assert.equal(new URL(page.url()).pathname, base);
    await works(page);
    assert.deepEqual(complaints, []);
  });
}

test("every file of the site is kept as it is, and nothing else", async () => {
  const { page } = await keptVisit(site.url);
  const kept = await page.evaluate(async () => {
    const names = await caches.keys();
    const cache = await caches.open(names[0]);
    const lengths = {};
    for (const request of await cache.keys()) {
      const body = await (await cache.match(request)).arrayBuffer();
      lengths[request.url] = body.byteLength;
    }
    return { caches: names.length, lengths };
  });
  const files = readdirSync(DIST, { recursive: true }).filter((name) => statSync(join(DIST, name)).isFile());
  const wanted = files
    .filter((name) => name !== "service-worker.js")
    .map((name) => [site.url + name.replace(/^index\.html$/, ""), statSync(join(DIST, name)).size]);
  assert.equal(kept.caches, 1);
  assert.deepEqual(kept.lengths, Object.fromEntries(wanted));
});

test("two copies of the site on one origin keep out of each other's way", async (t) => {
  const [first, below] = [await serve({ base: SUB_PATH }), `${SUB_PATH}next/`];
  t.after(() => first.close());
  const { page } = await keptVisit(first.url);
  await first.close();
  const second = await serve({ base: below, port: first.port });
  t.after(second.close);
  await page.goto(second.url);
  await page.waitForFunction(
    (scope) => navigator.serviceWorker.controller?.scriptURL === `${scope}service-worker.js`,
    second.url,
  );
  assert.equal((await cacheNames(page)).length, 2);
  await page.context().setOffline(true);
  for (const { url } of [first, second]) {
    await page.goto(url);
    await works(page);
  }
});

test("a newer build is offered, waits for a tour to end, and comes when it is asked for", async (t) => {
  const first = await serve({ base: SUB_PATH });
  t.after(() => first.close());
  const { page, complaints } = await keptVisit(first.url);
  const other = await page.context().newPage();
  await other.goto(first.url);
  await page.bringToFront();
  for (const window of [page, other]) {
    await window.evaluate(() => {
      globalThis.neverLoadedAgain = true;
      document.documentElement.dataset.tour = "running";
    });
  }
  const [oldCache] = await cacheNames(page);
  const notice = page.locator("#newer");

  await first.close();
  const second = await serve({ base: SUB_PATH, port: first.port, root: anotherBuild(t) });
  t.after(() => second.close());
  await lookAgain(page);
  await newerWaits(page);
  await page.waitForFunction(() => !document.getElementById("newer").hidden);
  assert.equal(await notice.isVisible(), false, "the notice breaks into the tour");

  await page.evaluate(() => delete document.documentElement.dataset.tour);
  await notice.waitFor({ state: "visible" });
  assert.match(await notice.innerText(), /^A newer version is ready\.\s+Load it\s+Later$/);
  assert.deepEqual(await violations(page), []);

  // Put off, it comes back with the next visit, which is still one to the build that is kept.
  await page.locator("#newer-later").click();
  assert.equal(await notice.isVisible(), false);
  assert.equal(await page.evaluate(() => globalThis.neverLoadedAgain), true);
  await page.reload();
  await notice.waitFor({ state: "visible" });
  assert.equal(await isAnother(page), false);
  await works(page);

  await page.locator("#newer-load").click();
  await anotherComes(page);
  await works(page);
  const caches = await cacheNames(page);
  assert.equal(caches.length, 1);
  assert.notEqual(caches[0], oldCache);
  assert.equal(await notice.isVisible(), false);

  // The other window goes on with its tour, and has the newer build when it wants it.
  assert.equal(await other.evaluate(() => globalThis.neverLoadedAgain), true);
  assert.equal(await isAnother(other), false);
  await other.evaluate(() => delete document.documentElement.dataset.tour);
  await other.locator("#newer-load").click();
  await other.waitForFunction(() => globalThis.neverLoadedAgain === undefined);
  await works(other);
  assert.equal(await isAnother(other), true);

  await page.context().setOffline(true);
  await second.close();
  await page.reload();
  await works(page);
  assert.equal(await isAnother(page), true);
  assert.deepEqual(complaints, []);
});

/** What may go wrong with a newer build on its way; each makes of a build what is served of it. */
const MISHAPS = {
  "with a file of another build": (root) => {
    writeFileSync(join(root, "manifest.webmanifest"), "{}");
    return { root };
  },
  "without some of its files": (root) => {
    rmSync(join(root, "icons"), { recursive: true });
    return { root };
  },
  "over a connection that breaks": (root) => ({ root, cut: /\.wasm$/ }),
};

for (const [mishap, served] of Object.entries(MISHAPS)) {
  test(`a newer build that arrives ${mishap} leaves the old one working`, async (t) => {
    let there = await serve();
    t.after(() => there.close());
    const { page } = await keptVisit(there.url);
    const [oldCache] = await cacheNames(page);

    await there.close();
    there = await serve({ port: there.port, ...served(anotherBuild(t)) });
    assert.equal(await fateOfNewer(page), "redundant");
    assert.equal(await page.locator("#newer").isVisible(), false);
    await page.reload();
    assert.equal(await isAnother(page), false);
    await works(page);
    assert.ok((await cacheNames(page)).includes(oldCache));

    // When all is well again it is the browser itself that finds the newer build, as it looks at every visit.
    await there.close();
    there = await serve({ port: there.port, root: anotherBuild(t) });
    await page.reload();
    await page.locator("#newer-load").click();
    await anotherComes(page);
    assert.equal((await cacheNames(page)).length, 1);
  });
}

test("a debug build clears away what a release build has kept, and keeps nothing itself", async (t) => {
  const release = await serve();
  t.after(() => release.close());
  const { page } = await keptVisit(release.url);
  await release.close();
  const debug = await serve({ port: release.port, root: anotherBuild(t, "debug") });
  t.after(() => debug.close());
  await lookAgain(page);
  await until(page, async () => {
    const files = await Promise.all((await caches.keys()).map(async (name) => (await caches.open(name)).keys()));
    return files.flat().length === 0;
  });
  await page.reload();
  assert.equal(await isAnother(page), true);
  assert.equal(await page.locator("#newer").isVisible(), false);
});

test("the site can be installed, in the colours and by the name of its page", async (t) => {
  const there = await serve({ base: SUB_PATH });
  t.after(there.close);
  const { page } = await keptVisit(there.url);
  const client = await page.context().newCDPSession(page);
  const { url, data, errors } = await client.send("Page.getAppManifest");
  assert.deepEqual(errors, []);
  const { installabilityErrors } = await client.send("Page.getInstallabilityErrors");
  // The tests' browser keeps nothing after them, where nothing can be installed.
  assert.deepEqual(installabilityErrors.filter(({ errorId }) => errorId !== "in-incognito"), []);

  const manifest = JSON.parse(data);
  assert.equal(manifest.name, await page.title());
  assert.equal(manifest.description, await page.getAttribute("meta[name=description]", "content"));
  assert.equal(new URL(manifest.start_url, url).href, there.url);
  assert.equal(new URL(manifest.scope, url).href, there.url);
  const paper = await page.evaluate(() =>
    getComputedStyle(document.documentElement).getPropertyValue("--paper").trim(),
  );
  assert.deepEqual([manifest.theme_color, manifest.background_color], [paper, paper]);
  for (const { src, sizes, type } of manifest.icons) {
    const icon = readFileSync(join(DIST, src));
    if (type !== "image/png") continue;
    assert.equal(`${icon.readUInt32BE(16)}x${icon.readUInt32BE(20)}`, sizes, src);
  }
});
