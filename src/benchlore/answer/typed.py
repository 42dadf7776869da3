"""Options as typed on the command line: a symptom, a test with its outcome, a supply that was read."""

from __future__ import annotations

from benchlore.answer.evidence import Outcome, Result
from benchlore.answer.question import RAIL_HIGH, RAIL_LOW, supply_block
from benchlore.answer.verdict import verdict
from benchlore.errors import BenchloreError
from benchlore.quantity.model import QuantityError
from benchlore.quantity.parse import parse
from benchlore.terms.vocabulary import Vocabulary


def symptom_of(text: str, vocabulary: Vocabulary) -> str:
    """The symptom that a word or phrase stands for: an id, a label, or what people say. Raises BenchloreError."""
    return term_of("symptom", text, vocabulary)


def result_of(text: str, vocabulary: Vocabulary) -> Result:
    """A test as typed: ``TEST [BLOCK] OUTCOME [load=…] [in-circuit] [fault-away]``. Raises BenchloreError."""
    rest = text.split()
    load = next((part.partition("=")[2] for part in rest if part.startswith("load=")), "")
    if load not in {"", "connected", "disconnected", "dummy"}:
        raise BenchloreError(f"load={load} is not known", hint="load is connected, disconnected or dummy")
    marks = {part for part in rest if part in {"in-circuit", "fault-away", "fault-showing"}}
    rest = [part for part in rest if not part.startswith("load=") and part not in marks]
    outcome = next((part for part in rest if part in {"normal", "abnormal", "inconclusive"}), None)
    if outcome is None:
        raise BenchloreError(f"--test {text!r} has no outcome", hint="Say normal, abnormal or inconclusive.")
    rest.remove(outcome)
    if not rest:
        raise BenchloreError(
            f"--test {text!r} names no test", hint="Say it like: voltage-check low-voltage-supply normal"
        )
    target = component = ""
    for part in rest[1:]:
        if vocabulary.get("block", part):
            target = part
        elif vocabulary.get("component", part):
            component = part
        else:
            raise BenchloreError(f"{part!r} is no block or component", hint=_meant("block", part, vocabulary))
    return Result(
        term_of("test", rest[0], vocabulary), target, outcome,  # type: ignore[arg-type]
        component=component, load=load, in_circuit=True if "in-circuit" in marks else None,
        fault_showing=False if "fault-away" in marks else True if "fault-showing" in marks else None, text=text,
    )  # fmt: skip


def reading_of(text: str, equipment_class: str, vocabulary: Vocabulary) -> Result:
    """A supply as typed: ``[BLOCK] EXPECTED = READ``, quantities as written on the bench. Raises BenchloreError."""
    expected_text, sign, read_text = text.partition("=")
    first, _, after = expected_text.strip().partition(" ")
    target = first if vocabulary.get("block", first) else ""
    if not sign:
        raise BenchloreError(f"--reading {text!r} has no =", hint='For example: "low-voltage-supply 24 V ±5 % = 15 V"')
    try:
        expected, found = parse(after if target else expected_text.strip()), parse(read_text.strip())
    except QuantityError as error:
        raise BenchloreError(f"--reading {text!r}: {error.message}", hint=error.hint) from None
    judged = verdict(expected, found)
    outcome: Outcome = {"within": "normal", "outside": "abnormal"}.get(judged.word, "inconclusive")  # type: ignore[assignment]
    side = judged.side or ""
    if judged.word == "cannot-tell" and expected.value and found.value is not None and expected.unit == found.unit:
        share = found.value / expected.value
        side = "low" if share < RAIL_LOW else "high" if share > RAIL_HIGH else ""
        outcome = "abnormal" if side else "normal"
    target = target or supply_block(equipment_class, vocabulary)
    if not target:
        raise BenchloreError(f"--reading {text!r} names no block", hint="Put the block first, e.g. output-stage.")
    return Result("voltage-check", target, outcome, side=side, text=text)


def term_of(kind: str, text: str, vocabulary: Vocabulary) -> str:
    """The id of the term of ``kind`` that ``text`` is or names. Raises BenchloreError with what was perhaps meant."""
    term = vocabulary.get(kind, text)
    if term is not None:
        return term.replaced_by or text
    found = [f for f in vocabulary.recogniser.find_in(text.replace("-", " "), (kind,)) if not f.negated]
    if found:
        return max(found, key=lambda f: f.end - f.start).id
    raise BenchloreError(f"There is no {kind} {text!r}.", hint=_meant(kind, text, vocabulary))


def _meant(kind: str, text: str, vocabulary: Vocabulary) -> str:
    close = vocabulary.suggest(kind, text)
    return f"Did you mean {' or '.join(close)}?" if close else f"See the folder of the {kind}s in schema/vocabulary/."
