// How long frames take while the page plays at 1280 × 800: node tests/page/frames.mjs [address]
// While a hand turns the court instead: --orbit
// Another screen, with its pixel ratio: --screen=1920x1080@2
// Another built site, to compare two in turns: --site=folder
// Counts all work of the page's main thread between two animation frames: program, style, layout, paint.
// In processor time, so that other work on the machine counts less; pass --wall for time on the clock.
import { launch } from "./browser.mjs";
import { serve } from "./server.mjs";
import { visit } from "./visit.mjs";

const SECONDS = 6;
const asked = process.argv.find((it) => it.startsWith("--screen=")) ?? "--screen=1280x800@1";
const [width, height, ratio] = asked.slice("--screen=".length).split(/[x@]/).map(Number);
const screen = { viewport: { width, height }, deviceScaleFactor: ratio };
const wall = process.argv.includes("--wall");
const address = process.argv.slice(2).find((it) => !it.startsWith("--")) ?? "";
const spent = (event) => (wall ? event.dur : (event.tdur ?? event.dur)) / 1000;

/** Durations at the given shares of a sorted list. */
const quantile = (sorted, share) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];

function report(name, durations) {
  const sorted = durations.toSorted((a, b) => a - b);
  const [half, most, worst] = [0.5, 0.95, 1].map((share) => quantile(sorted, share).toFixed(2));
  console.log(`${name.padEnd(28)} ${sorted.length} frames: median ${half} ms, p95 ${most} ms, worst ${worst} ms`);
}

/** Main-thread work per frame, from a trace: whole tasks, and the animation callbacks in them. */
function perFrame(events) {
  const frames = events.filter((it) => it.name === "FireAnimationFrame" && it.ph === "X");
  const { pid, tid } = frames[0];
  const own = events.filter((it) => it.pid === pid && it.tid === tid && it.ph === "X");
  const tasks = own.filter((it) => it.name === "RunTask").toSorted((a, b) => a.ts - b.ts);
  const callbacks = own.filter((it) => it.name === "FireAnimationFrame").toSorted((a, b) => a.ts - b.ts);
  // A frame may have several callbacks, all in one task: the first begins it.
  const taskOf = (start) => tasks.findLast((task) => task.ts <= start.ts);
  const starts = callbacks.filter((it, index) => index === 0 || taskOf(it) !== taskOf(callbacks[index - 1]));
  const work = starts.slice(0, -1).map((start, index) => {
    const until = starts[index + 1].ts;
    const first = taskOf(start);
    const inside = tasks.filter((task) => task.ts >= (first?.ts ?? start.ts) && task.ts + task.dur <= until);
    return inside.reduce((sum, task) => sum + spent(task), 0);
  });
  const script = starts.map((start, index) => {
    const until = starts[index + 1]?.ts ?? Infinity;
    const inside = callbacks.filter((it) => it.ts >= start.ts && it.ts < until);
    return inside.reduce((sum, it) => sum + spent(it), 0);
  });
  return { work, script, painted: perPainting(events.filter((it) => it.pid === pid && it.ph === "X"), tid) };
}

/** Work of the thread that paints the court in motion, from one drawing it is sent to the next. */
function perPainting(events, page) {
  const sent = events.filter((it) => it.name === "HandlePostMessage" && it.tid !== page).toSorted((a, b) => a.ts - b.ts);
  const own = events.filter((it) => it.tid === sent[0]?.tid && it.name === "RunTask").toSorted((a, b) => a.ts - b.ts);
  return sent.slice(0, -1).map((message, index) => {
    const until = sent[index + 1].ts;
    const tasks = own.filter((task) => task.ts + task.dur > message.ts && task.ts + task.dur < until);
    return tasks.reduce((sum, task) => sum + spent(task), 0);
  });
}

/** Lets the page play; resolves to what waits meanwhile. */
async function playing() {
  await page.locator("#play").click();
  return (ms) => page.waitForTimeout(ms);
}

/** Lays hold of the court, and drags it about with every frame; resolves to what waits meanwhile. */
async function orbiting() {
  await page.locator("#court-hold").evaluate((hold) => {
    const { left, top, width, height } = hold.getBoundingClientRect();
    const move = (type, turn) =>
      hold.dispatchEvent(
        new PointerEvent(type, {
          pointerId: 1,
          isPrimary: true,
          bubbles: true,
          clientX: left + width * (0.5 + 0.4 * Math.sin(turn)),
          clientY: top + height * (0.5 + 0.2 * Math.sin(1.7 * turn)),
        }),
      );
    move("pointerdown", 0);
    const frame = (now) => {
      move("pointermove", now / 700);
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  });
  return (ms) => page.waitForTimeout(ms);
}

const root = process.argv.find((it) => it.startsWith("--site="))?.slice("--site=".length);
const site = await serve(root ? { root } : {});
const browser = await launch();
const { page } = await visit(browser, site.url + address, screen);
const run = process.argv.includes("--orbit") ? await orbiting() : await playing();
await run(1000);
await browser.startTracing(page, { categories: ["toplevel", "devtools.timeline", "disabled-by-default-devtools.timeline"] });
await run(SECONDS * 1000);
const { traceEvents } = JSON.parse((await browser.stopTracing()).toString());
const { work, script, painted } = perFrame(traceEvents);
report("program and canvas calls", script);
report("all of the main thread", work);
if (painted.length > 0) report("the thread that paints aside", painted);
await browser.close();
await site.close();
