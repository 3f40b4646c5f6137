// The editor of instruments for everybody: the accessibility checker in each theme, room for thumbs.
import assert from "node:assert/strict";
import { test } from "node:test";
import { violations } from "./axe.mjs";
import { browser, site } from "./stage.mjs";
import { editing, PHONE, TABLET } from "./visit.mjs";

const RADIUS = "#field-quadrants-radius_m";

for (const theme of ["day", "night", "glare"]) {
  test(`the accessibility checker finds nothing in the editor by ${theme}`, async () => {
    const { page } = await editing(browser, `${site.url}#theme=${theme}`);
    assert.deepEqual(await violations(page), []);
    await page.locator(RADIUS).fill("99");
    await page.locator("#dial-clock").selectOption("zone");
    await page.setInputFiles("#dial-file", { name: "wrong.json", mimeType: "application/json", buffer: Buffer.from("{}") });
    await page.locator("#editor-faults li").first().waitFor({ state: "visible" });
    assert.deepEqual(await violations(page), []);
    await page.locator("#noon").click();
    await page.locator("#noon-panel").waitFor({ state: "visible" });
    assert.deepEqual(await violations(page), []);
  });
}

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
