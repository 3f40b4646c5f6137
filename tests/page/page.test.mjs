// The built site as a whole: it loads cleanly, asks nobody else, keeps a strict policy, works anywhere.
import assert from "node:assert/strict";
import { test } from "node:test";
import { violations } from "./axe.mjs";
import { openPage } from "./browser.mjs";
import { serve } from "./server.mjs";
import { browser, site } from "./stage.mjs";
import { LAPTOP, PHONE, TABLET, visit } from "./visit.mjs";

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

/** Texts on the page smaller than they may be, with their size in pixels; how many there are at all. */
const tooSmall = (page, leastPx) =>
  page.evaluate((least) => {
    const isText = (node) => node.nodeType === Node.TEXT_NODE && node.data.trim() !== "";
    const isField = (it) => it.matches("select, textarea, input:not([type=range], [type=checkbox], [type=file])");
    const seen = [...document.body.querySelectorAll("*")].filter(
      (it) => it.checkVisibility() && !it.closest(".unseen, option") && (isField(it) || [...it.childNodes].some(isText)),
    );
    const sizes = seen.map((it) => [it.id || it.textContent.trim(), parseFloat(getComputedStyle(it).fontSize)]);
    return { count: sizes.length, small: sizes.filter(([, px]) => px < least) };
  }, leastPx);

test("no text is smaller than 14 px on any screen in any mode, nor than 28 px when presenting at 1920 × 1080", async () => {
  const portrait = { viewport: { width: 768, height: 1024 }, hasTouch: true };
  const projector = { viewport: { width: 1920, height: 1080 } };
  for (const screen of [LAPTOP, TABLET, portrait, PHONE, projector]) {
    const { width } = screen.viewport;
    const { page } = await visit(browser, site.url, { ...screen, reducedMotion: "reduce" });
    const look = async (what, leastPx = 14) => {
      const { count, small } = await tooSmall(page, leastPx);
      assert.ok(count > 4, `${what} at ${width}: ${count} texts`);
      assert.deepEqual(small, [], `${what} at ${width}`);
    };
    for (const mode of ["limits=on", "t=2026-10-18T18:30:00Z", "noon=on", "rod=500", "travel=52&travel-as=carried"]) {
      for (const presenting of [false, true]) {
        const hash = presenting ? `${mode}&present=1` : mode;
        await page.evaluate((to) => { location.hash = to; }, hash);
        await page.waitForFunction((on) => document.documentElement.hasAttribute("data-presenting") === on, presenting);
        // Pixels are halves of steps that the browser rounds.
        await look(hash, presenting && width === 1920 ? 27.99 : 14);
      }
    }
    await page.evaluate(() => { location.hash = ""; });
    await page.waitForFunction(() => !document.documentElement.hasAttribute("data-presenting"));
    await page.locator("#show").click();
    await look("the lines that explain");
    await page.keyboard.press("Escape");
    await page.locator("#edit").click();
    await page.locator("#editor").waitFor({ state: "visible" });
    await look("the editor");
    await page.close();
  }
});

test("the header is as high in every mode and language; on a phone it has two rows", async () => {
  const portrait = { viewport: { width: 768, height: 1024 }, hasTouch: true };
  for (const screen of [LAPTOP, TABLET, portrait, PHONE]) {
    const { width } = screen.viewport;
    const { page } = await visit(browser, site.url, { ...screen, reducedMotion: "reduce" });
    for (const tag of ["en", "ar", "hi"]) {
      await page.locator("#language").selectOption(tag);
      await page.waitForFunction((wanted) => document.documentElement.lang === wanted, tag);
      for (const mode of ["", "rod=500", "i=shoreline", "travel=-52.25&travel-as=carried"]) {
        await page.evaluate((to) => { location.hash = to; }, mode);
        await page.waitForFunction((wanted) => document.getElementById("travel").hidden !== wanted, mode.includes("travel"));
        const { height } = await page.locator(".head").boundingBox();
        const rows = width > 700 ? [55, 58] : [96, 106];
        assert.ok(height >= rows[0] && height <= rows[1], `${tag} “${mode}” at ${width}: ${height} px`);
        const cut = await page.locator(".head :is(button, select)").evaluateAll((all) =>
          all
            .map((it) => ({ it, box: it.getBoundingClientRect() }))
            .filter(({ it, box }) => box.left < 0 || box.right > innerWidth || box.width < 44 || box.height < 44
              || (it.tagName === "BUTTON" && it.scrollWidth > it.clientWidth))
            .map(({ it, box }) => `${it.id} ${box.width} × ${box.height}`),
        );
        assert.deepEqual(cut, [], `${tag} “${mode}” at ${width}`);
      }
    }
    await page.close();
  }
});

test("what the strips show is told by touch and by keyboard", async () => {
  for (const screen of [LAPTOP, PHONE]) {
    const { page } = await visit(browser, site.url, screen);
    const told = page.locator("#strips-key");
    if (screen === PHONE) await page.locator("#key").tap();
    else {
      await page.locator("#key").focus();
      await page.keyboard.press("Enter");
    }
    await told.waitFor({ state: "visible" });
    assert.match(await told.innerText(), /Hatched.*\n[^]*Diamonds/);
    assert.deepEqual(await violations(page), []);
    await page.keyboard.press("Escape");
    await told.waitFor({ state: "hidden" });
  }
});
