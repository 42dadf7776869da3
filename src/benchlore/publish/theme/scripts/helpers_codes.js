"use strict";
// Number codes and colour bands of resistors and capacitors; the twin of quantity/markings.py and quantity/colours.py.
(function (Benchlore) {
  const { colours, eia96, figures, noBandTolerance } = Benchlore.helperTables;

  /** Ohms of a chip resistor's code: 334, 4992, 4R7, R300, 000; null when it is none. */
  function resistorCode(text) {
    const code = text.trim();
    if (/^0{1,4}$/.test(code)) return 0;
    if (/^[1-9][0-9]{2,3}$/.test(code)) return Number(`${code.slice(0, -1)}e${code.slice(-1)}`);
    if (/^[0-9]{0,3}R[0-9]{0,3}$/.test(code) && code.length > 1) return Number(`0${code.replace("R", ".")}0`);
    return null;
  }

  /** Ohms of an EIA-96 code such as 68X; null when it is none. */
  function eia96Code(text) {
    const match = /^(0[1-9]|[1-8][0-9]|9[0-6])([A-Z])$/.exec(text.trim().toUpperCase());
    if (match === null || !(match[2] in eia96)) return null;
    return Number(`${figures.E96[Number(match[1]) - 1]}e${eia96[match[2]]}`);
  }

  /** Farads of a ceramic capacitor's code in picofarads, with or without its tolerance letter; null when it is none. */
  function ceramicCode(text) {
    const match = /^([0-9]{2})([0-689])[A-Z]?$/.exec(text.trim().toUpperCase());
    if (match === null || match[1] + match[2] === "000") return null;
    const powers = { 8: -2, 9: -1 };
    return Number(`${match[1]}e${(powers[match[2]] ?? Number(match[2])) - 12}`);
  }

  /** What every code of the text could mean: [{value, unit, as}], likeliest first. */
  function codeReadings(text) {
    const found = [
      [resistorCode(text), "ohm", "a chip resistor's number code"],
      [eia96Code(text), "ohm", "a chip resistor's EIA-96 code"],
      [ceramicCode(text), "F", "a ceramic capacitor's number code, in picofarads"],
    ];
    return found.filter(([value]) => value !== null).map(([value, unit, as]) => ({ value, unit, as }));
  }

  /** Ohms and tolerance in per cent of three to six bands in the order given; null when no resistor has them. */
  function readBands(names) {
    if (names.length < 3 || names.length > 6 || !names.every((name) => name in colours)) return null;
    const count = names.length <= 4 ? 2 : 3;
    const digits = names.slice(0, count).map((name) => colours[name][0]);
    if (digits.some((digit) => digit === null) || digits[0] === 0) return null;
    const value = Number(`${digits.join("")}e${colours[names[count]][1]}`);
    const tolerance = names.length > count + 1 ? (colours[names[count + 1]][2] ?? null) : noBandTolerance;
    return tolerance === null ? null : { value, tolerance: Number(tolerance) };
  }

  /** The bands of a resistance: so many figures, multiplier, tolerance; null when it has more figures or no colour. */
  function bandsFor(value, count, tolerance) {
    const digits = value.toPrecision(count);
    if (!(value > 0) || Number(digits) !== value) return null;
    const [mantissa, power] = value.toExponential(count - 1).split("e");
    const named = (test) => Object.keys(colours).find((name) => test(colours[name])) ?? null;
    const names = [...mantissa.replace(".", "")].map((digit) => named((colour) => colour[0] === Number(digit)));
    names.push(named((colour) => colour[1] === Number(power) - count + 1));
    names.push(named((colour) => colour[2] !== null && Number(colour[2]) === tolerance));
    return names.includes(null) ? null : names;
  }

  Object.assign(Benchlore, { codeReadings, readBands, bandsFor });
})((globalThis.Benchlore ??= {}));
