// Moving the moment, as a mouse, a thumb and a keyboard do it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { browser, site } from "./stage.mjs";
import { addressBecomes, changed, drag, isPainted, middle, reading, TABLET, text, visit } from "./visit.mjs";

/** Where the handle of a slider is on the screen. */
async function handle(page, selector) {
  const { box } = await middle(page, selector);
  const share = await page.locator(selector).evaluate((it) => (it.value - it.min) / (it.max - it.min));
  const below = await page.locator(selector).evaluate((it) => parseFloat(getComputedStyle(it).paddingBottom));
  return { x: box.x + 14 + share * (box.width - 28), y: box.y + (box.height - below) / 2 };
}

test("a first visit reads a mid-morning and counts it off", async () => {
  const { page, complaints } = await visit(browser, site.url);
  assert.equal(await reading(page), "9 45 7 40");
  assert.match(await text(page, "#figures"), /3 quarters/);
  assert.match(await text(page, "#ladder"), /Zone time, UTC\+3:30/);
  assert.match(await page.locator("#court-text").textContent(), /western quadrant at 9 h 52 min 40 s/);
  assert.deepEqual(complaints, []);
});

test("the running totals of the ladder add up", async () => {
  const { page } = await visit(browser, site.url);
  const seconds = (clock) => clock.replace("−", "-").split(":").reduce((sum, part) => sum * 60 + Math.abs(part), 0);
  const rows = await page.locator("#ladder tr").evaluateAll((all) =>
    all.map((row) => [...row.querySelectorAll("td")].map((cell) => cell.textContent)),
  );
  let total = seconds(rows[0].at(-1));
  for (const cells of rows.slice(1)) {
    if (cells.length === 2) total += seconds(cells[0]) * (cells[0].startsWith("−") ? -1 : 1);
    assert.equal(total, seconds(cells.at(-1)), cells.join(" "));
  }
});

test("dragging the day strip changes the reading and one undo brings it back", async () => {
  const { page, complaints } = await visit(browser, site.url);
  const date = await text(page, "#year-day");
  await drag(page, await handle(page, "#day-place"), 120);
  await addressBecomes(page, /t=2026-10-18T/);
  assert.notEqual(await reading(page), "9 45 7 40");
  assert.equal(await text(page, "#year-day"), date);
  await page.locator("#undo").click();
  await page.waitForFunction(() => document.querySelector("#figures .figure").textContent === "9");
  assert.equal(await reading(page), "9 45 7 40");
  assert.equal(await page.locator("#undo").getAttribute("aria-disabled"), "true");
  assert.deepEqual(complaints, []);
});

test("dragging the year strip keeps the apparent time of day", async () => {
  const { page } = await visit(browser, site.url);
  const [day, time] = [await text(page, "#year-day"), await text(page, "#day-time")];
  await drag(page, await handle(page, "#year-place"), -240);
  await changed(page, "#year-day", day);
  assert.equal(await text(page, "#day-time"), time);
});

test("a thumb anywhere on the strip's row takes the handle there", async () => {
  const { page } = await visit(browser, site.url, TABLET);
  const time = await text(page, "#day-time");
  const { box } = await middle(page, "#day-place");
  assert.ok(box.height >= 44, `the row is ${box.height} px high`);
  await page.touchscreen.tap(box.x + box.width * 0.7, box.y + 6);
  assert.match(await changed(page, "#day-time", time), /^1[3-5]:/);
});

test("a season's diamond goes to that day, and never covers the handle", async () => {
  const { page } = await visit(browser, site.url);
  const solstice = page.locator("#seasons button").nth(1);
  assert.match(await solstice.getAttribute("aria-label"), /Solstice, 21 June/);
  await solstice.click();
  await page.waitForFunction(() => document.getElementById("year-day").textContent === "21 June");
  await page.waitForTimeout(500);
  const at = await handle(page, "#year-place");
  const hit = await page.evaluate(({ x, y }) => document.elementFromPoint(x, y).id, at);
  assert.equal(hit, "year-place");
});

test("every slider moves by keys", async () => {
  const { page } = await visit(browser, site.url);
  const value = (id) => page.locator(id).getAttribute("aria-valuetext");
  await page.locator("#day-place").focus();
  await page.keyboard.press("ArrowRight");
  await page.waitForFunction(() => document.getElementById("day-time").textContent === "9:53:00");
  assert.equal(await value("#day-place"), "9 h 53 min 0 s apparent time");
  await page.keyboard.press("Shift+ArrowRight");
  await page.waitForFunction(() => document.getElementById("day-time").textContent === "10:53:00");
  await page.keyboard.press("PageDown");
  await page.waitForFunction(() => document.getElementById("day-time").textContent === "9:53:00");
  await page.keyboard.press("Home");
  await page.waitForFunction(() => document.getElementById("day-time").textContent.startsWith("6:"));
  await page.locator("#year-place").focus();
  await page.keyboard.press("ArrowRight");
  await page.waitForFunction(() => document.getElementById("year-day").textContent === "19 October");
  await page.keyboard.press("PageUp");
  await page.waitForFunction(() => document.getElementById("year-day").textContent === "19 November");
  await page.locator("#lens-place").focus();
  await page.keyboard.press("ArrowRight");
  await page.locator("#lens-follow").waitFor({ state: "visible" });
  await page.locator("#lens-follow").click();
  await page.locator("#lens-follow").waitFor({ state: "hidden" });
});

