// How long frames take while the page plays at 1280 × 800: node tests/page/frames.mjs [address]
// While a hand turns the court instead: --orbit
// Another screen, with its pixel ratio: --screen=1920x1080@2
// Counts all work of the page's main thread between two animation frames: program, style, layout, paint.
// In processor time, so that other work on the machine counts less; pass --wall for time on the clock.
import { launch } from "./browser.mjs";
import { serve } from "./server.mjs";
import { middle, visit } from "./visit.mjs";

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
  const main = events.find((it) => it.name === "thread_name" && it.args.name === "CrRendererMain");
  const frames = events.filter((it) => it.name === "FireAnimationFrame" && it.ph === "X");
  const { pid, tid } = frames[0] ?? main;
  const own = events.filter((it) => it.pid === pid && it.tid === tid && it.ph === "X");
  const tasks = own.filter((it) => it.name === "RunTask").toSorted((a, b) => a.ts - b.ts);
  const starts = own.filter((it) => it.name === "FireAnimationFrame").toSorted((a, b) => a.ts - b.ts);
  const work = starts.slice(0, -1).map((start, index) => {
    const until = starts[index + 1].ts;
    const first = tasks.findLast((task) => task.ts <= start.ts);
    const inside = tasks.filter((task) => task.ts >= (first?.ts ?? start.ts) && task.ts + task.dur <= until);
    return inside.reduce((sum, task) => sum + spent(task), 0);
  });
  return { work, script: starts.map(spent) };
}

/** Lets the page play; resolves to what waits meanwhile. */
async function playing() {
  await page.locator("#play").click();
  return (ms) => page.waitForTimeout(ms);
}

/** Lays hold of the court; resolves to what drags it about for a while. */
async function orbiting() {
  const { x, y, box } = await middle(page, "#court-hold");
  await page.mouse.move(x, y);
  await page.mouse.down();
  return async (ms) => {
    const begin = Date.now();
    for (let passed = 0; passed < ms; passed = Date.now() - begin) {
      const turn = passed / 700;
      await page.mouse.move(x + 0.4 * box.width * Math.sin(turn), y + 0.2 * box.height * Math.sin(1.7 * turn));
      await page.waitForTimeout(8);
    }
  };
}

const site = await serve();
const browser = await launch();
const { page } = await visit(browser, site.url + address, screen);
const run = process.argv.includes("--orbit") ? await orbiting() : await playing();
await run(1000);
await browser.startTracing(page, { categories: ["toplevel", "devtools.timeline", "disabled-by-default-devtools.timeline"] });
await run(SECONDS * 1000);
const { traceEvents } = JSON.parse((await browser.stopTracing()).toString());
const { work, script } = perFrame(traceEvents);
report("program and canvas calls", script);
report("all of the main thread", work);
await browser.close();
await site.close();
