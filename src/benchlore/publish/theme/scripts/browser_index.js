"use strict";
// The index of the site in the browser: asks for the parts that a query touches, and answers what the search asks.
(function (Benchlore) {
  const { lastUpTo, namesOf, numbersOf, stringsOf, unpackTable } = Benchlore.unpack;
  const CARD = [
    "slug", "title", "equipment", "class", "cause", "failure", "outcome", "stopped_because", "minutes", "cost",
    "holding", "date",
  ];

  const FEW = 8; // directories of cards that are read at once, while the terms are on their way

  /** The last place in rising numbers that is not above `wanted`. */
  function placeOf(starts, wanted) {
    let low = 0;
    let high = starts.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (starts[middle] <= wanted) low = middle + 1;
      else high = middle;
    }
    return Math.max(0, low - 1);
  }

  class BrowserIndex {
    /** `manifest`: the payload of the part "search"; see index/browser_parts.py. */
    constructor(manifest) {
      this.manifest = manifest;
      this.parts = new Map();
      this.lacking = new Set();
      this.fields = manifest.fields.map(([name, weight, b]) => ({ name, weight, b }));
      this.statistics = { entries: manifest.entries, totals: manifest.totals, having: manifest.having };
      this.plainMarks = new Set(manifest.plain_marks);
      this.terms = new Benchlore.TermShards(manifest.terms, this.fields, (name) => this.part(name));
      this.facets = new Benchlore.FacetIndex(manifest.facets, manifest.entries, (name) => this.part(name));
      this.cards = { starts: numbersOf(manifest.cards.starts), names: namesOf(manifest.cards.names) };
      this.spellingNames = namesOf(manifest.spelling.names);
      this.phraseTable = unpackTable(manifest.phrases.firsts, manifest.phrases.names);
      this.unpacked = new Map();
      this.phrases = new Benchlore.Recogniser();
      this.phraseKeys = new Set();
      this.labels = new Map();
      this.recogniser = { find: (words) => this.find(words) };
    }

    /** The payload of a part; undefined, and noted as lacking, while it is not there. */
    part(name) {
      if (!this.parts.has(name)) this.lacking.add(name);
      return this.parts.get(name);
    }

    /** What `unpack` makes of a part, made once; undefined while the part is not there. */
    once(name, unpack) {
      if (!this.unpacked.has(name)) {
        const payload = this.part(name);
        if (payload === undefined) return undefined;
        this.unpacked.set(name, unpack(payload));
      }
      return this.unpacked.get(name);
    }

    /** Fetches what was noted as lacking; whether there was anything. */
    async fetchLacking() {
      const names = [...this.lacking];
      this.lacking.clear();
      await Promise.all(names.map(async (name) => this.parts.set(name, await Benchlore.load(name, `data/${name}.js`))));
      return names.length > 0;
    }

    /** The terms that folded words name: each phrase is filed under one of its tokens, and all of them must be said. */
    find(words) {
      for (const key of new Set(Benchlore.Recogniser.content(words).map(([token]) => token))) {
        if (this.phraseKeys.has(key) || this.phraseTable.firsts.length === 0) continue;
        const place = lastUpTo(this.phraseTable.firsts, key);
        const read = ([terms, table]) => ({ terms, table: new Map(table.map(([first, ...rows]) => [first, rows])) });
        const part = place < 0 ? null : this.once(`phrases-${this.phraseTable.names[place]}`, read);
        if (part === undefined) continue;
        this.phraseKeys.add(key);
        this.phrases.add((part?.table.get(key) ?? []).map(([at, said]) => {
          const [kind, id, label] = part.terms[at];
          const plain = id.replaceAll("-", " ");
          this.labels.set(`${kind}:${id}`, label || plain.charAt(0).toUpperCase() + plain.slice(1));
          return [kind, id, said.split(" ")];
        }));
      }
      return this.phrases.find(words);
    }

    has(term) {
      return this.occurrences(term).entries.length > 0;
    }

    /** Whether no entry has the term; false as well while that cannot be told. */
    hasNot(term) {
      return this.terms.isKnown(term) && !this.has(term);
    }

    occurrences(term) {
      return this.terms.occurrences(term);
    }

    starts(start, limit) {
      return this.terms.starts(start, limit);
    }

    /** Map of the known words that begin with a letter to the number of entries that have them. */
    spelled(letter) {
      const place = this.manifest.spelling.letters.indexOf(letter);
      if (place < 0) return new Map();
      return this.once(`spelling-${this.spellingNames[place]}`, ([words, counts]) => {
        const counted = numbersOf(counts);
        return new Map(stringsOf(words).map((word, at) => [word, counted[at]]));
      }) ?? new Map();
    }

    spellings(letter) {
      return this.spelled(letter).keys();
    }

    /** How many entries have the unstemmed word; -1 when it is not known. */
    count(word) {
      return this.spelled(word[0]).get(word) ?? -1;
    }

    /** The label of a term of the vocabulary that a phrase led to. */
    label(kind, id) {
      return this.labels.get(`${kind}:${id}`) ?? id.replaceAll("-", " ");
    }

    /** Asks for what every answer needs, where it is not much. */
    expectHits() {
      if (this.cards.names.length <= FEW) this.cards.names.forEach((name) => this.part(`cards-${name}`));
    }

    /** Days from each entry's date to the newest one; undefined while they are not there. */
    ages() {
      return this.once(`dates-${this.manifest.dates}`, (coded) => numbersOf(coded));
    }

    /** What a hit shows of an entry: {slug, title, card}; null while it is not there. */
    entry(number) {
      const place = placeOf(this.cards.starts, number);
      const directory = this.once(`cards-${this.cards.names[place]}`, ([starts, names]) => (
        { starts: numbersOf(starts), names: namesOf(names) }
      ));
      if (directory === undefined) return null;
      const inside = number - this.cards.starts[place];
      const chunk = placeOf(directory.starts, inside);
      const rows = this.part(`card-${directory.names[chunk]}`);
      if (rows === undefined) return null;
      const row = rows[inside - directory.starts[chunk]];
      const card = Object.fromEntries(CARD.map((name, at) => [name, row[at] ?? null]));
      return { slug: card.slug, title: card.title, card };
    }
  }

  let opening = null;

  /** The index of this site; its manifest is fetched once, and anew after a failure. */
  function openIndex(address = "data/search.js") {
    opening ??= Benchlore.load("search", address).then(
      (manifest) => new BrowserIndex(manifest),
      (error) => {
        opening = null;
        throw error;
      },
    );
    return opening;
  }

  /** The index of a site that was published anew since its manifest was read; null when it was not. */
  async function reopenIndex(stale) {
    const before = opening;
    opening = null;
    Benchlore.forget("search");
    try {
      const index = await openIndex(`data/search.js?${Date.now()}`);
      if (JSON.stringify(index.manifest) !== JSON.stringify(stale.manifest)) return index;
    } catch {
      // It cannot be read either: what could not be read first is what is told.
    }
    opening = before;
    return null;
  }

  /**
   * Runs `step(index, afresh)` until it lacks nothing more, fetching what it lacks; rejects when a part cannot be read.
   * `afresh`: what an earlier step found is of no use.
   */
  async function complete(step) {
    let index = await openIndex();
    let afresh = true;
    for (let anew = false; ; ) {
      const answer = step(index, afresh);
      const unfolded = Benchlore.foldMissed();
      if (unfolded) await Benchlore.script("scripts/fold_far.js");
      afresh = unfolded;
      try {
        if (!(await index.fetchLacking()) && !unfolded) return answer;
      } catch (error) {
        const other = anew ? null : await reopenIndex(index);
        if (other === null) throw error;
        [index, anew, afresh] = [other, true, true];
      }
    }
  }

  /** The answer to a query (see Benchlore.Search), without facets. */
  async function findEntries(query, filters = new Map(), limit = 20, sort = "relevance") {
    let search = null;
    return complete((index, afresh) => {
      if (afresh) search = new Benchlore.Search(index, query, filters, limit, sort);
      return search.step();
    });
  }

  /** The facets of an answer, with counts; they are read after the hits, since they are many. */
  function findFacets(answer) {
    return complete((index) => index.facets.count(answer.matching, answer.filters));
  }

  Object.assign(Benchlore, { BrowserIndex, findEntries, findFacets, openIndex });
})((globalThis.Benchlore ??= {}));
