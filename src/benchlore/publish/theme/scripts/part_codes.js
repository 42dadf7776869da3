"use strict";
// Unpacks what index/browser_parts.py packs: whole numbers of any size in few bytes, and sorted lists of strings.
(function (Benchlore) {
  /** The bytes of a base64 text. */
  function bytesOf(text) {
    return Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
  }

  /** Unsigned LEB128 numbers, one after the other. */
  function numbersOf(bytes) {
    const numbers = [];
    let number = 0;
    let scale = 1;
    for (const byte of bytes) {
      number += (byte & 127) * scale;
      scale *= 128;
      if (byte < 128) {
        numbers.push(number);
        number = 0;
        scale = 1;
      }
    }
    return numbers;
  }

  /** A front-coded list: each string is the first characters of the one before, and a rest. */
  function stringsOf(coded) {
    const strings = [];
    let before = [];
    for (let at = 0; at < coded.length; at += 2) {
      before = [...before.slice(0, coded[at]), ...coded[at + 1]];
      strings.push(before.join(""));
    }
    return strings;
  }

  Benchlore.unpack = { bytesOf, numbersOf, stringsOf, varints: (text) => numbersOf(bytesOf(text)) };
})((globalThis.Benchlore ??= {}));
