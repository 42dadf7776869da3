"""Hostile files, kind by kind: what a stranger could send. Made here, since no repository can or should hold them."""

from __future__ import annotations

import os
import socket
from collections.abc import Callable
from pathlib import Path

from tests.check.examples import MINIMAL, laid_over

FOLDER = "entries/dehumidifier"
NAME = f"{FOLDER}/hostile-entry.yaml"
GOOD = f"{FOLDER}/good-entry.yaml"


def text(content: str | bytes, name: str = NAME) -> Callable[[Path], None]:
    """Lays down one file."""

    def make(root: Path) -> None:
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8", "surrogatepass"))

    return make


def fragment(lines: str, name: str = NAME) -> Callable[[Path], None]:
    """Lays down the minimal entry with some lines of its own."""
    return text(laid_over(lines + "\n"), name)


def _link(target: str) -> Callable[[Path], None]:
    return lambda root: (root / NAME).symlink_to(target)


def _loop(root: Path) -> None:
    (root / NAME).symlink_to("other-entry.yaml")
    (root / FOLDER / "other-entry.yaml").symlink_to("hostile-entry.yaml")


def _folder_loop(root: Path) -> None:
    (root / "entries" / "loop").symlink_to("..")
    (root / NAME).write_text(laid_over("hazards: [nonsense, mains]\n"), encoding="utf-8")


def _socket(root: Path) -> None:
    here = Path.cwd()
    os.chdir(root / FOLDER)  # the name of a socket is short
    try:
        with socket.socket(socket.AF_UNIX) as listening:
            listening.bind("hostile-entry.yaml")
    finally:
        os.chdir(here)


def _many_names(root: Path) -> None:
    for number in range(2_000):
        (root / FOLDER / f"x{number}.yaml").mkdir()


ALIASES = "\n".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9) if n else 'lol'}]" for n in range(9))
SCRIPT = "<script>alert(1)</script>"
FORMULA = "=HYPERLINK(\"https://example.org\")"

