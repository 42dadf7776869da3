"use strict";
// The search box that stands on every page: goes to the search page, with the words in the fragment.
(function () {
  const root = new URL("../", document.currentScript.src);

  /** Whether somebody is writing there, so that a key belongs to them. */
  function isWriting(target) {
    return target instanceof Element && target.matches("input:not([type=checkbox], [type=radio]), textarea, select");
  }

  function start() {
    const box = document.getElementById("find");
    if (box === null) return;
    for (const form of document.querySelectorAll("[data-search]")) {
      form.addEventListener("submit", (event) => {
        event.preventDefault();
        const words = form.querySelector("input").value.trim();
        const fragment = words ? `#${new URLSearchParams({ q: words })}` : "";
        location.assign(new URL(`search.html${fragment}`, root));
      });
    }
    document.addEventListener("keydown", (event) => {
      if (event.key !== "/" || event.ctrlKey || event.altKey || event.metaKey || isWriting(event.target)) return;
      event.preventDefault();
      box.focus();
      box.select();
    });
  }

  start();
})();
