// Pictures saved as files: as lines and as pixels, with their caption.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { violations } from "./axe.mjs";
import { browser, site } from "./stage.mjs";
import { LAPTOP, PHONE, visit } from "./visit.mjs";

/** Presses a button of the menu; resolves to the file's name and bytes. */
async function saved(page, button) {
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator(button).click()]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

/** Width and height of a PNG, from its header. */
const sizeOf = (png) => [png.readUInt32BE(16), png.readUInt32BE(20)];

test("each picture is saved as SVG that parses and holds the caption", async () => {
  const { page, complaints } = await visit(browser, `${site.url}#show=paths`);
  await page.locator("#save").click();
  for (const what of ["court", "beside", "day", "year"]) {
    await page.locator("#save-what").selectOption(what);
    const { name, bytes } = await saved(page, "#save-svg");
    const picture = what === "beside" ? "lens" : what;
    assert.equal(name, `noonwedge-${picture}-2026-10-18.svg`);
    const found = await page.evaluate((text) => {
      const drawing = new DOMParser().parseFromString(text, "image/svg+xml");
      const texts = [...drawing.querySelectorAll("text")].map((it) => it.textContent);
      return { root: drawing.documentElement.nodeName, texts: texts.join(" | ") };
    }, bytes.toString("utf8"));
    assert.equal(found.root, "svg");
    for (const part of ["Terrace dial, Larkmoor Court", "18 October 2026, 9:54:34 by the clock", "9 h 52 min 40 s"]) {
      assert.ok(found.texts.includes(part), `${what}: ${part} is not in ${found.texts}`);
    }
    assert.equal(found.texts.includes("equinoxes"), what === "court");
  }
  assert.deepEqual(complaints, []);
});

test("a PNG is as large as it was asked to be", async () => {
  const { page } = await visit(browser, site.url);
  await page.locator("#save").click();
  const { bytes: small } = await saved(page, "#save-png");
  await page.locator("#save-size").selectOption("2");
  const { name, bytes: large } = await saved(page, "#save-png");
  assert.equal(name, "noonwedge-court-2026-10-18.png");
  assert.equal(large.subarray(1, 4).toString(), "PNG");
  const [width, height] = sizeOf(small);
  const court = await page.locator("#court-hold").boundingBox();
  assert.ok(Math.abs(width - court.width) <= 1 && height > court.height);
  for (const [index, length] of sizeOf(large).entries()) {
    assert.ok(Math.abs(length - 2 * [width, height][index]) <= 2, `${length} beside ${[width, height][index]}`);
  }
});

for (const [name, screen] of Object.entries({ LAPTOP, PHONE })) {
  test(`the menu fits and has no accessibility violations: ${name.toLowerCase()}`, async () => {
    const { page } = await visit(browser, site.url, screen);
    await page.locator("#save").click();
    const menu = await page.locator("#save-menu").boundingBox();
    assert.ok(menu.x >= 0 && menu.x + menu.width <= screen.viewport.width);
    for (const id of ["save-what", "save-size", "save-svg", "save-png"]) {
      assert.ok((await page.locator(`#${id}`).boundingBox()).height >= 43.9, id);
    }
    assert.deepEqual(await violations(page), []);
  });
}
