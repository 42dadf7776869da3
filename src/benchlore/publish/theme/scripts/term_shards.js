"use strict";
// The terms of the index with their entries, cut into parts by the alphabet: "terms-<name>" in index/browser_parts.py.
(function (Benchlore) {
  const { byCodePoint } = Benchlore.spelling;
  const { bytesOf, numbersOf, stringsOf } = Benchlore.unpack;
  const ONE_FIELD = new Map(Object.entries({
    "pair": "pairs", "board": "links", "boards-of": "links", "models-on": "links",
  }));

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

  function unpackShard({ terms, sizes, postings }) {
    const ends = [];
    sizes.reduce((end, size) => (ends.push(end + size), end + size), 0);
    return { terms: stringsOf(terms), sizes, ends, bytes: bytesOf(postings) };
  }

  class TermShards {
    /** `table`: the manifest's "shards"; `get(name)`: a part's payload, or undefined (and noted) while it lacks. */
    constructor(table, fields, get) {
      this.table = table;
      this.numbers = new Map(fields.map((field, number) => [field.name, number]));
      this.get = get;
      this.shards = new Map();
      this.found = new Map();
    }

    /** The shard at a place, or null while it is not there. */
    shard(place) {
      if (!this.shards.has(place)) {
        const payload = this.get(`terms-${this.table.names[place]}`);
        if (payload === undefined) return null;
        this.shards.set(place, unpackShard(payload));
      }
      return this.shards.get(place);
    }

    /** Map of entry number to [[field number, term frequency], ...]; empty when no entry has the term. */
    occurrences(term) {
      if (this.found.has(term)) return this.found.get(term);
      const place = lastUpTo(this.table.firsts, term);
      const shard = place < 0 ? null : this.shard(place);
      if (shard === null) return new Map();
      const at = lastUpTo(shard.terms, term);
      const known = at >= 0 && shard.terms[at] === term;
      const occurrences = known ? this.unpackPostings(term, shard, at) : new Map();
      this.found.set(term, occurrences);
      return occurrences;
    }

    unpackPostings(term, shard, at) {
      const numbers = numbersOf(shard.bytes.subarray(shard.ends[at] - shard.sizes[at], shard.ends[at]));
      const only = term.includes(":") ? this.numbers.get(ONE_FIELD.get(term.split(":")[0])) : undefined;
      const occurrences = new Map();
      let entry = 0;
      let next = 0;
      while (next < numbers.length) {
        entry += numbers[next];
        const coded = numbers[next + 1];
        next += 2;
        if (only !== undefined) {
          occurrences.set(entry, [[only, coded]]);
          continue;
        }
        const where = [];
        let mask = Math.floor(coded / 2);
        for (let field = 0; mask > 0; field += 1, mask = Math.floor(mask / 2)) {
          if (mask % 2 === 1) where.push([field, 1]);
        }
        if (coded % 2 === 1) for (const place of where) place[1] = numbers[next++];
        occurrences.set(entry, where);
      }
      return occurrences;
    }

    /** Where the first term stands that is not before `wanted`: {place, at}; null while the shard is not there. */
    seek(wanted) {
      const place = Math.max(0, lastUpTo(this.table.firsts, wanted));
      const shard = this.shard(place);
      if (shard === null) return null;
      const at = lastUpTo(shard.terms, wanted);
      return { place, at: at >= 0 && shard.terms[at] === wanted ? at : at + 1 };
    }

    /** The first `limit` terms that start so, by code point; without a colon in `start`, words alone. */
    starts(start, limit) {
      const found = [];
      const { firsts } = this.table;
      let where = firsts.length > 0 ? this.seek(start) : null;
      while (where !== null && found.length < limit) {
        const shard = this.shard(where.place);
        if (shard === null) return found;
        const term = where.at < shard.terms.length ? shard.terms[where.at] : firsts[where.place + 1];
        if (term === undefined || !term.startsWith(start)) return found;
        if (term.includes(":") && !start.includes(":")) {
          where = this.seek(`${term.slice(0, term.indexOf(":"))};`); // ";" follows ":": behind all of its kind
        } else if (where.at < shard.terms.length) {
          found.push(term);
          where.at += 1;
        } else {
          where = { place: where.place + 1, at: 0 };
        }
      }
      return found;
    }
  }

  Benchlore.TermShards = TermShards;
})((globalThis.Benchlore ??= {}));
