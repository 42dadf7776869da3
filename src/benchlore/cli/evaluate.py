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
  benchlore evaluate search tests/vectors/judged_queries.yaml --half check
  benchlore evaluate diagnosis
"""
)
def command() -> None:
    """Measure Benchlore on judged cases: sentences, searches; a base's own entries."""


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


@command.command(
    epilog="""\b
Examples:
  benchlore evaluate diagnosis
  benchlore evaluate diagnosis --deep 10 --json
  benchlore evaluate diagnosis --class dehumidifier
"""
)
@click.option("--class", "classes", multiple=True, metavar="CLASS", help="Only predict entries of this class.")
@click.option(
    "--deep", type=click.IntRange(min=1), default=8, show_default=True, help="Entries that make a class a deep one."
)
@click.option("--json", "as_json", is_flag=True, help="Print the figures as JSON.")
@base_option
def diagnosis(base: Base, classes: tuple[str, ...], deep: int, as_json: bool) -> None:
    """Each entry's cause predicted from its symptoms: from all other entries, and in date order.

    Top-1 and top-3 count the first and the first three answers; log loss is the mean of -ln(share given to the truth),
    beside what counting causes alone would have got; a cause that nobody had written up before is foreseen by "not seen
    before". Calibration: how often the leading answer was right, by the share it was given.
    """
    from collections import Counter

    from benchlore.answer.asking import Asker
    from benchlore.answer.measure_diagnosis import in_date_order, leave_one_out

    asker = Asker.of_base(base)
    wanted = frozenset(asker.class_of(text) for text in classes)
    counted = Counter(case.equipment_class for case in asker.cases if case.has_symptoms)
    deep_ones = frozenset(c for c, n in counted.items() if n >= deep and (not wanted or c in wanted))
    groups = {"all": wanted} | ({"deep classes": deep_ones} if deep_ones and deep_ones != wanted else {})
    ways = {"each from all others": leave_one_out, "in date order": in_date_order}
    measured = {
        (way, name): measure(asker.cases, asker.vocabulary, group)
        for way, measure in ways.items()
        for name, group in groups.items()
    }
    if as_json:
        click.echo(json.dumps([{"way": w, "entries": e, **m.as_data()} for (w, e), m in measured.items()], indent=2))
        return
    heads = ("entries", "new", "top-1", "top-3", "log loss", "counting", "off by")
    click.echo(f"{'':36} " + " ".join(f"{h:>{w}}" for h, w in zip(heads, (7, 4, 6, 6, 8, 8, 6), strict=True)))
    for (way, name), m in measured.items():
        if m.count:
            click.echo(
                f"{way + ', ' + name:36} {m.count:7} {m.new:4} {m.top(1):6.1%} {m.top(3):6.1%} {m.log_loss:8.3f}"
                f" {m.frequency_loss:8.3f} {m.calibration_error:6.3f}"
            )
    known = measured["each from all others", "all"].known
    if known.count:
        click.echo(f"of the {known.count} whose cause others had: top-1 {known.top(1):.1%}, top-3 {known.top(3):.1%}")
    click.echo("new: causes that nothing learned from had; counting: log loss of counting causes alone;")
    click.echo("off by: expected calibration error, |said - right|")
    name = "deep classes" if "deep classes" in groups else "all"
    click.echo(f"\nSaid against right (each from all others, {name})")
    for row in measured["each from all others", name].bins:
        said, right = round(row.said * 30), round(row.right * 30)
        line = "".join("◆" if n == right else "│" if n == said else "·" for n in range(31))
        click.echo(f"  {row.entries:4} entries  said {row.said:4.0%}, right {row.right:4.0%}  {line}")
    if measured["each from all others", name].count:
        click.echo("  │ what was said, ◆ how often it was right")


@command.command(
    epilog="""\b
Examples:
  benchlore evaluate search tests/vectors/judged_queries.yaml
  benchlore evaluate search my-queries.yaml --half tune --misses
"""
)
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--half", type=click.Choice(["tune", "check"]), help="Only this half of the queries.")
@click.option("--misses", is_flag=True, help="List the queries that did not put a relevant entry first.")
@click.option("--json", "as_json", is_flag=True, help="Print the figures as JSON.")
@base_option
def search(base: Base, file: Path, half: str | None, misses: bool, as_json: bool) -> None:
    """Searches of FILE over the base, against what people judged; plain BM25 beside them.

    FILE is a YAML list of queries: query, capability, half (tune or check), and judgements: entry to grade, from 0 (of
    no use) to 3 (exactly what was sought). Relevant are grades from 2 on.
    """
    from benchlore.index.judged import ask_all, by_trigrams, by_words, grouped, plain_bm25, read_judged, summary
    from benchlore.index.open_index import open_index
    from benchlore.index.search import Searcher

    judged = [query for query in read_judged(file) if half is None or query.half == half]
    if not judged:
        raise click.UsageError(f"{file} holds no queries{f' of the half {half!r}' if half else ''}")
    store, lexicon = open_index(base)
    known = set(store.catalogue.slugs)
    gone = sorted({slug for query in judged for slug in query.judgements} - known)
    searcher = Searcher(store, lexicon)
    asked = ask_all(judged, lambda query: [hit.slug for hit in searcher.search(query, limit=10).hits])
    store.close()
    records = base.records()
    rows = {"all": summary(asked)}
    rows |= {name: summary(some) for name, some in grouped(asked).items()}
    for name, cut in (("plain BM25, words", by_words), ("plain BM25, trigrams", by_trigrams)):
        rows[name] = summary(ask_all(judged, plain_bm25(records, base.vocabulary, cut)))
    if as_json:
        figures = {
            name: {"queries": m.queries, "ndcg_10": m.ndcg, "recall_5": m.recall, "mrr": m.rank}
            for name, m in rows.items()
        }
        click.echo(json.dumps({"measures": figures, "unknown_entries": gone}, indent=2))
        return
    click.echo(f"{'':21} {'queries':>7} {'nDCG@10':>17} {'recall@5':>17} {'MRR':>17}")
    for name, m in rows.items():
        figures_ = " ".join(f"{mean:6.3f} {low:.2f} to {high:.2f}"[:19].rjust(17) for mean, low, high in
                            (m.ndcg, m.recall, m.rank))  # fmt: skip
        click.echo(f"{name:21} {m.queries:7} {figures_}")
    click.echo("mean, and where it lies in 95 of 100 resamples of the queries")
    if gone:
        click.echo(f"judged, but no entries of this base: {', '.join(gone)}")
    if misses:
        for one in asked:
            if one.rank < 1 or one.recall < 1:
                click.echo(f"\n{one.judged.query}   ({one.judged.capability}, nDCG {one.ndcg:.2f})")
                wanted = sorted(one.judged.judgements.items(), key=lambda item: (-item[1], item[0]))
                click.echo(f"  wanted: {', '.join(f'{slug} {grade}' for slug, grade in wanted)}")
                click.echo(f"  found:  {', '.join(one.found[:5]) or 'nothing'}")
