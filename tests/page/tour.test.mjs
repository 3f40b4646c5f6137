// Tours: made, kept, handed on; run by keys, fingers and time, in one window and in two.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { browser, site } from "./stage.mjs";
import { LAPTOP, PHONE, TABLET, addressBecomes, drag, middle, text, visit } from "./visit.mjs";

/** A visit with the panel of tours open. */
async function open(address = "", screen = undefined) {
  const visited = await visit(browser, site.url + address, screen);
  await visited.page.locator("#tour").click();
  await visited.page.locator("#tour-part").waitFor({ state: "visible" });
  return visited;
}

/** Waits until an element says this. */
async function says(page, selector, pattern) {
  const holds = ([s, source]) => new RegExp(source, "s").test(document.querySelector(s)?.textContent ?? "");
  try {
    await page.waitForFunction(holds, [selector, pattern.source], { timeout: 10_000 });
  } catch {
    assert.match(await page.locator(selector).textContent(), pattern);
  }
}

/** Waits until the stops listed are these. */
async function lists(page, titles) {
  const is = (titles) => {
    const found = [...document.querySelectorAll("#tour-list .tour-title")].map((it) => it.textContent);
    return JSON.stringify(found) === JSON.stringify(titles);
  };
  try {
    await page.waitForFunction(is, titles, { timeout: 10_000 });
  } catch {
    assert.deepEqual(await page.locator("#tour-list .tour-title").allInnerTexts(), titles);
  }
}

/** Records the page's moment as a stop and gives it a caption. */
async function record(page, number, caption, notes = "") {
  await page.locator("#tour-record").click();
  await says(page, "#tour-said", new RegExp(`Stop ${number} recorded`));
  await page.locator("#stop-caption").fill(caption);
  if (notes) await page.locator("#stop-notes").fill(notes);
}

/** Chooses a file for the page to read. */
const choose = (page, name, body) =>
  page.locator("#tour-file").setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(body) });

const tourFile = (stops, name = "Ours") => JSON.stringify({ format: "noonwedge-tour", version: 1, name, stops });

/** A tour of three stops that differ in everything, one of them with notes. */
const THREE = tourFile([
  { moment: "", caption: "The terrace.", notes: "Secret one: mind the step." },
  { moment: "t=2026-06-21T06:30:00Z&view=pole", caption: "Midsummer, along the style.", notes: "Secret two." },
  { moment: "i=schoolyard&t=2026-10-18T08:00:00Z", caption: "In the south.", notes: "Secret three." },
]);

/** The panel open with a tour read from a file. */
async function withTour(file, screen = undefined, address = "") {
  const visited = await open(address, screen);
  await choose(visited.page, "tour.json", file);
  await says(visited.page, "#tour-said", /stops? read/);
  return visited;
}

