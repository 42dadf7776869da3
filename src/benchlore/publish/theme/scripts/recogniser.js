"use strict";
// Which terms a text names, by the phrases of the vocabulary, with negation; the twin of terms/recogniser.py.
(function (Benchlore) {
  const FILLERS = new Set(Benchlore.tables.fillers);
  const NOT_WORDS = new Set(Benchlore.tables.not_words);
  const NEGATORS = new Set(Benchlore.tables.negators);
  const LINKS = new Set(Benchlore.tables.links);

  /** The place behind the first of the phrases (longest first) that matches at `index`, with its term; or null. */
  function longest(stems, index, phrases) {
    for (const phrase of phrases) {
      let place = 1;
      let at = index + 1;
      let negated = false;
      while (place < phrase.stems.length && at < stems.length) {
        if (stems[at] === phrase.stems[place]) place += 1;
        else if (NEGATORS.has(stems[at]) && !negated) negated = true;
        else break;
        at += 1;
      }
      if (place === phrase.stems.length) return { id: phrase.id, after: at, negated };
    }
    return null;
  }

  function negatedBefore(stems, index, freeFrom) {
    let at = index - 1;
    while (at >= freeFrom && LINKS.has(stems[at]) && index - at <= 2) at -= 1;
    return at >= freeFrom && NEGATORS.has(stems[at]);
  }

  class Recogniser {
    constructor() {
      this.kinds = new Map(Benchlore.tables.kinds.map((kind) => [kind, new Map()]));
    }

    /** `phrases`: [kind, term id, stems]; those with the same first stem come together, in matching order. */
    add(phrases) {
      for (const [kind, id, stems] of phrases) {
        const byFirst = this.kinds.get(kind);
        if (!byFirst.has(stems[0])) byFirst.set(stems[0], []);
        byFirst.get(stems[0]).push({ id, stems });
      }
    }

    /** The words that phrases are matched against: [stem, word] pairs. */
    static content(words) {
      return words
        .map((word) => [Benchlore.stem(word.text), word])
        .map(([stem, word]) => [NOT_WORDS.has(stem) ? "not" : stem, word])
        .filter(([stem]) => !FILLERS.has(stem));
    }

    /** The terms named by folded words, by kind, then by place: {kind, id, start, end, negated}. */
    find(words) {
      const content = Recogniser.content(words);
      const stems = content.map(([stem]) => stem);
      const found = [];
      for (const [kind, byFirst] of this.kinds) {
        let index = 0;
        let freeFrom = 0;
        while (index < stems.length) {
          const match = longest(stems, index, byFirst.get(stems[index]) ?? []);
          if (match === null) {
            index += 1;
            continue;
          }
          found.push({
            kind,
            id: match.id,
            start: content[index][1].start,
            end: content[match.after - 1][1].end,
            negated: match.negated || negatedBefore(stems, index, freeFrom),
          });
          index = freeFrom = match.after;
        }
      }
      return found;
    }
  }

  Benchlore.Recogniser = Recogniser;
})((globalThis.Benchlore ??= {}));
