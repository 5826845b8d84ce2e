// Calico's script only adds: it remembers size and unit from page to page, says a change aloud,
// and puts a tick box before each step. Without it every page works the same.
"use strict";
(() => {
  // Storage may be full or forbidden; then nothing is remembered.
  const recall = (key) => {
    try { return localStorage.getItem("chalkfold " + key); } catch { return null; }
  };
  const keep = (key, value) => {
    try {
      if (value === null) localStorage.removeItem("chalkfold " + key);
      else localStorage.setItem("chalkfold " + key, value);
    } catch { /* not remembered */ }
  };

  const bars = [...document.querySelectorAll(".bar")];
  const choose = (bar, name, value) => {
    const input = [...bar.querySelectorAll("." + name + " input")].find((each) => each.value === value);
    if (input) input.checked = true;
  };

  const voice = document.createElement("p");
  voice.className = "read-out";
  voice.setAttribute("aria-live", "polite");

  const chosen = (bar) =>
    [...bar.querySelectorAll("input:checked")]
      .map((input) => input.dataset.say || input.parentElement.textContent.trim())
      .join(", ");

  for (const bar of bars) {
    for (const name of ["sizes", "units"]) {
      const value = recall(name);
      if (value !== null) choose(bar, name, value);
    }
    bar.addEventListener("change", (event) => {
      const name = event.target.closest("fieldset").className;
      keep(name, event.target.value);
      if (name === "units") for (const other of bars) choose(other, name, event.target.value);
      voice.textContent = "Now shown: " + chosen(bar);
    });
  }
  if (bars.length) document.body.append(voice);

  // Steps of a post have ticks; a list on another page is only a list. Ticks belong to this page and to the words of
  // the step: a step that is rewritten starts unticked.
  document.querySelectorAll("article > .content > ol").forEach((list, listNumber) => {
    list.classList.add("ticked");
    [...list.children].forEach((step, number) => {
      const words = step.textContent.replace(/\s+/g, " ").trim().slice(0, 40);
      const key = "step " + location.pathname + " " + listNumber + " " + words;
      const label = document.createElement("label");
      const box = document.createElement("input");
      label.className = "tick";
      box.type = "checkbox";
      box.setAttribute("aria-label", "Step " + ((list.start || 1) + number) + " done");
      box.checked = recall(key) === "done";
      box.addEventListener("change", () => keep(key, box.checked ? "done" : null));
      label.append(box);
      step.prepend(label);
    });
  });
})();
