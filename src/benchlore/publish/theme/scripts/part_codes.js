"use strict";
// Unpacks what index/packing.py packs: whole numbers of any size and sorted strings, as short ASCII text.
(function (Benchlore) {
  const ONE = 60;
  const CODES = new Uint8Array(128);
  let place = 0;
  for (let code = 0x21; code < 0x7f; code += 1) {
    if (code !== 0x22 && code !== 0x5c) CODES[code] = place++;
  }
  const REST = place - ONE;

  /** The numbers in a text, from a place up to another. */
  function numbersOf(text, start = 0, end = text.length) {
    const numbers = [];
    let number = 0;
    let scale = 1;
    for (let at = start; at < end; at += 1) {
      const code = CODES[text.charCodeAt(at)];
      number += code * scale;
      if (code < ONE) {
        numbers.push(number);
        number = 0;
        scale = 1;
      } else {
        scale *= REST;
      }
    }
    return numbers;
  }

  /** A front-coded list: each string is the first characters of the one before, and a rest. */
  function stringsOf(text) {
    if (text === "") return [];
    let before = "";
    return text.split(" ").map((coded) => {
      before = before.slice(0, CODES[coded.charCodeAt(0)]) + coded.slice(1);
      return before;
    });
  }

  /** The names that stand one after the other in a text. */
  function namesOf(text) {
    return text.match(/.{6}/g) ?? [];
  }

  Benchlore.unpack = { numbersOf, stringsOf, namesOf };
})((globalThis.Benchlore ??= {}));
