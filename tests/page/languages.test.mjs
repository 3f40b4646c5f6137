// The page in other languages: chosen by one tap, the right way round, remembered, and as fit for
// everybody as in English.
import assert from "node:assert/strict";
import { test } from "node:test";
import { readdirSync, readFileSync } from "node:fs";
import { openPage } from "./browser.mjs";
import { browser, site } from "./stage.mjs";
import { LAPTOP, PHONE, TABLET, text, visit } from "./visit.mjs";

const FOLDER = new URL("../../src/words/", import.meta.url);
const CATALOGUES = new Map(
  readdirSync(FOLDER)
    .filter((file) => file.endsWith(".json"))
    .map((file) => [file.replace(".json", ""), JSON.parse(readFileSync(new URL(file, FOLDER), "utf8"))]),
);
const OTHERS = [...CATALOGUES.keys()].filter((tag) => tag !== "en");

/** Chooses a language in the header and waits until the page speaks it. */
async function choose(page, tag) {
  await page.locator("#language").selectOption(tag);
  await page.waitForFunction((wanted) => document.documentElement.lang === wanted, tag);
}

/** A visit in a language. */
async function speaking(tag, address = "", screen = LAPTOP) {
  const visited = await visit(browser, site.url + address, screen);
  await choose(visited.page, tag);
  return visited;
}

test("the list holds every catalogue by its own name", async () => {
  const { page } = await visit(browser, site.url);
  const listed = await page.locator("#language option").evaluateAll((all) => all.map((it) => [it.value, it.textContent]));
  const wanted = [...CATALOGUES].map(([tag, words]) => [tag, words["language.name"]]);
  assert.deepEqual(new Map(listed), new Map(wanted));
  assert.equal(listed[0][0], "en");
});

test("the caution, the first thing seen, can be read in one's own language", async () => {
  const { page } = await openPage(browser, site.url);
  await page.locator("#caution-language").selectOption("ar");
  const heading = CATALOGUES.get("ar")["caution.heading"];
  await page.waitForFunction((wanted) => document.getElementById("caution-heading").textContent === wanted, heading);
  assert.equal(await page.locator("#language").inputValue(), "ar");
});

