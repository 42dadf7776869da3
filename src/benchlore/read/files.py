"""Bytes of one file, taken from a stranger: bounded, never a pipe or a device, never through a link at the end."""

from __future__ import annotations

import hashlib
import os
import stat
from pathlib import Path

from benchlore.read.problem import Problem
from benchlore.read.yaml_nodes import LIMITS

_FLAGS = (
    os.O_RDONLY
    | getattr(os, "O_NONBLOCK", 0)  # a pipe without a writer must not hang
    | getattr(os, "O_NOFOLLOW", 0)
    | getattr(os, "O_CLOEXEC", 0)
    | getattr(os, "O_BINARY", 0)
)


def read_text(path: Path, size: int = LIMITS.size) -> tuple[str | None, str, tuple[Problem, ...]]:
    """The text of ``path`` (a byte-order mark is dropped), the SHA-256 of its bytes, and why there is no text."""
    try:
        content = read_bytes(path, size)
    except OSError as error:
        return None, "", (Problem("unreadable-file", (), f"the file cannot be read: {error.strerror or error}"),)
    if content is None:
        message = "this is not an ordinary file"
        return None, "", (Problem("not-a-file", (), message, "An entry is a text file; remove this or rename it."),)
    digest = hashlib.sha256(content).hexdigest()
    if len(content) > size:
        message = f"the file is larger than {size // 1024} kB"
        return None, digest, (Problem("too-large", (), message, "Move long texts out of it."),)
    try:
        return content.decode("utf-8-sig"), digest, ()
    except UnicodeDecodeError as error:
        offset = len(content[: error.start].decode("utf-8", "replace"))
        line = content[: error.start].count(b"\n") + 1
        if content.startswith((b"\xff\xfe", b"\xfe\xff")):
            message = "the file is UTF-16, not UTF-8 text"
        else:
            message = f"the file is not UTF-8 text: byte {content[error.start]:#04x} in line {line}"
        return None, digest, (Problem("not-utf8", (), message, "Save it with the encoding UTF-8.", offset, offset + 1),)


def read_bytes(path: Path, size: int) -> bytes | None:
    """At most ``size`` + 1 bytes; None for anything but an ordinary file."""
    if not stat.S_ISREG(path.lstat().st_mode):
        return None
    descriptor = os.open(path, _FLAGS)
    with os.fdopen(descriptor, "rb") as file:
        if not stat.S_ISREG(os.fstat(descriptor).st_mode):
            return None
        return file.read(size + 1)
