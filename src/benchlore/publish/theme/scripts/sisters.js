"use strict";
// Units that share a board with the one a query names; the twin of the sisters rule in index/query.py.
(function (Benchlore) {
  const { mostSisters, sister } = Benchlore.tables;
  const { markTerm } = Benchlore.tokens;

  /** What stands behind the second colon of a linking term: a marking as it was written. */
  function written(term) {
    return term.slice(term.indexOf(":", term.indexOf(":") + 1) + 1);
  }

  /** {named: {marking, boards, models}, expansions} for a marking's term, or null when it shares nothing. */
  function sistersOf(lookup, term) {
    const links = (kind, mark) => lookup.starts(`${kind}:${mark.slice("mark:".length)}:`, mostSisters).map(written);
    const boards = links("boards-of", term);
    const onIt = links("models-on", term);
    if (boards.length === 0 && onIt.length === 0) return null;
    const marks = boards.map(markTerm).filter(Boolean);
    const models = [];
    let name = "";
    for (const board of new Set([...marks, ...(onIt.length > 0 ? [term] : [])])) {
      for (const model of links("models-on", board)) {
        const mark = markTerm(model);
        if (mark === term) name = name || model;
        else if (mark) models.push(model);
      }
    }
    const shared = [...new Set(models)];
    const terms = new Set([...marks, ...shared.map(markTerm).filter(Boolean)]);
    terms.delete(term);
    const expansion = (other) => Benchlore.query.expansion(other, sister, "sister", term);
    return {
      named: { marking: name || ownBoard(lookup, term), boards, models: shared },
      expansions: [...terms].slice(0, mostSisters).map(expansion),
    };
  }

  function ownBoard(lookup, term) {
    const own = term.slice("mark:".length);
    const found = lookup.starts(`board:${own}:`, 1);
    return found.length > 0 ? written(found[0]) : own.toUpperCase();
  }

  Benchlore.sistersOf = sistersOf;
})((globalThis.Benchlore ??= {}));
