"use strict";
// Which terms a text names, by the phrases of the vocabulary, with negation; the twin of terms/recogniser.py.
(function (Benchlore) {
  const stemsOf = (text) => new Set(text.split(" ").map(Benchlore.stem));
  const FILLERS = stemsOf("a an the is are was were be been being it its my this that these those");
  const NEGATORS = stemsOf(
    "no not never without isnt wasnt arent werent doesnt dont didnt cant cannot couldnt wont wouldnt hasnt havent" +
      " neither nor",
  );
  const LINKS = stemsOf("any sign signs trace of longer");

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
    /** `phrases`: [kind, term id, stems], kind by kind, those with the same first stem in matching order. */
    constructor(phrases) {
      this.kinds = new Map();
      for (const [kind, id, stems] of phrases) {
        if (!this.kinds.has(kind)) this.kinds.set(kind, new Map());
        const byFirst = this.kinds.get(kind);
        if (!byFirst.has(stems[0])) byFirst.set(stems[0], []);
        byFirst.get(stems[0]).push({ id, stems });
      }
    }

    /** The terms named by folded words, by kind, then by place: {kind, id, start, end, negated}. */
    find(words) {
      const content = words.map((word) => [Benchlore.stem(word.text), word]).filter(([stem]) => !FILLERS.has(stem));
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

  Object.assign(Benchlore, { Recogniser, FILLERS, NEGATORS, LINKS });
})((globalThis.Benchlore ??= {}));
