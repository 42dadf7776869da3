"use strict";
// The bench helpers' page: reads the boxes of a form, works the sum out, and words the answer.
(function (Benchlore) {
  const { formatValue, readValue } = Benchlore;
  const WORDS = {
    pass: "pass",
    fail: "fail",
    "conditional-pass": "conditional pass: within, but not surely",
    "conditional-fail": "conditional fail: outside, but not surely",
  };

  /** What is wrong with a box, told to whoever filled it in. */
  class BoxError extends Error {
    constructor(name, message) {
      super(message);
      this.box = name;
    }
  }

  /** A reader of the form's boxes: value in a unit, or the text itself. */
  function reader(form) {
    const text = (name) => form.elements[name].value.trim();
    const value = (name, unit, example) => {
      const found = readValue(text(name), unit);
      if (found === null) throw new BoxError(name, `Cannot be read; write it like ${example}.`);
      return found;
    };
    const maybe = (name, unit, example) => (text(name) === "" ? null : value(name, unit, example));
    const number = (name, missing = null) => {
      if (text(name) === "" && missing !== null) return missing;
      const found = Number(text(name).replace(",", ".").replace("\u2212", "-"));
      if (text(name) === "" || !Number.isFinite(found)) throw new BoxError(name, "A plain number, such as 5.21.");
      return found;
    };
    return { text, value, maybe, number };
  }

  const percent = (share) => `${(100 * share).toFixed(1)}\u00a0%`;

  const HELPERS = {
    marking(box) {
      const found = Benchlore.codeReadings(box.text("code"));
      if (found.length === 0) throw new BoxError("code", "No number code; a value with letters is a value already.");
      return found.map(({ value, unit, as }) => `${value === 0 ? "a link, 0 Ω" : formatValue(value, unit)}: ${as}`);
    },
    bands(box) {
      const names = box.text("bands").toLowerCase().split(/[\s,/-]+/);
      const read = Benchlore.readBands(names);
      if (read !== null) {
        const back = Benchlore.readBands([...names].reverse());
        const told = ({ value, tolerance }) => `${formatValue(value, "ohm")} ±${tolerance}\u00a0%`;
        return [told(read), ...(back === null ? [] : [`from the other end: ${told(back)}`])];
      }
      const value = readValue(box.text("bands"), "ohm");
      const bands = value === null ? null : (Benchlore.bandsFor(value, 2, 5) ?? Benchlore.bandsFor(value, 3, 1));
      if (bands === null) throw new BoxError("bands", "Three to six colours, or a resistance such as 4k7.");
      return [bands.join(" ")];
    },
    preferred(box) {
      const value = box.value("value", "ohm", "4.45k");
      if (!(value > 0)) throw new BoxError("value", "A resistance above nothing.");
      const series = Benchlore.coarsestSeries(value);
      if (series !== null) return [`${formatValue(value, "ohm", 4)} is a preferred number (${series})`];
      const nearest = (name) => formatValue(Benchlore.nearestPreferred(value, name), "ohm");
      return ["E12", "E24", "E96"].map((name) => `${name}: ${nearest(name)}`);
    },
    divider(box) {
      const [upper, lower] = [box.value("upper", "ohm", "10k"), box.value("lower", "ohm", "4k7")];
      const found = Benchlore.divider(box.value("supply", "V", "12 V"), upper, lower, box.maybe("load", "ohm", "10k"));
      return [
        formatValue(found.output, "V", 4),
        `current ${formatValue(found.current, "A")}; heat ${formatValue(found.upper_power, "W")} above and ` +
          `${formatValue(found.lower_power, "W")} below`,
        `source resistance of the tap ${formatValue(found.source, "ohm")}`,
      ];
    },
    led(box) {
      const values = [box.value("supply", "V", "12 V"), box.value("forward", "V", "2.1 V")];
      const found = Benchlore.ledResistor(...values, box.value("current", "A", "10 mA"));
      const rated = found.rated ? `${formatValue(found.rated, "W")} or more` : "more than usual resistors are made for";
      return [
        `${formatValue(found.resistor, "ohm")} (E24; exactly ${formatValue(found.exact, "ohm")})`,
        `current ${formatValue(found.current, "A")}, heat ${formatValue(found.power, "W")}: rated ${rated}`,
      ];
    },
    rc(box) {
      const values = [box.value("resistance", "ohm", "100k"), box.value("capacitance", "F", "220 µF")];
      const found = Benchlore.rcTimes(...values);
      const lines = [
        `time constant ${formatValue(found.tau, "s")}, corner ${formatValue(found.corner, "Hz")}`,
        `90 % after ${formatValue(found.to_90, "s")}, 95 % after ${formatValue(found.to_95, "s")}, ` +
          `99 % after ${formatValue(found.to_99, "s")}`,
      ];
      const [start, end] = [box.maybe("from", "V", "400 V"), box.maybe("to", "V", "60 V")];
      if (start === null || end === null) return lines;
      const time = formatValue(Benchlore.rcFall(...values, start, end), "s");
      const ends = `from ${formatValue(start, "V")} to ${formatValue(end, "V")}`;
      const falls = `${ends} in ${time}, if nothing else discharges or feeds it`;
      return [...lines, falls, "With the bleeder open it stays charged."];
    },
    ripple(box) {
      const values = [box.value("load", "A", "1 A"), box.value("frequency", "Hz", "100 Hz")];
      const volts = Benchlore.ripple(...values, box.value("capacitance", "F", "4700 µF"));
      return [`about ${formatValue(volts, "V", 4)} peak to peak, at most`];
    },
    verdict(box) {
      const accuracy = { percent: box.number("percent"), counts: box.number("counts", 0) };
      accuracy.resolution = box.number("resolution", 0);
      const limits = [box.number("reading"), box.number("low"), box.number("high")];
      const found = Benchlore.meterVerdict(...limits, accuracy);
      return [
        `meter: ±${Number(found.half_width.toPrecision(3))}`,
        `by the reading alone: ${WORDS[found.simple]}`,
        `with a guard band of the meter's uncertainty: ${WORDS[found.guarded]}`,
        `the true value is within with a chance of ${percent(found.probability)}`,
      ];
    },
  };

  function answer(form) {
    const output = form.querySelector("output");
    for (const box of form.querySelectorAll("input")) box.removeAttribute("aria-invalid");
    try {
      output.textContent = HELPERS[form.dataset.helper](reader(form)).join("\n");
    } catch (error) {
      if (!(error instanceof BoxError || error instanceof RangeError)) throw error;
      output.textContent = error.message;
      const box = form.elements[error.box];
      if (box) {
        box.setAttribute("aria-invalid", "true");
        box.focus();
      }
    }
  }

  for (const form of document.querySelectorAll("[data-helper]")) {
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      answer(form);
    });
  }
})((globalThis.Benchlore ??= {}));
