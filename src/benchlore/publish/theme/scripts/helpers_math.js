"use strict";
// The small sums of the bench: the twin of answer/bench.py, answer/rectifier.py and quantity/preferred.py.
(function (Benchlore) {
  const { figures, ratedPowers, powerMargin } = Benchlore.helperTables;

  function positive(...values) {
    if (!values.every((value) => value > 0 && Number.isFinite(value))) throw new RangeError("above nothing, please");
  }

  /** The values of a series around a value: [at or below, at or above]. */
  function neighbours(value, series) {
    positive(value);
    const digits = String(figures[series][0]).length;
    const decade = Math.floor(Math.log10(value)) - digits + 1;
    const below = [];
    const above = [];
    for (const power of [decade - 1, decade, decade + 1]) {
      for (const figure of figures[series]) {
        const candidate = Number(`${figure}e${power}`);
        if (candidate <= value) below.push(candidate);
        if (candidate >= value) above.push(candidate);
      }
    }
    return [Math.max(...below), Math.min(...above)];
  }

  /** The value of the series nearest by difference; midway, the smaller. */
  function nearestPreferred(value, series) {
    const [below, above] = neighbours(value, series);
    return value - below <= above - value ? below : above;
  }

  /** The coarsest series that holds the value; null when none does. */
  function coarsestSeries(value) {
    if (!(value > 0) || !Number.isFinite(value)) return null;
    const exact = Number(value.toPrecision(9));
    return Object.keys(figures).find((series) => neighbours(exact, series)[0] === exact) ?? null;
  }

  function divider(supply, upper, lower, load = null) {
    positive(upper, lower, load ?? 1);
    const loaded = load === null ? lower : (lower * load) / (lower + load);
    const current = supply / (upper + loaded);
    const output = current * loaded;
    const source = (upper * lower) / (upper + lower);
    return { output, current, upper_power: current ** 2 * upper, lower_power: output ** 2 / lower, source };
  }

  function ledResistor(supply, forward, current) {
    positive(supply, forward, current);
    if (forward >= supply) throw new RangeError("the supply has to be above the forward voltage");
    const exact = (supply - forward) / current;
    const [, resistor] = neighbours(exact, "E24");
    const flows = (supply - forward) / resistor;
    const power = flows ** 2 * resistor;
    const rated = ratedPowers.find((watts) => watts >= power * powerMargin) ?? null;
    return { exact, resistor, current: flows, power, rated };
  }

  function rcTimes(resistance, capacitance) {
    positive(resistance, capacitance);
    const tau = resistance * capacitance;
    const corner = 1 / (2 * Math.PI * tau);
    return { tau, corner, to_90: tau * Math.log(10), to_95: tau * Math.log(20), to_99: tau * Math.log(100) };
  }

  function rcFall(resistance, capacitance, start, end) {
    positive(resistance, capacitance, start, end);
    if (end > start) throw new RangeError("it falls from the higher voltage to the lower");
    return resistance * capacitance * Math.log(start / end);
  }

  function ripple(load, frequency, capacitance) {
    positive(frequency, capacitance);
    return load / (frequency * capacitance);
  }

  /** Complementary error function: a series of positive terms near nothing, a continued fraction far out. */
  function erfc(x) {
    if (x < 0) return 2 - erfc(-x);
    if (x < 2.5) {
      let term = 1;
      let sum = 1;
      for (let n = 1; term > sum * 1e-17; n += 1) {
        term *= (2 * x * x) / (2 * n + 1);
        sum += term;
      }
      return 1 - ((2 * x) / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
    }
    let fraction = 0;
    for (let n = 120; n > 0; n -= 1) fraction = n / 2 / (x + fraction);
    return Math.exp(-x * x) / Math.sqrt(Math.PI) / (x + fraction);
  }

  const phi = (z) => erfc(-z / Math.SQRT2) / 2;

  const isInside = (value, low, high) => value >= low && value <= high;

  function decide(value, low, high, guard) {
    if (isInside(value, low + guard, high - guard)) return "pass";
    if (isInside(value, low, high)) return "conditional-pass";
    return guard > 0 && isInside(value, low - guard, high + guard) ? "conditional-fail" : "fail";
  }

  /** A reading against limits with the meter's accuracy: ±(percent of the reading + counts of the last digit). */
  function meterVerdict(reading, low, high, { percent, counts = 0, resolution = 0 }) {
    if (!(low <= high)) throw new RangeError("the lower limit comes first");
    if (percent < 0 || counts < 0 || resolution < 0) throw new RangeError("an accuracy has no negative part");
    const halfWidth = (Math.abs(reading) * percent) / 100 + counts * resolution;
    const u = halfWidth / Math.sqrt(3);
    let probability = Number(isInside(reading, low, high));
    if (u > 0) probability = Math.max(0, phi((reading - low) / u) - phi((reading - high) / u));
    return {
      half_width: halfWidth,
      probability,
      simple: decide(reading, low, high, 0),
      guarded: decide(reading, low, high, 2 * u),
    };
  }

  Object.assign(Benchlore, {
    neighbours, nearestPreferred, coarsestSeries, divider, ledResistor, rcTimes, rcFall, ripple, meterVerdict,
  });
})((globalThis.Benchlore ??= {}));
