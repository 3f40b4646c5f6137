// What visitors ask, and the moment to take along.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { browser, site } from "./stage.mjs";
import { LAPTOP, PHONE, TABLET, text, visit } from "./visit.mjs";

const QUESTIONS = ["slope", "noon", "watch", "off", "size", "winter", "across", "moon"];

/** A visit with the questions open. */
async function open(address = "", screen = undefined) {
  const visited = await visit(browser, site.url + address, screen);
  await visited.page.locator("#ask").click();
  await visited.page.locator("#answers").waitFor({ state: "visible" });
  return visited;
}

async function ask(page, question) {
  await page.locator(`[data-question=${question}]`).click();
  await page.locator(`[data-question=${question}][aria-expanded=true]`).waitFor();
}

/** The figures of the answer, name by name. */
const figures = (page) =>
  page.locator("#answer-figures > div").evaluateAll((lines) =>
    Object.fromEntries(lines.map((it) => [...it.children].map((cell) => cell.textContent))),
  );

test("every question takes the page to a telling moment and has an answer; one button leads back", async () => {
  const { page, complaints } = await open();
  const before = page.url();
  for (const question of QUESTIONS) {
    const told = await text(page, "#answer-text");
    await ask(page, question);
    await page.waitForFunction((was) => document.getElementById("answer-text").textContent !== was, told);
    await page.waitForFunction(() => document.querySelectorAll("#answer-figures > div").length > 0);
    assert.doesNotMatch(await page.locator("#answer").innerText(), /answers\.|\{|NaN/);
  }
  assert.notEqual(page.url(), before);
  await page.locator("#answers-back").click();
  await page.waitForFunction((url) => location.href === url || location.href === `${url}#`, before);
  assert.deepEqual(complaints, []);
});

test("closing the answers gives back the moment from before, and Undo takes that back", async () => {
  const { page, complaints } = await open("#i=great&t=2026-06-21T08:00:00Z");
  await ask(page, "winter");
  await page.waitForFunction(() => /2026-12/.test(location.hash));
  await page.locator("#answers-close").click();
  await page.locator("#answers").waitFor({ state: "hidden" });
  await page.waitForFunction(() => location.hash === "#i=great&t=2026-06-21T08:00:00Z");
  await page.locator("#undo").click();
  await page.waitForFunction(() => /2026-12/.test(location.hash));
  // Who has asked nothing stays where they are.
  await page.locator("#ask").click();
  await page.locator("#answers").waitFor({ state: "visible" });
  await page.locator("#standpoint").selectOption("west");
  await page.waitForFunction(() => /view=west/.test(location.hash));
  await page.locator("#answers-close").click();
  await page.locator("#answers").waitFor({ state: "hidden" });
  assert.match(await page.evaluate(() => location.hash), /view=west/);
  assert.deepEqual(complaints, []);
});

test("the figures are those of the dial on the page", async () => {
  const { page } = await open();
  await ask(page, "watch");
  const [, toMean, toZone] = await page.locator("#ladder tr td:nth-child(2)").allInnerTexts();
  const told = Object.values(await figures(page));
  assert.equal(told.length, 3);
  assert.ok([toMean, toZone].every((step) => told.includes(step)), `${toMean}, ${toZone}: ${told}`);
  await ask(page, "slope");
  await page.locator("#instrument").selectOption("north-lawn");
  await page.waitForFunction(() => document.getElementById("answer-figures").textContent.includes("63° 06′"));
});

test("every question starts from the visitor's own dial and settings, whatever the last answer showed", async () => {
  const { page } = await open("#i=great");
  await ask(page, "off");
  await page.waitForFunction(() => /limits=on/.test(location.hash));
  await ask(page, "across");
  await page.waitForFunction(() => /i=schoolyard/.test(location.hash));
  await ask(page, "slope");
  await page.waitForFunction(() => /i=great.*view=side/.test(location.hash));
  assert.doesNotMatch(await page.evaluate(() => location.hash), /limits|schoolyard/);
});

test("why it is off is what the ladder beside it says", async () => {
  const { page } = await open();
  await ask(page, "off");
  await page.waitForFunction(() => document.getElementById("answer-figures").children.length === 4);
  const step = await page.locator("#ladder tr").last().locator("td").first().innerText();
  const [[name, value]] = Object.entries(await figures(page));
  assert.match(step, /^\+0:0[1-9]$/);
  assert.match(name, /^Dial behind the watch/);
  assert.equal(value, `${Number(step.slice(-2))} s`);
});

test("a cause in words fits the answer's column, in every language", async () => {
  for (const tag of ["en", "ar", "hi"]) {
    const { page } = await visit(browser, `${site.url}#travel=50&travel-as=carried&t=2026-06-21T05:45:00Z`);
    await page.locator("#language").selectOption(tag);
    await page.waitForFunction((wanted) => document.documentElement.lang === wanted, tag);
    await page.locator("#ask").click();
    await page.locator("#answers").waitFor({ state: "visible" });
    await ask(page, "off");
    await page.waitForFunction(() => document.getElementById("answer-figures").children.length === 4);
    const outside = await page.locator("#answer-figures").evaluate((list) => {
      const room = list.getBoundingClientRect();
      const boxes = [...list.querySelectorAll("dt, dd")].map((it) => [it.textContent, it.getBoundingClientRect()]);
      return boxes.filter(([, box]) => box.left < room.left - 0.5 || box.right > room.right + 0.5).map(([what]) => what);
    });
    assert.deepEqual(outside, [], tag);
    await page.context().close();
  }
});

test("the answer about noon shows the pass of the page", async () => {
  const { page } = await open();
  await ask(page, "noon");
  await page.locator("#noon-panel").waitFor({ state: "visible" });
  const blind = (await text(page, "#noon-blind dd")).match(/\d+:\d\d:\d\d/g);
  await page.waitForFunction((from) => document.getElementById("answer-figures").textContent.includes(from), blind[0]);
  const told = (await page.locator("#answer-figures").innerText()).match(/\d+:\d\d:\d\d/g);
  assert.ok(blind.every((time) => told.includes(time)), `${blind}: ${told}`);
});

test("the questions work by keyboard, and Escape leads back to their button", async () => {
  const { page } = await open();
  assert.equal(await page.evaluate(() => document.activeElement.id), "answers-heading");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await page.locator("[data-question=slope][aria-expanded=true]").waitFor();
  await page.keyboard.press("Escape");
  await page.locator("#answers").waitFor({ state: "hidden" });
  assert.equal(await page.evaluate(() => document.activeElement.id), "ask");
});

test("the link brings the moment back, and its code can be saved", async () => {
  const { page, complaints } = await visit(browser, `${site.url}#i=great&t=2026-06-21T08:00:00Z`);
  await page.locator("#save").click();
  await page.locator("#share").click();
  await page.locator("#share-dialog").waitFor({ state: "visible" });
  assert.equal(await page.locator("#share-text").inputValue(), `${site.url}#i=great&t=2026-06-21T08:00:00Z`);
  assert.match(await text(page, "#share-caption"), /Great dial.*21 June 2026/);
  // Black on white, and about half of it black: what is in it is read by a test of the program.
  await page.waitForFunction(() => {
    const { width, height } = document.getElementById("share-picture");
    const { data } = document.getElementById("share-picture").getContext("2d").getImageData(0, 0, width, height);
    const dark = data.filter((value, index) => index % 4 === 0 && value === 0 && data[index + 3] === 255).length;
    return dark > 0.2 * width * height && dark < 0.6 * width * height;
  });
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#share-save").click()]);
  assert.match(readFileSync(await download.path(), "utf8"), /^<svg.*<path/s);
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await page.locator("#share-copy").click();
  await page.waitForFunction(() => document.getElementById("share-said").textContent !== "");
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), await page.locator("#share-text").inputValue());
  assert.deepEqual(complaints, []);
});

for (const [name, screen] of Object.entries({ "1280 × 800": LAPTOP, "1024 × 768": TABLET, "390 × 844": PHONE })) {
  test(`the court stays in sight beside the answers, and nothing is too small or too wide at ${name}`, async () => {
    const { page } = await open("", screen);
    await ask(page, "size");
    const court = await page.locator("#court-hold").boundingBox();
    assert.ok(court.width > 300 && court.height > 150, `${court.width} × ${court.height}`);
    await page.locator("[data-question=moon]").scrollIntoViewIfNeeded();
    assert.ok((await page.locator("#court-hold").boundingBox()).y >= 0, "the court has gone out of sight");
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(wide <= 0, `${wide} px too wide`);
    const small = await page.locator("#answers button:visible").evaluateAll((all) =>
      all.map((it) => it.getBoundingClientRect()).filter((box) => box.height < 43.5 || box.width < 43.5).length,
    );
    assert.equal(small, 0);
  });
}
