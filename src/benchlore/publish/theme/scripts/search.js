"use strict";
// A query over an index, to ranked hits with their reasons, facets, and how it was read; the twin of index/search.py.
(function (Benchlore) {
  const KINDS = new Map(Object.entries({
    word: "word", mark: "marking", value: "value", term: "term", not: "not-seen", pair: "phrase",
  }));

  /** How most entries write the board with this folded marking; undefined when no board has it. */
  function boardLabel(index, mark) {
    return index.facets.byName.get("board").values.find((value) => value.key === mark)?.label;
  }

  /** A term of the index in words. */
  function labelOf(index, term) {
    if (!term.includes(":")) return term;
    const plain = term.replace(/^not:/, "");
    const kind = plain.slice(0, plain.indexOf(":"));
    const rest = plain.slice(plain.indexOf(":") + 1);
    if (kind === "mark") return boardLabel(index, rest) ?? rest.toUpperCase();
    if (kind === "value") return rest;
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
      const named = group.terms.filter((term) => !term.part).map((term) => labelOf(index, term.expansions[0].term));
      labels = [...new Set(named)];
    }
    const kind = group.kind === "phrase" ? "phrase" : KINDS.get(first.kind);
    return { kind, text: group.text, label: labels.join(", "), labels };
  }

  /** What was found for a text: the text itself for values, and for markings that are no board's. */
  function foundAs(index, expansion, text) {
    const { term } = expansion;
    if (term.startsWith("value:")) return text;
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

  function hit(index, scored, groups, ranker) {
    const evidence = ranker.evidence(groups, scored.entry);
    const reasons = groups.flatMap((group, number) => {
      const found = evidence.filter((one) => one.group === number);
      if (scored.matched.has(number)) return [reason(index, group, strongest(found), group.text)];
      return found.map((one) => reason(index, group, one, one.term.text));
    });
    return {
      ...index.entry(scored.entry),
      score: scored.score,
      reasons,
      missed: groups.filter((_, number) => !scored.matched.has(number)).map((group) => group.text),
      whole: groups.filter((_, number) => scored.matched.has(number)).map((group) => group.text),
      partly: groups.filter((_, number) => scored.partly.has(number)).map((group) => group.text),
      sisterOf: groups.find((group) => ranker.isSister(group, scored.entry))?.text ?? null,
    };
  }

  /**
   * The first `limit` hits for any string; `filters` is a Map of facet names to values as written.
   * `index` is a Benchlore.BrowserIndex; what it lacks it notes, and the answer is then not to be used.
   */
  function search(index, query, filters, limit) {
    const reading = Benchlore.readQuery(query, {
      recogniser: index.recogniser,
      lookup: index,
      facets: index.facets.facets.map((facet) => facet.name),
    });
    for (const [name, values] of filters) {
      if (!index.facets.byName.has(name)) throw new RangeError(`there is no facet ${name}`);
      reading.filters.set(name, [...(reading.filters.get(name) ?? []), ...values]);
    }
    const chosen = index.facets.chosenKeys(reading.filters);
    const ranker = new Benchlore.Ranker(index.fields, index.statistics, (term) => index.occurrences(term));
    const { groups } = reading;
    const nothing = new Set();
    const every = () => Array.from({ length: index.statistics.entries }, (_, entry) => (
      { entry, score: 0, matched: nothing, partly: nothing }
    ));
    const ranked = groups.length > 0 ? ranker.rank(groups) : every();
    const allowed = index.facets.allowed(chosen);
    const shown = ranked.filter((scored) => allowed === null || allowed.has(scored.entry));
    return {
      query,
      total: shown.length,
      unfiltered: ranked.length,
      hits: shown.slice(0, limit).map((scored) => hit(index, scored, groups, ranker)),
      facets: index.facets.count(new Set(ranked.map((scored) => scored.entry)), chosen),
      readAs: groups.map((group) => readAs(index, group)),
      sisters: reading.sisters.map((sisters) => sisterNote(index, sisters)),
      corrected: reading.corrections,
      filters: chosen,
    };
  }

  Object.assign(Benchlore, { search });
})((globalThis.Benchlore ??= {}));
