"use strict";
// Finds values in running text and names each by a search term; the twin of quantity/scan.py, which states the rule.
(function (Benchlore) {
  const { valuePattern, valueWord } = Benchlore.tables;
  const WORD = new RegExp(`[${valueWord}]`);
  const EXPONENTS = { R: 0, k: 3, K: 3, M: 6, p: -12, n: -9, u: -6, "\u00b5": -6, "\u03bc": -6 };
  const MINUS = "-\u2212";
  const BEFORE_SIGN = " \t\n\r(\u00a0\u2009\u202f";
  const MOST_DIGITS = 11;
  const UNITS = new Map(); // spelling -> [unit, times, exponent, glued, spaced]
  for (const [unit, times, exponent, glued, spaced, spellings] of Benchlore.tables.units) {
    for (const spelling of spellings.split(" ")) UNITS.set(spelling, [unit, times, exponent, glued, spaced]);
  }

  const isDigit = (character) => character >= "0" && character <= "9" && character.length === 1;

  function mayBegin(text, start, takenUntil) {
    const [before, earlier, earliest] = [1, 2, 3].map((back) => text.charAt(start - back));
    if (before === "") return true;
    if (WORD.test(before)) return false;
    if (before === "." || before === ",") return !isDigit(earlier);
    if (before === "-") return takenUntil === start - 1 || !/[A-Za-z]/.test(earlier);
    if (before === "/") return !(earlier === "1" || earlier === "3") || isDigit(earliest);
    return true;
  }

  function isNegative(text, start) {
    if (start === 0 || !MINUS.includes(text[start - 1])) return false;
    return start === 1 || BEFORE_SIGN.includes(text[start - 2]);
  }

  function decimal(unit, whole, part, exponent, times = 1) {
    const digits = (whole + part).replace(/^0+/, "");
    if (digits.length > MOST_DIGITS) return null;
    return { unit, integer: Number(digits || "0") * times, exponent: exponent - part.length };
  }

  /** The match as a unit, an integer and a power of ten, or null when it is no value after all. */
  function read(match) {
    const [a1, a2, a3, b1, b2, b3, c1, c2, d1, e1, e2, f1, f2, f3] = match.slice(1);
    if (a1) return decimal("ohm", a1, a3, EXPONENTS[a2]);
    if (b1) return decimal("F", b1, b3, EXPONENTS[b2]);
    if (c1) return decimal("V", c1, c2, 0);
    if (d1) return decimal("ohm", "0", d1, 0);
    if (e1) return decimal("F", "0", e2, EXPONENTS[e1]);
    const row = UNITS.get(f3);
    if (!row || !(f2 ? row[4] : row[3])) return null;
    if ((f3 === "K" || f3 === "M") && /^[0-9][0-9][1-9]$/.test(f1)) return null; // a capacitor's code as well
    const [whole, part = ""] = f1.replace(",", ".").split(".");
    return decimal(row[0], whole, part, row[2], row[1]);
  }

  /** The values in a text, in order: {start, end, quantity: {unit, value}}; places in UTF-16 units. */
  function findQuantities(text) {
    const pattern = new RegExp(valuePattern, "g");
    const spans = [];
    let takenUntil = 0;
    let match;
    while ((match = pattern.exec(text)) !== null) {
      const found = mayBegin(text, match.index, takenUntil) ? read(match) : null;
      if (found === null) {
        pattern.lastIndex = match.index + 1;
        continue;
      }
      const negative = isNegative(text, match.index);
      const integer = negative ? -found.integer : found.integer;
      const value = Number(`${integer}e${found.exponent}`) + 0;
      takenUntil = pattern.lastIndex;
      const start = match.index - (negative ? 1 : 0);
      spans.push({ start, end: takenUntil, quantity: { unit: found.unit, value } });
    }
    return spans;
  }

  /** The search term of a single value, such as "ohm:47e2". */
  function valueTerm({ unit, value }) {
    const [mantissa, power = "0"] = String(value).split("e");
    const [whole, part = ""] = mantissa.replace("-", "").split(".");
    let digits = (whole + part).replace(/^0+/, "");
    let exponent = Number(power) - part.length;
    if (digits.length > 3) {
      exponent += digits.length - 3;
      digits = String(Number(digits.slice(0, 3)) + (digits[3] >= "5" ? 1 : 0));
    }
    const stripped = digits.replace(/0+$/, "");
    exponent += digits.length - stripped.length;
    if (stripped === "") return `${unit}:0e0`;
    return `${unit}:${value < 0 ? "-" : ""}${stripped}e${exponent}`;
  }

  Object.assign(Benchlore, { findQuantities, valueTerm });
})((globalThis.Benchlore ??= {}));
