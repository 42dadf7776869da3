"""A defect found while reading, as a value: what, where in the entry and in the text, and how to mend it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import islice

Path = tuple[str | int, ...]
"""Keys and list positions from the top of a file down to a value."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One defect.

    ``kind`` is a key of :data:`PROBLEM_KINDS`. ``path`` leads to the value (or, with ``on_key``, to the key) that is
    meant; it may name a key that is missing. ``offset`` and ``end`` count characters of the text, from 0; both are
    None when the defect is in no particular place (a file that cannot be opened).
    """

    kind: str
    path: Path
    message: str
    hint: str = ""
    offset: int | None = None
    end: int | None = None
    on_key: bool = False


SHOWN = 60
"""Characters of what a file says that a message repeats at most."""


def shown(value: object) -> str:
    """What a file says, as a message repeats it: on one line, cut, in typographic quotes."""
    text = " ".join(str(value).split())
    return f"“{text if len(text) <= SHOWN else text[: SHOWN - 1] + '…'}”"


def in_quotes(text: str) -> str:
    """``text`` as a YAML string on one line, for a hint; words instead where it is too long to repeat."""
    if len(text) > 2 * SHOWN:
        return "the whole of it, from the first character to the last"
    if '"' not in text and "\\" not in text:
        return f'"{text}"'
    return "'" + text.replace("'", "''") + "'"


def at_most(limit: int, problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """The first ``limit`` problems, and, where there are more, one more that says so."""
    found = tuple(islice(problems, limit + 1))
    if len(found) <= limit:
        return found
    message = f"there are more than {limit} problems; these are the first"
    last = found[limit]
    more = Problem("too-many-problems", last.path, message, "Mend these first.", last.offset, last.end, last.on_key)
    return (*found[:limit], more)


PROBLEM_KINDS: dict[str, str] = {
    # the file
    "unreadable-file": "The file cannot be opened or read.",
    "not-a-file": "Something named like an entry is no ordinary file: a folder, a pipe, a device.",
    "link-outside": "A link leads outside the knowledge base, or is a link to a folder.",
    "bad-file-name": "The file's name or place is not entries/<class>/<slug>.yaml.",
    "too-large": "The file is larger than an entry may be.",
    "not-utf8": "The file is not UTF-8 text.",
    # the characters
    "control-character": "A control character, which no editor shows and which can disturb a terminal.",
    "invisible-character": "A character that is invisible or turns the direction of text, so that it hides something.",
    # YAML
    "yaml-syntax": "The text is not YAML.",
    "tab-indentation": "A tab at the start of a line; YAML indents with spaces.",
    "second-colon": "A colon and space inside an unquoted value.",
    "unquoted-start": "An unquoted value starts with a character that means something to YAML.",
    "text-after-quote": "Text goes on after a closing quotation mark.",
    "unclosed-quote": "A quotation mark is opened and never closed.",
    "block-marker": "An unquoted > or | was read as the start of a block of text.",
    "alias": "An anchor or alias (& or *); an entry says everything in full.",
    "tag": "A tag (!); an entry needs none.",
    "several-documents": "More than one YAML document in a file.",
    "duplicate-key": "A key stands twice in the same mapping.",
    "merge-key": "A merge key (<<).",
    "key-not-text": "A key that is a list or a mapping.",
    "too-deep": "Values are nested deeper than an entry can be.",
    "too-many-values": "The file holds more values than an entry may have.",
    "too-many-problems": "The file has more problems than are listed.",
    # the entry
    "empty-file": "The file has no content.",
    "unknown-key": "A key that an entry does not have at this place.",
    "missing-key": "A key that must be there is missing or empty.",
    "empty-item": "An item of a list is empty.",
    "empty-text": "A text is empty.",
    "too-long": "A text is longer than the field allows.",
    "too-few": "A list has fewer items than it needs.",
    "several-lines": "A text that must be one line has several.",
    "wrong-type": "A list, a mapping or a text stands where something else belongs.",
    "wrong-choice": "A word that is none of the possible ones.",
    "unknown-format": "The format number is none that this Benchlore reads.",
    "unreadable-quantity": "A quantity that cannot be read without guessing.",
    "bad-flag": "Something other than yes or no.",
    "bad-date": "Not a date as YYYY-MM-DD, or no such day.",
    "bad-number": "Not a plain number, or one out of range.",
    "bad-money": "Not an amount such as 1.10 EUR.",
    "bad-form": "A text that does not have the form it needs, such as a slug.",
}
"""Kind of problem to what it means. Every kind that reading can yield is listed here."""