test("everything can be reached and is named, by Tab alone", async () => {
  const { page } = await visit(browser, site.url);
  const wanted = [
    "instrument", "theme", "language", "prepare", "tour", "ask", "help", "court-hold", "present", "travel-open",
    "show", "save", "lens-place", "limits", "round", "play", "speed", "now",
    "noon", "date", "time", "rod", "sizes", "undo", "day-place", "year-place",
  ];
  const reached = new Set();
  await page.locator("body").press("Home");
  for (let step = 0; step < 75; step += 1) {
    await page.keyboard.press("Tab");
    const id = await page.evaluate(() => {
      const it = document.activeElement;
      const style = getComputedStyle(it);
      const ring = style.outlineStyle !== "none" || it.id === "lens-place";
      return it === document.body ? null : `${it.id}${ring ? "" : " (no focus ring)"}`;
    });
    if (id) reached.add(id);
  }
  for (const id of wanted) assert.ok(reached.has(id), `${id} was not reached; reached: ${[...reached].join(", ")}`);
});

test("play runs the dial, pause stops it, and an idle page draws nothing", async () => {
  const { page } = await visit(browser, site.url);
  await page.locator("#play").click();
  assert.equal(await changed(page, "#play-label", "Play"), "Pause");
  const time = await text(page, "#day-time");
  await changed(page, "#day-time", time);
  await page.locator("#play").click();
  await changed(page, "#play-label", "Pause");
  await page.waitForTimeout(1500);
  const asked = await page.evaluate(async () => {
    let frames = 0;
    const ask = window.requestAnimationFrame;
    window.requestAnimationFrame = (run) => ((frames += 1), ask.call(window, run));
    await new Promise((resolve) => setTimeout(resolve, 500));
    return frames;
  });
  assert.equal(asked, 0, "the page asked for frames while nothing moved");
});

test("the pass through noon counts down and names its three intervals", async () => {
  const { page } = await visit(browser, site.url);
  await page.locator("#noon").click();
  await page.locator("#noon-panel").waitFor({ state: "visible" });
  // The page glides there first, and counts on the way.
  await page.waitForFunction(() => /^[12] min|^[0-9]+ s/.test(document.getElementById("noon-countdown").textContent));
  const panel = await text(page, "#noon-panel");
  assert.match(panel, /12:01:37 – 12:01:57/);
  assert.match(panel, /12:01:47/);
  assert.match(panel, /Too near XII to be read on either quadrant \(blind time, by custom\)/);
  const countdown = await text(page, "#noon-countdown");
  const later = await changed(page, "#noon-countdown", countdown);
  const seconds = (told) => [.../(?:(\d+) min)? ?(?:(\d+) s)?/.exec(told)].slice(1).reduce((sum, part) => sum * 60 + Number(part ?? 0), 0);
  assert.ok(seconds(later) < seconds(countdown), `${countdown}, then ${later}`);
  assert.ok(await isPainted(page, "#noon-picture"), "the picture of noon is blank");
  assert.equal(await page.locator("#lens-part").isVisible(), false);
  await page.locator("#instrument").selectOption("great");
  await page.waitForFunction(() => !/12:01:37/.test(document.getElementById("noon-blind").textContent));
  await page.locator("#noon-close").click();
  await page.locator("#lens-part").waitFor({ state: "visible" });
  await page.locator("#noon-panel").waitFor({ state: "hidden" });
  assert.equal(await page.evaluate(() => document.activeElement.id), "noon");
});

test("the rod reads the declination, and the last trace reads too much", async () => {
  const { page } = await visit(browser, site.url);
  await page.locator("#rod").click();
  await page.locator("#rod-part").waitFor({ state: "visible" });
  const middleRead = await text(page, "#rod-read");
  assert.match(middleRead, /^−9° [34]0′$/);
  await page.locator("#rod-last").click();
  const lastRead = await changed(page, "#rod-read", middleRead);
  assert.match(lastRead, /^−10° /);
  assert.equal(await reading(page), "9 45 7 40");
  await page.locator("#rod-place").focus();
  await page.keyboard.press("End");
  await changed(page, "#rod-read", lastRead);
});

