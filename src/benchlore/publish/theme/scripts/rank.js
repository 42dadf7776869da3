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

  class Ranker {
    /**
     * `fields`: [{name, weight, b}]; `statistics`: {entries, totals, having, length(entry, field)};
     * `occurrences(term)`: Map of entry number to [[field number, term frequency], ...], in rising order.
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
      let count = 0;
      for (const where of this.occurrences(term).values()) {
        if (where.some(([f]) => this.fields[f].weight)) count += 1;
      }
      return count;
    }

    /** Entries that match any group, and every required one, best first: {entry, score, matched, partly}. */
    rank(groups, allowed = null) {
      const sums = new Map();
      const matched = new Map();
      const touched = new Map();
      const note = (map, entry, number) => {
        if (!map.has(entry)) map.set(entry, new Set());
        map.get(entry).add(number);
      };
      groups.forEach((group, number) => {
        const hits = group.terms.map((term) => {
          const best = this.best(term);
          for (const [entry, { score }] of best) {
            sums.set(entry, (sums.get(entry) ?? 0) + term.weight * score);
            note(touched, entry, number);
          }
          return new Set(best.keys());
        });
        for (const entry of matching(group, hits)) note(matched, entry, number);
      });
      const required = groups.map((group, number) => (group.required ? number : -1)).filter((number) => number >= 0);
      const scored = [];
      for (const [entry, total] of sums) {
        const full = matched.get(entry) ?? new Set();
        if (!required.every((number) => full.has(number)) || (allowed !== null && !allowed.has(entry))) continue;
        const partly = new Set([...touched.get(entry)].filter((number) => !full.has(number)));
        const share = (2 * full.size + partly.size) / (2 * groups.length);
        scored.push({ entry, score: round12(total * share), matched: full, partly });
      }
      return scored.sort((one, other) => other.score - one.score || one.entry - other.entry);
    }

    /** Every term of every group that the entry has, in the order of the query, with the field that gave most. */
    evidence(groups, entry) {
      const found = [];
      groups.forEach((group, number) => {
        for (const term of group.terms) {
          const best = this.best(term).get(entry);
          if (best) {
            found.push({
              group: number, term, expansion: best.expansion, field: best.field, score: term.weight * best.score,
            });
          }
        }
      });
      return found;
    }

    /** Whether the entry is found through a board that it shares with a marking of the group, not by that itself. */
    isSister(group, entry) {
      return group.terms.some((term) =>
        term.expansions.some((expansion) => expansion.kind === "sister" && this.sisters(expansion).has(entry)),
      );
    }

    best(term) {
      const key = JSON.stringify(term);
      if (this.bests.has(key)) return this.bests.get(key);
      const best = new Map();
      this.bests.set(key, best);
      for (const expansion of term.expansions) {
        const scores = expansion.kind === "sister" ? this.sisters(expansion) : this.direct(expansion);
        for (const [entry, { score, field }] of scores) {
          if (!best.has(entry) || score > best.get(entry).score) best.set(entry, { score, expansion, field });
        }
      }
      return best;
    }

    direct(expansion) {
      const rarity = idf(this.statistics.entries, this.df(expansion.term));
      const scores = new Map();
      for (const [entry, where] of this.occurrences(expansion.term)) {
        let total = 0;
        let most = -1;
        let top = -1;
        for (const [number, tf] of where) {
          const field = this.fields[number];
          if (!field.weight) continue;
          const length = field.b ? this.statistics.length(entry, number) : 0;
          const part = field.weight * rarity * saturation(tf, length, this.means[number], field.b);
          total = total + part;
          if (part > most) {
            most = part;
            top = number;
          }
        }
        if (top >= 0) scores.set(entry, { score: expansion.weight * total, field: top });
      }
      return scores;
    }

    sisters(expansion) {
      const direct = new Set(this.withIdentity(expansion.direct));
      const rarity = idf(this.statistics.entries, this.df(expansion.direct));
      const score = (expansion.weight * this.fields[this.identity].weight * rarity) / (1 + K1);
      const scores = new Map();
      for (const entry of this.withIdentity(expansion.term)) {
        if (!direct.has(entry)) scores.set(entry, { score, field: this.identity });
      }
      return scores;
    }

    withIdentity(term) {
      const found = [];
      for (const [entry, where] of this.occurrences(term)) {
        if (where.some(([field]) => field === this.identity)) found.push(entry);
      }
      return found;
    }
  }

  function intersection(sets) {
    return new Set([...sets[0]].filter((entry) => sets.every((set) => set.has(entry))));
  }

  /** Entries that match the group: all terms when required; else one that is no part, or all parts if they suffice. */
  function matching(group, hits) {
    if (hits.length === 0) return new Set();
    if (group.required) return intersection(hits);
    const found = new Set();
    const parts = [];
    group.terms.forEach((term, at) => {
      if (term.part) parts.push(hits[at]);
      else for (const entry of hits[at]) found.add(entry);
    });
    if (parts.length > 0 && group.partsSuffice) for (const entry of intersection(parts)) found.add(entry);
    return found;
  }

  Benchlore.Ranker = Ranker;
})((globalThis.Benchlore ??= {}));
