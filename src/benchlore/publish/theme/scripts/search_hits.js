"use strict";
// Draws what a search found: how the query was read, and each hit with what matched and what did not.
(function (Benchlore) {
  const { element, joined } = Benchlore;
  const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December"];
  const MOST_SISTERS = 6; // named in the line that says how a query was read
  const SIGNS = { EUR: "€", GBP: "£", USD: "$" };
  const OUTCOMES = {
    "partly-repaired": "partly repaired", "not-repaired": "not repaired", "no-fault-found": "no fault found",
  };

  const same = (one, other) => Benchlore.compact(one) === Benchlore.compact(other);

  /** A label inside a sentence: its first letter small, unless it goes on in capitals or digits. */
  const lower = (text) => (/^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text);

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
      ? [element("b", {}, card.cause), card.failure && `, ${lower(card.failure)}`]
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
    if (reason.kind === "start" || reason.kind === "near") return [marked, ` (${reason.found})`];
    if (reason.kind === "not-seen") return [marked, " (looked for, not seen)"];
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
    if (part.length > 0) clauses.push(["only part of ", ...joined(part)]);
    if (left.size > 0) clauses.push(["nothing about ", ...joined([...left].map((text) => element("s", {}, text)))]);
    return clauses.length > 0 ? element("p", { class: "soft matches" }, joined(clauses, "; ").flat()) : null;
  }

  /** The list item of a hit of an answer, whose page lies at `address`. */
  function hitItem(hit, answer, address) {
    const link = element("a", { class: "entry-title", href: address }, hit.title);
    return element("li", {}, link, facts(hit, answer), matches(hit));
  }

  /** Markings with commas between; of many the first, and how many more. */
  function markings(names) {
    const shown = names.slice(0, MOST_SISTERS).map((name) => element("span", { class: "marking" }, name));
    const more = names.length - shown.length;
    return more > 0 ? joined([...shown, `${more} more`], ", ", " and ") : joined(shown);
  }

  function sharing(sisters) {
    if (sisters.models.length === 0) return [];
    const boards = markings(sisters.boards);
    const models = markings(sisters.models);
    if (sisters.boards.length === 0) return [" (board in ", ...models, ")"];
    return [` (shares board${sisters.boards.length > 1 ? "s" : ""} `, ...boards, " with ", ...models, ")"];
  }

  function readPart(part, answer) {
    const words = new Set(Benchlore.words(part.text).map((word) => word.text));
    const corrected = answer.corrected.filter((one) => words.has(one.read));
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
