"use strict";
// Text to search terms; the twin of index/tokens.py, whose docstring says what a term is and how a text is taken apart.
(function (Benchlore) {
  const { fold, words, compact, stem } = Benchlore;
  const { longestWord, longestMark, longestText } = Benchlore.tables;
  const JOINERS = new Set(Benchlore.tables.joiners);
  const NEGATABLE = new Set(Benchlore.tables.negatable);
  const STOP_WORDS = new Set(Benchlore.tables.stopWords);

  /** How many characters (not UTF-16 units) a text has. */
  function lengthOf(text) {
    let count = 0;
    for (const _ of text) count += 1;
    return count;
  }

  const overlap = (one, other) => one.start < other.end && one.end > other.start;
  const within = (inner, outer) => outer.start <= inner.start && inner.end <= outer.end;
  const hasDigit = (word) => /[0-9]/.test(word);
  const isMark = (word) => hasDigit(word) && lengthOf(word) >= 2;
  const isPartNumber = (word) => isMark(word) && /[^0-9]/.test(word);

  /** The first `count` characters of a text, never half of one. */
  function cut(text, count) {
    return text.length <= count ? text : Array.from(text.slice(0, 2 * count)).slice(0, count).join("");
  }

  /** The `mark:` term of a whole marking, model or part number; null when nothing of it can be compared. */
  function markTerm(text) {
    const folded = compact(text);
    return folded ? `mark:${cut(folded, longestMark)}` : null;
  }

  /** The finds that count, in their order. */
  function settle(finds) {
    const positive = finds.filter((f) => !f.negated && NEGATABLE.has(f.kind));
    const negated = finds.filter((f) => f.negated && NEGATABLE.has(f.kind) && !positive.some((p) => within(f, p)));
    return finds.filter((f) => (f.negated ? negated.includes(f) : !negated.some((n) => within(f, n))));
  }

  function findTerm(found) {
    return `${found.negated ? "not:" : ""}${found.kind}:${found.id}`;
  }

  /** Words, values and finds of a text; without a recogniser the text is a label and nothing is recognised in it. */
  function analyse(whole, recogniser) {
    const text = cut(whole, longestText);
    const found = words(text);
    const values = [];
    for (const span of Benchlore.findQuantities(text)) {
      const term = Benchlore.valueTerm(span.quantity);
      if (term !== null) values.push({ term: `value:${term}`, start: span.start, end: span.end });
    }
    return {
      text,
      words: found.filter((word) => lengthOf(word.text) <= longestWord),
      values,
      finds: recogniser ? settle(recogniser.find(found)) : [],
    };
  }

  const isNegated = (analysis, word) => analysis.finds.some((f) => f.negated && overlap(word, f));

  /** For each word the number of the quantity that it is in, or -1. */
  function places(analysis) {
    return analysis.words.map((word) => analysis.values.findIndex((value) => overlap(word, value)));
  }

  function between(analysis, index) {
    return analysis.text.slice(analysis.words[index - 1].end, analysis.words[index].start);
  }

  /** Map of the number of each quantity that exactly one word is in, to that word. */
  function loneValues(analysis, inside) {
    const held = new Map();
    analysis.words.forEach((word, at) => {
      if (inside[at] >= 0) held.set(inside[at], [...(held.get(inside[at]) ?? []), word]);
    });
    return new Map([...held].filter(([, members]) => members.length === 1).map(([place, [word]]) => [place, word]));
  }

  /** Runs of words [first, after last] that are one written thing, such as "BWC-02". */
  function compounds(analysis, inside) {
    const runs = [];
    const count = analysis.words.length;
    const joined = (index) => {
      const sign = between(analysis, index);
      return lengthOf(sign) === 1 && JOINERS.has(fold(sign));
    };
    let start = 0;
    while (start < count) {
      let end = start + 1;
      if (inside[start] < 0) {
        while (end < count && inside[end] < 0 && joined(end)) end += 1;
      }
      const run = analysis.words.slice(start, end).map((word) => word.text);
      if (run.length > 1 && run.some(hasDigit) && lengthOf(run.join("")) <= longestMark) runs.push([start, end]);
      start = end;
    }
    return runs;
  }

  /** The search terms of a text, repeated as often as they occur; without pairs. */
  function termsOf(analysis) {
    const inside = places(analysis);
    const terms = analysis.values.map((value) => value.term);
    for (const word of loneValues(analysis, inside).values()) {
      if (isPartNumber(word.text)) terms.push(`mark:${word.text}`);
    }
    terms.push(...analysis.finds.map(findTerm));
    analysis.words.forEach((word, at) => {
      if (inside[at] >= 0) return;
      if (isMark(word.text)) {
        terms.push(`mark:${word.text}`);
      } else if (!STOP_WORDS.has(word.text) && !isNegated(analysis, word)) {
        terms.push(stem(word.text));
        if (lengthOf(word.text) >= 4) terms.push(`raw:${word.text}`);
      }
    });
    for (const [start, end] of compounds(analysis, inside)) {
      terms.push(`mark:${analysis.words.slice(start, end).map((word) => word.text).join("")}`);
    }
    for (let index = 1; index < analysis.words.length; index += 1) {
      const join = joinAt(analysis, inside, index);
      if (join !== null) terms.push(join);
    }
    return terms;
  }

  /** The `mark:` term of "BWC 02" where such a pair ends at `index`, or null. */
  function joinAt(analysis, inside, index) {
    const first = analysis.words[index - 1].text;
    const second = analysis.words[index].text;
    const sign = between(analysis, index);
    if (inside[index - 1] >= 0 || inside[index] >= 0 || (sign !== " " && sign !== "\u00a0")) return null;
    if (lengthOf(first) > 5 || hasDigit(first) || STOP_WORDS.has(first)) return null;
    return lengthOf(second) <= 8 && hasDigit(second[0]) ? `mark:${first}${second}` : null;
  }

  /** The items of a text in their order. */
  function itemsOf(analysis) {
    const inside = places(analysis);
    const items = [];
    analysis.words.forEach((word, at) => {
      if (inside[at] < 0) items.push(isMark(word.text) ? `mark:${word.text}` : stem(word.text));
      else if (at === 0 || inside[at] !== inside[at - 1]) items.push(analysis.values[inside[at]].term);
    });
    return items;
  }

  /** `pair:` terms of neighbouring items. */
  function pairsOf(items) {
    return items.slice(1).map((item, at) => `pair:${items[at]}+${item}`);
  }

  Benchlore.tokens = {
    STOP_WORDS, LONGEST_MARK: longestMark, analyse, compounds, cut, findTerm, hasDigit, isMark, isPartNumber, itemsOf,
    lengthOf, loneValues, markTerm, overlap, pairsOf, places, termsOf,
  };
})((globalThis.Benchlore ??= {}));
