"use strict";
// Words to their stems, by the published English Snowball algorithm (Porter2, as revised in Snowball 3.1).
// https://snowballstem.org/algorithms/english/stemmer.html
(function (Benchlore) {
  const VOWEL = /[aeiouy]/; // a consonantal y is written Y while the stemmer works
  const EXCEPTIONS = new Map(Object.entries({
    skis: "ski", skies: "sky", idly: "idl", gently: "gentl", ugly: "ugli", early: "earli", only: "onli",
    singly: "singl", sky: "sky", news: "news", howe: "howe", atlas: "atlas", cosmos: "cosmos", bias: "bias",
    andes: "andes",
  }));
  const LONG_START = /^(?:arsen|commun|emerg|gener|inter|later|organ|past|univers)/;
  const BEFORE_ING = /^(?:even|cann|inn|earr|herr|out)$/;

  // Suffix and what takes its place, the longest first; each must lie in R1.
  const STEP_2 = [
    ["ational", "ate"], ["fulness", "ful"], ["iveness", "ive"], ["ization", "ize"], ["ousness", "ous"],
    ["biliti", "ble"], ["lessli", "less"], ["tional", "tion"],
    ["alism", "al"], ["aliti", "al"], ["ation", "ate"], ["entli", "ent"], ["fulli", "ful"], ["iviti", "ive"],
    ["ogist", "og"], ["ousli", "ous"],
    ["abli", "able"], ["alli", "al"], ["anci", "ance"], ["ator", "ate"], ["enci", "ence"], ["izer", "ize"],
    ["bli", "ble"], ["ogi", "og", /l$/], ["li", "", /[cdeghkmnrt]$/],
  ];
  const STEP_3 = [
    ["ational", "ate"], ["tional", "tion"], ["alize", "al"], ["icate", "ic"], ["iciti", "ic"], ["ical", "ic"],
    ["ness", ""], ["ful", ""],
  ];
  const STEP_4 = [
    "ement", "able", "ance", "ence", "ible", "ment", "ant", "ate", "ent", "ion", "ism", "iti", "ive", "ize", "ous",
    "al", "er", "ic",
  ];

  /** Where the region behind the first non-vowel that follows a vowel begins, looked for from `from` on. */
  function regionAfter(word, from) {
    let at = from;
    while (at < word.length && !VOWEL.test(word[at])) at += 1;
    while (at < word.length && VOWEL.test(word[at])) at += 1;
    return Math.min(at + 1, word.length);
  }

  function endsInShortSyllable(word) {
    return /[^aeiouy][aeiouy][^aeiouywxY]$/.test(word) || /^[aeiouy][^aeiouy]$/.test(word) || word.endsWith("past");
  }

  function removePlural(word) {
    if (word.endsWith("sses")) return word.slice(0, -2);
    if (/ie[ds]$/.test(word)) return word.slice(0, word.length > 4 ? -2 : -1);
    if (/[us]s$/.test(word) || !word.endsWith("s")) return word;
    return VOWEL.test(word.slice(0, -2)) ? word.slice(0, -1) : word;
  }

  function removePast(word, r1) {
    const [suffix] = /(?:eedly|eed|edly|ed|ingly|ing)$/.exec(word) ?? [""];
    if (!suffix) return word;
    const base = word.slice(0, word.length - suffix.length);
    if (suffix.startsWith("eed")) return base.length < r1 || /^(?:succ|proc|exc)$/.test(base) ? word : base + "ee";
    if (suffix === "ing") {
      if (/^[^aeiouy]y$/.test(base)) return base[0] + "ie";
      if (BEFORE_ING.test(base)) return word;
    }
    if (!VOWEL.test(base)) return word;
    if (/(?:at|bl|iz)$/.test(base)) return base + "e";
    if (/([bdfgmnprt])\1$/.test(base)) return /^[aeo]..$/.test(base) ? base : base.slice(0, -1);
    return base.length === r1 && endsInShortSyllable(base) ? base + "e" : base;
  }

  function replaceSuffix(word, table, r1) {
    const row = table.find(([suffix]) => word.endsWith(suffix));
    if (!row) return word;
    const [suffix, instead, before] = row;
    const base = word.slice(0, word.length - suffix.length);
    return base.length < r1 || (before && !before.test(base)) ? word : base + instead;
  }

  function removeSuffix(word, r2) {
    const suffix = STEP_4.find((ending) => word.endsWith(ending));
    if (!suffix) return word;
    const base = word.slice(0, word.length - suffix.length);
    return base.length < r2 || (suffix === "ion" && !/[st]$/.test(base)) ? word : base;
  }

  function tidyEnd(word, r1, r2) {
    const base = word.slice(0, -1);
    if (word.endsWith("e")) return base.length >= r2 || (base.length >= r1 && !endsInShortSyllable(base)) ? base : word;
    return word.endsWith("ll") && base.length >= r2 ? base : word;
  }

  /** The stem of a folded word; a word that is not all letters a to z is its own stem. */
  function stem(word) {
    if (!/^[a-z]{3,}$/.test(word)) return word;
    if (EXCEPTIONS.has(word)) return EXCEPTIONS.get(word);
    let w = word.replace(/^y/, "Y").replace(/([aeiouy])y/g, "$1Y");
    const r1 = LONG_START.exec(w)?.[0].length ?? regionAfter(w, 0);
    const r2 = regionAfter(w, r1);
    w = removePast(removePlural(w), r1);
    w = w.replace(/(.[^aeiouy])[yY]$/, "$1i");
    w = replaceSuffix(w, STEP_2, r1);
    w = w.endsWith("ative") ? w.slice(0, w.length - 5 >= r2 ? -5 : undefined) : replaceSuffix(w, STEP_3, r1);
    w = tidyEnd(removeSuffix(w, r2), r1, r2);
    return w.replaceAll("Y", "y");
  }

  Benchlore.stem = stem;
})((globalThis.Benchlore ??= {}));
