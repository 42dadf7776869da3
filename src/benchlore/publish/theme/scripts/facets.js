"use strict";
// The lists by which results can be narrowed; the twin of index/facets.py, whose docstring states the counting.
(function (Benchlore) {
  const { byCodePoint } = Benchlore.spelling;
  const { numbersOf } = Benchlore.unpack;
  const NUMBER = new RegExp(`^(?:${Benchlore.tables.facetNumber})$`);
  const ENDS = /^[ \t\r\n\u00a0]+|[ \t\r\n\u00a0]+$/g;
  const plain = (digits) => digits.replace(/^0+(?=.)/, "");

  /** The key of a number or range as written; null when it is neither. */
  function numberKey(written, isLimit) {
    const match = NUMBER.exec(written);
    if (match === null) return null;
    const [, sign, low, dots, high] = match;
    if (sign) {
      if (dots || high || !low) return null;
      return sign === "<" ? `..${plain(low)}` : `${plain(low)}..`;
    }
    if (dots) return low || high ? `${plain(low)}..${plain(high)}` : null;
    if (!low || high) return null;
    return isLimit ? `..${plain(low)}` : plain(low);
  }

  /** The range [low, high or null] that a key stands for; null for a plain key. */
  function rangeOf(key) {
    const match = /^([0-9]*)\.\.([0-9]*)$/.exec(key);
    if (match === null || key === "..") return null;
    return [Number(match[1]), match[2] ? Number(match[2]) : null];
  }

  const bandKey = ([low, high]) => `${low || ""}..${high ?? ""}`;
  const inside = (key, [low, high]) => low <= Number(key) && (high === null || Number(key) <= high);

  /** A range in words. */
  function bandLabel([low, high], unit) {
    const after = unit ? `\u00a0${unit}` : "";
    if (high === null) return `${low}${after} or more`;
    return low ? `${low} to ${high}${after}` : `up to ${high}${after}`;
  }

  class FacetIndex {
    /** `table`: the manifest's "facets"; `get(name)`: a part's payload, or undefined (and noted) while it lacks. */
    constructor(table, entries, get) {
      this.facets = table.map(([name, label, key, bands, unit, part]) => ({ name, label, key, bands, unit, part }));
      this.byName = new Map(this.facets.map((facet) => [facet.name, facet]));
      this.entries = entries;
      this.get = get;
      this.columns = new Map();
    }

    /** {choices, combos, values} of a facet; null while its part is not there. */
    column({ name, part }) {
      if (!this.columns.has(name)) {
        const payload = this.get(`facet-${part}`);
        if (payload === undefined) return null;
        const [choices, combos, values] = payload;
        this.columns.set(name, { choices, combos, values: numbersOf(values) });
      }
      return this.columns.get(name);
    }

    /** The key of a value as somebody wrote it. */
    key(name, whole) {
      const { key, bands } = this.byName.get(name);
      const written = whole.replace(ENDS, "");
      if (written.startsWith("-") && written.length > 1) return `-${this.key(name, written.slice(1))}`;
      if (key === "marking") return Benchlore.compact(written);
      const number = key === "number" ? numberKey(written, bands.length > 0) : null;
      return number ?? Benchlore.words(written).map((word) => word.text).join("-");
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

    /** Each entry's number in a numeric facet, or null; undefined while the part is not there. */
    numbers(name) {
      const column = this.column(this.byName.get(name));
      if (column === null) return undefined;
      const ofCombo = column.combos.map(([first]) => (first === undefined ? null : Number(column.choices[first][0])));
      return column.values.map((value) => ofCombo[value]);
    }

    /** For each set of choices of a column, whether one of them has the key. */
    having(facet, { choices, combos }, key) {
      const band = facet.key === "number" ? rangeOf(key) : null;
      const fits = choices.map(([own]) => (band ? inside(own, band) : own === key));
      return combos.map((combo) => combo.some((choice) => fits[choice]));
    }

    /** 1 for each entry that fits all choices, leaving one facet out; null when nothing is chosen. */
    allowed(chosen, without = "") {
      let found = null;
      for (const facet of this.facets) {
        const keys = chosen.get(facet.name);
        const column = keys && facet.name !== without ? this.column(facet) : null;
        if (column === null) continue;
        const wanted = keys.filter((key) => !key.startsWith("-")).map((key) => this.having(facet, column, key));
        const unwanted = keys.filter((key) => key.startsWith("-"))
          .map((key) => this.having(facet, column, key.slice(1)));
        const fits = column.combos.map((_, combo) => (
          (wanted.length === 0 || wanted.some((having) => having[combo])) && !unwanted.some((having) => having[combo])
        ));
        found ??= new Uint8Array(this.entries).fill(1);
        for (let entry = 0; entry < this.entries; entry += 1) if (!fits[column.values[entry]]) found[entry] = 0;
      }
      return found;
    }

    /** The facets over the entries that match the query (1 for each), before any choice: [{name, label, values}]. */
    count(matching, chosen) {
      const both = (allowed) => (allowed === null ? matching : matching.map((one, entry) => one & allowed[entry]));
      const fitting = both(this.allowed(chosen));
      return this.facets.map((facet) => {
        const within = chosen.has(facet.name) ? both(this.allowed(chosen, facet.name)) : fitting;
        const column = this.column(facet);
        const values = column === null ? [] : this.values(facet, column, within, chosen.get(facet.name) ?? []);
        return { name: facet.name, label: facet.label, values };
      });
    }

    values(facet, { choices, combos, values }, within, picked) {
      const ofCombo = new Uint32Array(combos.length);
      for (let entry = 0; entry < this.entries; entry += 1) ofCombo[values[entry]] += within[entry];
      const counts = choices.map(() => 0);
      combos.forEach((combo, at) => combo.forEach((choice) => (counts[choice] += ofCombo[at])));
      const sum = (band) => counts.reduce((all, one, at) => all + (inside(choices[at][0], band) ? one : 0), 0);
      let rows;
      if (facet.bands.length > 0) {
        rows = facet.bands.map((band) => [bandKey(band), bandLabel(band, facet.unit), sum(band)]);
      } else {
        rows = choices.map(([key, label], at) => [key, label, counts[at]])
          .filter(([key, , count]) => count > 0 || picked.includes(key) || picked.includes(`-${key}`))
          .sort((one, other) => other[2] - one[2] || byCodePoint(one[0], other[0]));
      }
      const known = new Set(rows.map(([key]) => key));
      for (const key of new Set(picked.map((one) => one.replace(/^-/, "")))) {
        if (known.has(key)) continue;
        const band = facet.key === "number" ? rangeOf(key) : null;
        rows.push(band ? [key, bandLabel(band, facet.unit), sum(band)] : [key, key, 0]);
      }
      return rows
        .map(([key, label, count]) => (
          { key, label, count, chosen: picked.includes(key), excluded: picked.includes(`-${key}`) }
        ))
        .filter((value) => value.count > 0 || value.chosen || value.excluded);
    }
  }

  Benchlore.FacetIndex = FacetIndex;
})((globalThis.Benchlore ??= {}));
