"use strict";
// When nothing is found: the facet values nearest to the words of the query; the twin of index/nearest_values.py.
(function (Benchlore) {
  const { stem, words } = Benchlore;
  const { STOP_WORDS } = Benchlore.tokens;
  const { byCodePoint, oneSlip } = Benchlore.spelling;
  const FACETS = ["symptom", "class", "component", "block", "failure", "maker", "board"];
  const MOST = 6;

  /** How much two words have in common: 0 nothing, 3 the same stem. */
  function likeness(one, other) {
    if (stem(one) === stem(other)) return 3;
    if (one.length >= 4 && oneSlip(one, other)) return 2;
    let same = 0;
    while (same < Math.min(one.length, other.length) && one[same] === other[same]) same += 1;
    return same >= 4 || (same >= 3 && 5 * same >= 3 * Math.max(one.length, other.length)) ? 1 : 0;
  }

  /** Facet values that resemble the query, the nearest first: {facet, key, label, count}; `counted`: all facets. */
  function nearestValues(counted, query) {
    const asked = words(query).map((word) => word.text).filter((word) => !STOP_WORDS.has(word));
    const found = [];
    for (const name of FACETS) {
      for (const { key, label, count } of counted.find((facet) => facet.name === name)?.values ?? []) {
        const said = words(label).map((word) => word.text);
        const points = asked.reduce((sum, one) => sum + Math.max(0, ...said.map((other) => likeness(one, other))), 0);
        if (points > 0) found.push({ facet: name, key, label, count, points });
      }
    }
    found.sort((one, other) => other.points - one.points || other.count - one.count || byCodePoint(one.key, other.key));
    return found.slice(0, MOST);
  }

  /** The symptoms and classes that most entries have, for when nothing resembles. */
  function commonestValues(counted) {
    return ["symptom", "class"].flatMap((name) => {
      const values = counted.find((facet) => facet.name === name)?.values ?? [];
      return values.slice(0, MOST / 2).map(({ key, label, count }) => ({ facet: name, key, label, count }));
    });
  }

  Object.assign(Benchlore, { nearestValues, commonestValues });
})((globalThis.Benchlore ??= {}));
