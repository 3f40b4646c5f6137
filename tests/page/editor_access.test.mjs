// The editor of instruments for everybody: the accessibility checker in each theme, room for thumbs.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { violations } from "./axe.mjs";
import { launch } from "./browser.mjs";
import { serve } from "./server.mjs";
import { PHONE, TABLET, visit } from "./visit.mjs";

let browser;
let site;

before(async () => {
  site = await serve();
  browser = await launch();
});

after(async () => {
  await browser?.close();
  await site?.close();
});

/** Opens the page with the editor open. */
async function editing(address = "", screen) {
  const visited = await visit(browser, site.url + address, screen);
  await visited.page.locator("#edit").click();
  await visited.page.locator("#editor").waitFor({ state: "visible" });
  return visited;
}

const RADIUS = "#field-quadrants-radius_m";

for (const theme of ["day", "night", "glare"]) {
  test(`the accessibility checker finds nothing in the editor by ${theme}`, async () => {
    const { page } = await editing(`#theme=${theme}`);
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
    const { page } = await editing("", screen);
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
