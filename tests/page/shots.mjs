// Takes the pictures for scripts/shots.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { launch, openPage } from "./browser.mjs";
import { serve } from "./server.mjs";

const SCREENS = {
  "laptop-1280x800": { viewport: { width: 1280, height: 800 } },
  "tablet-1024x768": { viewport: { width: 1024, height: 768 }, hasTouch: true },
  "phone-390x844": { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true },
  "projector-1920x1080": { viewport: { width: 1920, height: 1080 } },
};

const [address = "", folder = fileURLToPath(new URL("shots/", import.meta.url))] = process.argv.slice(2);

mkdirSync(folder, { recursive: true });
const site = await serve();
const browser = await launch();
for (const [name, options] of Object.entries(SCREENS)) {
  const { page, complaints } = await openPage(browser, site.url + address, options);
  const file = join(folder, `${name}.png`);
  await page.screenshot({ path: file });
  console.log(file);
  for (const complaint of complaints) console.log(`  ${complaint}`);
  await page.context().close();
}
await browser.close();
await site.close();
