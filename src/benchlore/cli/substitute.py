"""``benchlore substitute``: whether a part may stand in for another, or which part fitted before may."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from benchlore.errors import BenchloreError

if TYPE_CHECKING:
    from benchlore.answer.fitted import Candidate
    from benchlore.answer.substitution import PartRatings, StandIn
    from benchlore.terms.vocabulary import Vocabulary

_MARKS = {"worse": "no", "loss": "loses", "unknown": "not known", "check": "check", "better": "better", "same": "same"}
_MOST = 10


@click.command(
    context_settings={"ignore_unknown_options": True},
    epilog="""\b
Examples:
  benchlore substitute --class electrolytic "220 µF, 400 V, 85 °C" "220 µF, 450 V, 105 °C"
  benchlore substitute --class mosfet "N channel, VDSS 500 V, RDS(on) 0.85 Ω" "N channel, VDSS 600 V, RDS(on) 1 Ω"
  benchlore substitute --class fuse T2AL250V T2AH250V
  benchlore substitute --class y-capacitor --by x-capacitor "4.7 nF, Y2, 250 V ac" "4.7 nF, X2, 275 V ac"
  benchlore substitute --class x-capacitor "1 µF, 275 V ac, X2, pitch 27.5 mm"     against every part fitted in the base

Ratings stand between commas, each with its name, or bare where the unit tells which it is.
Exit code: 0 when it may stand in or may with care, 1 when not.
""",
)
@click.argument("original")
@click.argument("replacement", required=False)
@click.option("--class", "kind", required=True, metavar="CLASS", help="What the original is, such as mosfet or fuse.")
@click.option("--by", metavar="CLASS", help="What the replacement is, when it is another kind of part.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for machines.")
@click.option(
    "--base",
    "base_folder",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    metavar="DIR",
    help="The knowledge base whose fitted parts are meant; found from the current folder upwards.",
)
def command(
    original: str, replacement: str | None, kind: str, by: str | None, as_json: bool, base_folder: Path | None
) -> None:
    """Say whether REPLACEMENT may stand in for ORIGINAL, rating by rating.

    With ORIGINAL alone: which parts that were fitted in the base's repairs may.
    """
    from benchlore import data
    from benchlore.answer.fitted import candidates
    from benchlore.answer.substitution import PartRatings, stand_in
    from benchlore.read.base import Base
    from benchlore.terms.vocabulary import load

    if replacement is None:
        base = Base(base_folder) if base_folder else Base.find(Path.cwd())
        wanted = _part(original, kind, base.vocabulary)
        found = candidates(wanted, ((r.slug, r.entry) for r in base.records()), base.vocabulary)
        _tell_all(wanted, found, base.vocabulary, as_json)
        sys.exit(0 if any(c.answer.word != "no" for c in found) else 1)
    vocabulary = load(data.folder("schema") / "vocabulary")
    old = _part(original, kind, vocabulary)
    new_kind = _kind(by, vocabulary) if by else old.component_class
    new = PartRatings(new_kind, _part(replacement, new_kind, vocabulary).ratings)
    answer = stand_in(old, new, vocabulary)
    if as_json:
        click.echo(json.dumps(_json(old, new, answer), indent=2, ensure_ascii=False))
    else:
        _tell(answer)
    sys.exit(1 if answer.word == "no" else 0)


def _kind(name: str, vocabulary: Vocabulary) -> str:
    from benchlore.terms.fold import compact

    wanted = compact(name)
    for term_id, term in vocabulary.terms("component").items():
        if wanted in {compact(n) for n in (term_id, term.label, *term.phrases)}:
            return term_id
    close = vocabulary.suggest("component", name)
    meant = f"Did you mean {', '.join(close)}?" if close else "See schema/vocabulary/components."
    raise BenchloreError(f"there is no kind of part {name!r}", hint=meant)


def _part(text: str, kind: str, vocabulary: Vocabulary) -> PartRatings:
    from benchlore.answer.part_text import read_part
    from benchlore.answer.substitution import PartRatings

    component = _kind(kind, vocabulary)
    return PartRatings(component, read_part(text, component, vocabulary))


def _json(old: PartRatings, new: PartRatings, answer: StandIn) -> dict[str, Any]:
    return {
        "answer": answer.word,
        "safety_critical": answer.safety_critical,
        "reasons": [
            {"rating": r.rating or None, "judgement": r.judgement, "text": f"{r.label}: {r.text}"}
            for r in answer.reasons
        ],
        "original": {"component_class": old.component_class, "ratings": dict(old.ratings)},
        "replacement": {"component_class": new.component_class, "ratings": dict(new.ratings)},
    }


def _tell(answer: StandIn) -> None:
    from benchlore.answer.substitution import WORDS

    click.secho(WORDS[answer.word], bold=True)
    for reason in answer.reasons:
        click.echo(f"  {_MARKS[reason.judgement]:<10} {reason.label}: {reason.text}")
    if answer.safety_critical:
        click.echo("  A safety part: like for like only, with the approvals that the original carries.")
    click.echo("  By the ratings given; the data sheets and the maker's documents come first.")


def _tell_all(wanted: PartRatings, found: list[Candidate], vocabulary: Vocabulary, as_json: bool) -> None:
    from benchlore.answer.substitution import WORDS

    if as_json:
        rows = [{"entry": c.fitted.slug, "ref": c.fitted.part.ref, "type": c.fitted.part.type,
                 **_json(wanted, c.fitted.ratings, c.answer)} for c in found]  # fmt: skip
        click.echo(json.dumps({"total": len(rows), "parts": rows}, indent=2, ensure_ascii=False))
        return
    label = vocabulary.label("component", wanted.component_class)
    if not found:
        click.echo(f"No part of that kind ({label}) was fitted in this base, as far as its ratings are written down.")
        return
    shown = [c for c in found if c.answer.word != "no"][:_MOST]
    for candidate in shown:
        part = candidate.fitted.part
        click.secho(f"{WORDS[candidate.answer.word]}: {part.type or part.ref or label}", bold=True)
        for reason in candidate.answer.against:
            click.echo(f"  {_MARKS[reason.judgement]:<10} {reason.label}: {reason.text}")
        click.echo(f"  fitted in {candidate.fitted.slug}")
    ruled_out = sum(1 for c in found if c.answer.word == "no")
    more = len(found) - len(shown) - ruled_out
    if more > 0:
        click.echo(f"… and {more} more (--json shows all)")
    if ruled_out:
        click.echo(f"{ruled_out} of {len(found)} fitted parts of that kind may not stand in.")
