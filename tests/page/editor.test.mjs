// An instrument of one's own: made, kept, carried in a link and in a file, and refused in words.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { browser, site } from "./stage.mjs";
import { addressBecomes, editing, text, visit } from "./visit.mjs";

const RADIUS = "#field-quadrants-radius_m";
const GAP = "#field-quadrants-foot_gap_m";

/** Waits until an element's text is like this. */
const says = (page, selector, pattern) =>
  page.waitForFunction(([s, p]) => new RegExp(p).test(document.querySelector(s).textContent), [selector, pattern.source]);

/** Goes by Tab until an element has the focus. */
async function tabTo(page, id) {
  for (let steps = 0; steps < 120; steps += 1) {
    if (await page.evaluate((id) => document.activeElement?.id === id, id)) return;
    await page.keyboard.press("Tab");
  }
  assert.fail(`Tab does not come to #${id}`);
}

/** The names of the person's own instruments, as the list has them. */
const own = (page) => page.locator("#own-dials option").allTextContents();

/** Chooses a file of this text. */
const choose = (page, name, body) =>
  page.setInputFiles("#dial-file", { name, mimeType: "application/json", buffer: Buffer.from(body) });

test("a new instrument is made by the keyboard alone, and is there after a reload", async () => {
  const { page, complaints } = await visit(browser, site.url);
  await tabTo(page, "edit");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement?.id === "editor-heading");
  await tabTo(page, "dial-duplicate");
  await page.keyboard.press("Enter");
  await says(page, "#editor-said", /is a new instrument of your own/);
  await tabTo(page, "field-site-latitude_deg");
  await page.keyboard.press("Control+A");
  await page.keyboard.type("52 30 0 N");
  await says(page, "#hint-site-latitude_deg", /52° 30′ 00″ N/);
  await page.locator("#edit").focus();
  await tabTo(page, "field-name");
  await page.keyboard.press("Control+A");
  await page.keyboard.type("Orchard dial");
  await says(page, "#own-dials", /^Orchard dial$/);
  await page.locator("#edit").focus();
  await tabTo(page, "field-quadrants-radius_m");
  await page.keyboard.press("ArrowUp");
  await page.waitForFunction(() => document.getElementById("field-quadrants-radius_m").value === "2.95");
  await addressBecomes(page, /dial=.*Orchard%20dial.*2\.95/);
  await page.reload({ waitUntil: "networkidle" });
  await says(page, "#place", /^52\.50° N$/);
  assert.deepEqual(await own(page), ["Orchard dial"]);
  // Also without the address that carries it.
  await page.goto(site.url, { waitUntil: "networkidle" });
  await says(page, "#place", /Larkmoor/);
  assert.deepEqual(await own(page), ["Orchard dial"]);
  await page.locator("#instrument").selectOption("own:Orchard dial");
  await says(page, "#place", /^52\.50° N$/);
  assert.deepEqual(complaints, []);
});

test("a change of a built-in dial begins a copy, told in words; one undo takes it back", async () => {
  const { page } = await editing(browser, site.url);
  await page.locator(RADIUS).fill("3.4");
  await says(page, "#editor-said", /stay as they are: this is your copy, “Terrace dial, copy”/);
  await page.locator(RADIUS).fill("4.1");
  await page.locator(RADIUS).blur();
  assert.deepEqual(await own(page), ["Terrace dial, copy"]);
  await page.locator("#editor-undo").click();
  await page.waitForFunction(() => document.getElementById("instrument").value === "terrace");
  assert.deepEqual(await own(page), []);
  assert.equal(await page.locator(RADIUS).inputValue(), "2.9");
});

test("a wrong value keeps the last good instrument and is told beside the field", async () => {
  const { page } = await editing(browser, site.url);
  await page.locator(RADIUS).fill("3.4");
  await page.locator(RADIUS).fill("99");
  await says(page, "#wrong-quadrants-radius_m", /^radius is 99 m; it must be from 0\.05 to 50 m$/);
  assert.equal(await page.locator(RADIUS).getAttribute("aria-invalid"), "true");
  await addressBecomes(page, /radius_m%22:3\.4/);
  await page.locator("#field-site-latitude_deg").fill("north");
  await says(page, "#wrong-site-latitude_deg", /^latitude is “north”; it must be from -90 to 90°, like 31\.6/);
  await page.locator("#field-site-latitude_deg").fill("34 12 00 S");
  await says(page, "#place", /^34\.20° S$/);
  assert.equal(await text(page, "#wrong-site-latitude_deg"), "");
});

