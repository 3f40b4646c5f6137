// The court in motion: painted by a thread of its own where the browser lends one, by the page's where not.
import assert from "node:assert/strict";
import { test } from "node:test";
import { browser, site } from "./stage.mjs";
import { LAPTOP, PHONE, middle, visit } from "./visit.mjs";

/** How many colours stand on the court's canvases: on all that lie under the moving one, and on that. */
const colours = (page) =>
  page.evaluate(() =>
    ["#court-hold > canvas:not(#court-aside)", "#court-aside"].map((selector) => {
      const small = new OffscreenCanvas(160, 100);
      const context = small.getContext("2d");
      for (const canvas of document.querySelectorAll(selector)) context.drawImage(canvas, 0, 0, 160, 100);
      const { data } = context.getImageData(0, 0, 160, 100);
      return new Set(new Uint32Array(data.buffer)).size;
    }),
  );

/** Lays hold of the court and moves it for a while. */
async function turn(page, ms) {
  const { x, y } = await middle(page, "#court-hold");
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 1; step <= ms / 20; step += 1) {
    await page.mouse.move(x + 6 * step, y);
    await page.waitForTimeout(20);
  }
}

for (const [name, screen] of [["laptop", LAPTOP], ["phone", PHONE]]) {
  test(`what turns stands on a canvas of its own, which is empty when the court rests (${name})`, async () => {
    const { page, complaints } = await visit(browser, site.url, screen);
    const [resting, nothing] = await colours(page);
    assert.ok(resting > 100, `${resting} colours at rest`);
    assert.equal(nothing, 1);
    await turn(page, 300);
    const [, turning] = await colours(page);
    assert.ok(turning > 100, `${turning} colours in motion`);
    await page.mouse.up();
    await page.waitForTimeout(2500);
    const [rested, left] = await colours(page);
    assert.ok(rested > 100, `${rested} colours at rest again`);
    assert.equal(left, 1);
    assert.deepEqual(complaints, []);
  });
}

test("where the browser lends no thread, or refuses its script, the page paints the turning court itself", async () => {
  const lendsNone = () => delete HTMLCanvasElement.prototype.transferControlToOffscreen;
  const refuses = () => {
    const Thread = window.Worker;
    window.Worker = class extends Thread {
      constructor(_, options) {
        super("no-such-script.js", options);
      }
    };
  };
  for (const hinder of [lendsNone, refuses]) {
    const context = await browser.newContext(LAPTOP);
    await context.addInitScript(hinder);
    const page = await context.newPage();
    await page.goto(site.url);
    await page.locator("#understood").click();
    await page.waitForTimeout(500);
    const court = () => page.locator("#court").evaluate((it) => it.toDataURL());
    const before = await court();
    await turn(page, 200);
    assert.notEqual(await court(), before, `${hinder}`);
    const aside = await page.evaluate(() => document.getElementById("court-aside")?.width ?? 0);
    assert.ok(aside <= 1, "the canvas that is not painted hides nothing");
    await page.mouse.up();
    await context.close();
  }
});
