"use strict";
// A query over an index, to ranked hits with their reasons, facets, and how it was read; the twin of index/search.py.
(function (Benchlore) {
  const KINDS = new Map(Object.entries({
    word: "word", mark: "marking", value: "value", term: "term", not: "not-seen", pair: "phrase",
    state: "value",
  }));

  const MOST_SPELLINGS = 64; // ways of writing a board's marking that are looked at

  /** How most entries write the board with this folded marking; undefined when no board has it. */
  function boardLabel(index, mark) {
    const start = `board:${mark}:`;
    let usual;
    let most = 0;
    for (const term of index.starts(start, MOST_SPELLINGS)) {
      const count = index.occurrences(term).entries.length;
      if (count > most) [usual, most] = [term, count];
    }
    return usual?.slice(start.length).replaceAll("\u00a0", " ");
  }

  /** A term of the index in words. */
  function labelOf(index, term) {
    if (!term.includes(":")) return term;
    const plain = term.replace(/^not:/, "");
    const kind = plain.slice(0, plain.indexOf(":"));
    const rest = plain.slice(plain.indexOf(":") + 1);
    if (kind === "mark") return boardLabel(index, rest) ?? rest.toUpperCase();
    if (kind === "value" || kind === "state") return rest;
    if (kind === "pair") {
      const said = (part) => (part.includes(":") && part.slice(part.indexOf(":") + 1)) || part;
      return rest.split("+").map(said).join(" ");
    }
    return index.label(kind, rest);
  }

  function readAs(index, group) {
    const first = group.terms[0];
    let labels = [group.text];
    if (group.kind !== "phrase" && (first.kind === "term" || first.kind === "not")) {
      const named = group.terms.filter((term) => !term.part && !["state", "pair"].includes(term.kind));
      labels = [...new Set(named.map((term) => labelOf(index, term.expansions[0].term)))];
    }
    const kind = group.kind === "phrase" ? "phrase" : KINDS.get(first.kind);
    return { kind, text: group.text, label: labels.join(", "), labels };
  }

  /** What was found for a text: the text itself for values, and for markings that are no board's. */
  function foundAs(index, expansion, text) {
    const { term } = expansion;
    if (expansion.kind === "near") return Benchlore.valueInWords(term);
    if (term.startsWith("value:") || term.startsWith("state:")) return text;
    const isMark = term.startsWith("mark:") && expansion.kind === "exact";
    return isMark && boardLabel(index, term.slice("mark:".length)) === undefined ? text : labelOf(index, term);
  }

  function reason(index, group, evidence, text) {
    let kind = evidence.expansion.kind;
    if (kind === "exact") kind = group.kind === "phrase" ? "phrase" : KINDS.get(evidence.term.kind);
    return { kind, text, found: foundAs(index, evidence.expansion, text), field: index.fields[evidence.field].name };
  }

  /** The evidence that counts most: the term itself before the words of its phrase; of equals the first. */
  function strongest(found) {
    return found.reduce((best, one) => {
      if (one.term.part !== best.term.part) return best.term.part ? one : best;
      return one.score > best.score ? one : best;
    });
  }

  /** The boards of a sister note as most entries write them. */
  function sisterNote(index, sisters) {
    const boards = sisters.boards.map((board) => labelOf(index, `mark:${Benchlore.compact(board)}`));
    return { ...sisters, boards: [...new Set(boards)] };
  }

  /** One search, taken as far as the parts that are there allow: read, ranked, shown. */
  class Search {
    /**
     * `filters`: Map of facet names to values as written; `index`: a Benchlore.BrowserIndex, which notes what it lacks.
     */
    constructor(index, query, filters, limit, sort) {
      Object.assign(this, { index, query, filters, limit, sort, ranked: null });
    }

    /** The answer to the query; of no use, and perhaps null, while the index lacks something. */
    step() {
      const { index } = this;
      index.expectHits();
      this.reading = this.read();
      this.chosen = index.facets.chosenKeys(this.reading.filters);
      const allowed = index.facets.allowed(this.chosen);
      const keys = this.keys();
      for (const group of this.reading.groups) {
        for (const term of group.terms) for (const one of term.expansions) index.occurrences(one.term);
      }
      if (index.lacking.size > 0) return null;
      this.ranked ??= this.rank();
      this.order ??= this.ordered(allowed, keys);
      return this.answer();
    }

    read() {
      const { index, query, filters } = this;
      const names = index.facets.facets.map((facet) => facet.name);
      const reading = Benchlore.readQuery(query, { recogniser: index.recogniser, lookup: index, facets: names });
      for (const [name, values] of filters) {
        if (!index.facets.byName.has(name)) throw new RangeError(`there is no facet ${name}`);
        reading.filters.set(name, [...(reading.filters.get(name) ?? []), ...values]);
      }
      return reading;
    }

    rank() {
      const { index } = this;
      const { groups } = this.reading;
      this.ranker = new Benchlore.Ranker(index.fields, index.statistics, (term) => index.occurrences(term));
      if (groups.length > 0) return this.ranker.rank(groups);
      const nothing = new Uint32Array(index.statistics.entries);
      return { scores: nothing, full: nothing, touched: nothing, shown: new Uint8Array(nothing.length).fill(1) };
    }

    /** What comes before the score, by entry; null for nothing, undefined while it lacks. */
    keys() {
      if (this.sort === "newest") return this.index.ages();
      if (this.sort === "quickest") return this.index.facets.numbers("minutes")?.map((number) => number ?? Infinity);
      return null;
    }

    /** The first entries that are shown, in their order; `this.total` is how many there are in all. */
    ordered(allowed, keys) {
      const { scores, shown } = this.ranked;
      let entries = [];
      shown.forEach((one, entry) => {
        if (one && (allowed === null || allowed[entry])) entries.push(entry);
      });
      this.total = entries.length;
      const score = (entry) => Benchlore.round12(scores[entry]);
      if (keys === null && entries.length > this.limit) {
        // Only what can stand among the first is rounded and sorted.
        const least = Float64Array.from(entries, (entry) => scores[entry]).sort()[entries.length - this.limit] ?? 0;
        entries = entries.filter((entry) => scores[entry] >= least * (1 - 1e-9));
      }
      const rows = entries.map((entry) => ({ entry, key: keys === null ? 0 : keys[entry], score: score(entry) }));
      const apart = (one, other) => (one === other ? 0 : one - other);
      rows.sort((a, b) => apart(a.key, b.key) || b.score - a.score || a.entry - b.entry);
      return rows.slice(0, this.limit);
    }

    hit({ entry, score }) {
      const { index, ranker, ranked } = this;
      const { groups } = this.reading;
      const evidence = groups.length > 0 ? ranker.evidence(groups, entry) : [];
      const matches = (number) => ((ranked.full[entry] >>> number) & 1) === 1;
      const touches = (number) => ((ranked.touched[entry] >>> number) & 1) === 1;
      const reasons = groups.flatMap((group, number) => {
        const found = evidence.filter((one) => one.group === number);
        if (matches(number)) return [reason(index, group, strongest(found), group.text)];
        return found.map((one) => reason(index, group, one, one.term.text));
      });
      const texts = (wanted) => groups.filter((_, number) => wanted(number)).map((group) => group.text);
      return {
        ...index.entry(entry),
        score,
        reasons,
        missed: texts((number) => !matches(number)),
        whole: texts(matches),
        partly: texts((number) => touches(number) && !matches(number)),
        sisterOf: groups.find((group) => ranker.isSister(group, entry))?.text ?? null,
      };
    }

    /** {query, total, unfiltered, hits, readAs, sisters, corrected, filters, matching: 1 for each entry found}. */
    answer() {
      const { index, reading, ranked } = this;
      return {
        query: this.query,
        total: this.total,
        unfiltered: ranked.shown.reduce((sum, one) => sum + one, 0),
        hits: this.order.map((row) => this.hit(row)),
        readAs: reading.groups.map((group) => readAs(index, group)),
        sisters: reading.sisters.map((sisters) => sisterNote(index, sisters)),
        corrected: reading.corrections,
        filters: this.chosen,
        matching: ranked.shown,
      };
    }
  }

  Object.assign(Benchlore, { Search });
})((globalThis.Benchlore ??= {}));
