// The built site as a whole: it loads cleanly, asks nobody else, keeps a strict policy, works anywhere.
import assert from "node:assert/strict";
import { test } from "node:test";
import { violations } from "./axe.mjs";
import { openPage } from "./browser.mjs";
import { serve } from "./server.mjs";
import { browser, site } from "./stage.mjs";

/** Whether the page has fetched the program. */
const loadedProgram = (page) =>
  page.evaluate(() => performance.getEntriesByType("resource").some(({ name }) => name.endsWith(".wasm")));

test("the page loads without a complaint and stays on its origin", async () => {
  const { page, complaints } = await openPage(browser, site.url);
  assert.equal(await page.title(), "Noonwedge");
  assert.ok(await loadedProgram(page), "the program was not loaded");
  assert.deepEqual(complaints, []);
});

test("the page works under a sub-path", async (t) => {
  const nested = await serve({ base: "/garden/noonwedge/" });
  t.after(nested.close);
  const { page, complaints } = await openPage(browser, nested.url);
  assert.ok(await loadedProgram(page), "the program was not loaded");
  assert.deepEqual(complaints, []);
});

test("the content security policy lets no text become a program", async () => {
  const { page } = await openPage(browser, site.url);
  const policy = await page.getAttribute('meta[http-equiv="Content-Security-Policy"]', "content");
  assert.match(policy, /^default-src 'none';/);
  assert.doesNotMatch(policy, /'unsafe-(eval|inline)'|\{\{|https?:/);
  // A policy that is written down but not in force would let this through.
  const ran = await page.evaluate(async () => {
    const script = document.createElement("script");
    script.textContent = "window.smuggled = true";
    document.head.append(script);
    await new Promise((resolve) => setTimeout(resolve, 50));
    return window.smuggled === true;
  });
  assert.equal(ran, false, "an inline script that the build did not write ran");
});

test("the accessibility checker finds nothing", async () => {
  const { page, complaints } = await openPage(browser, site.url);
  assert.deepEqual(await violations(page), []);
  assert.deepEqual(complaints, []);
});