test("stops are recorded, written, put in another order, deleted and brought back", async () => {
  const { page, complaints } = await open();
  await page.locator("[data-whose=own]").click();
  await page.locator("#tour-empty").waitFor({ state: "visible" });
  await record(page, 1, "First");
  await page.locator("[data-view=pole]").click();
  await record(page, 2, "Second", "Ask them.");
  await page.locator("#instrument").selectOption("great");
  await record(page, 3, "Third");
  await lists(page, ["First", "Second", "Third"]);
  // A tap goes to a stop.
  await page.locator("#tour-list li:nth-child(1) .tour-stop").click();
  await addressBecomes(page, /^$/);
  await page.locator("#tour-list li:nth-child(2) .tour-stop").click();
  await addressBecomes(page, /^#view=pole$/);
  assert.equal(await page.locator("#stop-notes").inputValue(), "Ask them.");
  // By button and by key; the focus goes along.
  await page.locator("[data-act=later]").click();
  await lists(page, ["First", "Third", "Second"]);
  await page.locator("#tour-list li:nth-child(3) .tour-stop").focus();
  await page.keyboard.press("Alt+ArrowUp");
  await lists(page, ["First", "Second", "Third"]);
  await page.keyboard.press("Alt+ArrowUp");
  await lists(page, ["Second", "First", "Third"]);
  assert.equal(await page.evaluate(() => document.activeElement.closest("li").dataset.at), "0");
  await page.locator("#tour-list li:nth-child(2) .tour-stop").click();
  await page.locator("[data-act=delete]").click();
  await lists(page, ["Second", "Third"]);
  await says(page, "#tour-said", /Stop 2 deleted/);
  await page.locator("#tour-undo").click();
  await lists(page, ["Second", "First", "Third"]);
  // A stop can show another moment.
  await page.locator("#tour-list li:nth-child(3) .tour-stop").click();
  await addressBecomes(page, /i=great/);
  await page.locator("[data-view=west]").click();
  await page.locator("[data-act=retake]").click();
  await says(page, "#tour-said", /Stop 3 shows this moment now/);
  // What was made is kept.
  await page.reload();
  await page.locator("#tour").click();
  await lists(page, ["Second", "First", "Third"]);
  await page.locator("#tour-list li:nth-child(3) .tour-stop").click();
  await addressBecomes(page, /i=great.*view=west/);
  assert.deepEqual(complaints, []);
  await page.context().close();
});

test("a moment is recorded while the panel is small and the reading in sight", async () => {
  const { page } = await open();
  await page.locator("#tour-fold").click();
  await page.locator("#figures").waitFor({ state: "visible" });
  await page.locator("#tour-list").waitFor({ state: "hidden" });
  const day = await middle(page, "#day-place");
  await page.mouse.click(day.box.x + day.box.width * 0.75, day.y);
  // At once, before the address has come to rest.
  await page.locator("#tour-record").click();
  await says(page, "#tour-said", /Stop 1 recorded/);
  await page.locator("#tour-fold").click();
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#tour-export").click()]);
  const file = JSON.parse(readFileSync(await download.path(), "utf8"));
  const address = await page.evaluate(() => location.hash.slice(1));
  assert.match(address, /^t=2026-10-18T1\d/);
  assert.equal(file.stops[0].moment, address);
  await page.context().close();
});

test("a tour goes to a file and comes back; a bad file is answered and changes nothing", async () => {
  const { page } = await withTour(THREE);
  await lists(page, ["The terrace.", "Midsummer, along the style.", "In the south."]);
  await page.locator("#tour-list li:nth-child(2) .tour-stop").click();
  await page.locator("#stop-seconds").fill("12");
  await page.locator("#stop-seconds").blur();
  await page.locator("label:has(#stop-plays)").click();
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#tour-export").click()]);
  assert.equal(download.suggestedFilename(), "Ours.json");
  const body = readFileSync(await download.path(), "utf8");
  const wanted = JSON.parse(THREE);
  Object.assign(wanted.stops[1], { seconds: 12, plays: true });
  assert.deepEqual(JSON.parse(body), wanted);
  await choose(page, "bad.json", tourFile([{ moment: "i=castle", seconds: 0 }]));
  await says(page, "#tour-faults", /stops\[0\]\.moment: instrument.*castle.*stops\[0\]\.seconds.*from 1 to 3600/);
  await lists(page, ["The terrace.", "Midsummer, along the style.", "In the south."]);
  await choose(page, "other.json", tourFile([{ moment: "", caption: "Alone" }], "Other"));
  await lists(page, ["Alone"]);
  await page.locator("#tour-undo").click();
  await lists(page, ["The terrace.", "Midsummer, along the style.", "In the south."]);
  await choose(page, "again.json", body);
  await says(page, "#tour-said", /3 stops read/);
  await says(page, "#tour-list li:nth-child(2) .tour-time", /^12 s$/);
  // A time that can't be is refused in words, and what stood stands.
  await page.locator("#tour-list li:nth-child(2) .tour-stop").click();
  await page.locator("#stop-seconds").fill("9999");
  await page.locator("#stop-seconds").blur();
  await says(page, "#tour-said", /seconds is 9999; it must be a whole number from 1 to 3600/);
  await page.waitForFunction(() => document.getElementById("stop-seconds").value === "12");
  await page.context().close();
});

test("the shipped tour is one tap away and can be copied", async () => {
  const { page } = await open();
  const count = await page.locator("#tour-list li").count();
  assert.ok(count >= 10);
  await page.locator("#tour-copy").click();
  await says(page, "#tour-said", new RegExp(`${count} stops copied`));
  await page.locator("[data-whose=own][aria-pressed=true]").waitFor();
  assert.equal(await page.locator("#tour-list li").count(), count);
  assert.equal(await page.locator("#tour-name").inputValue(), "Larkmoor Court");
  await page.context().close();
});

test("the shipped tour is told in the page's language; a copy goes along until it is changed", async () => {
  const words = (tag) => JSON.parse(readFileSync(new URL(`../../src/words/${tag}.json`, import.meta.url), "utf8"));
  const [english, arabic, hindi] = ["en", "ar", "hi"].map(words);
  const turn = async (page, tag) => {
    await page.locator("#language").selectOption(tag);
    await page.waitForFunction((wanted) => document.documentElement.lang === wanted, tag);
  };
  const first = (page) => page.locator("#tour-list li:nth-child(1) .tour-title");
  const firstIs = (page, words) =>
    page.waitForFunction(
      (wanted) => document.querySelector("#tour-list .tour-title")?.textContent === wanted,
      words["tour.shipped.01.caption"],
    );
  const { page, complaints } = await open();
  await firstIs(page, english);
  await turn(page, "ar");
  await firstIs(page, arabic);
  assert.equal(await page.locator("#tour-list li:nth-child(2) .tour-number").evaluate((it) => it.textContent.replace(/[\u2066-\u2069\u202a-\u202e]/g, "")), "٢");
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#tour-export").click()]);
  const file = JSON.parse(readFileSync(await download.path(), "utf8"));
  assert.equal(file.name, arabic["tour.shipped.name"]);
  assert.ok(file.stops.every((stop) => stop.caption && stop.notes));
  // A copy, before and after it is changed.
  await page.locator("#tour-copy").click();
  await page.locator("[data-whose=own][aria-pressed=true]").waitFor();
  await turn(page, "hi");
  await firstIs(page, hindi);
  assert.equal(await page.locator("#tour-name").inputValue(), hindi["tour.shipped.name"]);
  await page.locator("#tour-name").fill("मेरा");
  await turn(page, "en");
  await page.waitForFunction((wanted) => document.getElementById("tour-heading").textContent === wanted, english["tour.heading"]);
  assert.equal(await first(page).textContent(), hindi["tour.shipped.01.caption"]);
  await page.locator("[data-whose=shipped]").click();
  await firstIs(page, english);
  assert.deepEqual(complaints, []);
  await page.context().close();
});

test("a tour is run from the stop that is open; ending and closing lead back to where one was", async () => {
  const { page } = await withTour(THREE, undefined, "#i=great&view=west");
  await says(page, "#tour-run", /^Run$/);
  await page.locator("#tour-list li:nth-child(2) .tour-stop").click();
  await addressBecomes(page, /2026-06-21.*view=pole/);
  await says(page, "#tour-run", /^Run from stop 2$/);
  await page.locator("#tour-run").click();
  await says(page, "#tour-counter", /^2 of 3$/);
  await page.keyboard.press("PageDown");
  await addressBecomes(page, /i=schoolyard/);
  await page.keyboard.press("Escape");
  await addressBecomes(page, /2026-06-21.*view=pole/);
  await page.locator("#tour-close").click();
  await addressBecomes(page, /^#i=great&view=west$/);
  await page.locator("#undo").click();
  await addressBecomes(page, /2026-06-21.*view=pole/);
  // What is recorded was set up by hand: there one stays.
  await page.locator("#tour").click();
  await page.locator("#tour-list li:nth-child(1) .tour-stop").click();
  await addressBecomes(page, /^$/);
  await page.locator("[data-view=east]").click();
  await page.locator("#tour-record").click();
  await says(page, "#tour-said", /Stop 4 recorded/);
  await page.locator("#tour-close").click();
  await page.locator("#tour-part").waitFor({ state: "hidden" });
  assert.equal(await page.evaluate(() => location.hash), "#view=east");
  await page.context().close();
});

test("a reload in mid-tour goes on at the same stop, notes and projector with it, and the end forgets it", async () => {
  const { page, complaints } = await withTour(THREE, undefined, "#i=great&view=west");
  const room = await projector(page);
  await page.locator("#tour-run").click();
  await says(page, "#tour-counter", /^1 of 3$/);
  await page.keyboard.press("PageDown");
  await says(room, "#tour-counter", /^2 of 3$/);
  await page.reload();
  await says(page, "#tour-counter", /^2 of 3$/);
  await addressBecomes(page, /2026-06-21.*view=pole/);
  await says(page, "#tour-notes", /^Secret two/);
  await page.keyboard.press("PageDown");
  await says(room, "#tour-caption", /^In the south/);
  await room.keyboard.press("PageDown");
  await says(page, "#tour-counter", /^End$/);
  // Behind the last stop too; and there is nothing further on.
  await page.reload();
  await says(page, "#tour-counter", /^End$/);
  await page.locator("#tour-forward[aria-disabled=true]").waitFor();
  await page.locator("#tour-back[aria-disabled=false]").waitFor();
  await page.keyboard.press("Home");
  await says(page, "#tour-counter", /^1 of 3$/);
  await page.locator("#tour-back[aria-disabled=true]").waitFor();
  await page.locator("#tour-forward[aria-disabled=false]").waitFor();
  // Ending leads back to where one was before the first of the reloads.
  await page.keyboard.press("Escape");
  await addressBecomes(page, /^#i=great&view=west$/);
  await page.reload();
  await page.waitForFunction(() => document.getElementById("day-time").textContent !== "");
  await page.locator("#tour").click();
  await page.locator("#tour-part").waitFor({ state: "visible" });
  assert.equal(await page.locator("#tour-bar").isVisible(), false);
  assert.deepEqual(complaints, []);
  await page.context().close();
});

test("a language chosen in the speaker's window reaches the projector's", async () => {
  const { page } = await withTour(THREE);
  const room = await projector(page);
  await page.keyboard.press("Escape");
  await page.locator("#language").selectOption("ar");
  await room.waitForFunction(() => document.documentElement.lang === "ar");
  await page.locator("#tour-run").click();
  await says(room, "#tour-counter", /٢|٣/);
  await page.keyboard.press("Escape");
  await page.locator("#language").selectOption("en");
  await room.waitForFunction(() => document.documentElement.dir === "ltr");
  await page.locator("#tour-run").click();
  await says(room, "#tour-counter", /^1 of 3$/);
  await page.context().close();
});

for (const tag of ["en", "ar", "hi"]) {
  test(`${tag}: on a phone the steps to the clock stand above the caption that names them`, async () => {
    const { page } = await visit(browser, site.url, PHONE);
    await page.locator("#language").selectOption(tag);
    await page.waitForFunction((wanted) => document.documentElement.lang === wanted, tag);
    await page.locator("#tour").click();
    await page.locator("#tour-part").waitFor({ state: "visible" });
    await page.locator("#tour-list li:nth-child(9) .tour-stop").click();
    await page.locator("#tour-run").click();
    await page.locator("#tour-caption").waitFor({ state: "visible" });
    for (const view of ["2026-02-11", "2026-11-03"]) {
      await addressBecomes(page, new RegExp(view));
      await page.locator("#lens-part").waitFor({ state: "hidden" });
      const bar = await page.locator("#tour-bar").boundingBox();
      for (const row of [1, 2, 3, 4]) {
        const box = await page.locator(`#ladder tr:nth-child(${row})`).boundingBox();
        assert.ok(box.y > 0 && box.y + box.height <= bar.y, `row ${row} at ${box.y}, the bar at ${bar.y}`);
      }
      await page.keyboard.press("PageDown");
    }
    // The lens is back where something is shown in it.
    await page.keyboard.press("Home");
    for (let stop = 2; stop <= 7; stop += 1) await page.keyboard.press("PageDown");
    await addressBecomes(page, /limits=on/);
    await page.locator("#lens-part").waitFor({ state: "visible" });
    await page.context().close();
  });
}

test("a projector's window opened by hand says that it waits, and for what", async () => {
  const { page } = await withTour(THREE);
  const room = await page.context().newPage();
  await room.goto(`${site.url}?screen=projector`);
  await room.locator("#tour-wait").waitFor({ state: "visible" });
  assert.match(await text(room, "#tour-wait"), /Waiting for the speaker.*press Tour there and Run/s);
  assert.ok(await room.locator("#tour-wait-screen").isVisible());
  await page.locator("#tour-run").click();
  await says(room, "#tour-caption", /^The terrace/);
  await room.locator("#tour-wait").waitFor({ state: "hidden" });
  await page.context().close();
});

test("what was kept and can't be read is put aside and told", async () => {
  const { page } = await visit(browser, site.url);
  await page.evaluate(() => localStorage.setItem("noonwedge.tour", "{broken"));
  await page.reload();
  await page.locator("#tour").click();
  await says(page, "#tour-said", /put aside.*line 1/);
  assert.equal(await page.evaluate(() => localStorage.getItem("noonwedge.tour.unread")), "{broken");
  await page.context().close();
});

test("a tour is run by a clicker, by keys and by swipes, and Escape ends it", async () => {
  const { page, complaints } = await withTour(THREE, TABLET);
  await page.locator("#tour-run").click();
  await says(page, "#tour-caption", /^The terrace/);
  assert.equal(await page.evaluate(() => document.documentElement.dataset.tour), "tells");
  assert.equal(await page.locator("#tour-speaker").isVisible(), false);
  await page.keyboard.press("PageDown");
  await says(page, "#tour-counter", /^2 of 3$/);
  await addressBecomes(page, /2026-06-21.*view=pole/);
  // The clicker's keys go on even from a slider on which a hand has just been.
  await page.locator("#day-place").focus();
  await page.keyboard.press("PageDown");
  await says(page, "#tour-caption", /^In the south/);
  await page.keyboard.press("ArrowLeft");
  await says(page, "#tour-counter", /^2 of 3$/);
  await page.locator("#court-hold").focus();
  await page.keyboard.press("Space");
  await says(page, "#tour-counter", /^3 of 3$/);
  await page.keyboard.press("ArrowRight");
  await says(page, "#tour-counter", /^End$/);
  await page.keyboard.press("PageDown");
  await page.keyboard.press("PageUp");
  await says(page, "#tour-counter", /^3 of 3$/);
  await page.keyboard.press("Home");
  await says(page, "#tour-counter", /^1 of 3$/);
  await page.keyboard.press("End");
  await says(page, "#tour-counter", /^3 of 3$/);
  // A finger over the caption.
  const { x, y } = await middle(page, "#tour-caption");
  const session = await page.context().newCDPSession(page);
  const touch = (type, points) => session.send("Input.dispatchTouchEvent", { type, touchPoints: points });
  const swipe = async (dx) => {
    await touch("touchStart", [{ x, y }]);
    for (let step = 1; step <= 5; step += 1) await touch("touchMove", [{ x: x + (dx * step) / 5, y }]);
    await touch("touchEnd", []);
  };
  await swipe(120);
  await says(page, "#tour-counter", /^2 of 3$/);
  await swipe(-120);
  await says(page, "#tour-counter", /^3 of 3$/);
  await page.keyboard.press("Escape");
  await page.locator("#tour-bar").waitFor({ state: "hidden" });
  assert.equal(await page.evaluate(() => "tour" in document.documentElement.dataset), false);
  await page.locator("#tour-part").waitFor({ state: "visible" });
  assert.deepEqual(complaints, []);
  await page.context().close();
});

test("a timed stop plays, can be held, and goes on by itself", async () => {
  const { page } = await withTour(
    tourFile([
      { moment: "t=2026-10-18T04:00:00Z&speed=hour", caption: "A day.", seconds: 6, plays: true },
      { moment: "", caption: "Over.", asks: true },
    ]),
  );
  await page.locator("#tour-run").click();
  await page.waitForFunction(() => document.getElementById("play").classList.contains("is-playing"));
  await page.locator("#tour-hold").click();
  await page.waitForFunction(() => !document.getElementById("play").classList.contains("is-playing"));
  const share = await page.locator("#tour-time").evaluate((it) => it.value);
  await page.waitForTimeout(1500);
  assert.equal(await page.locator("#tour-time").evaluate((it) => it.value), share);
  await page.locator("#tour-hold").click();
  await says(page, "#tour-caption", /^Over/);
  await page.waitForFunction(() => !document.getElementById("play").classList.contains("is-playing"));
  assert.equal(await page.locator("#tour-hold").isVisible(), false);
  // The visitors read: what reads for them is covered.
  assert.equal(await page.locator("#figures").isVisible(), false);
  assert.equal(await page.locator("#day-time").isVisible(), false);
  await page.locator("#tour-end").click();
  await page.locator("#tour-bar").waitFor({ state: "hidden" });
  await page.locator("#tour-fold").click();
  await page.locator("#figures").waitFor({ state: "visible" });
  await page.context().close();
});

/** A second page of the same browser, as the projector's window. */
async function projector(page) {
  const [other] = await Promise.all([
    page.context().waitForEvent("page"),
    page.locator("#tour-projector").click(),
  ]);
  await other.waitForFunction(() => document.documentElement.dataset.screen === "projector");
  return other;
}

test("two windows keep in step both ways, and the notes stay with the speaker", async () => {
  const { page, complaints } = await withTour(THREE);
  const heard = await page.context().newPage();
  await heard.goto(site.url);
  await heard.evaluate(() => {
    window.heard = [];
    new BroadcastChannel("noonwedge-tour").onmessage = (event) => window.heard.push(event.data);
  });
  const room = await projector(page);
  await page.locator("#tour-run").click();
  await says(room, "#tour-caption", /^The terrace/);
  await says(page, "#tour-notes", /^Secret one: mind the step/);
  await says(page, "#tour-next", /^Next: Midsummer/);
  await says(page, "#tour-elapsed", /0:00:\d\d/);
  assert.ok(await page.locator("#tour-speaker").isVisible());
  assert.equal(await room.locator("#tour-speaker").isVisible(), false);
  for (const hidden of ["#instrument", "#tour-part", "#play", "#tour-forward", "#tour-end", "#standpoint"]) {
    assert.equal(await room.locator(hidden).isVisible(), false, hidden);
  }
  // A key in the speaker's window, a key in the projector's.
  await page.keyboard.press("PageDown");
  await says(room, "#tour-caption", /^Midsummer/);
  await addressBecomes(room, /2026-06-21.*view=pole/);
  await room.keyboard.press("PageDown");
  await says(page, "#tour-caption", /^In the south/);
  await addressBecomes(page, /i=schoolyard/);
  await says(page, "#tour-notes", /^Secret three/);
  await room.keyboard.press("ArrowLeft");
  await says(page, "#tour-counter", /^2 of 3$/);
  await addressBecomes(page, /2026-06-21/);
  // What a hand changes in between, in either window.
  const day = await middle(page, "#day-place");
  await page.mouse.click(day.box.x + day.box.width * 0.3, day.y);
  await page.waitForFunction(() => /t=2026-06-21T0[0-5]/.test(location.hash));
  const moment = await page.evaluate(() => location.hash);
  await room.waitForFunction((wanted) => location.hash === wanted, moment);
  const court = await middle(room, "#court-hold");
  await drag(room, court, 90, 0);
  await addressBecomes(page, /turn=/);
  // Escape in the room ends nothing; the speaker's does.
  await room.keyboard.press("Escape");
  await says(room, "#tour-counter", /^2 of 3$/);
  // Who comes late, or comes again, asks where the tour is.
  await room.reload();
  await says(room, "#tour-caption", /^Midsummer/);
  await addressBecomes(room, /turn=/);
  await page.keyboard.press("PageDown");
  await says(room, "#tour-counter", /^3 of 3$/);
  const seen = await room.evaluate(() => document.documentElement.outerHTML);
  assert.ok(!seen.includes("Secret"), "notes in the projector's page");
  const messages = await heard.evaluate(() => window.heard);
  assert.ok(messages.some((it) => it.startsWith("tour ")) && !messages.join("").includes("Secret"));
  await page.keyboard.press("Escape");
  await room.locator("#tour-bar").waitFor({ state: "hidden" });
  // With nobody at the projector the notes are for the asking.
  await room.close();
  await page.locator("#tour-run").click();
  await says(page, "#tour-counter", /^1 of 3$/);
  assert.equal(await page.locator("#tour-speaker").isVisible(), false);
  await page.locator("#tour-notes-button").click();
  await says(page, "#tour-notes", /^Secret one/);
  assert.deepEqual(complaints, []);
  await page.context().close();
});

test("each window keeps its own light", async () => {
  const { page } = await withTour(THREE);
  const room = await projector(page);
  await room.evaluate(() => {
    location.hash = "theme=night";
  });
  await room.waitForFunction(() => document.documentElement.dataset.theme === "night");
  await page.locator("#tour-run").click();
  await says(room, "#tour-caption", /^The terrace/);
  await page.keyboard.press("PageDown");
  await addressBecomes(room, /2026-06-21.*theme=night/);
  assert.doesNotMatch(await page.evaluate(() => location.hash), /theme/);
  await page.context().close();
});

const WIDE = { viewport: { width: 1920, height: 1080 } };
for (const [name, screen] of Object.entries({ "1280 × 800": LAPTOP, "1024 × 768": TABLET, "390 × 844": PHONE, "1920 × 1080": WIDE })) {
  test(`panel and bar fit the screen, and targets are large enough at ${name}`, async () => {
    const { page } = await open("", screen);
    const fits = async () => {
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(wide <= 0, `${wide} px too wide`);
      const small = await page.locator(":is(.head, .tour, .tour-bar) :is(button, input, select, textarea):visible").evaluateAll((all) =>
        all
          .map((it) => ({ it, box: (it.closest("label.switch") ?? it).getBoundingClientRect() }))
          .filter(({ box }) => box.width < 43.5 || box.height < 43.5 || box.right > innerWidth)
          .map(({ it, box }) => `${it.id || it.textContent}: ${box.width} × ${box.height} to ${box.right}`),
      );
      assert.deepEqual(small, []);
    };
    await fits();
    await page.locator("#tour-copy").click();
    await page.locator("#tour-list li:nth-child(2) .tour-stop").click();
    await page.locator("#stop-caption").waitFor();
    await fits();
    await page.locator("#tour-list li:nth-child(2) .tour-stop").click();
    await says(page, "#tour-run", /^Run$/);
    await page.locator("#tour-run").click();
    const count = await page.locator("#tour-list li").count();
    for (let stop = 1; stop <= count; stop += 1) {
      await says(page, "#tour-counter", new RegExp(`^${stop} of ${count}$`));
      await fits();
      const caption = await page.locator("#tour-caption").boundingBox();
      assert.ok(caption.y + caption.height <= screen.viewport.height, `the caption of stop ${stop} is cut off`);
      await page.keyboard.press("PageDown");
    }
    const size = await page.locator("#tour-caption").evaluate((it) => parseFloat(getComputedStyle(it).fontSize));
    assert.ok(size >= (name === "1920 × 1080" ? 28 : 20), `${size} px`);
    await page.context().close();
  });
}
