"use strict";
// Mistakes in a query: slips, words joined or split, letters for digits; the twin of index/spelling.py.
(function (Benchlore) {
  const { stem, words } = Benchlore;
  const { STOP_WORDS } = Benchlore.tokens;
  const { shortest, longest, long: LONG, leastJoined, leastHalf } = Benchlore.tables.spelling;
  const WORD = new RegExp(`^[a-z]{2,${longest}}$`);
  const MARK = new RegExp(`^(?=.*[0-9])(?=.*[a-z])(?=.*[01oil])[a-z0-9]{3,${Benchlore.tables.longestMark}}$`);
  const BLANK = /[ \t\r\n\u00a0]/;

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

  /** How many slips make `b` of `a`, no letter being touched twice. */
  function slips(a, b) {
    let earlier = [];
    let before = Array.from({ length: b.length + 1 }, (_, place) => place);
    for (let i = 1; i <= a.length; i += 1) {
      const row = [i];
      for (let j = 1; j <= b.length; j += 1) {
        let least = Math.min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
        const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
        if (swapped) least = Math.min(least, earlier[j - 2] + 1);
        row.push(least);
      }
      [earlier, before] = [before, row];
    }
    return before[b.length];
  }

  /** The text with what `mends` ([from, up to, read]) puts right, and what that was. */
  function replaced(text, mends) {
    const corrections = [];
    let mended = "";
    let at = 0;
    for (const [start, end, read] of mends) {
      corrections.push({ typed: text.slice(start, end), read });
      mended += text.slice(at, start) + read;
      at = end;
    }
    return { text: mended + text.slice(at), corrections };
  }

  /** The text with its mistakes mended, and what was mended: {text, corrections: [{typed, read}]}. */
  function correct(text, lookup) {
    const first = replaced(text, markings(text, lookup));
    const second = replaced(first.text, wordsMended(first.text, lookup));
    return { text: second.text, corrections: [...first.corrections, ...second.corrections] };
  }

  function markings(text, lookup) {
    const runs = [];
    for (const word of words(text)) {
      const gap = runs.length > 0 ? text.slice(runs.at(-1).at(-1).end, word.start) : " ";
      if (Benchlore.tokens.lengthOf(gap) <= 2 && !BLANK.test(gap)) runs.at(-1).push(word);
      else runs.push([word]);
    }
    const spans = Benchlore.findQuantities(text);
    const mends = [];
    for (const run of runs) {
      const [start, end] = [run[0].start, run.at(-1).end];
      const joined = run.map((word) => word.text).join("");
      if (!MARK.test(joined) || spans.some((span) => span.start < end && span.end > start)) continue;
      if (!lookup.hasNot(`mark:${joined}`) || lookup.starts(`mark:${joined}`, 1).length > 0) continue;
      const meant = markingLike(joined, lookup);
      if (meant) mends.push([start, end, meant.toUpperCase()]);
    }
    return mends;
  }

  function markingLike(joined, lookup) {
    const digits = joined.replace(/o/g, "0").replace(/[il]/g, "1");
    if (digits !== joined && lookup.has(`mark:${digits}`)) return digits;
    const start = `alike:${digits}:`;
    const found = lookup.starts(start, 1);
    return found.length > 0 ? found[0].slice(start.length) : null;
  }

  function wordsMended(text, lookup) {
    const mends = [];
    const found = words(text);
    for (let index = 0; index < found.length; index += 1) {
      const word = found[index];
      if (!takesPart(word, text)) continue;
      const joined = joinedWithNext(found, index, text, lookup);
      if (joined) {
        mends.push([word.start, found[index + 1].end, joined]);
        index += 1;
      } else if (word.text.length >= shortest && isUnknown(word.text, lookup)) {
        const known = nearestKnown(word.text, lookup);
        if (known) mends.push([word.start, word.end, known]);
      }
    }
    return mends;
  }

  function takesPart(word, text) {
    return WORD.test(word.text) && !STOP_WORDS.has(word.text) && text[word.end] !== "*";
  }

  function isUnknown(word, lookup) {
    return lookup.hasNot(stem(word)) && lookup.starts(`mark:${word}`, 1).length === 0 && lookup.count(word) < 0;
  }

  function joinedWithNext(found, index, text, lookup) {
    if (index + 1 === found.length) return null;
    const [word, other] = [found[index], found[index + 1]];
    const joined = word.text + other.text;
    if (![" ", "\u00a0", "-"].includes(text.slice(word.end, other.start))) return null;
    if (joined.length < leastJoined || joined.length > longest || !takesPart(other, text)) return null;
    if (!isUnknown(word.text, lookup) && !isUnknown(other.text, lookup)) return null;
    return lookup.count(joined) > 0 ? joined : null;
  }

  /** What is read in place of an unknown word; null when nothing is near. */
  function nearestKnown(word, lookup) {
    const near = [...new Set(word.slice(0, 2))].flatMap((letter) => [...lookup.spellings(letter)]);
    const own = () => [...lookup.spellings(word[0])];
    return (
      best(near, (known) => oneSlip(word, known), lookup) ??
      halves(word, lookup) ??
      best(own(), (known) => oneSlip(word, stem(known)), lookup) ??
      (word.length >= LONG ? best(own(), (known) => twoSlips(word, known), lookup) : null)
    );
  }

  function twoSlips(word, known) {
    const letters = Array.from(known);
    return Math.abs(word.length - letters.length) <= 2 && slips(word, letters) === 2;
  }

  function best(candidates, isClose, lookup) {
    let found = null;
    for (const candidate of candidates) {
      if (!isClose(candidate)) continue;
      const count = lookup.count(candidate);
      if (count < 0) continue;
      const before = found === null ? -1 : found.count - count || byCodePoint(candidate, found.candidate);
      if (before < 0) found = { candidate, count };
    }
    return found?.candidate ?? null;
  }

  function halves(word, lookup) {
    for (let cut = leastHalf; cut <= word.length - leastHalf; cut += 1) {
      const [one, other] = [word.slice(0, cut), word.slice(cut)];
      if (isHeld(one, lookup) && isHeld(other, lookup)) return `${one} ${other}`;
    }
    return null;
  }

  function isHeld(half, lookup) {
    if (half.length === leastHalf) return !STOP_WORDS.has(half) && lookup.has(stem(half));
    return lookup.count(half) > 0;
  }

  Benchlore.spelling = { byCodePoint, correct, oneSlip, slips };
})((globalThis.Benchlore ??= {}));
