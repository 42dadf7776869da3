"""Writes ``fold_table.json`` anew: ``python -m benchlore.terms.make_fold_table`` (a maintainer's command).

The fold of a character: compatibility decomposition, combining marks dropped, recomposed, case-folded; dashes and
minus signs become ``-``. Word characters are what Python calls alphanumeric.
"""

from __future__ import annotations

import json
import sys
import unicodedata
from pathlib import Path

_DASHES = "\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe63\uff0d"


def fold_of(character: str) -> str:
    """The fold of one character, from Python's Unicode data."""
    if character in _DASHES:
        return "-"
    text = unicodedata.normalize("NFKD", character)
    for _ in range(2):
        text = unicodedata.normalize("NFKD", text.casefold())
        text = "".join(c for c in text if unicodedata.category(c) != "Mn")
    return unicodedata.normalize("NFKC", text)


def table() -> dict[str, object]:
    """The whole table: ``runs`` [start, count, step, delta], ``singles`` {code: text}, ``word`` [gap, length, ...]."""
    single_step: dict[int, int] = {}
    singles: dict[int, str] = {}
    words: list[int] = []
    position = 0
    in_word = False
    for code in range(sys.maxunicode + 1):
        character = chr(code)
        surrogate = 0xD800 <= code <= 0xDFFF
        if not surrogate:
            folded = fold_of(character)
            if folded != character:
                if len(folded) == 1:
                    single_step[code] = ord(folded) - code
                else:
                    singles[code] = folded
        is_word = not surrogate and character.isalnum()
        if is_word != in_word:
            words.append(code - position)
            position, in_word = code, is_word
    runs: list[list[int]] = []
    left = sorted(single_step)
    taken: set[int] = set()
    for code in left:
        if code in taken:
            continue
        best = [code, 1, 1, single_step[code]]
        for step in (1, 2):
            count = 1
            while (
                (following := code + count * step) in single_step
                and following not in taken
                and single_step[following] == single_step[code]
            ):
                count += 1
            if count > best[1]:
                best = [code, count, step, single_step[code]]
        if best[1] < 3:
            singles[code] = chr(code + single_step[code])
            taken.add(code)
        else:
            runs.append(best)
            taken.update(range(code, code + best[1] * best[2], best[2]))
    return {
        "unicode": unicodedata.unidata_version,
        "runs": runs,
        "singles": {str(code): singles[code] for code in sorted(singles)},
        "word": words,
    }


if __name__ == "__main__":
    target = Path(__file__).with_name("fold_table.json")
    target.write_text(json.dumps(table(), ensure_ascii=True, separators=(",", ":")) + "\n", encoding="ascii")
    print(f"wrote {target.name}")
