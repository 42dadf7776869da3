"""The four short statements: it did, it was, proves it on yours, it took; and the line under the title."""

from __future__ import annotations

from dataclasses import dataclass

from benchlore.publish.sections.plate import Link
from benchlore.publish.site_data import SiteData
from benchlore.publish.wording import capital, day, inside, listed, minutes, plain_number, totals, unbroken
from benchlore.read.entry import AlsoFound, Cause, FaultEntry, SeenSymptom

OUTCOMES = {
    "repaired": "repaired",
    "partly-repaired": "partly repaired",
    "not-repaired": "not repaired",
    "no-fault-found": "no fault found",
}
STOPPED = {
    "uneconomic": "not worth the cost",
    "no-part": "no part to be had",
    "declined": "the owner declined",
    "unsafe": "it could not be made fit for use without danger",
    "no-documents": "no documents to be had",
}
RESULTS = {
    "holding": "holding",
    "came-back": "came back",
    "not-checked": "not checked afterwards",
    "same-fault": "came back with the same fault",
    "other-fault": "came back with another fault",
    "our-work": "came back because of our work",
}
ROLES = {
    "consequence": "taken along by it",
    "same-event": "from the same event",
    "separate": "a separate fault",
    "earlier-repair": "left by an earlier repair",
}


@dataclass(frozen=True, slots=True)
class Seen:
    """One symptom as a link to its page, and what was said about it."""

    link: Link
    detail: str


@dataclass(frozen=True, slots=True)
class Statements:
    """What somebody reads who reads nothing else."""

    did: tuple[Seen, ...]
    not_seen: str
    was: str
    was_note: str
    also: tuple[str, ...]
    proves: str
    took: tuple[str, ...]
    took_time: str


def statements(entry: FaultEntry, site: SiteData) -> Statements:
    """The statements of an entry; what is not known is said to be so."""
    cause = entry.root_cause
    if cause:
        was = capital(cause_text(cause, site)) or "Not recorded"
        was_note = ". ".join(capital(p) for p in (cause.confidence or "", cause.note or "") if p)
    else:
        was = f"Stopped: {STOPPED[entry.stopped_because]}" if entry.stopped_because else "No cause found"
        was_note = ""
    return Statements(
        did=tuple(_seen(symptom, site) for symptom in entry.symptoms),
        not_seen=listed([inside(site.label("symptom", s)) for s in entry.not_seen], "or"),
        was=unbroken(was),
        was_note=unbroken(was_note),
        also=tuple(unbroken(_also(found, site)) for found in entry.also_found),
        proves=unbroken(capital(cause.confirm_by)) if cause and cause.confirm_by else "",
        took=tuple(unbroken(text) for text in _took(entry, site)),
        took_time=_time(entry),
    )


def under_title(entry: FaultEntry, site: SiteData) -> tuple[str, ...]:
    """Outcome and confidence, whether it holds, minutes, parts cost: the line under the title."""
    outcome = OUTCOMES[entry.outcome]
    if entry.root_cause and entry.root_cause.confidence:
        outcome += f", cause {entry.root_cause.confidence}"
    elif entry.stopped_because:
        outcome += f", {STOPPED[entry.stopped_because]}"
    spent, cost = entry.minutes_spent, parts_cost(entry, site)
    facts = [capital(outcome), _latest(entry)]
    facts.append(minutes(spent) if spent is not None else "")
    facts.append(f"{cost} in parts" if cost else "")
    return tuple(fact for fact in facts if fact)


def cause_text(cause: Cause, site: SiteData) -> str:
    """``C1, safety film capacitor: low capacitance, metallisation loss``, with whatever of it is known."""
    part = inside(site.label("component", cause.component_class)) if cause.component_class else ""
    where = ", ".join(p for p in (cause.component or "", part) if p)
    if not where and cause.block:
        where = inside(site.label("block", cause.block))
    how = ", ".join(
        inside(site.label(kind, term))
        for kind, term in (("failure-mode", cause.failure_mode), ("mechanism", cause.mechanism))
        if term
    )
    return ": ".join(p for p in (where, how) if p)


def short_cause(entry: FaultEntry, site: SiteData) -> tuple[str, str]:
    """Part and failure mode for a line in a list; empty where not known."""
    cause = entry.root_cause
    if not cause:
        return ("", STOPPED[entry.stopped_because] if entry.stopped_because else "no cause found")
    part = site.label("component", cause.component_class) if cause.component_class else ""
    if not part and cause.block:
        part = site.label("block", cause.block)
    return inside(part), inside(site.label("failure-mode", cause.failure_mode)) if cause.failure_mode else ""


def parts_cost(entry: FaultEntry, site: SiteData) -> str | None:
    """The price of what was fitted."""
    fitted = [(p.unit_price, p.quantity) for p in entry.parts if p.unit_price and p.use == "fitted"]
    return totals(fitted, site.shop.currency)


def _seen(symptom: SeenSymptom, site: SiteData) -> Seen:
    said = {"customer": "said by the customer", "bench": ""}.get(symptom.said_by or "", "")
    brought_on = listed([inside(site.label("condition", c)) for c in symptom.brought_on_by])
    pattern = symptom.pattern if symptom.pattern != "constant" else None
    if not symptom.term:
        return Seen(Link(capital(unbroken(symptom.note or "Not described")), None), said)
    detail = [pattern or "", f"brought on by {brought_on}" if brought_on else "", unbroken(symptom.note or ""), said]
    link = Link(site.label("symptom", symptom.term), site.addresses.symptom(symptom.term))
    return Seen(link, "; ".join(d for d in detail if d))


def _also(found: AlsoFound, site: SiteData) -> str:
    due = f" (due to {found.due_to})" if found.due_to else ""
    return f"{capital(cause_text(found, site))}; {ROLES[found.role]}{due}"


def _took(entry: FaultEntry, site: SiteData) -> list[str]:
    done = []
    for action in entry.fix.actions if entry.fix else ():
        term = site.vocabulary.get("action", action.do)
        past = getattr(term, "past", None) or action.do.replace("-", " ")
        done.append(capital(f"{action.on} {past}" if action.on else past) + (f"; {action.note}" if action.note else ""))
    if not done and entry.fix and entry.fix.steps:
        return [entry.fix.steps[0]]
    return done or ["Nothing was changed"]


def _time(entry: FaultEntry) -> str:
    spent = entry.minutes_spent
    if spent is None:
        return ""
    time = entry.time
    shares = [(time.find, "to find"), (time.repair, "to mend"), (time.prove, "to prove")] if time else []
    told = [f"{plain_number(m)} {what}" for m, what in shares if m]
    return minutes(spent) + (f": {', '.join(told)}" if len(told) > 1 else "")


def _latest(entry: FaultEntry) -> str:
    if entry.follow_up:
        last = max(entry.follow_up, key=lambda f: f.date)
        return f"{RESULTS[last.result]} on {day(last.date)}"
    if entry.verification and entry.verification.result != "not-checked":
        return f"{RESULTS[entry.verification.result]} on {day(entry.date)}"
    return ""
