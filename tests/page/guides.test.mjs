// The guides over the court: switched on and off, kept in the address, taken back, and accessible.
import assert from "node:assert/strict";
import { test } from "node:test";
import { violations } from "./axe.mjs";
import { browser, site } from "./stage.mjs";
import { addressBecomes, LAPTOP, PHONE, TABLET, text, visit } from "./visit.mjs";

const PROJECTOR = { viewport: { width: 1920, height: 1080 } };
const GUIDES = ["axis", "equator", "horizon", "latitude", "paths", "hour", "declination", "cone"];

/** How many pixels of the uppermost sheet are painted, once it has come to rest. */
async function painted(page) {
  const count = () =>
    page.locator("#court-signs").evaluate((it) => {
      const copy = new OffscreenCanvas(it.width, it.height).getContext("2d", { willReadFrequently: true });
      copy.drawImage(it, 0, 0);
      const { data } = copy.getImageData(0, 0, it.width, it.height);
      return data.filter((value, index) => index % 4 === 3 && value > 0).length;
    });
  let last = -1;
  for (;;) {
    await page.waitForTimeout(250);
    const now = await count();
    if (now === last) return now;
    last = now;
  }
}

test("each guide is drawn, named in the address and in the picture's words, and taken back", async () => {
  const { page, complaints } = await visit(browser, site.url, { ...LAPTOP, reducedMotion: "reduce" });
  const bare = await painted(page);
  await page.locator("#show").click();
  for (const guide of GUIDES) {
    await page.locator(`#show-${guide}`).click();
    await addressBecomes(page, new RegExp(`show=${guide}$`));
    const drawn = await painted(page);
    assert.ok(Math.abs(drawn - bare) > 200, `${guide}: ${drawn} pixels beside ${bare}`);
    const name = await text(page, `label:has(#show-${guide})`);
    await page.waitForFunction((it) => document.getElementById("court-text").textContent.includes(it), name);
    await page.locator(`#show-${guide}`).click();
    await page.waitForFunction(() => location.hash === "");
  }
  await page.locator("#show-paths").click();
  await addressBecomes(page, /show=paths$/);
  await page.keyboard.press("Escape");
  await page.locator("#undo").click();
  await page.waitForFunction(() => location.hash === "");
  assert.equal(await page.locator("#show-paths").isChecked(), false);
  assert.equal(await painted(page), bare);
  assert.deepEqual(complaints, []);
});

test("an address brings the guides back", async () => {
  const { page } = await visit(browser, `${site.url}#show=axis,hour`);
  await page.locator("#show").click();
  const on = await page.locator("#guides input[id^=show-]:checked").evaluateAll((all) => all.map((it) => it.id));
  assert.deepEqual(on, ["show-axis", "show-hour"]);
});

test("the menu works by keyboard: it opens, switches, and hands the focus back", async () => {
  const { page } = await visit(browser, site.url);
  await page.locator("#show").focus();
  await page.keyboard.press("Enter");
  await page.locator("#guides").waitFor({ state: "visible" });
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement.id), "show-axis");
  await page.keyboard.press("Space");
  await addressBecomes(page, /show=axis$/);
  await page.keyboard.press("Escape");
  await page.locator("#guides").waitFor({ state: "hidden" });
  assert.equal(await page.evaluate(() => document.activeElement.id), "show");
});

test("a guide fades in over several frames", async () => {
  const { page } = await visit(browser, site.url);
  await page.locator("#show").click();
  await painted(page);
  const shades = await page.evaluate(async () => {
    const sheet = document.getElementById("court-signs");
    const seen = new Set();
    document.getElementById("show-equator").click();
    for (let frame = 0; frame < 40; frame += 1) {
      await new Promise((resolve) => requestAnimationFrame(resolve));
      const { data } = sheet.getContext("2d").getImageData(0, 0, sheet.width, sheet.height);
      seen.add(data.reduce((sum, value, index) => (index % 4 === 3 ? sum + value : sum), 0));
    }
    return seen.size;
  });
  assert.ok(shades > 3, `${shades} different frames`);
});

for (const [name, screen] of Object.entries({ LAPTOP, TABLET, PHONE, PROJECTOR })) {
  test(`the menu fits a screen: ${name.toLowerCase()}`, async () => {
    const { page } = await visit(browser, site.url, screen);
    await page.locator("#show").click();
    const { width, height } = screen.viewport;
    const menu = await page.locator("#guides").boundingBox();
    assert.ok(menu.x >= 0 && menu.x + menu.width <= width && menu.y >= 0 && menu.y + menu.height <= height + 0.5);
    for (const guide of GUIDES) {
      const target = await page.locator(`label:has(#show-${guide})`).boundingBox();
      assert.ok(target.height >= 43.9 && target.width >= 44, `${guide}: ${target.width} × ${target.height}`);
    }
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= width, `the page is ${wide} px wide`);
  });
}

for (const theme of ["day", "night", "glare"]) {
  test(`no accessibility violations with all guides and the menu open: ${theme}`, async () => {
    const { page } = await visit(browser, `${site.url}#theme=${theme}&show=${GUIDES.join(",")}`);
    await page.locator("#show").click();
    await page.locator("#guides").waitFor({ state: "visible" });
    assert.deepEqual(await violations(page), []);
  });
}
