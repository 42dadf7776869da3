"use strict";
// Which terms a text names, by the phrases of the vocabulary, with negation; the twin of terms/recogniser.py.
(function (Benchlore) {
  const tables = Benchlore.tables;
  const FILLERS = new Set(tables.fillers);
  const NOT_WORDS = new Set(tables.not_words);
  const NEGATORS = new Set(tables.negators);
  const LINKS = new Set(tables.links);
  const SPOKEN = new Set(tables.spoken);
  const WALLS = new Set(tables.walls);
  const SOFT = new Set(tables.soft);
  const FREE = new Set([...tables.soft, ...tables.free]);
  const PARTING = new Set(tables.parting);
  const CONTRARY = new Map(Object.entries(tables.contrary));
  const { gap: GAP, orReach: OR_REACH, longestSkip: LONGEST_SKIP, clauseEnd: END } = tables;

  /** A place in a tree of phrases: what may follow, and what ends here. */
  class Node {
    constructor() {
      this.after = new Map();
      this.end = null;
    }

    add(stems, end) {
      let node = this;
      for (const stem of stems) {
        if (!node.after.has(stem)) node.after.set(stem, new Node());
        node = node.after.get(stem);
      }
      if (node.end === null || end < node.end) node.end = end;
    }
  }

  const CLASSES = new Node();
  for (const [name, members] of tables.wordClasses) {
    for (const member of members) CLASSES.add(member.split(" "), name);
  }

  const isNumber = (stem) => /^[0-9]+$/.test(stem);
  const isLight = (stem) => FREE.has(stem) || WALLS.has(stem) || NEGATORS.has(stem) || isNumber(stem);

  const isBeforeClause = (stem) => SOFT.has(stem) || NEGATORS.has(stem) || LINKS.has(stem);

  /** How many of the tokens say something by themselves. */
  const weight = (stems) => stems.filter((stem) => !isLight(stem)).length;

  /** The tokens {stem, first, last, broken} with every member of a word class replaced by its class. */
  function classed(tokens, words) {
    const found = [];
    let index = 0;
    while (index < tokens.length) {
      let node = CLASSES;
      let skipped = 0;
      let best = null;
      for (let at = index; at < tokens.length && !(at > index && tokens[at].broken); at += 1) {
        const token = tokens[at];
        const exact = words === null ? undefined : node.after.get(`=${words[token.first].text}`);
        const following = exact ?? node.after.get(token.stem);
        if (following !== undefined) {
          node = following;
          skipped = 0;
          if (node.end !== null) best = [node.end, at];
        } else if (node !== CLASSES && PARTING.has(token.stem) && skipped < LONGEST_SKIP) {
          skipped += 1;
        } else {
          break;
        }
      }
      if (best === null) {
        found.push(tokens[index]);
        index += 1;
      } else {
        const { first, broken } = tokens[index];
        found.push({ stem: best[0], first, last: tokens[best[1]].last, broken });
        index = best[1] + 1;
      }
    }
    return found;
  }

  /** What phrases are matched against. */
  function tokensOf(words, spoken) {
    let tokens = words.map((word, index) => {
      const stem = Benchlore.stem(word.text);
      const broken = index > 0 && word.apart > 1;
      return { stem: NOT_WORDS.has(stem) ? "not" : stem, first: index, last: index, broken };
    });
    if (spoken) tokens = classed(classed(tokens, words), null);
    const kept = [];
    let broken = false;
    for (const token of tokens) {
      broken ||= token.broken;
      if (!FILLERS.has(token.stem)) {
        kept.push({ ...token, broken });
        broken = false;
      }
    }
    return kept;
  }

  function isClause(tokens, places) {
    let first = places[0];
    let last = places[places.length - 1];
    while (first > 0 && !tokens[first].broken && isBeforeClause(tokens[first - 1].stem)) first -= 1;
    while (last + 1 < tokens.length && !tokens[last + 1].broken && SOFT.has(tokens[last + 1].stem)) last += 1;
    return (first === 0 || tokens[first].broken) && (last + 1 === tokens.length || tokens[last + 1].broken);
  }

  /** Adds every phrase that goes on from `node`, the nearest token of each kind first. */
  function walk(tokens, node, { places, gap, negated }, spoken, matches) {
    if (node.end !== null && (gap === 0 || weight(places.map((place) => tokens[place].stem)) > 1)) {
      matches.push({ id: node.end, places, gap, negated });
    }
    if (node.after.size === 0) return;
    if (node.after.has(END) && isClause(tokens, places)) {
      matches.push({ id: node.after.get(END).end, places, gap, negated });
    }
    const tried = new Set();
    const first = places[places.length - 1] + 1;
    let skipped = 0;
    let denied = false;
    for (let at = first; at < tokens.length; at += 1) {
      const { stem, broken } = tokens[at];
      if (broken && (at > first || spoken)) break;
      const following = node.after.get(stem);
      if (following !== undefined && !tried.has(stem)) {
        tried.add(stem);
        const ahead = { places: [...places, at], gap: gap + skipped, negated: negated || denied };
        walk(tokens, following, ahead, spoken, matches);
      }
      if (spoken && skipped === 0 && !denied && !negated && weight(places.map((place) => tokens[place].stem)) > 0) {
        for (const other of following === undefined ? (CONTRARY.get(stem) ?? []) : []) {
          const end = node.after.get(other)?.end ?? null;
          if (end !== null) matches.push({ id: end, places: [...places, at], gap, negated: true });
        }
      }
      if (NEGATORS.has(stem)) {
        if (denied || negated) break;
        denied = true;
      } else if (!spoken || WALLS.has(stem)) {
        break;
      } else if (!FREE.has(stem) && !isNumber(stem)) {
        skipped += 1;
        if (skipped > GAP) break;
      }
    }
  }

  const compare = (one, other) => (one < other ? -1 : one > other ? 1 : 0);

  /** The matches that count, by place, with the negation before them. */
  function chosen(tokens, tree, spoken) {
    const matches = [];
    tokens.forEach(({ stem }, index) => {
      const node = tree.after.get(stem);
      if (node !== undefined) walk(tokens, node, { places: [index], gap: 0, negated: false }, spoken, matches);
    });
    matches.sort(
      (a, b) =>
        b.places.length - a.places.length || a.gap - b.gap || a.places[0] - b.places[0] || compare(a.id, b.id),
    );
    const taken = new Set();
    const kept = [];
    for (const match of matches) {
      if (match.places.some((place) => taken.has(place))) continue;
      match.places.forEach((place) => taken.add(place));
      kept.push(match);
    }
    kept.sort((a, b) => a.places[0] - b.places[0]);
    return withNegation(tokens, kept, taken);
  }

  /** Whether a negating word stands shortly before an "or", in its clause. */
  function reachesOver(tokens, place) {
    for (let at = place - 1; at >= 0 && at >= place - OR_REACH; at -= 1) {
      if (tokens[at + 1].broken) return false;
      if (NEGATORS.has(tokens[at].stem)) return true;
    }
    return false;
  }

  function withNegation(tokens, matches, taken) {
    const found = [];
    for (const match of matches) {
      let at = match.places[0] - 1;
      let broken = tokens[match.places[0]].broken;
      while (at >= 0 && !taken.has(at) && !broken && (LINKS.has(tokens[at].stem) || SOFT.has(tokens[at].stem))) {
        broken = tokens[at].broken;
        at -= 1;
      }
      let before = at >= 0 && !broken && !taken.has(at) && NEGATORS.has(tokens[at].stem);
      if (!before && !broken && at >= 0 && tokens[at].stem === "or") before = reachesOver(tokens, at);
      found.push({ ...match, negated: match.negated || before });
    }
    return found;
  }

  class Recogniser {
    constructor() {
      this.trees = new Map(tables.kinds.map((kind) => [kind, new Node()]));
    }

    /** `phrases`: [kind, term id, tokens]; they may come in any order and in several calls. */
    add(phrases) {
      for (const [kind, id, stems] of phrases) {
        const tree = this.trees.get(kind);
        tree.add(stems, id);
        if (SPOKEN.has(kind) && stems.length === 2 && weight(stems) === 2) tree.add([stems[1], stems[0]], id);
      }
    }

    /** The tokens that phrases of some kind are matched against: [token, its first word], in either reading. */
    static content(words) {
      const tokens = [...tokensOf(words, false), ...tokensOf(words, true)];
      return tokens.map(({ stem, first }) => [stem, words[first]]);
    }

    /** The terms named by folded words, by kind, then by place: {kind, id, start, end, negated}. */
    find(words) {
      const read = new Map([false, true].map((spoken) => [spoken, tokensOf(words, spoken)]));
      const found = [];
      for (const [kind, tree] of this.trees) {
        const spoken = SPOKEN.has(kind);
        const tokens = read.get(spoken);
        for (const { id, places, negated } of chosen(tokens, tree, spoken)) {
          const start = words[tokens[places[0]].first].start;
          const end = words[tokens[places[places.length - 1]].last].end;
          found.push({ kind, id, start, end, negated });
        }
      }
      return found;
    }
  }

  Benchlore.Recogniser = Recogniser;
})((globalThis.Benchlore ??= {}));
