"use strict";
// The lists by which results can be narrowed; the twin of index/facets.py, whose docstring states the counting.
(function (Benchlore) {
  const { byCodePoint } = Benchlore.spelling;

  class FacetIndex {
    /** `facets`: [{name, label, key, values: [{key, label, entries: Set}]}] in their order. */
    constructor(facets) {
      this.facets = facets;
      this.byName = new Map(facets.map((facet) => [facet.name, facet]));
    }

    /** The key of a value as somebody wrote it. */
    key(name, written) {
      if (this.byName.get(name).key === "marking") return Benchlore.compact(written);
      return Benchlore.words(written).map((word) => word.text).join("-");
    }

    /** Filters as written (Map of facet name to values), as keys; facets without a value are left out. */
    chosenKeys(filters) {
      const chosen = new Map();
      for (const [name, values] of filters) {
        const keys = [...new Set(values.map((value) => this.key(name, value)))];
        if (keys.length > 0) chosen.set(name, keys);
      }
      return chosen;
    }

    /** Entries that fit all choices, leaving one facet out; null when nothing is chosen. */
    allowed(chosen, without = "") {
      let found = null;
      for (const facet of this.facets) {
        const keys = chosen.get(facet.name);
        if (!keys || facet.name === without) continue;
        const having = new Set();
        for (const value of facet.values) {
          if (keys.includes(value.key)) for (const entry of value.entries) having.add(entry);
        }
        found = found === null ? having : new Set([...found].filter((entry) => having.has(entry)));
      }
      return found;
    }

    /** The facets over the entries that match the query, before any choice: [{name, label, values}]. */
    count(matching, chosen) {
      return this.facets.map((facet) => {
        const allowed = this.allowed(chosen, facet.name);
        const picked = chosen.get(facet.name) ?? [];
        const values = facet.values.map(({ key, label, entries }) => {
          let count = 0;
          for (const entry of entries) {
            if (matching.has(entry) && (allowed === null || allowed.has(entry))) count += 1;
          }
          return { key, label, count, chosen: picked.includes(key) };
        });
        for (const key of picked) {
          if (!values.some((value) => value.key === key)) values.push({ key, label: key, count: 0, chosen: true });
        }
        const shown = values.filter((value) => value.count > 0 || value.chosen);
        shown.sort((one, other) => other.count - one.count || byCodePoint(one.key, other.key));
        return { name: facet.name, label: facet.label, values: shown };
      });
    }
  }

  Benchlore.FacetIndex = FacetIndex;
})((globalThis.Benchlore ??= {}));
