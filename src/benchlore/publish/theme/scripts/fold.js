"use strict";
// Text to folded words by the character table that Python generated; nothing here asks the browser's Unicode data.
(function (Benchlore) {
  const APOSTROPHES = "'\u2019\u02bc";
  const ASCII_ONLY = /^[\0-\x7f]*$/;
  const folds = new Map(); // code point -> text
  const wordStarts = []; // where runs of word characters beyond ASCII begin, and where they end
  const wordEnds = [];
  const known = []; // [first, end] of the code points that the tables so far speak about
  let waiting = []; // tables that came but were not needed yet
  let missed = false;

  /** Takes a table of make_tables; it is unpacked when the first text beyond ASCII comes. */
  function foldTable(table) {
    known.push(...table.ranges);
    waiting.push(table);
  }

  function unpack() {
    if (waiting.length === 0) return;
    const runs = [];
    for (const table of waiting) {
      for (const [start, count, step, delta] of table.runs) {
        for (let code = start; code < start + count * step; code += step) {
          folds.set(code, String.fromCodePoint(code + delta));
        }
      }
      for (const row of table.singles.split("\n")) {
        const [first, ...texts] = row.split("\t");
        texts.forEach((text, at) => folds.set(parseInt(first, 36) + at, text));
      }
      let position = 0;
      for (let at = 0; at < table.words.length; at += 2) {
        const start = position + table.words[at];
        position = start + table.words[at + 1];
        runs.push([start, position]);
      }
    }
    waiting = [];
    wordStarts.forEach((start, at) => runs.push([start, wordEnds[at]]));
    runs.sort((one, other) => one[0] - other[0]);
    wordStarts.length = wordEnds.length = 0;
    for (const [start, end] of runs) {
      wordStarts.push(start);
      wordEnds.push(end);
    }
  }

  function foldOf(character) {
    if (character < "\x80") return character.toLowerCase();
    const code = character.codePointAt(0);
    if (!known.some(([first, end]) => first <= code && code < end)) missed = true;
    return folds.get(code) ?? character;
  }

  /** Whether a text since the last time held a character that no loaded table speaks about. */
  function foldMissed() {
    const answer = missed;
    missed = false;
    return answer;
  }

  /** The text with every character replaced by its fold. */
  function fold(text) {
    if (ASCII_ONLY.test(text)) return text.toLowerCase();
    unpack();
    return Array.from(text, foldOf).join("");
  }

  /** Whether a folded character belongs inside a word. */
  function isWordCharacter(character) {
    const code = character.codePointAt(0);
    if (code < 0x80) return (code >= 97 && code <= 122) || (code >= 48 && code <= 57) || (code >= 65 && code <= 90);
    let low = 0;
    let high = wordStarts.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (wordStarts[middle] <= code) low = middle + 1;
      else high = middle;
    }
    return low > 0 && code < wordEnds[low - 1];
  }

  /**
   * The folded words of a text in order: {text, start, end, apart}: places in UTF-16 units, and the whole characters
   * between a word and the one before it.
   */
  function words(text) {
    unpack();
    const found = [];
    let letters = "";
    let start = 0;
    let end = 0;
    let apostrophe = false;
    let index = 0;
    let place = 0; // in whole characters, as the next three
    let first = 0;
    let last = 0;
    let before = 0;
    const close = () => {
      if (letters) {
        found.push({ text: letters, start, end, apart: first - before });
        before = last;
      }
      letters = "";
      apostrophe = false;
    };
    for (const character of text) {
      const mayJoin = APOSTROPHES.includes(character);
      if (mayJoin && letters && !apostrophe) {
        apostrophe = true;
      } else {
        for (const piece of mayJoin ? " " : foldOf(character)) {
          if (!isWordCharacter(piece)) {
            close();
            continue;
          }
          if (!letters) [start, first] = [index, place];
          letters += piece;
          end = index + character.length;
          last = place + 1;
          apostrophe = false;
        }
      }
      index += character.length;
      place += 1;
    }
    close();
    return found;
  }

  /** The text folded, with everything but word characters dropped: how markings and part numbers are compared. */
  function compact(text) {
    return words(text).map((word) => word.text).join("");
  }

  Object.assign(Benchlore, { foldTable, foldMissed, fold, words, compact });
})((globalThis.Benchlore ??= {}));
