"use strict";
// The search box that stands on every page: goes to the search page, with the words in the fragment.
(function (Benchlore) {
  /** Whether somebody is writing there, so that a key belongs to them. */
  function isWriting(target) {
    return target instanceof Element && target.closest("input, textarea, select, [contenteditable]") !== null;
  }

  function start() {
    const box = document.querySelector("[data-search-box]") ?? document.querySelector("[data-search] input");
    if (!box) return;
    for (const form of document.querySelectorAll("[data-search]")) {
      form.addEventListener("submit", (event) => {
        event.preventDefault();
        const words = form.querySelector("input").value.trim();
        const fragment = words ? `#${new URLSearchParams({ q: words })}` : "";
        location.assign(new URL(`search.html${fragment}`, Benchlore.ROOT));
      });
    }
    document.addEventListener("keydown", (event) => {
      if (event.key !== "/" || event.ctrlKey || event.altKey || event.metaKey || isWriting(event.target)) return;
      event.preventDefault();
      box.focus();
      box.select();
    });
  }

  Benchlore.isWriting = isWriting;
  Benchlore.ROOT ??= new URL("../", document.currentScript.src);
  start();
})((globalThis.Benchlore ??= {}));
