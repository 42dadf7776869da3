"use strict";
// What the words, phrases, markings and values of a query stand for; the twin of index/query.py, which says how.
(function (Benchlore) {
  const { stem } = Benchlore;
  const T = Benchlore.tokens;
  const { longestQuery, mostGroups, inPhrase } = Benchlore.tables;
  const BLANK = " \\t\\r\\n\\u00a0";
  const SPLIT = new RegExp(`(^|[${BLANK}])(-?[A-Za-z][A-Za-z-]*):("[^"]*"?|[^${BLANK}"]+)|"([^"]*)"?`, "g");
  const ENDS = new RegExp(`^[${BLANK}]+|[${BLANK}]+$`, "g");
  const QUOTES = /[\u201c\u201d\u201e\u201f\u00ab\u00bb]/g;
  const STOP_STEMS = new Set([...T.STOP_WORDS].map(stem));

  const strip = (text) => text.replace(ENDS, "");
  const expansion = (term, weight = 1, kind = "exact", direct = "") => ({ term, weight, kind, direct });
  const queryTerm = (kind, text, expansions, weight = 1, part = false) => ({ kind, text, expansions, weight, part });
  const exact = (kind, term, weight) => queryTerm(kind, term, [expansion(term)], weight);
  const word = (folded, expansions, weight, part) => queryTerm("word", folded, expansions, weight, part);
  const group = (kind, text, terms, more) => ({ kind, text, terms, required: false, partsSuffice: false, ...more });

  /** The values without those that say the same as an earlier one, by what `told` takes of them. */
  function distinct(values, told = (value) => value) {
    const first = new Map();
    for (const value of values) {
      const said = JSON.stringify(told(value));
      if (!first.has(said)) first.set(said, value);
    }
    return [...first.values()];
  }

  /** The stretches of a query: {kind: "filter", "phrase" or "plain", text, name}. */
  function split(whole, facets) {
    const query = T.cut(whole, longestQuery).replace(QUOTES, '"');
    const pieces = [];
    let plain = 0;
    for (const match of query.matchAll(SPLIT)) {
      const sign = match[2]?.startsWith("-") ? "-" : "";
      const name = (match[2] ?? "").toLowerCase().slice(sign.length);
      if (name && !facets.includes(name)) continue;
      if (match.index > plain) pieces.push({ kind: "plain", text: query.slice(plain, match.index) });
      if (name) pieces.push({ kind: "filter", text: sign + match[3].replace(/^"+|"+$/g, ""), name });
      else pieces.push({ kind: "phrase", text: match[4] });
      plain = match.index + match[0].length;
    }
    pieces.push({ kind: "plain", text: query.slice(plain) });
    return pieces.filter((piece) => strip(piece.text) !== "");
  }

  /** The query without its facet filters, for when they are kept elsewhere. */
  function withoutFilters(query, facets) {
    const kept = query.replace(QUOTES, '"').replace(SPLIT, (stretch, blank, name) => (
      name && facets.includes(name.toLowerCase().replace(/^-/, "")) ? " " : stretch
    ));
    return kept.replace(/\s+/g, " ").trim();
  }

  function kindOf(term) {
    const head = term.includes(":") ? term.slice(0, term.indexOf(":")) : "word";
    return ["word", "mark", "value", "pair", "not"].includes(head) ? head : "term";
  }

  function phraseGroups(text) {
    const items = T.itemsOf(T.analyse(text, null));
    const phrase = (terms) => group("phrase", strip(text), terms, { required: true });
    if (items.length < 2) return items.map((item) => phrase([exact(kindOf(item), item)]));
    const terms = items.filter((item) => !STOP_STEMS.has(item)).map((item) => exact(kindOf(item), item, inPhrase));
    terms.push(...T.pairsOf(items).map((pair) => exact("pair", pair)));
    return [phrase(distinct(terms))];
  }

  /**
   * Reads any string: {groups, filters (Map), corrections, sisters}. `lookup` has plainMarks (Set), has(term),
   * starts(start, limit) and spellings(letter) (Map of word to count).
   */
  function readQuery(query, { recogniser, lookup, facets }) {
    const reading = { groups: [], filters: new Map(), corrections: [], sisters: [] };
    for (const piece of split(query, facets)) {
      if (piece.kind === "filter") {
        reading.filters.set(piece.name, [...(reading.filters.get(piece.name) ?? []), piece.text]);
      } else if (piece.kind === "phrase") {
        reading.groups.push(...phraseGroups(piece.text));
      } else {
        const { text, corrections } = Benchlore.spelling.correct(piece.text, lookup);
        reading.corrections.push(...corrections);
        reading.groups.push(...new Benchlore.PlainText(text, recogniser, lookup, reading.sisters).groups());
      }
    }
    const found = (made) => made.terms.map((term) => term.expansions);
    reading.groups = distinct(reading.groups, found).slice(0, mostGroups);
    return reading;
  }

  Object.assign(Benchlore, { readQuery });
  Benchlore.query = { distinct, exact, expansion, group, queryTerm, split, withoutFilters, word };
})((globalThis.Benchlore ??= {}));
