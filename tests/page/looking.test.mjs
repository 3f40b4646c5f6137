// Looking round the court and along the arc; the caution, and what happens when a browser refuses.
import assert from "node:assert/strict";
import { test } from "node:test";
import { browser, site } from "./stage.mjs";
import { addressBecomes, drag, isPainted, LAPTOP, middle, reading, TABLET, text, visit } from "./visit.mjs";

test("the court turns by drag, wheel and keys, and a double click brings it home", async () => {
  const { page } = await visit(browser, site.url);
  const at = await middle(page, "#court-hold");
  await drag(page, { x: at.x, y: at.y - 60 }, 90, 30);
  await addressBecomes(page, /turn=/);
  await page.mouse.wheel(0, -300);
  await addressBecomes(page, /zoom=/);
  await page.mouse.dblclick(at.x, at.y - 60);
  await page.waitForFunction(() => location.hash === "");
  await page.locator("#court-hold").focus();
  await page.keyboard.press("ArrowLeft");
  await addressBecomes(page, /turn=-/);
  await page.keyboard.press("Home");
  await page.waitForFunction(() => location.hash === "");
  await page.getByRole("button", { name: "Along the pole" }).click();
  await addressBecomes(page, /view=pole/);
});

test("two fingers zoom the court and scroll nothing", async () => {
  const { page } = await visit(browser, site.url, TABLET);
  const { x, y } = await middle(page, "#court-hold");
  const session = await page.context().newCDPSession(page);
  const touch = (type, spread) =>
    session.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: type === "touchEnd" ? [] : [{ x: x - spread, y, id: 0 }, { x: x + spread, y, id: 1 }],
    });
  await touch("touchStart", 40);
  for (const spread of [50, 60, 70, 80]) await touch("touchMove", spread);
  await touch("touchEnd", 0);
  await addressBecomes(page, /zoom=[12]/);
});

test("a drag moves the lens along the arc, a double click returns it to the edge", async () => {
  const { page } = await visit(browser, site.url);
  const at = await middle(page, "#lens-hold");
  await drag(page, at, -80);
  await page.locator("#lens-follow").waitFor({ state: "visible" });
  await addressBecomes(page, /lens=9:5[3-9]/);
  await page.mouse.dblclick(at.x, at.y);
  await page.locator("#lens-follow").waitFor({ state: "hidden" });
});

test("the reading is announced once the page has come to rest", async () => {
  const { page } = await visit(browser, site.url);
  await page.locator("#day-place").focus();
  await page.keyboard.press("Shift+ArrowRight");
  await page.waitForFunction(() => /10 h 52 min 40 s/.test(document.getElementById("said").textContent));
});

test("the caution is there on the first visit, not on the next, and always within reach", async () => {
  const { page } = await visit(browser, site.url);
  await page.reload({ waitUntil: "networkidle" });
  assert.equal(await page.locator("#caution").isVisible(), false);
  await page.locator("#help").click();
  assert.match(await text(page, "#caution"), /ISO 12312-2 is for the bare eye only, never behind/);
  await page.keyboard.press("Escape");
  assert.equal(await page.locator("#caution").isVisible(), false);
});

test("the sizes are compared by keyboard: a picture, a table of five, and back", async () => {
  const { page, complaints } = await visit(browser, site.url);
  await page.locator("#sizes").focus();
  await page.keyboard.press("Enter");
  await page.locator("#sizes-dialog").waitFor({ state: "visible" });
  await page.waitForFunction(() => document.querySelectorAll("#sizes-rows tr").length === 5);
  const great = await page.locator("#sizes-rows tr").nth(1).locator("th, td").allInnerTexts();
  assert.deepEqual(great.slice(0, 3), ["Great dial", "2.07", "62.0"]);
  assert.match(await text(page, "#sizes-caption"), /−9° 3\d′.*assumption/);
  assert.ok(await isPainted(page, "#sizes-picture"), "the picture is blank");
  await page.keyboard.press("Escape");
  await page.locator("#sizes-dialog").waitFor({ state: "hidden" });
  assert.equal(await page.evaluate(() => document.activeElement.id), "sizes");
  assert.deepEqual(complaints, []);
});

test("storage that is forbidden changes nothing else", async () => {
  const context = await browser.newContext(LAPTOP);
  await context.addInitScript(() => {
    Object.defineProperty(window, "localStorage", {
      get() {
        throw new DOMException("forbidden", "SecurityError");
      },
    });
  });
  const page = await context.newPage();
  await page.goto(site.url, { waitUntil: "networkidle" });
  await page.locator("#understood").click();
  assert.equal(await reading(page), "9 45 7 40");
});

test("with reduced motion a jump is at once", async () => {
  const { page } = await visit(browser, site.url, { ...LAPTOP, reducedMotion: "reduce" });
  await page.locator("#seasons button").nth(0).click();
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  assert.equal(await text(page, "#year-day"), "20 March");
});

test("the reader is told when the program can't be fetched", async () => {
  const context = await browser.newContext(LAPTOP);
  const page = await context.newPage();
  await page.route("**/*.wasm", (route) => route.abort());
  await page.goto(site.url, { waitUntil: "networkidle" });
  await page.locator("#failed").waitFor({ state: "visible" });
  assert.equal(await page.locator("#loading").isVisible(), false);
});
