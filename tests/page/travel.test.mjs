// Travel along the meridian, and the presenting view.
import assert from "node:assert/strict";
import { test } from "node:test";
import { violations } from "./axe.mjs";
import { browser, site } from "./stage.mjs";
import { addressBecomes, changed, LAPTOP, middle, PHONE, reading, TABLET, text, visit } from "./visit.mjs";

const PROJECTOR = { viewport: { width: 1920, height: 1080 } };
const THEMES = ["day", "night", "glare"];

/** Opens the page with the panel of travel. */
async function travelling(screen = LAPTOP, hash = "") {
  const visited = await visit(browser, `${site.url}${hash}`, { ...screen, reducedMotion: "reduce" });
  // An address that travels opens the panel by itself.
  if (!hash.includes("travel=")) await visited.page.locator("#travel-open").click();
  await visited.page.locator("#travel").waitFor({ state: "visible" });
  return visited;
}

/** The box of an element, with its far corner. */
async function box(page, selector) {
  const { x, y, width, height } = await page.locator(selector).boundingBox();
  return { left: x, top: y, right: x + width, bottom: y + height };
}

const apart = (a, b) => a.right <= b.left + 1 || b.right <= a.left + 1 || a.bottom <= b.top + 1 || b.bottom <= a.top + 1;

/** Waits until the panel, or another part of the page, says something: texts are written a frame later. */
const tells = (page, wanted, id = "travel-told") =>
  page.waitForFunction(
    ([it, source]) => new RegExp(source).test(document.getElementById(it).textContent),
    [id, wanted.source],
  );

test("the latitude is dragged from pole to pole, and everything answers", async () => {
  const { page, complaints } = await travelling();
  assert.equal(await page.locator("#travel-open").getAttribute("aria-expanded"), "true");
  const before = await reading(page);
  const place = await text(page, "#place");
  const { box: track } = await middle(page, "#travel-place");
  await page.mouse.move(track.x + track.width * 0.675, track.y + track.height / 2);
  await page.mouse.down();
  await page.mouse.move(track.x + track.width * 0.8, track.y + track.height / 2, { steps: 6 });
  await addressBecomes(page, /travel=5\d/);
  assert.notEqual(await changed(page, "#place", place), "");
  assert.match(await text(page, "#travel-special"), /Noon Sun from/);
  await tells(page, /slopes by 5\d°/);
  await page.mouse.move(track.x + track.width, track.y + track.height / 2, { steps: 6 });
  await page.mouse.up();
  await addressBecomes(page, /travel=90$/);
  assert.match(await text(page, "#travel-special"), /every way leads south/);
  await page.locator("#travel-home").click();
  await addressBecomes(page, /travel=31.6$/);
  assert.equal(await reading(page), before);
  await page.locator("#undo").click();
  await addressBecomes(page, /travel=90$/);
  await page.locator("#undo").click();
  await addressBecomes(page, /travel=31.6$/);
  await page.locator("#travel-open").click();
  await page.waitForFunction(() => location.hash === "");
  assert.equal(await page.locator("#travel").isVisible(), false);
  assert.deepEqual(complaints, []);
});

test("the stone carried elsewhere says how far it is off, in words, in the ladder, on the strip", async () => {
  const { page } = await travelling();
  await page.locator("[data-way=carried]").click();
  await tells(page, /at home/);
  const before = await reading(page);
  await page.locator("#travel-latitude").fill("50 N");
  await page.locator("#travel-latitude").press("Enter");
  await addressBecomes(page, /travel=50&travel-as=carried/);
  await changed(page, "#place", "Larkmoor Court, 31.60° N");
  assert.equal(await text(page, "#place"), "built for 31.60° N, carried to 50.00° N");
  assert.notEqual(await reading(page), before);
  await tells(page, /^Now \d+ min.* (fast|slow); at noon it is right/);
  await tells(page, /built for another latitude/, "residual");
  await page.locator("#travel-latitude").fill("120");
  await page.locator("#travel-latitude").press("Enter");
  await tells(page, /latitude is 120°; it must be from -90 to 90°/, "notice-list");
  await page.locator("#dismiss").click();
  await page.locator("#travel-latitude").fill("-80");
  await page.locator("#travel-latitude").press("Enter");
  await addressBecomes(page, /travel=-80/);
  await tells(page, /^Can’t be read/);
});

test("the handle goes by keys, and by named latitudes", async () => {
  const { page } = await travelling();
  const handle = page.locator("#travel-place");
  await handle.focus();
  for (const [key, latitude] of [
    ["ArrowRight", "32"],
    ["Shift+ArrowRight", "66.56"],
    ["End", "90"],
    ["PageDown", "66.56"],
    ["Home", "-90"],
  ]) {
    await page.keyboard.press(key);
    await addressBecomes(page, new RegExp(`travel=${latitude}$`));
  }
  assert.equal(await handle.getAttribute("aria-valuetext"), "90.00° S");
});

