"use strict";
// Values near the one that was asked for, and numbers without a unit; the twin of index/near_values.py.
(function (Benchlore) {
  const { window: WINDOW, close: CLOSE, closeWeight, farWeight, mostOfADigit, bareUnits } = Benchlore.tables.near;
  const MOST_SHIFT = 6;
  const SIGNS = { ohm: "Ω", degC: "°C", degree: "°" };
  const PREFIXES = { "-12": "p", "-9": "n", "-6": "µ", "-3": "m", 0: "", 3: "k", 6: "M", 9: "G" };

  /** {unit, mantissa, exponent} of a `value:` term; the mantissa has the sign. */
  function parse(term) {
    const [unit, number] = term.slice("value:".length).split(":");
    const [mantissa, exponent] = number.split("e").map(Number);
    return { unit, mantissa, exponent };
  }

  /** How far two numbers are apart, in hundredths of a per cent of the first, rounded up; null when very far. */
  function apart(size, exponent, other, otherExponent) {
    const shift = otherExponent - exponent;
    if (Math.abs(shift) > MOST_SHIFT) return null;
    const [one, two] = shift > 0 ? [size, other * 10 ** shift] : [size * 10 ** -shift, other];
    const difference = Math.abs(two - one) * 10_000;
    const whole = Math.floor(difference / one);
    return difference % one === 0 ? whole : whole + 1;
  }

  /** The terms of the index near a value, as weaker expansions, itself left out. */
  function nearValues(term, lookup, window = WINDOW) {
    const { unit, mantissa, exponent } = parse(term);
    if (mantissa === 0) return [];
    const sign = mantissa < 0 ? "-" : "";
    const size = Math.abs(mantissa);
    const [low, high] = [String(size * (100 - window)), String(size * (100 + window))];
    const [first, last] = [Number(low[0]), Number(high[0])];
    const figures = [];
    const upTo = (from, to) => {
      for (let figure = from; figure <= to; figure += 1) figures.push(figure);
    };
    if (low.length === high.length) upTo(first, last);
    else {
      upTo(first, 9);
      upTo(1, last);
    }
    const found = [];
    for (const figure of figures) {
      for (const other of lookup.starts(`value:${unit}:${sign}${figure}`, mostOfADigit)) {
        const theirs = parse(other);
        const away = apart(size, exponent, Math.abs(theirs.mantissa), theirs.exponent);
        if (other === term || away === null || away > window * 100) continue;
        found.push(Benchlore.query.expansion(other, away <= CLOSE * 100 ? closeWeight : farWeight, "near"));
      }
    }
    return found;
  }

  /** The `value:` term that a number without a unit can only mean; null when there is none, or more than one. */
  function bareValue(digits, decimals, lookup) {
    const written = (digits + decimals).replace(/^0+/, "");
    if (written.length > 3 && /[^0]/.test(written.slice(3))) return null;
    const stripped = written.replace(/0+$/, "");
    const exponent = written.length - stripped.length - decimals.length;
    if (stripped === "") return null;
    const terms = bareUnits.map(([unit, scale]) => `value:${unit}:${stripped}e${exponent + scale}`);
    const held = terms.filter((term) => lookup.has(term));
    return held.length === 1 ? held[0] : null;
  }

  /** A value as people write it: "value:ohm:47e2" is "4.7 kΩ". */
  function valueInWords(term) {
    const { unit, mantissa, exponent } = parse(term);
    let digits = String(Math.abs(mantissa));
    const power = Math.max(-12, Math.min(9, Math.floor((digits.length - 1 + exponent) / 3) * 3));
    const places = exponent - power;
    let written;
    if (places >= 0) {
      written = digits + "0".repeat(places);
    } else {
      digits = digits.padStart(1 - places, "0");
      written = `${digits.slice(0, places)}.${digits.slice(places)}`;
    }
    return `${mantissa < 0 ? "−" : ""}${written}\u00a0${PREFIXES[power]}${SIGNS[unit] ?? unit}`;
  }

  Object.assign(Benchlore, { bareValue, nearValues, valueInWords });
})((globalThis.Benchlore ??= {}));
