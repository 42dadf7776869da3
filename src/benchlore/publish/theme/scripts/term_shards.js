"use strict";
// The terms of the index with their entries, in shards found through directories; see index/browser_parts.py.
(function (Benchlore) {
  const { byCodePoint } = Benchlore.spelling;
  const { namesOf, numbersOf, stringsOf } = Benchlore.unpack;
  const NOTHING = { entries: [], places: [0], fields: [], counts: [], lengths: [] };

  /** The last place in a sorted list whose string is not behind `wanted`; -1 when all are. */
  function lastUpTo(strings, wanted) {
    let low = 0;
    let high = strings.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (byCodePoint(strings[middle], wanted) <= 0) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  }

  /** A list in parts: first strings, and the names of what begins there. */
  function unpackTable(firsts, names) {
    return { firsts: stringsOf(firsts), names: namesOf(names) };
  }

  function unpackShard([terms, sizes, patterns, postings]) {
    const starts = [0];
    for (const size of numbersOf(sizes)) starts.push(starts.at(-1) + size);
    const numbers = numbersOf(patterns);
    const unpacked = [];
    for (let at = 0; at < numbers.length; ) {
      const [count, repeated] = [numbers[at] >> 1, numbers[at] % 2 === 1];
      let field = 0;
      const fields = numbers.slice(at + 1, at + 1 + count).map((step) => (field += step));
      unpacked.push({ fields, repeated });
      at += 1 + count;
    }
    return { terms: stringsOf(terms), starts, patterns: unpacked, postings };
  }

  /** The length that a code stands for. */
  function lengthOf(code) {
    return code < 8 ? code : (4 + (code % 4)) * 2 ** (Math.floor(code / 4) - 1);
  }

  class TermShards {
    /** `table`: the manifest's "terms"; `get(name)`: a part's payload, or undefined (and noted) while it lacks. */
    constructor(table, fields, get) {
      this.root = unpackTable(table.firsts, table.names);
      this.withLength = fields.map((field) => field.b !== 0);
      this.get = get;
      this.parts = new Map();
      this.found = new Map();
    }

    unpacked(name, unpack) {
      if (!this.parts.has(name)) {
        const payload = this.get(name);
        if (payload === undefined) return null;
        this.parts.set(name, unpack(payload));
      }
      return this.parts.get(name);
    }

    directory(place) {
      return this.unpacked(`terms-${this.root.names[place]}`, ([firsts, names]) => unpackTable(firsts, names));
    }

    shard(directory, place) {
      return this.unpacked(`shard-${directory.names[place]}`, unpackShard);
    }

    /** The shard in which a term would stand: {inRoot, inDirectory, directory, shard}; null while it is not there. */
    locate(term) {
      if (this.root.firsts.length === 0) return null;
      const inRoot = Math.max(0, lastUpTo(this.root.firsts, term));
      const directory = this.directory(inRoot);
      if (directory === null) return null;
      const inDirectory = Math.max(0, lastUpTo(directory.firsts, term));
      const shard = this.shard(directory, inDirectory);
      return shard === null ? null : { inRoot, inDirectory, directory, shard };
    }

    /**
     * Where the entries have a term: `entries` in rising order, and from places[n] to places[n + 1] what the n-th has,
     * by `fields`, `counts` and `lengths`.
     */
    occurrences(term) {
      if (this.found.has(term)) return this.found.get(term);
      const where = this.locate(term);
      if (where === null) return NOTHING;
      const at = lastUpTo(where.shard.terms, term);
      const known = at >= 0 && where.shard.terms[at] === term;
      const occurrences = known ? this.unpackPostings(where.shard, at) : NOTHING;
      this.found.set(term, occurrences);
      return occurrences;
    }

    /** Whether the shard in which the term would stand is there. */
    isKnown(term) {
      return this.root.firsts.length === 0 || this.locate(term) !== null;
    }

    unpackPostings({ starts, patterns, postings }, at) {
      const numbers = numbersOf(postings, starts[at], starts[at + 1]);
      const count = numbers[0];
      const found = { entries: new Array(count), places: new Array(count + 1), fields: [], counts: [], lengths: [] };
      let entry = 0;
      let next = 1 + 2 * count;
      for (let n = 0; n < count; n += 1) {
        entry += numbers[1 + n];
        found.entries[n] = entry;
        found.places[n] = found.fields.length;
        const { fields, repeated } = patterns[numbers[1 + count + n]];
        for (const field of fields) {
          found.fields.push(field);
          found.counts.push(repeated ? numbers[next++] : 1);
        }
      }
      found.places[count] = found.fields.length;
      for (const field of found.fields) found.lengths.push(this.withLength[field] ? lengthOf(numbers[next++]) : 0);
      return found;
    }

    /** The first `limit` terms that start so, by code point; without a colon in `start`, words alone. */
    starts(start, limit) {
      const found = [];
      let where = this.locate(start);
      let at = where === null ? 0 : lastUpTo(where.shard.terms, start);
      if (where !== null && where.shard.terms[at] !== start) at += 1;
      while (where !== null && found.length < limit) {
        if (at >= where.shard.terms.length) {
          where = this.following(where, start);
          at = 0;
          continue;
        }
        const term = where.shard.terms[at];
        if (!term.startsWith(start)) return found;
        if (term.includes(":") && !start.includes(":")) {
          const behind = `${term.slice(0, term.indexOf(":"))};`; // ";" follows ":": behind all of its kind
          where = this.locate(behind);
          if (where !== null) at = lastUpTo(where.shard.terms, behind) + 1;
        } else {
          found.push(term);
          at += 1;
        }
      }
      return found;
    }

    /** The shard behind another, when its terms may start so; null when there is none, or while it is not there. */
    following({ inRoot, inDirectory, directory }, start) {
      if (inDirectory + 1 < directory.firsts.length) {
        if (!directory.firsts[inDirectory + 1].startsWith(start)) return null;
        const shard = this.shard(directory, inDirectory + 1);
        return shard === null ? null : { inRoot, inDirectory: inDirectory + 1, directory, shard };
      }
      if (inRoot + 1 >= this.root.firsts.length || !this.root.firsts[inRoot + 1].startsWith(start)) return null;
      const next = this.directory(inRoot + 1);
      const shard = next === null ? null : this.shard(next, 0);
      return shard === null ? null : { inRoot: inRoot + 1, inDirectory: 0, directory: next, shard };
    }
  }

  Object.assign(Benchlore, { TermShards });
  Benchlore.unpack.unpackTable = unpackTable;
  Benchlore.unpack.lastUpTo = lastUpTo;
})((globalThis.Benchlore ??= {}));
