// A visit to the built page, ready for the hand: the caution read, the program running.
import { openPage } from "./browser.mjs";

export const LAPTOP = { viewport: { width: 1280, height: 800 } };
export const TABLET = { viewport: { width: 1024, height: 768 }, hasTouch: true };
export const PHONE = { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true };

/** Opens the page at an address and puts the caution away. */
export async function visit(browser, url, screen = LAPTOP) {
  const { page, complaints } = await openPage(browser, url, screen);
  await page.locator("#understood").click();
  await page.waitForFunction(() => document.getElementById("day-time").textContent !== "");
  return { page, complaints };
}

/** The same, with the editor of instruments open. */
export async function editing(browser, url, screen = LAPTOP) {
  const visited = await visit(browser, url, screen);
  await visited.page.locator("#edit").click();
  await visited.page.locator("#editor").waitFor({ state: "visible" });
  return visited;
}

/** The text of an element. */
export const text = (page, selector) => page.locator(selector).innerText();

/** The reading as its figures stand, "9 45 7 40". */
export async function reading(page) {
  const figures = await page.locator("#figures .figure").allInnerTexts();
  return figures.join(" ");
}

/** Waits until the address ends like this. */
export const addressBecomes = (page, pattern) =>
  page.waitForFunction((source) => new RegExp(source).test(location.hash), pattern.source);

/** Waits until a text changes from what it was; resolves to the new text. */
export async function changed(page, selector, before) {
  await page.waitForFunction(([s, b]) => document.querySelector(s).innerText !== b, [selector, before]);
  return text(page, selector);
}

/** The middle of an element. */
export async function middle(page, selector) {
  const box = await page.locator(selector).boundingBox();
  return { x: box.x + box.width / 2, y: box.y + box.height / 2, box };
}

/** Drags with the mouse from a point by some pixels, in steps as a hand does. */
export async function drag(page, { x, y }, dx, dy = 0) {
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 1; step <= 8; step += 1) {
    await page.mouse.move(x + (dx * step) / 8, y + (dy * step) / 8);
  }
  await page.mouse.up();
}

/** Whether a picture comes to have at least three colours on it. */
export async function isPainted(page, selector) {
  const colours = (it) => {
    const { data } = it.getContext("2d").getImageData(0, 0, it.width, it.height);
    return new Set(new Uint32Array(data.buffer)).size;
  };
  for (let tries = 0; tries < 20; tries += 1) {
    if ((await page.locator(selector).evaluate(colours)) >= 3) return true;
    await page.waitForTimeout(50);
  }
  return false;
}
