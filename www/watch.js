// Tells the reader when the program can't be loaded or has stopped: the program itself can't do that.
"use strict";

function fail() {
  const loading = document.getElementById("loading");
  const failed = document.getElementById("failed");
  if (loading) loading.hidden = true;
  if (failed) failed.hidden = false;
}

addEventListener("unhandledrejection", fail);
addEventListener("error", (event) => {
  // A script that can't be fetched, or an error thrown by one; not a picture that is missing.
  if (event.target instanceof HTMLScriptElement || event.error) fail();
}, true);
if (typeof WebAssembly === "undefined") addEventListener("DOMContentLoaded", fail);
