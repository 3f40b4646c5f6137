// What the page leaves alone: at rest it asks for no frame and uses no processor; however long it moves,
// its memory does not grow.
import assert from "node:assert/strict";
import { test } from "node:test";
import { browser, site } from "./stage.mjs";
import { LAPTOP, visit } from "./visit.mjs";

const IDLE_MS = 3000;
/** Share of a processor that a page at rest may take: the browser's own timers. */
const IDLE_SHARE = 0.01;
const FRAMES = Number(process.env.NOONWEDGE_FRAMES ?? 15_000);
/** Frames after which everything has found its size: a whole day at ten minutes a second. */
const SETTLED = 9000;

/** How many animation frames the page asks for, and seconds of processor it takes, over a while. */
async function used(page, ms) {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable");
  const seconds = async () => {
    const { metrics } = await session.send("Performance.getMetrics");
    return metrics.find((it) => it.name === "TaskDuration").value;
  };
  await page.evaluate(() => {
    window.asked = 0;
    const request = window.requestAnimationFrame;
    window.requestAnimationFrame = (callback) => {
      window.asked += 1;
      return request.call(window, callback);
    };
  });
  const before = await seconds();
  await page.waitForTimeout(ms);
  const busy = (await seconds()) - before;
  return { asked: await page.evaluate(() => window.asked), busy };
}

test("at rest the page asks for no frame and takes no processor time, also after it was turned", async () => {
  const { page } = await visit(browser, site.url);
  for (const stir of [async () => {}, turnCourt]) {
    await stir(page);
    // The reading is announced, and the address written, once the page has stood for a while.
    await page.waitForTimeout(3000);
    const { asked, busy } = await used(page, IDLE_MS);
    assert.equal(asked, 0, `${asked} frames`);
    assert.ok(busy < (IDLE_SHARE * IDLE_MS) / 1000, `${busy} s of ${IDLE_MS / 1000}`);
  }
});

/** Turns the court by a hand's breadth in a tenth of a second; lets go at once, or after a while. */
async function turnCourt(page, restMs = 0) {
  await page.locator("#court-hold").evaluate(async (hold, rest) => {
    const { left, top, width, height } = hold.getBoundingClientRect();
    const send = (type, step) => {
      const [clientX, clientY] = [left + width / 2 + 12 * step, top + height / 3];
      hold.dispatchEvent(new PointerEvent(type, { pointerId: 1, isPrimary: true, bubbles: true, clientX, clientY }));
    };
    const wait = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
    send("pointerdown", 0);
    for (let step = 1; step <= 8; step += 1) {
      await wait(12);
      send("pointermove", step);
    }
    if (rest > 0) await wait(rest);
    send("pointerup", 8);
  }, restMs);
}

/** By how many degrees the court is turned, once it stands. */
async function turned(page) {
  await page.waitForTimeout(2500);
  return page.evaluate(() => Number(/turn=(-?[\d.]+)/.exec(location.hash)?.[1] ?? 0));
}

test("a thrown court goes on turning; one that is let go at rest does not, nor with reduced motion", async () => {
  const calm = await visit(browser, site.url, { ...LAPTOP, reducedMotion: "reduce" });
  await turnCourt(calm.page);
  const hand = await turned(calm.page);
  assert.ok(hand > 20, `${hand}°`);

  const { page } = await visit(browser, site.url);
  await turnCourt(page, 200);
  const rested = await turned(page);
  assert.ok(Math.abs(rested - hand) < 0.2, `${rested}°, but ${hand}° by the hand`);
  await turnCourt(page);
  const thrown = await turned(page);
  assert.ok(thrown - rested > hand + 3, `${thrown - rested}° in a throw, ${hand}° by the hand`);
});

test(`over ${FRAMES} frames of play the program's memory does not grow`, async () => {
  const context = await browser.newContext(LAPTOP);
  await context.addInitScript(() => {
    addEventListener("TrunkApplicationStarted", (event) => (window.program = event.detail.wasm));
    window.waiting = [];
    window.requestAnimationFrame = (callback) => window.waiting.push(callback);
    // Only the program is looked at: what it hands to the canvases is not painted.
    for (const name of ["fill", "stroke", "fillText", "strokeText", "clearRect"]) {
      CanvasRenderingContext2D.prototype[name] = () => {};
    }
  });
  const page = await context.newPage();
  await page.goto(`${site.url}#speed=ten-minutes`, { waitUntil: "networkidle" });
  const sizes = await page.evaluate(
    async ([frames, settled]) => {
      let now = performance.now();
      const run = (count) => {
        for (let frame = 0; frame < count; frame += 1) {
          now += 1000 / 60;
          window.waiting.splice(0).forEach((callback) => callback(now));
        }
      };
      const bytes = () => window.program.memory.buffer.byteLength;
      run(2);
      document.getElementById("play").click();
      const all = [];
      for (let done = 0; done < frames; done += 1000) {
        run(1000);
        // Events, and what the browser itself puts off, get their turn.
        await new Promise((resolve) => setTimeout(resolve));
        if (done + 1000 >= settled) all.push(bytes());
      }
      return { all, still: document.getElementById("play").classList.contains("is-playing") };
    },
    [FRAMES, SETTLED],
  );
  assert.ok(sizes.still, "the page has stopped playing");
  assert.equal(sizes.all.at(-1), sizes.all[0], `bytes: ${[...new Set(sizes.all)].join(", ")}`);
  await context.close();
});
