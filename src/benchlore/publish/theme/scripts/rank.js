"use strict";
// BM25 over our own fields and statistics, digit for digit as in index/rank.py, which states the formulas.
(function (Benchlore) {
  const K1 = Benchlore.tables.k1;
  const LN2 = 0.6931471805599453;
  const SQRT2 = 1.4142135623730951;

  /** Natural logarithm of x >= 1 by plain arithmetic, so that every machine gets the same digits. */
  function ln(x) {
    let halvings = 0;
    while (x > SQRT2) {
      x = x / 2;
      halvings += 1;
    }
    const s = (x - 1) / (x + 1);
    const z = s * s;
    let p = 1 / 27;
    for (let divisor = 25; divisor > 0; divisor -= 2) p = p * z + 1 / divisor;
    return 2 * s * p + halvings * LN2;
  }

  function idf(entries, df) {
    return ln(1 + (entries - df + 0.5) / (df + 0.5));
  }

  function saturation(tf, length, mean, b) {
    const norm = b ? K1 * (1 - b + b * (length / mean)) : K1;
    return tf / (tf + norm);
  }

  /** The score to 12 significant digits. */
  function round12(score) {
    return Number(score.toExponential(11));
  }

  /** Place of an entry in rising numbers; -1 when it is not among them. */
  function placeOf(entries, wanted) {
    let low = 0;
    let high = entries.length - 1;
    while (low <= high) {
      const middle = (low + high) >> 1;
      if (entries[middle] === wanted) return middle;
      if (entries[middle] < wanted) low = middle + 1;
      else high = middle - 1;
    }
    return -1;
  }

  class Ranker {
    /**
     * `fields`: [{name, weight, b}]; `statistics`: {entries, totals, having}; `occurrences(term)`: {entries, places,
     * fields, counts, lengths} as of Benchlore.TermShards.
     */
    constructor(fields, statistics, occurrences) {
      this.fields = fields;
      this.statistics = statistics;
      this.occurrences = occurrences;
      this.means = fields.map((_, f) => (statistics.having[f] ? statistics.totals[f] / statistics.having[f] : 1));
      this.identity = fields.findIndex((field) => field.name === "identity");
      this.bests = new Map();
    }

    /** How many entries have the term in a scored field. */
    df(term) {
      const { entries, places, fields } = this.occurrences(term);
      let count = 0;
      for (let n = 0; n < entries.length; n += 1) {
        for (let at = places[n]; at < places[n + 1]; at += 1) {
          if (this.fields[fields[at]].weight) {
            count += 1;
            break;
          }
        }
      }
      return count;
    }

    /**
     * By entry: the score before it is rounded, and as bits which groups are matched wholly, and in any way. `shown` is
     * 1 for entries that match any group and every required one.
     */
    rank(groups) {
      const { entries } = this.statistics;
      const scores = new Float64Array(entries);
      const full = new Uint32Array(entries);
      const touched = new Uint32Array(entries);
      const shown = new Uint8Array(entries);
      let required = 0;
      groups.forEach((group, number) => {
        const bit = (1 << number) >>> 0;
        if (group.required) required = (required | bit) >>> 0;
        const hits = group.terms.map((term) => {
          const best = this.best(term);
          for (let n = 0; n < best.entries.length; n += 1) {
            scores[best.entries[n]] += term.weight * best.scores[n];
            touched[best.entries[n]] |= bit;
          }
          return best.entries;
        });
        for (const entry of matching(group, hits)) full[entry] |= bit;
      });
      const whole = 2 * groups.length;
      for (let entry = 0; entry < entries; entry += 1) {
        if (touched[entry] === 0 || (full[entry] & required) >>> 0 !== required) continue;
        shown[entry] = 1;
        scores[entry] *= (2 * bits(full[entry]) + bits(touched[entry] & ~full[entry])) / whole;
      }
      return { scores, full, touched, shown };
    }

    /** Every term of every group that the entry has, in the order of the query, with the field that gave most. */
    evidence(groups, entry) {
      const found = [];
      groups.forEach((group, number) => {
        for (const term of group.terms) {
          const best = this.best(term);
          const at = placeOf(best.entries, entry);
          if (at < 0) continue;
          const expansion = best.expansions?.get(entry) ?? term.expansions[0];
          const field = this.topField(expansion, entry);
          found.push({ group: number, term, expansion, field, score: term.weight * best.scores[at] });
        }
      });
      return found;
    }

    /** Whether the entry is found through a board that it shares with a marking of the group, not by that itself. */
    isSister(group, entry) {
      return group.terms.some((term) =>
        term.expansions.some((expansion) => (
          expansion.kind === "sister" && placeOf(this.scoresOf(expansion).entries, entry) >= 0
        )),
      );
    }

    /** {entries, scores, expansions}: what a term gives, and by which expansion where that is not its first. */
    best(term) {
      const key = JSON.stringify(term);
      if (this.bests.has(key)) return this.bests.get(key);
      const first = this.scoresOf(term.expansions[0]);
      let best = { ...first, expansions: null };
      if (term.expansions.length > 1) {
        const scores = new Map(first.entries.map((entry, n) => [entry, first.scores[n]]));
        const expansions = new Map();
        for (const expansion of term.expansions.slice(1)) {
          const more = this.scoresOf(expansion);
          more.entries.forEach((entry, n) => {
            if (scores.has(entry) && more.scores[n] <= scores.get(entry)) return;
            scores.set(entry, more.scores[n]);
            expansions.set(entry, expansion);
          });
        }
        const entries = [...scores.keys()].sort((one, other) => one - other);
        best = { entries, scores: entries.map((entry) => scores.get(entry)), expansions };
      }
      this.bests.set(key, best);
      return best;
    }

    scoresOf(expansion) {
      const key = JSON.stringify(expansion);
      if (!this.bests.has(key)) {
        this.bests.set(key, expansion.kind === "sister" ? this.sisters(expansion) : this.direct(expansion));
      }
      return this.bests.get(key);
    }

    direct(expansion) {
      const { entries, places, fields, counts, lengths } = this.occurrences(expansion.term);
      const rarity = idf(this.statistics.entries, this.df(expansion.term));
      const found = { entries: [], scores: [] };
      for (let n = 0; n < entries.length; n += 1) {
        let total = 0;
        for (let at = places[n]; at < places[n + 1]; at += 1) {
          const { weight } = this.fields[fields[at]];
          if (weight) total = total + this.share(rarity, fields[at], counts[at], lengths[at]);
        }
        if (total === 0) continue;
        found.entries.push(entries[n]);
        found.scores.push(expansion.weight * total);
      }
      return found;
    }

    /** What a term in one field of an entry gives. */
    share(rarity, field, count, length) {
      const { weight, b } = this.fields[field];
      return weight * rarity * saturation(count, length, this.means[field], b);
    }

    /** The field that gives most of an expansion's score (the first of equals). */
    topField(expansion, entry) {
      if (expansion.kind === "sister") return this.identity;
      const { entries, places, fields, counts, lengths } = this.occurrences(expansion.term);
      const rarity = idf(this.statistics.entries, this.df(expansion.term));
      const n = placeOf(entries, entry);
      let most = -1;
      let top = -1;
      for (let at = places[n]; at < places[n + 1]; at += 1) {
        const scored = this.fields[fields[at]].weight;
        const part = scored ? this.share(rarity, fields[at], counts[at], lengths[at]) : -1;
        if (part > most) [most, top] = [part, fields[at]];
      }
      return top;
    }

    sisters(expansion) {
      const direct = new Set(this.withIdentity(expansion.direct));
      const rarity = idf(this.statistics.entries, this.df(expansion.direct));
      const score = (expansion.weight * this.fields[this.identity].weight * rarity) / (1 + K1);
      const entries = this.withIdentity(expansion.term).filter((entry) => !direct.has(entry));
      return { entries, scores: entries.map(() => score) };
    }

    withIdentity(term) {
      const { entries, places, fields } = this.occurrences(term);
      return entries.filter((_, n) => fields.slice(places[n], places[n + 1]).includes(this.identity));
    }
  }

  /** How many bits of a whole number are set. */
  function bits(number) {
    let count = 0;
    for (let left = number >>> 0; left > 0; left = (left & (left - 1)) >>> 0) count += 1;
    return count;
  }

  function intersection(lists) {
    const sets = lists.slice(1).map((list) => new Set(list));
    return lists[0].filter((entry) => sets.every((set) => set.has(entry)));
  }

  /** Entries that match the group: all terms when required; else one that is no part, or all parts if they suffice. */
  function matching(group, hits) {
    if (hits.length === 0) return [];
    if (group.required) return intersection(hits);
    const parts = hits.filter((_, at) => group.terms[at].part);
    const found = hits.filter((_, at) => !group.terms[at].part);
    if (parts.length > 0 && group.partsSuffice) found.push(intersection(parts));
    return found.flat();
  }

  Object.assign(Benchlore, { Ranker, round12 });
})((globalThis.Benchlore ??= {}));
