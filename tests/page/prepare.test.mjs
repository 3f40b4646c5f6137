// The sheets that prepare a day: figures, curves by keyboard and by hand, the file, the print.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { browser, site } from "./stage.mjs";
import { isPainted, PHONE, TABLET, text, visit } from "./visit.mjs";

/** Turns to a sheet. */
async function turn(page, leaf) {
  await page.locator(`[data-leaf=${leaf}]`).click();
  await page.locator(`#prepare-dialog[data-sheet=${leaf}] #sheet-tables table`).first().waitFor();
}

/** A visit with a sheet open. */
async function open(leaf, address = "", screen = undefined) {
  const visited = await visit(browser, site.url + address, screen);
  await visited.page.locator("#prepare").click();
  await turn(visited.page, leaf);
  return visited;
}

/** The cells of the tables, table by table, row by row. */
const cells = (page) =>
  page.locator("#sheet-tables table").evaluateAll((tables) =>
    tables.map((table) => [...table.tBodies[0].rows].map((row) => [...row.cells].map((cell) => cell.textContent))),
  );

/** The year as the page saves it: columns by name. */
async function saved(page) {
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#year-csv").click()]);
  const lines = readFileSync(await download.path(), "utf8").trimEnd().split("\r\n");
  const names = lines[0].split(",");
  const days = lines.slice(1).map((line) => Object.fromEntries(line.split(",").map((cell, index) => [names[index], cell])));
  return { name: download.suggestedFilename(), days };
}

/** "−1:02:03" or "+14:49" in seconds. */
function seconds(told) {
  const size = told.slice(1).split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
  return told.startsWith("−") ? -size : size;
}

/** "−9° 40′" in degrees. */
function degrees(told) {
  const [whole, minutes] = told.slice(1).match(/\d+/g).map(Number);
  return (told.startsWith("−") ? -1 : 1) * (whole + minutes / 60);
}

for (const [address, date] of [
  ["", "2026-10-18"],
  ["#i=north-lawn&t=2026-07-01T10:00:00Z", "2026-07-01"],
  ["#i=schoolyard&t=2027-01-15T08:00:00Z", "2027-01-15"],
]) {
  test(`the card, the saved year and the table of months agree on ${date}`, async () => {
    const { page, complaints } = await open("card", address);
    const [sun, quadrants, noon, correction] = await cells(page);
    await page.locator("[data-leaf=year]").click();
    await page.waitForFunction(() => document.querySelectorAll("#sheet-tables tbody tr").length === 31);
    const { name, days } = await saved(page);
    assert.match(name, /^noonwedge .+ 202[67]\.csv$/);
    assert.equal(days.length, 365);
    const day = days.find((it) => it.date === date);
    assert.deepEqual(sun.map((row) => row[1]), [day.rise_clock, day.noon_clock, day.set_clock]);
    assert.ok(Math.abs(degrees(sun[1][2]) - day.declination_deg) < 0.009, `${sun[1][2]}, ${day.declination_deg}`);
    const total = correction.at(-2)[1];
    assert.ok(Math.abs(seconds(total) - day.correction_to_clock_s) <= 0.51, `${total}, ${day.correction_to_clock_s}`);
    assert.ok(Math.abs(seconds(correction[0][1]) - Number(day.mean_minus_apparent_s)) <= 0.51);
    assert.equal(quadrants[0][2], noon[1][1], "the western quadrant reads until the blind interval");
    assert.equal(quadrants[1][1], noon[1][2], "the eastern quadrant reads from its end");
    await page.locator("#year-quantity").selectOption("clock-correction");
    const [, month, dayOfMonth] = date.split("-").map(Number);
    await page.waitForFunction(() => /summer time/.test(document.getElementById("sheet-title").textContent));
    assert.equal((await cells(page))[0][dayOfMonth - 1][month], total);
    assert.deepEqual(complaints, []);
  });
}

test("noon on the card is that of the pass through noon", async () => {
  const { page } = await open("card");
  const [, , noon] = await cells(page);
  assert.deepEqual(noon[1].slice(1), ["12:01:37", "12:01:57", "20\u00a0s"]);
  assert.equal(noon[2][1], "12:01:47");
  await page.locator("#card-hours").selectOption("3");
  await page.waitForFunction(() => document.querySelector("#sheet-tables section:last-child tbody").rows.length === 3);
});

test("a day without sunset says so", async () => {
  const { page } = await open("year", "#i=north-lawn&t=2026-06-21T10:00:00Z");
  await page.locator("#year-quantity").selectOption("set");
  await page.waitForFunction(() => /Sunset/.test(document.getElementById("sheet-title").textContent));
  const june = (await cells(page))[0].map((row) => row[6]).filter(Boolean);
  assert.ok(june.every((cell) => /^2[23]:|^–$/.test(cell)), june.join(" "));
});

