"use strict";
// Draws what a search found: how the query was read, and each hit with what matched and what did not.
(function (Benchlore) {
  const { element, joined } = Benchlore;
  const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December"];
  const SIGNS = { EUR: "€", GBP: "£", USD: "$" };
  const OUTCOMES = { "partly-repaired": "partly repaired", "not-repaired": "not repaired", "no-fault-found": "no fault found" };

  const same = (one, other) => Benchlore.compact(one) === Benchlore.compact(other);

  /** "3 May 2026" for each ISO date in a text. */
  function withDays(text) {
    return text.replace(/(\d{4})-(\d{2})-(\d{2})/g, (_, year, month, day) => (
      `${Number(day)}\u00a0${MONTHS[Number(month) - 1]}\u00a0${year}`
    ));
  }

  function money(cost) {
    return cost.replace(/ ([A-Z]{3})$/, (_, letters) => `\u00a0${SIGNS[letters] ?? letters}`);
  }

  /** The facts of a hit's card in one line. */
  function facts(hit, answer) {
    const { card } = hit;
    const named = hit.sisterOf && answer.sisters.find((one) => same(one.marking, hit.sisterOf))?.marking;
    const outcome = OUTCOMES[card.outcome];
    const stopped = card.stopped_because ? `, ${card.stopped_because.replaceAll("-", " ")}` : "";
    const cause = card.cause
      ? [element("b", {}, card.cause), card.failure && `, ${card.failure.charAt(0).toLowerCase()}${card.failure.slice(1)}`]
      : card.failure;
    const line = [
      hit.sisterOf ? `${card.equipment}, same board as ${named ?? hit.sisterOf}` : card.equipment,
      cause,
      outcome && outcome + stopped,
      card.minutes !== null && `${card.minutes}\u00a0min`,
      card.cost && money(card.cost),
      card.holding && withDays(card.holding),
    ].filter(Boolean);
    return element("p", {}, joined(line, " · ").flat().filter(Boolean));
  }

  function reasonText(reason) {
    const marked = element("mark", {}, reason.text);
    if (reason.kind === "start") return [marked, ` (${reason.found})`];
    if (reason.kind === "not-seen") return [marked, " looked for and not seen"];
    return [marked];
  }

  /** "matches fan runs, clicks; only part of ...; nothing about ...", or null when there were no words. */
  function matches(hit) {
    const left = new Set(hit.missed);
    const whole = new Map(hit.reasons.filter((one) => one.kind !== "sister").map((one) => [one.text, one]));
    const shown = [...whole.values()].filter((one) => hit.whole.includes(one.text));
    const clauses = [];
    const found = shown.map(reasonText);
    if (found.length > 0) clauses.push(["matches ", ...joined(found)].flat());
    const part = [...new Set(hit.partly)];
    part.forEach((text) => left.delete(text));
    if (part.length > 0) clauses.push(["only part of ", ...joined(part.map((text) => element("span", {}, text)))].flat());
    if (left.size > 0) clauses.push(["nothing about ", ...joined([...left].map((text) => element("s", {}, text)))].flat());
    return clauses.length > 0 ? element("p", { class: "soft matches" }, joined(clauses, "; ").flat()) : null;
  }

  /** The list item of a hit. */
  function hitItem(hit, answer) {
    const link = element("a", { class: "entry-title", href: hit.url }, hit.card.title);
    return element("li", {}, link, facts(hit, answer), matches(hit));
  }

  const lower = (text) => (/^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text);

  function sharing(sisters) {
    const boards = joined(sisters.boards.map((board) => element("span", { class: "marking" }, board)));
    const models = joined(sisters.models.map((model) => element("span", { class: "marking" }, model)));
    if (sisters.models.length === 0) return [];
    if (sisters.boards.length === 0) return [" (board in ", ...models, ")"];
    return [` (shares board${sisters.boards.length > 1 ? "s" : ""} `, ...boards, " with ", ...models, ")"];
  }

  function readPart(part, answer) {
    const corrected = answer.corrected.filter((one) => Benchlore.words(part.text).some((word) => word.text === one.read));
    const typed = corrected.map((one) => ` (typed “${one.typed}”)`);
    if (part.kind === "term" && part.labels.some((label) => same(label, part.text))) {
      return [element("b", {}, part.text), ...typed];
    }
    const meant = joined(part.labels.map((label) => element("b", {}, lower(label))), ", ", " or ");
    if (part.kind === "term") return [...meant, ...(typed.length > 0 ? typed : [` (“${part.text}”)`])];
    if (part.kind === "not-seen") return ["not ", ...meant];
    if (part.kind === "marking") {
      const sisters = answer.sisters.find((one) => same(one.marking, part.text));
      return [element("b", { class: "marking" }, sisters?.marking ?? part.text), ...(sisters ? sharing(sisters) : [])];
    }
    if (part.kind === "phrase") return ["exactly ", element("b", {}, `“${part.text}”`)];
    if (part.kind === "value") return [element("b", {}, part.text)];
    return [part.text, ...typed];
  }

  /** "Read as: ..." for a query in which more than plain words was found; null else. */
  function readLine(answer) {
    if (answer.corrected.length === 0 && answer.readAs.every((part) => part.kind === "word")) return null;
    return ["Read as: ", ...joined(answer.readAs.map((part) => readPart(part, answer)), " · ").flat()];
  }

  Object.assign(Benchlore, { hitItem, readLine });
})((globalThis.Benchlore ??= {}));