# ruff: noqa: E501 - a table, a kind a line
KINDS: dict[str, tuple[Callable[[Path], None], str | None]] = {
    # the text as YAML
    "alias bomb": (text(laid_over("minutes: 60\n") + ALIASES), "yaml-reference"),
    "recursive alias": (fragment("notes: &n [*n]"), "yaml-reference"),
    "merge key": (fragment("<<: {author: odd-l}"), "yaml-reference"),
    "tag that would build an object": (fragment("notes: !!python/object/apply:os.system [id]"), "yaml-reference"),
    "huge scalar": (fragment("notes: " + "x" * 200_000), "too-long"),
    "huge file": (fragment("notes: " + "x" * 5_000_000), "file-too-large"),
    "huge key": (fragment("k" * 100_000 + ": 1"), "yaml-syntax"),
    "deep flow nesting": (fragment("notes: " + "[" * 100_000), "file-too-large"),
    "deep closed nesting": (fragment("notes: " + "[" * 5_000 + "]" * 5_000), "file-too-large"),
    "deep block nesting": (fragment("notes:\n" + "".join(" " * n + "- \n" for n in range(2, 400))), "file-too-large"),
    "deep mappings": (fragment("notes: " + "{a: " * 30_000), "file-too-large"),
    "very many values": (fragment("hazards: [" + "mains, " * 30_000 + "]"), "file-too-large"),
    "very many unknown keys": (fragment("\n".join(f"key_{n}: 1" for n in range(5_000))), "too-many-problems"),
    "very many wrong terms": (fragment("hazards: [" + ", ".join(f"h{n}" for n in range(15_000)) + "]"), "unknown-term"),
    "very many second colons": (fragment("\n".join(f"key_{n}: a: b" for n in range(9_000))), "second-colon"),
    "very many quotes": (fragment("notes: " + "'\"" * 60_000), None),
    "key that is nearly another": (fragment("minutes: 60\nminutes_: 2"), "unknown-key"),
    "key twice": (text(MINIMAL + "minutes: 61\n"), "duplicate-key"),
    "several documents": (text("---\na: 1\n" * 5_000), "several-documents"),
    "directive": (text("%YAML 9.9\n" + MINIMAL), "yaml-syntax"),
    "colons only": (text(":" * 100_000), None),
    "question marks": (text("? " * 50_000), None),
    "dashes": (text("- " * 50_000), None),
    "empty": (text(""), "empty-file"),
    "blank": (text("\n" * 200_000), "empty-file"),
    "comment only": (text("# nothing\n" * 20_000), "empty-file"),
    # characters
    "tabs": (text(MINIMAL.replace("  class:", "\tclass:")), "tab-indentation"),
    "byte-order mark": (text(b"\xef\xbb\xbf" + MINIMAL.encode()), None),
    "byte-order mark in the middle": (fragment("notes: a\ufeffb"), "hidden-character"),
    "carriage returns": (text(MINIMAL.replace("\n", "\r\n")), None),
    "carriage returns alone": (text(MINIMAL.replace("\n", "\r")), "hidden-character"),
    "UTF-16": (text(MINIMAL.encode("utf-16")), "not-utf8"),
    "UTF-32": (text(MINIMAL.encode("utf-32")), "not-utf8"),
    "Latin-1": (text(MINIMAL.encode("latin-1", "replace") + "notes: 5 \xb5F\n".encode("latin-1")), "not-utf8"),
    "surrogates": (fragment("notes: \udc80"), "not-utf8"),
    "null bytes": (fragment("notes: a\0b"), "hidden-character"),
    "escaped null": (fragment('notes: "a\\0b"'), "hidden-character"),
    "terminal escape": (fragment("notes: \x1b]0;owned\x07"), "hidden-character"),
    "eight-bit control": (fragment("notes: \x9b31m"), "hidden-character"),
    "bidirectional override": (fragment("notes: relay \u202egnittilps\u202c"), "hidden-character"),
    "zero-width": (fragment("title: Relay chat\u200bters under load; dropper capacitor"), "hidden-character"),
    "tag characters": (fragment("notes: relay \U000e0041"), "hidden-character"),
    "homoglyph id": (fragment("hazards: [m\u0430ins, mains]"), "unknown-term"),
    "very long id": (fragment("hazards: [" + "x" * 90 + ", mains]"), "unknown-term"),
    "far too long id": (fragment("hazards: [" + "x" * 50_000 + ", mains]"), "too-long"),
    "combining marks": (fragment("title: Relay chatters under load " + "\u0301" * 150), None),
    # regular expressions that could be kept busy
    "digits without end": (fragment("notes: " + "0" * 39_000), None),
    "brackets in words": (fragment("notes: '" + "(((" * 12_000 + "'"), None),
    "almost an address": (fragment("notes: " + "a." * 19_000 + "@"), None),
    "almost markup": (fragment("notes: '" + "<a " * 12_000 + "'"), None),
    "spaces without end": (fragment("notes: 'a" + " " * 39_000 + "b'"), None),
    "a quantity without end": (fragment("measurements: [{point: P, quantity: dc-voltage, before: " + "1" * 150_000 + " V}]"), None),
    "a quantity of many signs": (fragment("measurements: [{point: P, quantity: dc-voltage, before: '" + "±" * 60_000 + "'}]"), "unreadable-quantity"),
    "a date without end": (fragment("date: " + "2" * 100_000), "bad-date"),
    "a number without end": (fragment("minutes: " + "9" * 100_000), "bad-number"),
    "an ignore of everything": (fragment("lint_ignore: [" + ", ".join(f"{{rule: r{n}, reason: none}}" for n in range(3_000)) + "]"), "ignore-unknown"),
    # the place
    "link out of the base": (_link("/etc/passwd"), "link-outside"),
    "link to a device": (_link("/dev/zero"), "link-outside"),
    "link up and out": (_link("../../../secret.yaml"), None),
    "link to itself": (_link("hostile-entry.yaml"), "unreadable-file"),
    "link loop": (_loop, "unreadable-file"),
    "folder that is a link upwards": (_folder_loop, "unknown-term"),
    "folder named like an entry": (lambda root: (root / NAME).mkdir(), "unreadable-file"),
    "many folders named like entries": (_many_names, "unreadable-file"),
    "pipe": (lambda root: os.mkfifo(root / NAME), "unreadable-file"),
    "socket": (_socket, "unreadable-file"),
    "device by name": (fragment("minutes: 60", f"{FOLDER}/con.yaml"), "reserved-file-name"),
    "names that differ by capitals": (fragment("minutes: 60", f"{FOLDER}/Good-Entry.yaml"), "bad-file-name"),
    "name with an escape": (fragment("minutes: 60", f"{FOLDER}/re\x1b[31md.yaml"), "bad-file-name"),
    "name with a line break": (fragment("minutes: 60", f"{FOLDER}/a\n::error::b.yaml"), "bad-file-name"),
    "name as long as can be": (fragment("minutes: 60", f"{FOLDER}/{'x' * 245}.yaml"), "bad-file-name"),
    # attachments
    "attachment by traversal": (fragment("photos: [{file: ../../../etc/passwd, shows: fault, of: C1}]"), "photo-elsewhere"),
    "attachment by another way of traversal": (fragment(r"photos: [{file: '..\..\secret.jpg', shows: fault, of: C1}]"), "photo-elsewhere"),
    "attachment by an absolute path": (fragment("photos: [{file: /etc/passwd, shows: fault, of: C1}]"), "photo-elsewhere"),
    "attachment from another host": (fragment("photos: [{file: 'https://example.org/a.jpg', shows: fault, of: C1}]"), "photo-elsewhere"),
    "attachment with a null byte": (fragment('photos: [{file: "a\\0.jpg", shows: fault, of: C1}]'), "hidden-character"),
    "very many attachments": (fragment("photos: [" + ", ".join(f"{{file: p{n}.jpg, shows: fault, of: C1}}" for n in range(2_000)) + "]"), "photo-missing"),
    # what would run on a page or in a spreadsheet
    "script in the title": (fragment(f"title: Relay chatters under load {SCRIPT}"), "markup-in-text"),
    "script in the notes": (fragment(f"notes: '{SCRIPT} <img src=x onerror=alert(1)>'"), "markup-in-text"),
    "a link that would run": (fragment("documents: [{title: Sheet, link: 'javascript:alert(1)'}]"), "unsafe-link"),
    "a link that would run, in Markdown": (fragment("notes: '[a](javascript:alert(1))'"), None),
    "a link of data": (fragment("documents: [{title: Sheet, link: 'data:text/html,<script>'}]"), "unsafe-link"),
    "a formula": (fragment(f"title: '{FORMULA} relay chatters'\nauthor: '@SUM(A1)'\nnotes: '+cmd'"), None),
}  # fmt: skip
"""Kind to how it is made under a base's root, and the rule that must be found; None when it is accepted as harmless, or
when it is enough that lint gets past it.
"""
