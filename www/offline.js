// Has the site kept for use without a network, and says when a newer build of it is ready. The newer one is
// loaded when the reader asks for it and never by itself.
const workers = navigator.serviceWorker;
const notice = document.getElementById("newer");

async function keep() {
  const registration = await workers.register("service-worker.js");

  // The first build to come waits for a moment too, but replaces nothing.
  const offer = () => {
    if (registration.waiting && registration.active) notice.hidden = false;
  };
  const follow = () => registration.installing?.addEventListener("statechange", offer);
  registration.addEventListener("updatefound", follow);
  follow();
  offer();

  document.getElementById("newer-load").addEventListener("click", () => {
    workers.addEventListener("controllerchange", () => location.reload());
    // It no longer waits if another window has let it take over.
    if (registration.waiting) registration.waiting.postMessage("");
    else location.reload();
  });
  document.getElementById("newer-later").addEventListener("click", () => {
    notice.hidden = true;
  });

  // A tablet may show the page for weeks without loading it again.
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) registration.update().catch(() => {});
  });
}

// After the program, so as not to compete with it. A browser that keeps nothing shows the page all the same.
if (workers) addEventListener("load", () => keep().catch(() => {}));
