"use strict";
// Single typing mistakes in a query; the twin of index/spelling.py, whose docstring states the rule.
(function (Benchlore) {
  const { stem, words } = Benchlore;
  const { STOP_WORDS } = Benchlore.tokens;
  const { shortestCorrected, longestCorrected } = Benchlore.tables;
  const CORRECTABLE = new RegExp(`^[a-z]{${shortestCorrected},${longestCorrected}}$`);

  /** Below 0, 0 or above 0 as `one` stands before, at or behind `other`, character by character. */
  function byCodePoint(one, other) {
    const rank = (unit) => (unit < 0xd800 ? unit : unit < 0xe000 ? unit + 0x2000 : unit - 0x800); // halves come last
    for (let at = 0; at < Math.min(one.length, other.length); at += 1) {
      const difference = rank(one.charCodeAt(at)) - rank(other.charCodeAt(at));
      if (difference !== 0) return difference;
    }
    return one.length - other.length;
  }

  /** Whether one insertion, deletion, replacement or swap of neighbours makes `two` of `one`. */
  function oneSlip(one, two) {
    const a = Array.from(one);
    const b = Array.from(two);
    if (one === two || Math.abs(a.length - b.length) > 1) return false;
    let first = 0;
    while (first < Math.min(a.length, b.length) && a[first] === b[first]) first += 1;
    const rest = (letters, from) => letters.slice(from).join("");
    if (a.length === b.length) {
      if (rest(a, first + 1) === rest(b, first + 1)) return true;
      return a[first] === b[first + 1] && a[first + 1] === b[first] && rest(a, first + 2) === rest(b, first + 2);
    }
    const [longer, shorter] = a.length > b.length ? [a, b] : [b, a];
    return rest(longer, first + 1) === rest(shorter, first);
  }

  /** The known word that is one slip away from an unknown one; null when there is none. */
  function nearestKnown(word, lookup) {
    let best = null;
    for (const letter of new Set(word.slice(0, 2))) {
      for (const [candidate, count] of lookup.spellings(letter)) {
        if (!oneSlip(word, candidate)) continue;
        const before = best === null ? -1 : best.count - count || byCodePoint(candidate, best.candidate);
        if (before < 0) best = { candidate, count };
      }
    }
    return best?.candidate ?? null;
  }

  function isUnknown(word, lookup) {
    return (
      CORRECTABLE.test(word) && !STOP_WORDS.has(word) && !lookup.spellings(word[0]).has(word) &&
      !lookup.has(stem(word)) && lookup.starts(`mark:${word}`, 1).length === 0
    );
  }

  /** The text with its typing mistakes mended, and what was mended: {text, corrections: [{typed, read}]}. */
  function correct(text, lookup) {
    const corrections = [];
    let mended = "";
    let at = 0;
    for (const word of words(text)) {
      if (text[word.end] === "*" || !isUnknown(word.text, lookup)) continue;
      const known = nearestKnown(word.text, lookup);
      if (known === null) continue;
      corrections.push({ typed: text.slice(word.start, word.end), read: known });
      mended += text.slice(at, word.start) + known;
      at = word.end;
    }
    return { text: mended + text.slice(at), corrections };
  }

  Benchlore.spelling = { byCodePoint, correct, oneSlip };
})((globalThis.Benchlore ??= {}));
