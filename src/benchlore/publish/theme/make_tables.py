"""Writes the browser's tables anew: ``python -m benchlore.publish.theme.make_tables`` (for maintainers).

``tables.js`` has what search in Python and in the browser must agree on and Python declares: small words, limits, and
how values are found in text. The character table of :mod:`benchlore.terms.fold` is cut in two: ``fold_near.js`` has the
alphabets and signs that a European keyboard and a data sheet give and comes with the search page; ``fold_far.js`` has
the rest and is fetched when a text holds such a character. A test fails when a table is stale.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from itertools import groupby
from operator import itemgetter
from pathlib import Path

from benchlore.index import facets, near_values, plain_text, query, rank, spelling, tokens
from benchlore.quantity import scan
from benchlore.terms import fold, recogniser

NEAR = ((0x0000, 0x0530), (0x1E00, 0x2300))
FAR = ((0x0530, 0x1E00), (0x2300, 0x110000))
_SCRIPTS = Path(__file__).with_name("scripts")
Ranges = tuple[tuple[int, int], ...]


def _inside(code: int, ranges: Ranges) -> bool:
    return any(low <= code < high for low, high in ranges)


def _rows(singles: Iterable[tuple[int, str]]) -> Iterator[str]:
    """Runs of neighbouring characters as ``first code in base 36, fold, fold ...``, tabs between."""
    row: list[str] = []
    following = -1
    for code, text in sorted(singles):
        if code != following:
            if row:
                yield "\t".join(row)
            row = [_base36(code)]
        row.append(text)
        following = code + 1
    if row:
        yield "\t".join(row)


def _base36(number: int) -> str:
    digits = ""
    while number:
        number, digit = divmod(number, 36)
        digits = "0123456789abcdefghijklmnopqrstuvwxyz"[digit] + digits
    return digits or "0"


def _word_gaps(gaps: list[int], ranges: Ranges) -> list[int]:
    cut: list[int] = []
    position = last = 0
    for gap, length in zip(gaps[0::2], gaps[1::2], strict=True):
        start, end = position + gap, position + gap + length
        position = end
        for low, high in ranges:
            inner_start, inner_end = max(start, low), min(end, high)
            if inner_start < inner_end:
                cut += [inner_start - last, inner_end - inner_start]
                last = inner_end
    return cut


def fold_table(raw: dict[str, list[list[int]]], singles: dict[str, str], gaps: list[int], ranges: Ranges) -> str:
    """One cut of the character table as a script; ASCII is folded by ``fold.js`` itself."""
    kept = [run for run in raw["runs"] if _inside(run[0], ranges)]
    for start, count, step, _ in kept:
        if not _inside(start + (count - 1) * step, ranges):
            raise ValueError(f"a run of folds crosses the cut at {start:#x}: move the cut")
    payload = {
        "ranges": ranges,
        "runs": [run for run in kept if run[0] >= 0x80],
        "singles": "\n".join(_rows((int(code), text) for code, text in singles.items() if _inside(int(code), ranges))),
        "words": _word_gaps(gaps, ranges),
    }
    return _script("Benchlore.foldTable({})", payload)


def tables() -> str:
    """What Python declares and the browser's search needs as well, as a script that sets ``Benchlore.tables``."""
    units: dict[tuple[str, int, int, bool, bool], list[str]] = {}
    for spelled, row in scan.scan_table().items():
        units.setdefault(row, []).append(spelled)
    classes = [
        [name, sorted({" ".join(member) for _, member in members})]
        for name, members in groupby(recogniser.word_classes(), key=itemgetter(0))
    ]
    return _script(
        "(globalThis.Benchlore ??= {{}}).tables = {}",
        {
            "fillers": sorted(recogniser.FILLERS),
            "not_words": sorted(recogniser.NOT_WORDS),
            "negators": sorted(recogniser.NEGATORS),
            "links": sorted(recogniser.LINKS),
            "kinds": recogniser.KINDS_RECOGNISED,
            "spoken": sorted(recogniser.SPOKEN),
            "walls": sorted(recogniser.WALLS),
            "soft": sorted(recogniser.SOFT),
            "free": sorted(recogniser.FREE - recogniser.SOFT),
            "parting": sorted(recogniser.PARTING),
            "wordClasses": classes,
            "contrary": recogniser.CONTRARY,
            "gap": recogniser.GAP,
            "orReach": recogniser.OR_REACH,
            "longestSkip": recogniser.LONGEST_SKIP,
            "clauseEnd": recogniser.END,
            "facets": facets.FACET_NAMES,
            "facetNumber": facets.NUMBER,
            "stopWords": sorted(tokens.STOP_WORDS),
            "negatable": sorted(tokens.NEGATABLE),
            "joiners": sorted(tokens.JOINERS),
            "longestWord": tokens.LONGEST_WORD,
            "longestMark": tokens.LONGEST_MARK,
            "longestText": tokens.LONGEST_TEXT,
            "longestQuery": query.LONGEST_QUERY,
            "mostGroups": query.MOST_GROUPS,
            "mostStarts": plain_text.MOST_STARTS,
            "mostSisters": plain_text.MOST_SISTERS,
            "inPhrase": plain_text.IN_PHRASE,
            "start": plain_text.START,
            "sister": plain_text.SISTER,
            "states": tokens.STATES,
            "tolerance": plain_text.TOLERANCE,
            "near": {
                "window": near_values.WINDOW,
                "widest": near_values.WIDEST,
                "close": near_values.CLOSE,
                "closeWeight": near_values.CLOSE_WEIGHT,
                "farWeight": near_values.FAR_WEIGHT,
                "mostOfADigit": near_values.MOST_OF_A_DIGIT,
                "bareUnits": near_values.BARE_UNITS,
            },
            "spelling": {
                "shortest": spelling.SHORTEST,
                "longest": spelling.LONGEST,
                "long": spelling.LONG,
                "leastJoined": spelling.LEAST_JOINED,
                "leastHalf": spelling.LEAST_HALF,
            },
            "k1": rank.K1,
            "valuePattern": scan.PATTERN,
            "valueWord": scan.WORD,
            "units": [[*row[:3], int(row[3]), int(row[4]), " ".join(spelled)] for row, spelled in units.items()],
        },
    )


def _script(statement: str, payload: object) -> str:
    body = json.dumps(payload, ensure_ascii=True, separators=(",", ":"))
    return f"// Written by benchlore.publish.theme.make_tables; do not edit.\n{statement.format(body)};\n"


def scripts() -> dict[str, str]:
    """The generated scripts by file name."""
    raw = json.loads(Path(fold.__file__).with_name("fold_table.json").read_text(encoding="utf-8"))
    return {
        "fold_near.js": fold_table(raw, raw["singles"], raw["word"], NEAR),
        "fold_far.js": fold_table(raw, raw["singles"], raw["word"], FAR),
        "tables.js": tables(),
    }


if __name__ == "__main__":
    for name, text in scripts().items():
        (_SCRIPTS / name).write_text(text, encoding="ascii")
        print(f"wrote {name}")
