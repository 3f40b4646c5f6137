// The editor of instruments on every screen: nothing too wide, and room for thumbs.
import assert from "node:assert/strict";
import { test } from "node:test";
import { browser, site } from "./stage.mjs";
import { editing, PHONE, TABLET } from "./visit.mjs";

const RADIUS = "#field-quadrants-radius_m";

for (const [name, screen] of Object.entries({ tablet: TABLET, phone: PHONE, narrow: { viewport: { width: 320, height: 640 } } })) {
  test(`on a ${name} nothing of the editor scrolls sideways and targets are large enough`, async () => {
    const { page } = await editing(browser, site.url, screen);
    await page.locator(RADIUS).fill("99");
    await page.locator("#dial-clock").selectOption("zone");
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(wide <= 0, `${wide} px too wide`);
    const over = await page.locator("#editor").evaluate((it) => it.scrollWidth - it.clientWidth);
    assert.ok(over <= 0, `the editor is ${over} px too wide`);
    const small = await page.locator("#editor :is(button, a, select, input):visible").evaluateAll((all) =>
      all
        .map((it) => ({ it, box: it.getBoundingClientRect() }))
        .filter(({ box }) => box.width < 43.5 || box.height < 43.5)
        .map(({ it, box }) => `${it.id || it.outerHTML}: ${box.width} × ${box.height}`),
    );
    assert.deepEqual(small, []);
  });
}
