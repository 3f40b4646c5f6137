// Fetches the page's second program, its part of the page and its style when something of them is first
// asked for, and passes the click on; the projector's window has them at once, and so has one in which a
// tour goes on. The build has named the files in this script's own attributes.
"use strict";

{
  const { program, page, style } = document.currentScript.dataset;
  const at = (name) => new URL(name, document.baseURI).href;
  let desk;

  async function fetched(name) {
    const answer = await fetch(at(name));
    if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
    return answer.text();
  }

  function styled(name) {
    return new Promise((resolve, reject) => {
      const link = Object.assign(document.createElement("link"), { rel: "stylesheet", href: at(name) });
      link.addEventListener("load", resolve);
      link.addEventListener("error", reject);
      document.head.append(link);
    });
  }

  async function load() {
    const [markup, script] = await Promise.all([fetched(page), import(at(program)), styled(style)]);
    if (!document.getElementById("desk")) document.body.insertAdjacentHTML("beforeend", markup);
    await script.default();
  }

  async function isLoaded() {
    const failed = document.getElementById("desk-failed");
    failed.hidden = true;
    try {
      await (desk ??= load());
      // The desk itself listens from now on.
      removeEventListener("click", ask);
      return true;
    } catch {
      desk = undefined;
      failed.hidden = false;
      return false;
    }
  }

  async function ask(event) {
    const button = event.target.closest("[data-desk]");
    if (!button) return;
    button.setAttribute("aria-busy", "true");
    if (await isLoaded()) button.click();
    button.removeAttribute("aria-busy");
  }

  addEventListener("click", ask);
  // A tour ran in this window before it was loaded again: it goes on.
  function isUnderWay() {
    try {
      return sessionStorage.getItem("noonwedge.tour.run") !== null;
    } catch {
      return false;
    }
  }

  // The first program writes its words all over the page as it starts: the desk's come after it.
  if (isUnderWay() || /[?&]screen=projector\b/.test(location.search)) addEventListener("TrunkApplicationStarted", isLoaded);
}