test("the year is read by keys, by the mouse and by a thumb, and a day is gone to", async () => {
  const { page } = await open("year", "", TABLET);
  const read = () => text(page, "#year-read-text");
  assert.match(await read(), /^18 October: add \+1:47; of this equation of time −14:49 \(ellipse −7:2\d, tilt −7:2\d\)\. Declination −9°\u00a040′$/);
  assert.ok(await isPainted(page, "#year-plots"), "the curves are blank");
  await page.locator("#year-read").focus();
  await page.keyboard.press("ArrowRight");
  await page.waitForFunction(() => /^19 October/.test(document.getElementById("year-read-text").textContent));
  assert.match(await page.locator("#year-read").getAttribute("aria-valuetext"), /^19 October: add/);
  await page.keyboard.press("Home");
  await page.waitForFunction(() => /^1 January/.test(document.getElementById("year-read-text").textContent));
  await page.keyboard.press("Shift+ArrowRight");
  await page.waitForFunction(() => /^31 January/.test(document.getElementById("year-read-text").textContent));
  const box = await page.locator("#year-plots").boundingBox();
  const width = box.width >= 690 ? box.width * 0.62 : box.width;
  await page.mouse.move(box.x + width * 0.5, box.y + 120);
  await page.waitForFunction(() => /(June|July): /.test(document.getElementById("year-read-text").textContent));
  await page.touchscreen.tap(box.x + width * 0.9, box.y + 120);
  await page.waitForFunction(() => /(November|December): /.test(document.getElementById("year-read-text").textContent));
  const day = (await read()).split(":")[0];
  await page.locator("#year-go").click();
  await page.locator("#prepare-dialog").waitFor({ state: "hidden" });
  await page.waitForFunction((wanted) => document.getElementById("year-day").textContent === wanted, day);
});

test("the causes of the equation of time can be drawn and left out", async () => {
  const { page } = await open("year");
  const picture = () => page.locator("#year-plots").evaluate((it) => it.toDataURL());
  const before = await picture();
  await page.locator("[data-curve=obliquity]").press("Space");
  await page.waitForFunction((was) => document.getElementById("year-plots").toDataURL() !== was, before);
  await page.locator("[data-curve=obliquity]").press("Space");
  await page.waitForFunction((was) => document.getElementById("year-plots").toDataURL() === was, before);
});

test("the budget adds up, and without a reading there is a reason", async () => {
  const { page } = await open("budget", "#t=2026-10-18T06:24:34Z&round=minute");
  const [rows] = await cells(page);
  const value = (row) => Number(row[1].replace("−", "-").replace("± ", "").replace(" s", ""));
  const terms = rows.slice(0, 7);
  const signed = terms.filter((row) => !row[1].startsWith("±")).map(value);
  const either = terms.filter((row) => row[1].startsWith("±")).map(value);
  const sum = (list) => list.reduce((total, part) => total + part, 0);
  const [known, likely, worst] = rows.slice(7).map(value);
  assert.equal(signed.length, 4);
  assert.ok(Math.abs(known - sum(signed)) < 0.3, `${known}: ${signed}`);
  assert.ok(Math.abs(worst - sum(either)) < 0.2, `${worst}: ${either}`);
  assert.ok(Math.abs(likely - Math.hypot(...either)) < 0.1, `${likely}: ${either}`);
  const dark = await visit(browser, `${site.url}#t=2026-10-18T20:00:00Z`);
  await dark.page.locator("#prepare").click();
  await dark.page.locator("[data-leaf=budget]").click();
  await dark.page.waitForFunction(() => /Without a reading/.test(document.getElementById("sheet-notes").textContent));
});

for (const address of ["", "#i=north-lawn&t=2026-06-21T10:00:00Z&theme=night"]) {
  test(`every sheet prints black on white on one upright page of A4 ${address}`, async () => {
    const { page } = await open("card", address);
    for (const leaf of ["card", "year", "budget"]) {
      await turn(page, leaf);
      if (leaf === "year") await page.locator("#year-quantity").selectOption("rise");
      await page.waitForTimeout(200);
      const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
      assert.equal(pdf.match(/\/Type\s*\/Page\b/g).length, 1, `pages of ${leaf}`);
      const [, width, height] = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/.exec(pdf).map(Number);
      assert.ok(Math.abs(width - 595) < 1 && Math.abs(height - 842) < 1, `${width} × ${height}`);
      await page.emulateMedia({ media: "print" });
      assert.match(await text(page, ".sheet-cautions"), /Never look at the Sun[^]*ISO 12312-2[^]*Keep off the masonry[^]*not for navigation/);
      const colours = await page.locator("#sheet-title").evaluate((it) => [
        getComputedStyle(it).color,
        getComputedStyle(it.closest("dialog")).backgroundColor,
      ]);
      assert.deepEqual(colours, ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]);
      assert.equal(await page.locator("#prepare-close").isVisible(), false);
      assert.equal(await page.locator("#main").isVisible(), false, "the page behind is printed too");
      await page.emulateMedia({ media: null });
    }
    await page.context().close();
  });
}

for (const [name, screen] of Object.entries({ "390 × 844": PHONE, "1024 × 768": TABLET })) {
  test(`no sheet is wider than the screen and targets are large enough at ${name}`, async () => {
    const { page } = await open("card", "", screen);
    for (const leaf of ["card", "year", "budget"]) {
      await turn(page, leaf);
      const wide = await page.locator("#prepare-dialog").evaluate((it) => it.scrollWidth - it.clientWidth);
      assert.ok(wide <= 0, `${leaf} is ${wide} px too wide`);
      const small = await page
        .locator("#prepare-dialog :is(button, select):visible, #prepare-dialog label.switch:visible")
        .evaluateAll((all) => all.filter((it) => it.getBoundingClientRect().height < 43.9).map((it) => it.id || it.textContent));
      assert.deepEqual(small, []);
    }
    await page.context().close();
  });
}