test("what the eye is taken to see moves the last trace", async () => {
  const { page } = await visit(browser, site.url);
  await page.locator("#rod").click();
  const middleRead = await text(page, "#rod-read");
  await page.locator("#rod-last").click();
  await changed(page, "#rod-read", middleRead);
  const place = () => page.locator("#rod-place").inputValue().then(Number);
  const three = await place();
  await page.locator("#rod-eye").focus();
  await page.keyboard.press("End");
  await addressBecomes(page, /eye=30/);
  assert.match(await text(page, "#rod-eye-value"), /^30 % \(assumed\)$/);
  await page.locator("#rod-last").click();
  await page.waitForFunction((was) => Number(document.getElementById("rod-place").value) !== was, three);
  const [start, thirty] = [-0.865, (await place()) / 1000];
  assert.ok(Math.abs(thirty - start) < Math.abs(three / 1000 - start), `${three} mm, then ${thirty} m`);
  await page.locator("#undo").click();
  await page.waitForFunction((was) => Number(document.getElementById("rod-place").value) === was, three);
});

test("the limits of the soft edge and the dark limb are in the address and the lens tells their times", async () => {
  const { page } = await visit(browser, site.url);
  await page.locator("#limits").press("Space");
  await page.locator("#show").click();
  await page.locator("#limb").press("Space");
  await addressBecomes(page, /limb=dark.*limits=on/);
  await page.waitForFunction(() => /outer limit, .* stands at 9:51:\d\d, and the umbra limit, .* at 9:53:\d\d/.test(document.getElementById("lens-text").textContent));
  const again = await visit(browser, site.url + (await page.evaluate(() => location.hash)));
  assert.equal(await again.page.locator("#limits").isChecked(), true);
  assert.equal(await again.page.locator("#limb").isChecked(), true);
});

test("where nothing is read a sentence says why, with a time", async () => {
  const { page } = await visit(browser, `${site.url}#t=2026-06-21T02:00:00Z`);
  assert.match(await text(page, "#reason"), /above the end of the quadrant until 6:00:00 on the dial, 6:\d\d:\d\d by the clock/);
  await page.goto(`${site.url}#t=2026-10-18T20:00:00Z`);
  await page.waitForFunction(() => /It is night/.test(document.getElementById("reason").textContent));
  assert.equal(await page.locator("#ladder-part").isVisible(), false);
});

test("what is shown is in the address and comes back from it", async () => {
  const { page } = await visit(browser, site.url);
  await page.locator("#instrument").selectOption("schoolyard");
  await page.locator("#show").click();
  await page.locator("#refraction").press("Space");
  await page.keyboard.press("Escape");
  await page.locator("#theme").selectOption("night");
  await page.locator("#round").press("Space");
  await addressBecomes(page, /i=schoolyard&t=.*&air=off&round=minute&theme=night/);
  const [address, before] = [await page.evaluate(() => location.hash), await reading(page)];
  const again = await visit(browser, site.url + address);
  assert.equal(await reading(again.page), before);
  assert.equal(await again.page.locator("#refraction").isChecked(), false);
  assert.equal(await again.page.locator("html").getAttribute("data-theme"), "night");
  assert.equal(await again.page.locator("#instrument").inputValue(), "schoolyard");
});

test("a bad address is told in a sentence and the page goes on with the rest", async () => {
  const { page, complaints } = await visit(browser, `${site.url}#i=great&t=1650-01-01T00:00:00Z&theme=pink`);
  const told = await text(page, "#notices");
  assert.match(told, /instant \(t\) is “1650-01-01T00:00:00Z”; it must be .*1700 to 2200/);
  assert.match(told, /“pink”; it must be one of day, night, glare/);
  assert.equal(await page.locator("#instrument").inputValue(), "great");
  const before = await reading(page);
  await page.evaluate(() => (location.hash = "#i=great&t=whenever"));
  await page.waitForFunction(() => /whenever/.test(document.getElementById("notices").textContent));
  assert.equal(await reading(page), before);
  await page.locator("#dismiss").click();
  await page.locator("#dismiss").waitFor({ state: "hidden" });
  assert.deepEqual(complaints, []);
});

test("a typed moment is gone to; one out of range is refused in words", async () => {
  const { page } = await visit(browser, site.url);
  await page.locator("#date").fill("2026-06-21");
  await page.locator("#date").dispatchEvent("change");
  await page.locator("#time").fill("12:00:00");
  await page.locator("#time").dispatchEvent("change");
  await addressBecomes(page, /t=2026-06-21T08:30:00Z/);
  await page.locator("#date").fill("2345-06-21");
  await page.locator("#date").dispatchEvent("change");
  await page.waitForFunction(() => /“2345-06-21”; it must be from 1700/.test(document.getElementById("notices").textContent));
  await page.locator("#date").blur();
  await page.waitForFunction(() => document.getElementById("date").value === "2026-06-21");
});
