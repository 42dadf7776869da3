"use strict";
// The index of the site in the browser: asks for the parts that a query touches, and answers what the search asks.
(function (Benchlore) {
  const { varints, stringsOf } = Benchlore.unpack;
  const CARD = [
    "slug", "title", "equipment", "class", "cause", "failure", "outcome", "stopped_because", "minutes", "cost",
    "holding", "date",
  ];

  /** Place of the chunk that an entry is in, from the first entry of each chunk. */
  function chunkOf(starts, entry) {
    let place = starts.length - 1;
    while (place > 0 && starts[place] > entry) place -= 1;
    return place;
  }

  /** The key of the part that holds the phrases which begin with a stem. */
  function phraseKey(stem) {
    const start = Benchlore.tokens.cut(stem, 2);
    return /^[a-z]*$/.test(start) ? start : "_";
  }

  class BrowserIndex {
    /** `manifest`: the payload of the part "search"; see index/browser_parts.py. */
    constructor(manifest) {
      this.manifest = manifest;
      this.parts = new Map();
      this.lacking = new Set();
      this.fields = manifest.fields.map(([name, weight, b]) => ({ name, weight, b }));
      this.plainMarks = new Set(manifest.plain_marks);
      this.terms = new Benchlore.TermShards(manifest.shards, this.fields, (name) => this.part(name));
      this.phrases = new Benchlore.Recogniser();
      this.phraseParts = new Set();
      this.labels = new Map();
      this.spellingParts = new Map();
      this.lengthParts = new Map();
      this.recogniser = { find: (words) => this.find(words) };
      this.statistics = this.readStatistics();
      this.readFacets();
    }

    /** The payload of a part; undefined, and noted as lacking, while it is not there. */
    part(name) {
      if (!this.parts.has(name)) this.lacking.add(name);
      return this.parts.get(name);
    }

    /** Fetches what was noted as lacking; whether there was anything. */
    async fetchLacking() {
      const names = [...this.lacking];
      this.lacking.clear();
      await Promise.all(names.map(async (name) => this.parts.set(name, await Benchlore.load(name, `data/${name}.js`))));
      return names.length > 0;
    }

    readStatistics() {
      const { fields, totals, having } = this.manifest.lengths;
      const spread = (values) => this.fields.map((_, number) => values[fields.indexOf(number)] ?? 0);
      return {
        entries: this.manifest.entries,
        totals: spread(totals),
        having: spread(having),
        length: (entry, field) => this.lengthOf(entry, fields.indexOf(field)),
      };
    }

    lengthOf(entry, row) {
      const { starts, names } = this.manifest.columns;
      const place = chunkOf(starts, entry);
      if (!this.lengthParts.has(place)) {
        const payload = this.part(`lengths-${names[place]}`);
        if (payload === undefined) return 1;
        this.lengthParts.set(place, varints(payload));
      }
      const size = (starts[place + 1] ?? this.manifest.entries) - starts[place];
      return this.lengthParts.get(place)[row * size + entry - starts[place]];
    }

    /** Makes the facets from their parts; without values until all of those are there. */
    readFacets() {
      const { columns, facets, entries } = this.manifest;
      const choices = this.part("choices");
      const chunks = columns.names.map((name) => this.part(`facets-${name}`));
      const ready = choices !== undefined && chunks.every((chunk) => chunk !== undefined);
      const value = ([key, label]) => ({ key, label, entries: new Set() });
      const listed = (number) => (ready ? choices[number].map(value) : []);
      this.facets = new Benchlore.FacetIndex(
        facets.map(([name, label, key], number) => ({ name, label, key, values: listed(number) })),
      );
      if (!ready) return;
      chunks.forEach((chunk, place) => {
        const numbers = varints(chunk)[Symbol.iterator]();
        const end = columns.starts[place + 1] ?? entries;
        for (const facet of this.facets.facets) {
          for (let entry = columns.starts[place]; entry < end; entry += 1) {
            for (let more = true; more; ) {
              const coded = numbers.next().value;
              more = coded % 2 === 1;
              if (coded > 0) facet.values[Math.floor(coded / 2) - 1].entries.add(entry);
            }
          }
        }
      });
      this.facetsReady = true;
    }

    /** The terms that folded words name, from the phrases whose first stem is among them. */
    find(words) {
      const stems = Benchlore.Recogniser.content(words).map(([stem]) => stem);
      for (const key of new Set(stems.map(phraseKey))) {
        if (this.phraseParts.has(key) || !this.manifest.phrases.includes(key)) continue;
        const payload = this.part(`phrases-${key}`);
        if (payload === undefined) continue;
        this.phraseParts.add(key);
        for (const [kind, id, label] of payload.terms) this.labels.set(`${kind}:${id}`, label);
        this.phrases.add(payload.phrases.map(([place, said]) => {
          const [kind, id] = payload.terms[place];
          return [kind, id, said.split(" ")];
        }));
      }
      return this.phrases.find(words);
    }

    has(term) {
      return this.occurrences(term).size > 0;
    }

    occurrences(term) {
      return this.terms.occurrences(term);
    }

    starts(start, limit) {
      return this.terms.starts(start, limit);
    }

    /** Map of the known words that begin with a letter to the number of entries that have them. */
    spellings(letter) {
      if (!this.spellingParts.has(letter)) {
        if (!this.manifest.spelling.includes(letter)) return new Map();
        const payload = this.part(`spelling-${letter}`);
        if (payload === undefined) return new Map();
        const counts = varints(payload.counts);
        this.spellingParts.set(letter, new Map(stringsOf(payload.words).map((word, at) => [word, counts[at]])));
      }
      return this.spellingParts.get(letter);
    }

    /** The label of a term of the vocabulary that a phrase led to. */
    label(kind, id) {
      return this.labels.get(`${kind}:${id}`) ?? id.replaceAll("-", " ");
    }

    /** What a hit shows of an entry: {slug, title, card}. */
    entry(number) {
      const { starts, names } = this.manifest.cards;
      const place = chunkOf(starts, number);
      const row = this.part(`cards-${names[place]}`)?.[number - starts[place]] ?? [];
      const card = Object.fromEntries(CARD.map((name, at) => [name, row[at] ?? null]));
      return { slug: card.slug, title: card.title, card };
    }
  }

  let opening = null;

  /** The index of this site; its manifest is fetched once, and anew after a failure. */
  function openIndex() {
    opening ??= Benchlore.load("search", "data/search.js").then(
      (manifest) => new BrowserIndex(manifest),
      (error) => {
        opening = null;
        throw error;
      },
    );
    return opening;
  }

  /** As Benchlore.search, fetching what it needs; rejects when a part cannot be read. */
  async function findEntries(query, filters = new Map(), limit = 20) {
    const index = await openIndex();
    for (;;) {
      if (!index.facetsReady) index.readFacets();
      const answer = Benchlore.search(index, query, filters, limit);
      const unfolded = Benchlore.foldMissed();
      if (unfolded) await Benchlore.script("scripts/fold_far.js");
      if (!(await index.fetchLacking()) && !unfolded) return answer;
    }
  }

  Object.assign(Benchlore, { BrowserIndex, findEntries, openIndex });
})((globalThis.Benchlore ??= {}));
