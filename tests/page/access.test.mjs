// On every screen: nothing too wide, and room for thumbs. The accessibility checker goes through all
// modes in axe_everywhere.mjs.
import assert from "node:assert/strict";
import { test } from "node:test";
import { browser, site } from "./stage.mjs";
import { LAPTOP, PHONE, TABLET, visit } from "./visit.mjs";

for (const [name, screen] of Object.entries({
  "1280 × 800": LAPTOP,
  "1024 × 768": TABLET,
  "768 × 1024": { viewport: { width: 768, height: 1024 } },
  "390 × 844": PHONE,
  "320 × 640": { viewport: { width: 320, height: 640 } },
  "1920 × 1080": { viewport: { width: 1920, height: 1080 } },
})) {
  test(`nothing scrolls sideways and targets are large enough at ${name}`, async () => {
    for (const address of ["", "#i=great", "#i=great&rod=-3&rod-mm=18", "#i=great&noon=on", "#i=north-lawn&t=2026-07-01T05:00:00Z"]) {
      const { page } = await visit(browser, site.url + address, screen);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(wide <= 0, `${wide} px too wide at ${address}`);
      const small = await page.locator("button:visible, select:visible, input:visible").evaluateAll((all) =>
        all
          .map((it) => ({ it, box: (it.closest("label.switch") ?? it).getBoundingClientRect() }))
          .filter(({ box }) => box.width < 43.5 || box.height < 43.5)
          .map(({ it, box }) => `${it.id || it.textContent}: ${box.width} × ${box.height}`),
      );
      assert.deepEqual(small, []);
      const cut = await page.locator(".figures .label:visible").evaluateAll((all) =>
        all.filter((it) => it.getBoundingClientRect().right > innerWidth).map((it) => it.textContent),
      );
      assert.deepEqual(cut, []);
      const crowded = await page.locator(".figures:visible").evaluateAll((all) =>
        all.filter((it) => it.scrollWidth > it.clientWidth).map((it) => it.textContent),
      );
      assert.deepEqual(crowded, []);
      await page.locator("#sizes").click();
      await page.locator("#sizes-rows tr").first().waitFor({ state: "visible" });
      const over = await page.locator("#sizes-dialog").evaluate((it) => it.scrollWidth - it.clientWidth);
      assert.ok(over <= 0, `the sizes are ${over} px too wide`);
    }
  });
}
