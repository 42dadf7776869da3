"use strict";
// What is searched for, as the address's fragment and back: #q=relay&class=dehumidifier. It never leaves the page.
(function (Benchlore) {
  const LONGEST = 2000; // characters of a fragment that are read
  const SORTS = ["newest", "quickest"]; // ways of sorting besides by relevance

  /** {q, filters, sort}: the words, a Map of facet names (of `facets`) to chosen keys, and what hits are sorted by. */
  function readFragment(fragment, facets) {
    const given = new URLSearchParams(fragment.replace(/^#/, "").slice(0, LONGEST));
    const filters = new Map();
    for (const name of facets) {
      const keys = [...new Set(given.getAll(name).filter(Boolean))];
      if (keys.length > 0) filters.set(name, keys);
    }
    const sort = SORTS.includes(given.get("sort")) ? given.get("sort") : "relevance";
    return { q: given.get("q") ?? "", filters, sort };
  }

  /** The fragment of a search; empty when nothing is searched for. */
  function writeFragment({ q, filters, sort = "relevance" }) {
    const given = new URLSearchParams();
    if (q.trim() !== "") given.set("q", q);
    for (const [name, keys] of filters) for (const key of keys) given.append(name, key);
    if (sort !== "relevance") given.set("sort", sort);
    const text = given.toString();
    return text ? `#${text}` : "";
  }

  Object.assign(Benchlore, { readFragment, writeFragment });
})((globalThis.Benchlore ??= {}));