test("the foot gap changes the intervals of noon at once", async () => {
  const { page } = await editing(browser, site.url);
  await page.locator("#noon").click();
  await page.locator("#noon-blind dd").waitFor({ state: "attached" });
  await page.waitForFunction(() => document.querySelector("#noon-blind dd").textContent !== "");
  await page.locator("#play").click();
  const before = await page.locator("#noon-blind dd").textContent();
  await page.locator(GAP).fill("30");
  await page.waitForFunction((before) => document.querySelector("#noon-blind dd").textContent !== before, before);
  assert.match(await page.locator("#noon-blind dt").textContent(), /Too near XII to be read/);
});

test("a link carries the whole instrument to another browser", async () => {
  const { page } = await editing(browser, site.url);
  await page.locator("#field-name").fill("Orchard dial");
  await page.locator(GAP).fill("12");
  await page.locator("#dial-ends").selectOption("square");
  await page.locator("#cut-0").selectOption("12");
  await page.locator("#dial-numerals").selectOption("devanagari");
  await addressBecomes(page, /dial=.*square.*foot_gap_m%22:0\.012.*%5b12,.*numerals%22:%22devanagari/);
  const address = await page.evaluate(() => location.hash);
  const there = await editing(browser, site.url + address);
  assert.match(await text(there.page, "#notices"), /“Orchard dial” came with the address/);
  assert.equal(await there.page.locator(GAP).inputValue(), "12");
  assert.equal(await there.page.locator("#dial-ends").inputValue(), "square");
  assert.equal(await there.page.locator("#cut-0").inputValue(), "12");
  assert.equal(await there.page.locator("#dial-numerals").inputValue(), "devanagari");
  assert.deepEqual(await own(there.page), ["Orchard dial"]);
});

test("a broken link is told with each fault and the page goes on", async () => {
  const file = encodeURIComponent('{"format":"noonwedge-instrument","version":1,"name":"x","site":{"latitude_deg":120}}');
  const { page, complaints } = await visit(browser, `${site.url}#dial=${file}&theme=night`);
  const told = await text(page, "#notices");
  assert.match(told, /site\.latitude_deg is “120”; it must be from -90 to 90/);
  assert.match(told, /quadrants\.radius_m is missing; it must be from 0\.05 to 50/);
  assert.equal(await page.locator("#instrument").inputValue(), "terrace");
  assert.equal(await page.locator("html").getAttribute("data-theme"), "night");
  assert.deepEqual(complaints, []);
});

test("what is exported is imported again; a wrong file is refused with all its faults", async () => {
  const { page } = await editing(browser, site.url);
  await page.locator("#field-name").fill("Orchard dial");
  await page.locator("#field-alignment-west_zero_deg").fill("15");
  await says(page, "#own-dials", /Orchard dial/);
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#dial-export").click()]);
  assert.equal(download.suggestedFilename(), "Orchard dial.json");
  const file = await readFile(await download.path(), "utf8");
  assert.equal(JSON.parse(file).alignment.west_zero_deg, 0.25);
  await page.locator("#dial-delete").click();
  await says(page, "#editor-said", /“Orchard dial” is deleted\. Undo brings it back\./);
  assert.deepEqual(await own(page), []);
  await choose(page, "orchard.json", file);
  await says(page, "#editor-said", /“Orchard dial” was taken from the file/);
  assert.equal(await page.locator("#field-alignment-west_zero_deg").inputValue(), "15");
  const wrong = { ...JSON.parse(file), colour: "red" };
  wrong.quadrants.radius_m = 99;
  wrong.site.latitude_deg = "here";
  await choose(page, "wrong.json", JSON.stringify(wrong));
  await says(page, "#editor-said", /“wrong\.json” was not taken, for 3 faults/);
  const faults = await page.locator("#editor-faults li").allTextContents();
  assert.match(faults[0], /^site\.latitude_deg is “here”; it must be from -90 to 90$/);
  assert.match(faults[1], /^quadrants\.radius_m is “99”; it must be from 0\.05 to 50$/);
  assert.match(faults[2], /^“colour” is unknown; it must be one of format/);
  assert.deepEqual(await own(page), ["Orchard dial"]);
});

test("a file can be dropped on the page", async () => {
  const { page } = await visit(browser, site.url);
  await page.evaluate(() => {
    const data = new DataTransfer();
    data.items.add(new File(["{}"], "empty.json", { type: "application/json" }));
    document.body.dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
  });
  await says(page, "#editor-said", /“empty\.json” was not taken, for 2 faults/);
});

