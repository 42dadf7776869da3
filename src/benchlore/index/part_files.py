"""Gives parts names by their content, cuts long lists of parts into directories, and says where cuts lie.

CONTRACT. A part's name is its kind, a hyphen, and ``NAME`` letters and digits of the SHA-256 of its payload as JSON. So
a file never changes: what a page was told to fetch is what it gets, or is gone. Cuts depend on the CRC-32 of what
stands there alone, so that an insertion leaves the parts before and behind it as they are.
"""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Sequence
from typing import Any
from zlib import crc32

NAME = 6
"""Characters of a part's name behind its kind: 30 bits, and where two parts of a kind would share them, others."""
DIRECTORY, OF_CARDS = 64, 256
"""Parts in a directory, on average; at most twice as many."""


class Parts:
    """The parts made so far, by name."""

    def __init__(self) -> None:
        self.payloads: dict[str, str] = {}

    def add(self, kind: str, payload: Any) -> str:
        """Put a part there; the characters of its name behind the kind."""
        written = json.dumps(payload, separators=(",", ":"))
        turn = 0
        while True:
            digest = hashlib.sha256(f"{written}{turn or ''}".encode()).digest()
            name = base64.b32encode(digest).decode().lower()[:NAME]
            if self.payloads.setdefault(f"{kind}-{name}", written) == written:
                return name
            turn += 1

    def files(self) -> dict[str, str]:
        """File name under the site's root to text."""
        return {f"data/{name}.js": script(name, payload) for name, payload in sorted(self.payloads.items())}


def script(name: str, payload: str) -> str:
    """The script that hands over a part."""
    return f'Benchlore.part("{name}",{payload});\n'


def is_cut(key: str, each: int) -> bool:
    """Whether a new part begins at this key, one in ``each`` on average."""
    return crc32(f"{each} {key}".encode()) % each == 0


def runs(keys: Sequence[str], each: int) -> list[tuple[int, int]]:
    """Cuts a list: (first, after last), ``each`` long on average and at most twice as long."""
    found = []
    start = 0
    for place in range(1, len(keys)):
        if is_cut(keys[place], each) or place - start == 2 * each:
            found.append((start, place))
            start = place
    if keys:
        found.append((start, len(keys)))
    return found
