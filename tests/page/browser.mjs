// Chromium for the page tests and the screenshots, the same one everywhere.
import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";
import { chromium } from "playwright-core";

// No background traffic: nothing but the page may reach for the network.
const ARGS = [
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

// Chromium says this of the integrity Trunk gives the program's preload; other browsers do check it.
const EXPECTED = /`integrity` attribute is currently ignored for preload/;

const NAMES = [process.env.CHROME, "chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

function isProgram(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** The program to start: $CHROME if set, else the first browser on PATH. */
function findChrome() {
  const folders = (process.env.PATH ?? "").split(delimiter);
  for (const name of NAMES.filter(Boolean)) {
    const candidates = name.includes("/") ? [name] : folders.map((folder) => join(folder, name));
    const found = candidates.find(isProgram);
    if (found) return found;
  }
  throw new Error("no Chromium or Chrome found; set CHROME to the program");
}

/** Starts Chromium without a window. */
export function launch() {
  // Chromium's sandbox refuses to run as root, and only then is it left out.
  return chromium.launch({
    executablePath: findChrome(),
    headless: true,
    chromiumSandbox: process.getuid?.() !== 0,
    args: ARGS,
  });
}

/**
 * Opens a page and keeps a record of what should never happen on it: console errors and warnings,
 * uncaught errors, failed requests, and requests to another origin. It is closed with the browser.
 */
export async function openPage(browser, url, contextOptions = {}) {
  const context = await browser.newContext(contextOptions);
  const page = await context.newPage();
  const origin = new URL(url).origin;
  const complaints = [];
  page.on("console", (message) => {
    if (!["error", "warning"].includes(message.type()) || EXPECTED.test(message.text())) return;
    complaints.push(`console: ${message.text()}`);
  });
  page.on("pageerror", (error) => complaints.push(`uncaught: ${error.message}`));
  page.on("requestfailed", (request) => {
    // A request that a reload cuts off has not failed.
    if (request.failure()?.errorText !== "net::ERR_ABORTED") complaints.push(`failed: ${request.url()}`);
  });
  page.on("response", (response) => {
    if (response.status() >= 400) complaints.push(`${response.status()}: ${response.url()}`);
  });
  // Those of the service worker too.
  context.on("request", (request) => {
    const target = new URL(request.url());
    if (!["data:", "blob:"].includes(target.protocol) && target.origin !== origin) {
      complaints.push(`left the origin: ${request.url()}`);
    }
  });
  await page.goto(url, { waitUntil: "networkidle" });
  return { page, complaints };
}