test("the panel has room everywhere, its marks stand apart, and it is accessible in every light", async () => {
  for (const screen of [LAPTOP, TABLET, PHONE, PROJECTOR]) {
    const { page } = await travelling(screen, "#travel=52&travel-as=carried");
    const { width } = screen.viewport;
    const marks = await page.locator(".named li:not(.home)").evaluateAll((all) =>
      all.map((it) => {
        const { left, right, top, bottom } = it.getBoundingClientRect();
        return { left, right, top, bottom };
      }),
    );
    for (const [index, mark] of marks.entries()) {
      assert.ok(mark.left >= 0 && mark.right <= width, `mark ${index} at ${width}: ${JSON.stringify(mark)}`);
      for (const other of marks.slice(index + 1)) assert.ok(apart(mark, other), `marks at ${width}`);
    }
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(overflow <= 0, `${width}: ${overflow} px too wide`);
    for (const theme of THEMES) {
      await page.locator("#theme").selectOption(theme);
      assert.deepEqual(await violations(page), [], `${width} ${theme}`);
    }
    await page.close();
  }
});

test("presenting: large type, nothing overlaps, and Escape or F leads back", async () => {
  const { page, complaints } = await visit(browser, `${site.url}#present=1`, { ...PROJECTOR, reducedMotion: "reduce" });
  const seen = await page.evaluate(() => {
    const shown = (it) => it.checkVisibility() && it.getClientRects().length > 0 && !it.closest(".unseen");
    const texts = [...document.body.querySelectorAll("*")].filter(
      (it) => shown(it) && [...it.childNodes].some((child) => child.nodeType === 3 && child.data.trim() !== ""),
    );
    return texts.map((it) => [it.tagName, it.id, parseFloat(getComputedStyle(it).fontSize)]);
  });
  assert.ok(seen.length > 8, `${seen.length} texts`);
  for (const [tag, id, px] of seen) assert.ok(px >= 27.99, `${tag} ${id} is ${px} px`);
  for (const selector of ["#figures", "#clock-line", "#correction-line", "#lens", "#play", "#day", "#court"]) {
    assert.ok(await page.locator(selector).isVisible(), selector);
  }
  for (const selector of ["#instrument", ".court-tools", "#ladder-part", "#year", "#travel-open"]) {
    assert.ok(!(await page.locator(selector).isVisible()), selector);
  }
  await page.keyboard.press("Escape");
  await page.waitForFunction(() => location.hash === "");
  assert.ok(await page.locator("#instrument").isVisible());
  await page.keyboard.press("f");
  await addressBecomes(page, /present=1/);
  assert.equal(await page.locator("#present").getAttribute("aria-pressed"), "true");
  await page.waitForFunction(() => document.fullscreenElement !== null);
  await page.keyboard.press("f");
  await page.waitForFunction(() => location.hash === "" && document.fullscreenElement === null);
  assert.deepEqual(complaints, []);
});

test("the parts of the presenting view stand apart on every screen, and are accessible in every light", async () => {
  for (const screen of [PROJECTOR, LAPTOP, TABLET, PHONE]) {
    const { page } = await visit(browser, `${site.url}#present=1`, { ...screen, reducedMotion: "reduce" });
    const { width, height } = screen.viewport;
    const beside = width > 700;
    const parts = [".court-hold", "#figures", "#clock-line", "#play", ".strip-head >> nth=0", "#day-hold"];
    if (beside) parts.push("#lens-hold", "#correction-line");
    const boxes = await Promise.all(parts.map((part) => box(page, part)));
    for (const [index, one] of boxes.entries()) {
      assert.ok(one.left >= 0 && one.right <= width + 0.5, `${parts[index]} is cut off`);
      assert.ok(one.bottom <= height + 0.5, `${parts[index]} is cut off below`);
      for (let other = index + 1; other < boxes.length; other += 1) {
        assert.ok(apart(one, boxes[other]), `${parts[index]} and ${parts[other]} at ${width}`);
      }
    }
    const [court, figures] = boxes;
    const [across, down] = [court.right - court.left, court.bottom - court.top];
    assert.ok(across > 0.62 * width && down > (beside ? 0.8 : 0.5) * height, `the court has ${across} × ${down}`);
    // The reading stands beside the court, and on a phone above it.
    assert.ok(beside ? figures.left >= court.right : figures.bottom <= court.top + 1, `figures at ${width}`);
    for (const theme of THEMES) {
      await page.evaluate((key) => { location.hash = `theme=${key}&present=1`; }, theme);
      await page.waitForFunction((key) => document.documentElement.dataset.theme === key, theme);
      assert.deepEqual(await violations(page), [], `${screen.viewport.width} ${theme}`);
    }
    await page.close();
  }
});
