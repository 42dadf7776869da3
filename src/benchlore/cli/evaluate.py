"""``benchlore evaluate``: how well Benchlore does on what people judged; measured, not claimed."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from benchlore.cli.base_option import base_option

if TYPE_CHECKING:
    from benchlore.read.base import Base
    from benchlore.terms.measure import Judged

_MOST_BYTES = 2_000_000


@click.group(
    epilog="""\b
Examples:
  benchlore evaluate recogniser tests/vectors/symptom_sentences.yaml
  benchlore evaluate recogniser my-sentences.yaml --misses
"""
)
def command() -> None:
    """Measure Benchlore on judged cases: sentences with the symptoms they mean."""


@command.command(
    epilog="""\b
Examples:
  benchlore evaluate recogniser tests/vectors/symptom_sentences.yaml
  benchlore evaluate recogniser my-sentences.yaml --half check --misses
"""
)
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--half", type=click.Choice(["tune", "check"]), help="Only this half of the sentences.")
@click.option("--misses", is_flag=True, help="List the sentences that were not read as meant.")
@click.option("--json", "as_json", is_flag=True, help="Print the figures as JSON.")
@base_option
def recogniser(base: Base, file: Path, half: str | None, misses: bool, as_json: bool) -> None:
    """Symptoms found in the sentences of FILE, against those that people meant.

    FILE is a YAML list of sentences: text, symptoms, not_seen, and optionally said_by and half.
    """
    from benchlore.terms.measure import measure

    sentences = [sentence for sentence in _read(file) if half is None or sentence.half == half]
    groups = {"all": sentences}
    for name in sorted({sentence.said_by for sentence in sentences}):
        groups[name] = [sentence for sentence in sentences if sentence.said_by == name]
    for name in sorted({sentence.half for sentence in sentences}):
        groups[f"{name} half"] = [sentence for sentence in sentences if sentence.half == name]
    measured = {name: measure(base.vocabulary.recogniser, group) for name, group in groups.items()}
    if as_json:
        figures: dict[str, Any] = {
            name: {"sentences": m.sentences, "meant": m.meant, "found": m.recall, "wrong": m.wrong}
            for name, m in measured.items()
        }
        click.echo(json.dumps(figures, indent=2))
        return
    click.echo(f"{'':12} {'sentences':>9} {'symptoms meant':>14} {'found':>7} {'wrong':>7}")
    for name, m in measured.items():
        click.echo(f"{name:12} {m.sentences:9} {m.meant:14} {m.recall:7.1%} {m.wrong:7.1%}")
    click.echo("found: share of the symptoms meant; wrong: share of those found that were not meant")
    if misses:
        for miss in measured["all"].misses:
            click.echo(f"\n{miss.text}")
            if miss.missed:
                click.echo(f"  not found: {', '.join(miss.missed)}")
            if miss.wrong:
                click.echo(f"  wrong:     {', '.join(miss.wrong)}")


def _read(file: Path) -> list[Judged]:
    import yaml
    from pydantic import TypeAdapter, ValidationError

    from benchlore.errors import BenchloreError
    from benchlore.terms.measure import Judged

    if file.stat().st_size > _MOST_BYTES:
        raise BenchloreError(f"{file} is larger than {_MOST_BYTES // 1_000_000} MB")
    try:
        return TypeAdapter(list[Judged]).validate_python(yaml.safe_load(file.read_text(encoding="utf-8")))
    except (yaml.YAMLError, UnicodeDecodeError) as error:
        raise BenchloreError(f"{file}: {' '.join(str(error).split())}") from None
    except ValidationError as error:
        first = error.errors()[0]
        place = " ".join(f"item {part + 1}" if isinstance(part, int) else str(part) for part in first["loc"])
        raise BenchloreError(f"{file}: {place}: {first['msg']}", hint="Each item: text, symptoms, not_seen.") from None
