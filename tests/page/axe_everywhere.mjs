// The accessibility checker in every mode of the page, in every language and every light. One page goes
// through all modes, so that a language in a light costs one visit.
import assert from "node:assert/strict";
import { readdirSync } from "node:fs";
import { test } from "node:test";
import { violations } from "./axe.mjs";
import { openPage } from "./browser.mjs";
import { browser, site } from "./stage.mjs";
import { LAPTOP } from "./visit.mjs";

const TAGS = readdirSync(new URL("../../src/words/", import.meta.url))
  .filter((file) => file.endsWith(".json"))
  .map((file) => file.replace(".json", ""));

const TOUR = JSON.stringify({
  format: "noonwedge-tour",
  version: 1,
  name: "Ours",
  stops: [
    { moment: "view=pole&show=axis", caption: "Along the slope.", notes: "Mind the step." },
    { moment: "", caption: "What do you read?", asks: true },
  ],
});

const file = (name, body) => ({ name, mimeType: "application/json", buffer: Buffer.from(body) });

/** Goes through all modes of a page; `check` is told the name of each. */
async function everywhere(page, check, theme) {
  const see = (selector) => page.locator(selector).first().waitFor({ state: "visible" });
  const gone = (selector) => page.locator(selector).waitFor({ state: "hidden" });
  const press = (selector) => page.locator(selector).first().click();
  const filled = (selector) =>
    page.waitForFunction((it) => document.querySelector(it)?.textContent !== "", selector);
  const empty = (selector) =>
    page.waitForFunction((it) => document.querySelector(it)?.textContent === "", selector);
  // The browser's own event comes later: meanwhile the page could write what it showed before.
  const go = (address) =>
    page.evaluate((hash) => {
      location.replace(hash);
      dispatchEvent(new Event("hashchange"));
    }, `#${address}${address ? "&" : ""}theme=${theme}`);

  await check("dial");
  await go("t=2026-10-18T20:00:00Z&bad=1");
  await see("#reason");
  await see("#notice-list");
  await check("night, and a notice");
  await press("#dismiss");
  await go("view=pole&show=axis,hour");
  await filled("#sighting");
  await check("along the pole");
  await go("");
  await empty("#sighting");
  await press("#show");
  await see("#guides");
  await check("menu of lines");
  await page.keyboard.press("Escape");
  await press("#save");
  await see("#save-menu");
  await check("menu of pictures");
  await press("#share");
  await see("#share-dialog");
  await check("link and code");
  await press("#share-close");
  await go("rod=-3&rod-mm=18");
  await see("#rod-part");
  await check("rod");
  await go("noon=on");
  await see("#noon-panel");
  await check("noon");
  await go("travel=71&travel-as=carried");
  await see("#travel");
  await check("travel");
  await go("");
  await gone("#travel");
  await press("#present");
  await page.waitForFunction(() => "presenting" in document.documentElement.dataset);
  await check("presenting");
  await press("#present");
  await page.waitForFunction(() => !("presenting" in document.documentElement.dataset));

  await press("#edit");
  await see("#editor");
  await check("editor");
  await page.locator("#field-quadrants-radius_m").fill("99");
  await page.locator("#dial-clock").selectOption("zone");
  await page.setInputFiles("#dial-file", file("wrong.json", "{}"));
  await see("#editor-faults li");
  await check("editor with faults");
  await press("#editor-close");
  await go("");

  await press("#sizes");
  await see("#sizes-rows tr");
  await check("sizes");
  await press("#sizes-close");
  await press("#prepare");
  for (const leaf of ["card", "year", "budget"]) {
    await press(`[data-leaf=${leaf}]`);
    await see(`#prepare-dialog[data-sheet=${leaf}] #sheet-tables table`);
    await check(`prepare, ${leaf}`);
  }
  await press("#prepare-close");
  await press("#ask");
  await see("#answers");
  await check("answers");
  await press("[data-question=slope]");
  await see("#answer-figures > div");
  await check("an answer");
  await press("[data-question=noon]");
  await see("#noon-panel");
  await check("the answer about noon");
  await press("#answers-close");
  await gone("#answers");

  await press("#tour");
  await see("#tour-list li");
  await check("the shipped tour");
  await page.setInputFiles("#tour-file", file("tour.json", TOUR));
  await page.locator("#tour-list li:nth-child(2)").waitFor();
  await press("#tour-list li:nth-child(2) .tour-stop");
  await see("#stop-caption");
  await check("a stop being edited");
  await page.setInputFiles("#tour-file", file("bad.json", "{}"));
  await see("#tour-faults li");
  await check("a tour refused");
  await press("#tour-fold");
  await gone("#tour-list");
  await check("the tour's panel made small");
  await press("#tour-fold");
  await press("#tour-list li:nth-child(2) .tour-stop");
  await gone("#stop-caption");

  const room = await page.context().newPage();
  await room.goto(`${site.url}?screen=projector#theme=${theme}`);
  await room.locator("#tour-wait").waitFor({ state: "visible" });
  await check("the projector's window waiting", room);
  await press("#tour-run");
  await see("#tour-notes");
  await check("the speaker's bar");
  await room.locator("#tour-caption").waitFor({ state: "visible" });
  await check("the projector's window", room);
  await room.close();
  await page.keyboard.press("PageDown");
  await page.waitForFunction(() => document.documentElement.dataset.tour === "asks");
  await check("a stop that asks");
  await page.keyboard.press("PageDown");
  await page.waitForFunction(() => document.documentElement.dataset.tour === "tells");
  await check("the end of a tour");
  await page.keyboard.press("Escape");
  await gone("#tour-bar");
}

/** One test a language, in a light. Each light has a file of its own, so that none takes too long. */
export function everywhereBy(theme) {
  for (const tag of TAGS) {
    test(`${tag} by ${theme}: the accessibility checker finds nothing in any mode`, async () => {
      const { page } = await openPage(browser, `${site.url}#theme=${theme}`, LAPTOP);
      const found = [];
      const check = async (name, where = page) => {
        for (const violation of await violations(where)) found.push(`${name}: ${violation}`);
      };
      await page.locator("#caution-language").selectOption(tag);
      await page.waitForFunction((wanted) => document.documentElement.lang === wanted, tag);
      await check("the caution that opens first");
      await page.locator("#understood").click();
      await page.waitForFunction(() => document.getElementById("day-time").textContent !== "");
      await everywhere(page, check, theme);
      assert.deepEqual(found, []);
      await page.context().close();
    });
  }
}
