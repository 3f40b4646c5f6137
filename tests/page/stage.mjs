// The stage on which a file of page tests plays: the built site served, and a browser, from its first
// test to its last. Importing it sets both up.
import { after, before } from "node:test";
import { launch } from "./browser.mjs";
import { serve } from "./server.mjs";

export let browser;
export let site;

before(async () => {
  site = await serve();
  browser = await launch();
});

after(async () => {
  await browser?.close();
  await site?.close();
});
