"""``benchlore diagnose``: what it most likely is, what to check next, what to tell the customer."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import click

from benchlore.cli.base_option import base_option

if TYPE_CHECKING:
    from collections.abc import Sequence

    from benchlore.answer.diagnose import Diagnosis
    from benchlore.answer.question import Question
    from benchlore.read.base import Base


@click.command(
    epilog="""\b
Examples:
  benchlore diagnose BW-12 relay chatters, display dim, 24 V rail reads 15, fuse ok
  benchlore diagnose sewing machine runs at full speed, no burnt smell
  benchlore diagnose --class dehumidifier --symptom relay-chatter --not-seen blown-fuse
  benchlore diagnose --model BW-16 --symptom dim-display \\
      --test "voltage-check low-voltage-supply abnormal load=disconnected"
  benchlore diagnose --board BWC-02 --complaint no-power --reading "low-voltage-supply 24 V ±5 % = 15 V"
  benchlore diagnose --ask                     asks for what would help most
  benchlore diagnose BW-12 relay chatters --json
"""
)
@click.argument("words", nargs=-1)
@base_option
@click.option("--class", "class_id", metavar="CLASS", help="Equipment class.")
@click.option("--maker", default="", help="Maker.")
@click.option("--model", default="", help="Model.")
@click.option("--board", "boards", multiple=True, metavar="MARKING", help="Marking of a board in it.")
@click.option("--symptom", "symptoms", multiple=True, metavar="SYMPTOM", help="Seen on the bench.")
@click.option("--complaint", "complaints", multiple=True, metavar="SYMPTOM", help="Said by the customer only.")
@click.option("--not-seen", "not_seen", multiple=True, metavar="SYMPTOM", help="Looked for, and not there.")
@click.option("--test", "tests", multiple=True, metavar="'TEST [BLOCK] OUTCOME [load=…]'", help="A test made.")
@click.option("--reading", "readings", multiple=True, metavar="'BLOCK EXPECTED = READ'", help="A supply that was read.")
@click.option("--worth", type=click.FloatRange(min=0), help="What a repair may cost, in money of the shop.")
@click.option("--ask", is_flag=True, help="Ask for what would help most, one question at a time.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for machines.")
def command(
    base: Base,
    words: tuple[str, ...],
    class_id: str | None,
    maker: str,
    model: str,
    boards: tuple[str, ...],
    symptoms: tuple[str, ...],
    complaints: tuple[str, ...],
    not_seen: tuple[str, ...],
    tests: tuple[str, ...],
    readings: tuple[str, ...],
    worth: float | None,
    ask: bool,
    as_json: bool,
) -> None:
    """Likely causes of a fault, the next step, time and parts, from WORDS or options or both.

    WORDS say what you know as you would say it: the model or a board, what it does and does not, what you tested and
    read. Outcomes of --test are normal, abnormal or inconclusive; load is connected, disconnected or dummy; add
    in-circuit or fault-away where it applies.
    """
    from benchlore.answer.asking import Asker
    from benchlore.answer.observed import COMPLAINT_WEIGHT
    from benchlore.answer.question import Question
    from benchlore.answer.typed import reading_of, result_of, symptom_of

    vocabulary = base.vocabulary
    asker = Asker.of_base(base)
    question = Question(
        equipment_class=asker.class_of(class_id) if class_id else "",
        maker=maker,
        model=model,
        boards=boards,
        seen={symptom_of(s, vocabulary): 1.0 for s in symptoms}
        | {symptom_of(s, vocabulary): COMPLAINT_WEIGHT for s in complaints},
        absent=frozenset(symptom_of(s, vocabulary) for s in not_seen),
    )
    question = asker.read(" ".join(words), question)
    results = [result_of(text, vocabulary) for text in tests]
    results += [reading_of(text, question.equipment_class, vocabulary) for text in readings]
    question = asker.with_results(question, results)
    diagnosis = asker.answer(asker.complete(question), worth)
    if ask and not as_json:
        diagnosis = _dialogue(asker, diagnosis, worth)
    if as_json:
        from benchlore.answer.telling import as_data

        click.echo(json.dumps(as_data(diagnosis, vocabulary, base.shop.currency), indent=2, ensure_ascii=False))
        return
    show(diagnosis, base)


def _dialogue(asker: Any, diagnosis: Diagnosis, worth: float | None) -> Diagnosis:
    """Ask what helps most until nothing does, or until the answer is q; an empty answer is "don't know"."""
    asked: set[str] = set()
    while (wanted := asker.next_question(diagnosis, asked)) is not None:
        kind, term_id, text = wanted
        asked.add(f"{kind}:{term_id}")
        said = click.prompt(
            f"{text} [y/n, Enter: don't know, q: enough]", default="", show_default=False, err=True
        ).strip().lower()
        if said.startswith("q"):
            break
        question: Question = asker.told(diagnosis.question, kind, term_id, said)
        diagnosis = asker.answer(question, worth)
        lead = diagnosis.causes[0]
        from benchlore.answer.telling import cause_name

        click.echo(f"  {lead.probability:4.0%}  {cause_name(lead, asker.vocabulary)}", err=True)
    return diagnosis


def show(diagnosis: Diagnosis, base: Base) -> None:
    """Print the answer for somebody at the bench."""
    from benchlore.answer.telling import told

    for heading, lines in told(diagnosis, base.vocabulary, base.shop.currency):
        if heading:
            click.secho(f"\n{heading}", bold=True)
        _echo(lines)


def _echo(lines: Sequence[str]) -> None:
    for line in lines:
        click.echo(line)