for (const tag of OTHERS) {
  const words = CATALOGUES.get(tag);

  test(`${tag}: one choice changes words, labels, pictures and direction, and is remembered`, async () => {
    const { page, complaints } = await visit(browser, site.url);
    const picture = (id) => page.locator(id).evaluate((it) => it.toDataURL());
    const before = [await picture("#lens"), await picture("#day"), await picture("#court-signs")];
    await choose(page, tag);
    const says = async () => {
      assert.equal(await page.evaluate(() => document.documentElement.dir), words["language.direction"]);
      assert.equal(await text(page, "#help"), words["caution.help"]);
      assert.equal(await page.locator("#day-place").getAttribute("aria-label"), words["play.day"]);
      assert.equal(await text(page, "header .draft"), words["language.state"]);
      const first = page.locator("#ladder tr").first();
      assert.equal(await first.locator("th").innerText(), words["ladder.apparent"]);
    };
    await says();
    await page.waitForTimeout(300);
    const after = [await picture("#lens"), await picture("#day"), await picture("#court-signs")];
    after.forEach((it, index) => assert.notEqual(it, before[index], `picture ${index} is as it was`));
    await page.reload({ waitUntil: "networkidle" });
    await page.waitForFunction((wanted) => document.documentElement.lang === wanted, tag);
    await page.waitForFunction(() => document.getElementById("day-time").textContent !== "");
    await says();
    assert.deepEqual(complaints, []);
    await choose(page, "en");
    assert.equal(await page.evaluate(() => document.documentElement.dir), "ltr");
    assert.equal(await text(page, "#help"), CATALOGUES.get("en")["caution.help"]);
    await page.waitForTimeout(300);
    // The canvas of the court's signs stays as large as the longest words have made it.
    assert.deepEqual([await picture("#lens"), await picture("#day")], before.slice(0, 2));
  });

  test(`${tag}: figures have the language's digits, and keep their order`, async () => {
    const { page } = await speaking(tag, "#t=2026-10-18T06:24:34Z");
    const digits = (number) => number.replace(/\d/g, (digit) => [...words["figures.digits"]][digit]);
    const total = page.locator("#ladder tr").first().locator("td").last();
    const isolates = /[\u2066-\u2069\u202a-\u202e]/g;
    assert.equal((await total.innerText()).replace(isolates, ""), digits("9:52:40"));
    const step = page.locator("#ladder tr").nth(1).locator("td").first();
    assert.match((await step.innerText()).replace(isolates, ""), new RegExp(`^−${digits("14:4")}`));
    // The sign stands to the left of its figure, and minutes to the right of hours, whichever way the page runs.
    const lefts = await step.evaluate((cell) => {
      const node = cell.firstChild;
      const left = (index) => {
        const range = document.createRange();
        range.setStart(node, index);
        range.setEnd(node, index + 1);
        return range.getBoundingClientRect().left;
      };
      return [...node.data].map((letter, index) => [letter, left(index)]).filter(([letter]) => !/[\u2066-\u2069\u202a-\u202e]/.test(letter));
    });
    const sorted = [...lefts].sort(([, a], [, b]) => a - b);
    assert.deepEqual(lefts, sorted);
  });

  test(`${tag}: the desk, opened later, speaks it too, and turns with the page`, async () => {
    const { page, complaints } = await speaking(tag);
    await page.locator("#prepare").click();
    await page.locator("#prepare-dialog").waitFor({ state: "visible" });
    assert.equal(await text(page, "#prepare-close"), words["prepare.close"]);
    await page.locator("#prepare-close").click();
    await page.locator("#ask").click();
    await page.locator("#answers").waitFor({ state: "visible" });
    assert.equal(await text(page, "#answers-heading"), words["answers.heading"]);
    await choose(page, "en");
    const english = CATALOGUES.get("en");
    const heading = english["answers.heading"];
    await page.waitForFunction((wanted) => document.getElementById("answers-heading").textContent === wanted, heading);
    await page.locator("#prepare").click();
    await page.locator("#prepare-dialog").waitFor({ state: "visible" });
    assert.equal(await text(page, "#prepare-close"), english["prepare.close"]);
    assert.deepEqual(complaints, []);
  });

  for (const [name, screen] of Object.entries({ "1024 × 768": TABLET, "390 × 844": PHONE })) {
    test(`${tag}: the caution is readable and its button in sight at ${name}`, async () => {
      const { page } = await openPage(browser, site.url, screen);
      await page.locator("#caution-language").selectOption(tag);
      const wanted = words["caution.understood"];
      await page.waitForFunction((wanted) => document.getElementById("understood").textContent === wanted, wanted);
      const dialog = await page.locator("#caution").boundingBox();
      const draft = await page.locator("#caution .draft").boundingBox();
      assert.ok(draft.width > 0.6 * dialog.width, `${draft.width} px of ${dialog.width}`);
      const list = await page.locator("#caution-language").boundingBox();
      assert.ok(list.y + list.height <= draft.y, "the list of languages covers the note");
      const button = await page.locator("#understood").boundingBox();
      assert.ok(button.y + button.height <= dialog.y + dialog.height, "cut off");
      assert.ok(button.y + button.height <= screen.viewport.height, "out of sight");
      await page.locator("#understood").click();
      await page.locator("#caution").waitFor({ state: "hidden" });
    });

    test(`${tag}: nothing scrolls sideways and nothing is cut off at ${name}`, async () => {
      for (const address of ["", "#i=great&rod=-3&rod-mm=18", "#i=great&noon=on", "#i=north-lawn&t=2026-07-01T05:00:00Z"]) {
        const { page } = await speaking(tag, address, screen);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(wide <= 0, `${wide} px too wide at ${address}`);
        const outside = await page.locator("button:visible, select:visible, .figures .label:visible, .draft:visible").evaluateAll((all) =>
          all
            .map((it) => [it.id || it.textContent, it.getBoundingClientRect()])
            .filter(([, box]) => box.left < -0.5 || box.right > innerWidth + 0.5)
            .map(([what]) => what),
        );
        assert.deepEqual(outside, []);
        const small = await page.locator("button:visible, select:visible").evaluateAll((all) =>
          all
            .map((it) => [it.id || it.textContent, it.getBoundingClientRect()])
            .filter(([, box]) => box.width < 43.5 || box.height < 43.5)
            .map(([what, box]) => `${what}: ${box.width} × ${box.height}`),
        );
        assert.deepEqual(small, []);
      }
    });
  }
}

test("a language that can't be had is told, and the page stays as it was", async () => {
  // What the browser keeps for use without a network would have it.
  const { page } = await visit(browser, site.url, { ...LAPTOP, serviceWorkers: "block" });
  await page.route("**/words/*.json", (route) => route.fulfill({ status: 404 }));
  await page.locator("#language").selectOption("ar");
  await page.waitForFunction(() => document.getElementById("notice-list").textContent !== "");
  assert.equal(await text(page, "#notice-list"), CATALOGUES.get("en")["error.language"]);
  assert.equal(await page.locator("#language").inputValue(), "en");
  assert.equal(await page.evaluate(() => document.documentElement.lang), "en");
});

test("degrees typed in a language's own digits are read", async () => {
  const { page } = await speaking("ar");
  await page.locator("#edit").click();
  await page.locator("#field-site-latitude_deg").fill("٣٣٫٢٥");
  await page.locator("#field-site-latitude_deg").blur();
  await page.waitForFunction(() => document.getElementById("field-site-latitude_deg").value === "33.25");
});
