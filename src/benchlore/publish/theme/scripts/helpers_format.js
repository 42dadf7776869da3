"use strict";
// Writes values with their engineering prefix, and reads a value typed into a helper; the twin of quantity/format.py.
(function (Benchlore) {
  const { shown } = Benchlore.helperTables;
  const PREFIXES = { p: -12, n: -9, u: -6, "\u00b5": -6, "\u03bc": -6, m: -3, k: 3, K: 3, M: 6, G: 9 };
  const NUMBER = /^([-\u2212+]?)(\d+(?:[.,]\d+)?|[.,]\d+)\s*([pnu\u00b5\u03bcmkKMG]?)$/;

  /** A finite number as its shortest decimal: {negative, digits without leading zeros, exponent of the last digit}. */
  function decimal(value) {
    const [mantissa, power = "0"] = String(Math.abs(value)).split("e");
    const [whole, part = ""] = mantissa.split(".");
    const digits = (whole + part).replace(/^0+(?=.)/, "");
    return { negative: value < 0 || Object.is(value, -0), digits, exponent: Number(power) - part.length };
  }

  /** Power of ten of the first digit. */
  const adjusted = (number) => number.digits.length - 1 + number.exponent;

  const isZero = (number) => /^0*$/.test(number.digits);

  function stripped(number) {
    const digits = number.digits.replace(/0+$/, "");
    if (digits === "") return { ...number, digits: "0", exponent: 0 };
    return { ...number, digits, exponent: number.exponent + number.digits.length - digits.length };
  }

  /** Rounded half to even to so many significant digits. */
  function rounded(number, count) {
    if (isZero(number) || stripped(number).digits.length <= count) return number;
    const cut = number.digits.length - count;
    const [kept, rest] = [number.digits.slice(0, count), number.digits.slice(count)];
    const half = "5" + "0".repeat(cut - 1);
    const odd = "13579".includes(kept[kept.length - 1]);
    const up = rest > half || (rest === half && odd);
    const digits = up ? String(BigInt(kept) + 1n) : kept;
    return { ...number, digits, exponent: number.exponent + cut };
  }

  function compare(one, other) {
    const least = Math.min(one.exponent, other.exponent);
    const [a, b] = [one, other].map((n) => BigInt(n.digits + "0".repeat(n.exponent - least)));
    return a < b ? -1 : a > b ? 1 : 0;
  }

  /** Divided by a step whose only digits are a power of ten or a whole number (60, 3600). */
  function divided(number, one) {
    const plain = stripped(one);
    if (plain.digits === "1") return { ...number, exponent: number.exponent - plain.exponent };
    const places = 28;
    const quotient = BigInt(number.digits + "0".repeat(places)) / BigInt(plain.digits);
    return { ...number, digits: String(quotient), exponent: number.exponent - places - plain.exponent };
  }

  function plainText(number) {
    const { digits, exponent } = stripped(number);
    if (digits === "0") return "0";
    const first = digits.length - 1 + exponent;
    if (first < -12 || first > 15) return `${digits[0]}${digits.length > 1 ? "." : ""}${digits.slice(1)}e${first}`;
    if (exponent >= 0) return digits + "0".repeat(exponent);
    const padded = digits.padStart(1 - exponent, "0");
    return `${padded.slice(0, exponent)}.${padded.slice(exponent)}`;
  }

  /** A value in SI units with its prefix, to so many significant digits: formatValue(4700, "ohm") is "4.7 kΩ". */
  function formatValue(value, unit, digits = 3) {
    if (Number.isNaN(value)) return "not a number";
    if (!Number.isFinite(value)) return value > 0 ? "unlimited" : "minus unlimited";
    const number = decimal(value);
    const steps = shown[unit].map(([least, one, sign]) => ({ least: decimal(+least), one: decimal(+one), sign }));
    const size = rounded(number, digits);
    const step = isZero(number)
      ? steps.find((s) => stripped(s.one).digits === "1" && stripped(s.one).exponent === 0)
      : (steps.find((s) => compare(size, s.least) >= 0) ?? steps[steps.length - 1]);
    const scaled = divided(number, step.one);
    const most = Math.max(digits, isZero(scaled) ? digits : adjusted(stripped(scaled)) + 1);
    const text = plainText(rounded(stripped(scaled), most));
    return `${number.negative && text !== "0" ? "\u2212" : ""}${text}\u00a0${step.sign}`;
  }

  /** The number that a text states in this unit (4k7, 10 kΩ, 12V, or bare with the unit understood); null if none. */
  function readValue(text, unit) {
    const plain = text.trim();
    const spans = Benchlore.findQuantities(plain);
    if (spans.length === 1 && spans[0].start === 0 && spans[0].end === plain.length) {
      return spans[0].quantity.unit === unit ? spans[0].quantity.value : null;
    }
    const match = NUMBER.exec(plain);
    if (match === null) return null;
    const mantissa = match[2].replace(",", ".");
    const value = Number(`${mantissa.startsWith(".") ? "0" : ""}${mantissa}e${PREFIXES[match[3]] ?? 0}`);
    return match[1] === "-" || match[1] === "\u2212" ? -value : value;
  }

  Object.assign(Benchlore, { formatValue, readValue });
})((globalThis.Benchlore ??= {}));
