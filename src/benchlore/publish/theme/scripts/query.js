"use strict";
// What the words, phrases, markings and values of a query stand for; the twin of index/query.py, which says how.
(function (Benchlore) {
  const { stem } = Benchlore;
  const T = Benchlore.tokens;
  const { longestQuery, mostGroups, mostStarts, inPhrase, start: START } = Benchlore.tables;
  const BLANK = " \\t\\r\\n\\u00a0";
  const SPLIT = new RegExp(`(^|[${BLANK}])([A-Za-z][A-Za-z-]*):("[^"]*"?|[^${BLANK}"]+)|"([^"]*)"?`, "g");
  const ENDS = new RegExp(`^[${BLANK}]+|[${BLANK}]+$`, "g");
  const QUOTES = /[\u201c\u201d\u201e\u201f\u00ab\u00bb]/g;
  const DENYING = new Set([...Benchlore.tables.negators, ...Benchlore.tables.not_words]);
  const STOP_STEMS = new Set([...T.STOP_WORDS].map(stem));

  const strip = (text) => text.replace(ENDS, "");
  const expansion = (term, weight = 1, kind = "exact", direct = "") => ({ term, weight, kind, direct });
  const queryTerm = (kind, text, expansions, weight = 1, part = false) => ({ kind, text, expansions, weight, part });
  const exact = (kind, term, weight) => queryTerm(kind, term, [expansion(term)], weight);
  const word = (folded, expansions, weight, part) => queryTerm("word", folded, expansions, weight, part);
  const group = (kind, text, terms, more) => ({ kind, text, terms, required: false, partsSuffice: false, ...more });

  /** The values without those that say the same as an earlier one, by what `told` takes of them. */
  function distinct(values, told = (value) => value) {
    const first = new Map();
    for (const value of values) {
      const said = JSON.stringify(told(value));
      if (!first.has(said)) first.set(said, value);
    }
    return [...first.values()];
  }

  /** The stretches of a query: {kind: "filter", "phrase" or "plain", text, name}. */
  function split(whole, facets) {
    const query = T.cut(whole, longestQuery).replace(QUOTES, '"');
    const pieces = [];
    let plain = 0;
    for (const match of query.matchAll(SPLIT)) {
      const name = (match[2] ?? "").toLowerCase();
      if (name && !facets.includes(name)) continue;
      if (match.index > plain) pieces.push({ kind: "plain", text: query.slice(plain, match.index) });
      if (name) pieces.push({ kind: "filter", text: match[3].replace(/^"+|"+$/g, ""), name });
      else pieces.push({ kind: "phrase", text: match[4] });
      plain = match.index + match[0].length;
    }
    pieces.push({ kind: "plain", text: query.slice(plain) });
    return pieces.filter((piece) => strip(piece.text) !== "");
  }

  /** The query without its facet filters, for when they are kept elsewhere. */
  function withoutFilters(query, facets) {
    const kept = query.replace(QUOTES, '"').replace(SPLIT, (stretch, blank, name) => (
      name && facets.includes(name.toLowerCase()) ? " " : stretch
    ));
    return kept.replace(/\s+/g, " ").trim();
  }

  function kindOf(term) {
    const head = term.includes(":") ? term.slice(0, term.indexOf(":")) : "word";
    return ["word", "mark", "value", "pair", "not"].includes(head) ? head : "term";
  }

  function phraseGroups(text) {
    const items = T.itemsOf(T.analyse(text, null));
    const phrase = (terms) => group("phrase", strip(text), terms, { required: true });
    if (items.length < 2) return items.map((item) => phrase([exact(kindOf(item), item)]));
    const terms = items.filter((item) => !STOP_STEMS.has(item)).map((item) => exact(kindOf(item), item, inPhrase));
    terms.push(...T.pairsOf(items).map((pair) => exact("pair", pair)));
    return [phrase(distinct(terms))];
  }

  /** Terms of the index that start so, without the term itself, as weaker expansions. */
  function withStart(lookup, term) {
    const found = lookup.starts(term, mostStarts + 1).filter((other) => other !== term);
    return found.slice(0, mostStarts).map((other) => expansion(other, START, "start"));
  }

  /** Makes groups of one stretch of plain text. */
  class PlainText {
    constructor(text, recogniser, lookup, sisters) {
      this.analysis = T.analyse(text, recogniser);
      this.words = this.analysis.words;
      this.inside = T.places(this.analysis);
      this.lone = T.loneValues(this.analysis, this.inside);
      this.lookup = lookup;
      this.sisters = sisters;
      this.taken = this.words.map(() => false);
      this.found = [];
    }

    groups() {
      this.exactMarkings();
      this.values();
      this.recognised();
      this.starts();
      this.plainWords();
      return this.found.sort((one, other) => one.start - other.start).map((entry) => entry.group);
    }

    slice(first, after) {
      return this.analysis.text.slice(this.words[first].start, this.words[after - 1].end);
    }

    joined(first, after) {
      return this.words.slice(first, after).map((word) => word.text).join("");
    }

    add(start, members, made) {
      for (const index of members) this.taken[index] = true;
      this.found.push({ start, group: made });
    }

    take(first, after, made) {
      const members = this.words.map((_, index) => index).slice(first, after);
      this.add(this.words[first].start, members, made);
    }

    exactMarkings() {
      let index = 0;
      while (index < this.words.length) {
        const after = index + this.markingAt(index);
        if (after > index) {
          const term = `mark:${this.joined(index, after)}`;
          const sisters = Benchlore.sistersOf(this.lookup, term);
          if (sisters) this.sisters.push(sisters.named);
          const expansions = [expansion(term), ...withStart(this.lookup, term), ...(sisters?.expansions ?? [])];
          this.take(index, after, group("mark", this.slice(index, after), [queryTerm("mark", term, expansions)]));
        }
        index = Math.max(after, index + 1);
      }
    }

    /** How many words from `index` on are together a marking that the index holds. */
    markingAt(index) {
      for (let length = Math.min(4, this.words.length - index); length > 0; length -= 1) {
        const after = index + length;
        const joined = this.joined(index, after);
        const long = T.lengthOf(joined);
        if (long < 2 || long > T.LONGEST_MARK) continue;
        if (!T.hasDigit(joined) && !this.lookup.plainMarks.has(joined)) continue;
        if (!this.words.slice(index + 1, after).every((_, at) => this.near(index + 1 + at))) continue;
        if (this.inside.slice(index, after).some((place) => place >= 0)) continue;
        if (this.lookup.has(`mark:${joined}`)) return length;
      }
      return 0;
    }

    near(index) {
      const gap = this.analysis.text.slice(this.words[index - 1].end, this.words[index].start);
      return T.lengthOf(gap) <= 2 && !gap.includes("\n");
    }

    values() {
      this.analysis.values.forEach((value, number) => {
        const members = this.inside.flatMap((place, index) => (place === number ? [index] : []));
        if (members.some((index) => this.taken[index])) return;
        const expansions = [expansion(value.term)];
        const lone = this.lone.get(number);
        if (lone && T.isPartNumber(lone.text)) expansions.push(expansion(`mark:${lone.text}`));
        const text = this.analysis.text.slice(value.start, value.end);
        this.add(value.start, members, group("value", text, [queryTerm("value", value.term, expansions)]));
      });
    }

    within(range) {
      return this.words.flatMap((word, index) => (T.overlap(word, range) ? [index] : []));
    }

    recognised() {
      const free = this.analysis.finds.filter((f) => !this.within(f).some((index) => this.taken[index]));
      const longer = (g, f) => g.start <= f.start && f.end <= g.end && g.end - g.start > f.end - f.start;
      const main = free.filter((f) => !free.some((g) => longer(g, f)));
      main.sort((one, other) => one.start - other.start);
      const clusters = [];
      let end = -1;
      for (const find of main) {
        if (clusters.length > 0 && find.start < end) clusters.at(-1).push(find);
        else clusters.push([find]);
        end = Math.max(end, find.end);
      }
      clusters.forEach((finds) => this.cluster(finds));
    }

    cluster(finds) {
      const start = Math.min(...finds.map((f) => f.start));
      const end = Math.max(...finds.map((f) => f.end));
      const members = this.within({ start, end });
      const terms = finds.map((f) => exact(f.negated ? "not" : "term", T.findTerm(f)));
      let parts = [];
      const denies = members.some((index) => DENYING.has(stem(this.words[index].text)));
      if (!denies && !finds.some((f) => f.negated)) {
        const kept = members.filter((index) => !T.STOP_WORDS.has(this.words[index].text) && this.inside[index] < 0);
        const said = kept.map((index) => this.words[index].text);
        parts = distinct(said.map((folded) => word(folded, [expansion(stem(folded))], inPhrase, true)));
      }
      const partsSuffice = parts.length > 1 || (parts.length === 1 && members.length === 1);
      const text = this.analysis.text.slice(start, end);
      this.add(start, members, group("term", text, distinct([...terms, ...parts]), { partsSuffice }));
    }

    starts() {
      this.words.forEach(({ text, end }, index) => {
        const starred = this.analysis.text[end] === "*" && T.lengthOf(text) >= 2;
        if (!starred || this.taken[index]) return;
        const found = [...this.lookup.starts(`mark:${text}`, mostStarts), ...this.lookup.starts(text, mostStarts)];
        const starts = found.length > 0 ? found : [text];
        const expansions = starts.map((term) => expansion(term, START, "start"));
        this.take(index, index + 1, group("word", `${text}*`, [word(text, expansions)]));
      });
      for (const [first, after] of T.compounds(this.analysis, this.inside)) {
        const term = `mark:${this.joined(first, after)}`;
        const free = !this.taken.slice(first, after).some(Boolean);
        if (free && this.lookup.starts(term, 1).length > 0) this.takeStart(first, after, term);
      }
      this.words.forEach(({ text }, index) => {
        if (this.taken[index] || this.inside[index] >= 0 || !T.isMark(text)) return;
        const enough = T.isPartNumber(text) ? 2 : 3;
        const term = `mark:${text}`;
        if (T.lengthOf(text) >= enough) this.takeStart(index, index + 1, term);
        else this.take(index, index + 1, group("mark", text, [exact("mark", term)]));
      });
    }

    takeStart(first, after, term) {
      const expansions = [expansion(term), ...withStart(this.lookup, term)];
      this.take(first, after, group("mark", this.slice(first, after), [queryTerm("mark", term, expansions)]));
    }

    plainWords() {
      this.words.forEach(({ text }, index) => {
        if (this.taken[index] || this.inside[index] >= 0 || T.STOP_WORDS.has(text)) return;
        const stemmed = stem(text);
        const expansions = [expansion(stemmed)];
        if (T.lengthOf(text) >= 3 && !this.lookup.has(stemmed)) {
          const marks = this.lookup.starts(`mark:${text}`, mostStarts);
          expansions.push(...marks.map((term) => expansion(term, START, "start")));
        }
        this.take(index, index + 1, group("word", this.slice(index, index + 1), [word(text, expansions)]));
      });
    }
  }

  /**
   * Reads any string: {groups, filters (Map), corrections, sisters}. `lookup` has plainMarks (Set), has(term),
   * starts(start, limit) and spellings(letter) (Map of word to count).
   */
  function readQuery(query, { recogniser, lookup, facets }) {
    const reading = { groups: [], filters: new Map(), corrections: [], sisters: [] };
    for (const piece of split(query, facets)) {
      if (piece.kind === "filter") {
        reading.filters.set(piece.name, [...(reading.filters.get(piece.name) ?? []), piece.text]);
      } else if (piece.kind === "phrase") {
        reading.groups.push(...phraseGroups(piece.text));
      } else {
        const { text, corrections } = Benchlore.spelling.correct(piece.text, lookup);
        reading.corrections.push(...corrections);
        reading.groups.push(...new PlainText(text, recogniser, lookup, reading.sisters).groups());
      }
    }
    const found = (made) => made.terms.map((term) => term.expansions);
    reading.groups = distinct(reading.groups, found).slice(0, mostGroups);
    return reading;
  }

  Object.assign(Benchlore, { readQuery });
  Benchlore.query = { expansion, split, withoutFilters };
})((globalThis.Benchlore ??= {}));
