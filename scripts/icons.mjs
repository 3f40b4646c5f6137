// Draws the PNG icons of the web app manifest from www/icons/icon.svg: node scripts/icons.mjs
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { launch } from "../tests/page/browser.mjs";

const ICONS = new URL("../www/icons/", import.meta.url);

// A system may cut a maskable icon to any shape that holds the middle circle of four fifths its width; the
// marks reach 1.04 half widths out, so that they are drawn at three quarters of their size.
const SIZES = [
  { name: "192.png", size_px: 192, scale: 1 },
  { name: "512.png", size_px: 512, scale: 1 },
  { name: "maskable-512.png", size_px: 512, scale: 0.75 },
];

const svg = readFileSync(new URL("icon.svg", ICONS), "utf8");
const paper = svg.match(/fill="(#[0-9a-f]{6})" d="M0 0h32v32H0z"/)[1];

const browser = await launch();
for (const { name, size_px, scale } of SIZES) {
  const page = await browser.newPage({ viewport: { width: size_px, height: size_px } });
  const side_px = size_px * scale;
  await page.setContent(`<body style="margin:0;height:100vh;display:grid;place-items:center;background:${paper}">
    <img width="${side_px}" height="${side_px}" src="data:image/svg+xml,${encodeURIComponent(svg)}">`);
  await page.locator("img").evaluate((image) => image.decode());
  await page.screenshot({ path: fileURLToPath(new URL(name, ICONS)) });
}
await browser.close();
