"""Writes the browser's fold tables anew: ``python -m benchlore.publish.theme.make_fold_scripts`` (for maintainers).

The table of :mod:`benchlore.terms.fold` is cut in two: ``fold_near.js`` has the alphabets and signs that a European
keyboard and a data sheet give and comes with the search page; ``fold_far.js`` has the rest and is fetched when a text
holds such a character.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path

from benchlore.terms import fold

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


def script(raw: dict[str, list[list[int]]], singles: dict[str, str], gaps: list[int], ranges: Ranges) -> str:
    """One table as a script that hands it to ``Benchlore.foldTable``; ASCII is folded by the script itself."""
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
    body = json.dumps(payload, ensure_ascii=True, separators=(",", ":"))
    return (
        "// Written by benchlore.publish.theme.make_fold_scripts from terms/fold_table.json; do not edit.\n"
        f"Benchlore.foldTable({body});\n"
    )


def scripts() -> dict[str, str]:
    """The two scripts by file name."""
    raw = json.loads(Path(fold.__file__).with_name("fold_table.json").read_text(encoding="utf-8"))
    return {
        "fold_near.js": script(raw, raw["singles"], raw["word"], NEAR),
        "fold_far.js": script(raw, raw["singles"], raw["word"], FAR),
    }


if __name__ == "__main__":
    for name, text in scripts().items():
        (_SCRIPTS / name).write_text(text, encoding="ascii")
        print(f"wrote {name}")