test("delete can be undone, also after a reload has kept the rest", async () => {
  const { page } = await editing(browser, site.url);
  await page.locator("#dial-duplicate").click();
  await page.locator("#dial-duplicate").click();
  await says(page, "#own-dials", /copy, copy/);
  assert.equal((await own(page)).length, 2);
  await page.locator("#dial-delete").click();
  await page.waitForFunction(() => document.querySelectorAll("#own-dials option").length === 1);
  await page.locator("#editor-undo").click();
  await page.waitForFunction(() => document.querySelectorAll("#own-dials option").length === 2);
  await addressBecomes(page, /dial=/);
  await page.reload();
  await page.waitForFunction(() => document.querySelectorAll("#own-dials option").length === 2);
});

test("a time zone by name shows its offset and summer time for the date", async () => {
  const { page } = await editing(browser, site.url);
  await page.locator("#dial-clock").selectOption("zone");
  await page.locator("#field-zone").fill("CET");
  await page.locator("#field-zone").press("Enter");
  await says(page, "#clock-now", /^On 18 October 2026: UTC\+2, summer time$/);
  await page.locator("#date").fill("2026-12-18");
  await page.locator("#date").dispatchEvent("change");
  await says(page, "#clock-now", /^On 18 December 2026: UTC\+1$/);
  await page.locator("#field-zone").fill("No/Where");
  await page.locator("#field-zone").press("Enter");
  await says(page, "#wrong-zone", /time zone is “No\/Where”; it must be a name that this browser knows/);
  await page.locator("#editor-close").click();
  assert.match(await text(page, "#ladder"), /Zone time, UTC\+1/);
});

test("the place of the device is asked only by the button; a refusal is told", async () => {
  const { page } = await editing(browser, site.url);
  await page.locator("#dial-locate").click();
  await says(page, "#editor-said", /was not allowed to tell where the device is|does not know where it is/);
  const context = page.context();
  await context.grantPermissions(["geolocation"], { origin: new URL(site.url).origin });
  await context.setGeolocation({ latitude: -12.345678, longitude: 45.5 });
  await page.locator("#dial-locate").click();
  await says(page, "#editor-said", /The place of this device is taken/);
  assert.equal(await page.locator("#field-site-latitude_deg").inputValue(), "-12.34568");
});

test("storage that keeps nothing is told and the page stays usable", async () => {
  const context = await browser.newContext();
  await context.addInitScript(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException("no room", "QuotaExceededError");
    };
  });
  const page = await context.newPage();
  const uncaught = [];
  page.on("pageerror", (error) => uncaught.push(error.message));
  await page.goto(site.url);
  await page.locator("#understood").click();
  await page.locator("#edit").click();
  await page.locator(RADIUS).fill("3.4");
  await says(page, "#notices", /keeps nothing for the page, or has no room left/);
  await page.locator(RADIUS).fill("3.6");
  await addressBecomes(page, /radius_m%22:3\.6/);
  assert.equal((await text(page, "#notices")).match(/no room left/g).length, 1);
  assert.deepEqual(uncaught, []);
});

test("what was kept and can't be read is told and put aside", async () => {
  const context = await browser.newContext();
  await context.addInitScript(() => localStorage.setItem("noonwedge.instruments", '[{"format":"other"}]'));
  const page = await context.newPage();
  await page.goto(site.url);
  await says(page, "#notices", /could not be read; what was kept is put aside\. 1: format is “other”/);
  assert.equal(await page.evaluate(() => localStorage.getItem("noonwedge.instruments.unread")), '[{"format":"other"}]');
});

test("two windows of the page do not take each other's instruments away", async () => {
  const first = await editing(browser, site.url);
  const second = await first.page.context().newPage();
  await second.goto(site.url);
  await second.waitForFunction(() => document.getElementById("day-time").textContent !== "");
  await first.page.locator("#field-name").fill("Orchard dial");
  await addressBecomes(first.page, /Orchard/);
  await second.locator("#edit").click();
  await second.locator("#field-name").fill("Quay dial");
  await addressBecomes(second, /Quay/);
  await second.waitForFunction(() => document.querySelectorAll("#own-dials option").length === 2);
  const kept = await second.evaluate(() => JSON.parse(localStorage.getItem("noonwedge.instruments")).map((it) => it.name));
  assert.deepEqual(kept.sort(), ["Orchard dial", "Quay dial"]);
});
