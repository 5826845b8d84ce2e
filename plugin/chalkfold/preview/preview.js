// Only in a preview: puts the new page in place of the old one when it has changed, and leaves all else as it was.
// Without it a reader reloads by hand.
"use strict";
(() => {
  const OWN = "script[data-sign]";
  const AGAIN = "script[data-again]"; // a theme's script that may run again on a new body
  const KEY = "chalkfold preview " + location.pathname;
  let { page, sign } = document.currentScript.dataset;

  const radios = () => [...document.querySelectorAll("input[type=radio][name]")];
  const folds = () => [...document.querySelectorAll("details")];

  const state = () => ({
    x: scrollX,
    y: scrollY,
    chosen: radios().filter((each) => each.checked).map((each) => [each.name, each.value]),
    open: folds().map((each) => each.open),
    focus: radios().indexOf(document.activeElement),
  });

  const restore = ({ x, y, chosen, open, focus }) => {
    for (const [name, value] of chosen) {
      const radio = radios().find((each) => each.name === name && each.value === value);
      if (radio) radio.checked = true;
    }
    folds().forEach((each, number) => { if (open[number]) each.open = true; });
    radios()[focus]?.focus({ preventScroll: true });
    scrollTo({ left: x, top: y, behavior: "instant" });
  };

  // Across a reload the state waits in the session; where that is forbidden the page begins at its top.
  const reload = () => {
    try { sessionStorage.setItem(KEY, JSON.stringify(state())); } catch { /* at the top */ }
    location.reload();
  };
  const after_reload = () => {
    let kept = null;
    try {
      kept = JSON.parse(sessionStorage.getItem(KEY));
      sessionStorage.removeItem(KEY);
    } catch { /* at the top */ }
    if (!kept) return;
    restore(kept);
    addEventListener("load", () => restore(kept), { once: true });
  };

  // Two pages differ in their bodies alone if they have the same styles, and no script that only a reload would run.
  const around = (page) => {
    const parts = [...page.querySelectorAll(`style, link[rel=stylesheet], script:not(${OWN})`)];
    return parts.map((each) => each.outerHTML).join("\n");
  };
  const may_swap = (next) =>
    next.querySelector(OWN)?.dataset.sign.split("-")[0] === sign.split("-")[0] &&
    around(next) === around(document) &&
    next.querySelector(`script:not(${OWN}, ${AGAIN})`) === null;

  const swap = (next) => {
    const before = state();
    ({ page, sign } = next.querySelector(OWN).dataset);
    document.title = next.title;
    document.body.replaceWith(document.adoptNode(next.body));
    restore(before);
    for (const each of document.querySelectorAll(AGAIN)) {
      const again = document.createElement("script");
      again.src = each.src;
      again.onload = () => again.remove();
      document.head.append(again);
    }
  };

  const renew = async () => {
    try {
      const answer = await fetch(location.href, { cache: "no-store" });
      const next = new DOMParser().parseFromString(await answer.text(), "text/html");
      if (!may_swap(next)) return reload();
      swap(next);
    } catch { /* the preview has ended just now */ }
    listen();
  };

  // A browser holds few lines open at a time, so a page that nobody looks at gives its own up.
  let line = null;
  const hang_up = () => { line?.close(); line = null; };
  const listen = () => {
    hang_up();
    if (document.visibilityState !== "visible") return;
    line = new EventSource("/-preview/changes?" + new URLSearchParams({ page, sign }));
    line.onmessage = () => { hang_up(); renew(); };
  };

  after_reload();
  listen();
  document.addEventListener("visibilitychange", listen);
  addEventListener("pagehide", hang_up);
  addEventListener("pageshow", (event) => { if (event.persisted) listen(); });
})();
