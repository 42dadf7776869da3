"use strict";
// Groups of plain query text: markings, values, phrases, starts, words; the twin of index/plain_text.py.
(function (Benchlore) {
  const { stem } = Benchlore;
  const T = Benchlore.tokens;
  const { distinct, exact, expansion, group, queryTerm, word } = Benchlore.query;
  const { mostStarts, inPhrase, start: START, near: { widest } } = Benchlore.tables;
  const DENYING = new Set([...Benchlore.tables.negators, ...Benchlore.tables.not_words]);
  const STATES = new Map(Object.entries(Benchlore.tables.states));
  const TOLERANCE = new RegExp(`^(?:${Benchlore.tables.tolerance})`);
  // As DECIMAL in Python, with what stands before it as the first group: older browsers cannot look behind.
  const DECIMAL = /(^|[ \t\r\n\u00a0(])([0-9]{1,6})[.,]([0-9]{1,4})(?![^ \t\r\n\u00a0),;:?!])/g;

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
      this.bareDecimals();
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
        if (this.taken.slice(index, after).some(Boolean)) continue;
        if (this.lookup.has(`mark:${joined}`)) return length;
      }
      return 0;
    }

    near(index) {
      const gap = this.analysis.text.slice(this.words[index - 1].end, this.words[index].start);
      return T.lengthOf(gap) <= 2 && !gap.includes("\n");
    }

    bareDecimals() {
      for (const match of this.analysis.text.matchAll(DECIMAL)) {
        const start = match.index + match[1].length;
        const end = match.index + match[0].length;
        const members = this.within({ start, end });
        if (members.length === 0 || members.some((index) => this.inside[index] >= 0)) continue;
        const term = Benchlore.bareValue(match[2], match[3], this.lookup);
        if (term === null) continue;
        const text = this.analysis.text.slice(start, end);
        this.take(members[0], members.at(-1) + 1, group("value", text, [exact("value", term)]));
      }
    }

    values() {
      const { text } = this.analysis;
      let saidUntil = 0;
      this.analysis.values.forEach((value, number) => {
        const members = this.inside.flatMap((place, index) => (place === number ? [index] : []));
        if (value.start < saidUntil) {
          for (const index of members) this.taken[index] = true; // the figure of a tolerance
          return;
        }
        if (members.some((index) => this.taken[index])) return;
        const tolerance = TOLERANCE.exec(text.slice(value.end));
        saidUntil = tolerance === null ? 0 : value.end + tolerance[0].length;
        const window = tolerance === null ? undefined : Math.min(widest, Number(tolerance[1]));
        const expansions = [expansion(value.term)];
        const lone = this.lone.get(number);
        if (lone && T.isPartNumber(lone.text)) expansions.push(expansion(`mark:${lone.text}`));
        expansions.push(...Benchlore.nearValues(value.term, this.lookup, window));
        const written = text.slice(value.start, value.end);
        this.add(value.start, members, group("value", written, [queryTerm("value", value.term, expansions)]));
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
      const denied = members.findIndex((index) => DENYING.has(stem(this.words[index].text)));
      const negated = finds.some((f) => f.negated);
      if (members.length <= 2 && denied < 0 && !negated) {
        const states = members.map((index) => STATES.get(this.words[index].text)).filter(Boolean);
        terms.push(...[...new Set(states)].map((state) => exact("state", `state:${state}`)));
      }
      let parts = [];
      if (!negated) {
        const said = denied < 0 ? members : members.slice(0, denied);
        const kept = said.filter((index) => !T.STOP_WORDS.has(this.words[index].text) && this.inside[index] < 0);
        const part = (folded) => word(folded, [expansion(stem(folded))], inPhrase, true);
        parts = distinct(kept.map((index) => part(this.words[index].text)));
      }
      if (denied >= 0 && !negated) {
        const items = members.slice(denied).filter((index) => this.inside[index] < 0).map((index) => this.item(index));
        terms.push(...T.pairsOf(items).map((pair) => exact("pair", pair)));
      }
      const partsSuffice = denied < 0 && (parts.length > 1 || (parts.length === 1 && members.length === 1));
      const text = this.analysis.text.slice(start, end);
      this.add(start, members, group("term", text, distinct([...terms, ...parts]), { partsSuffice }));
    }

    item(index) {
      const { text } = this.words[index];
      return T.isMark(text) ? `mark:${text}` : stem(text);
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
        const value = this.bareNumber(text);
        if (value !== null) {
          this.take(index, index + 1, group("value", text, [exact("value", value)]));
          return;
        }
        const enough = T.isPartNumber(text) ? 2 : 3;
        const term = `mark:${text}`;
        if (T.lengthOf(text) >= enough) this.takeStart(index, index + 1, term);
        else this.take(index, index + 1, group("mark", text, [exact("mark", term)]));
      });
    }

    /** The value that a whole number can only mean, when no marking starts so; null else. */
    bareNumber(text) {
      if (!/^[0-9]{1,6}$/.test(text) || this.lookup.starts(`mark:${text}`, 1).length > 0) return null;
      return Benchlore.bareValue(text, "", this.lookup);
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
        if (STATES.has(text)) {
          const terms = [word(text, expansions), exact("state", `state:${STATES.get(text)}`)];
          this.take(index, index + 1, group("word", this.slice(index, index + 1), terms));
          return;
        }
        if (T.lengthOf(text) >= 3 && this.lookup.hasNot(stemmed)) {
          const marks = this.lookup.starts(`mark:${text}`, mostStarts);
          expansions.push(...marks.map((term) => expansion(term, START, "start")));
        }
        this.take(index, index + 1, group("word", this.slice(index, index + 1), [word(text, expansions)]));
      });
    }
  }

  Object.assign(Benchlore, { PlainText });
})((globalThis.Benchlore ??= {}));
