"""The error that a person is shown in place of a traceback: what is wrong, and how to mend it."""

from __future__ import annotations


class BenchloreError(Exception):
    """Something that cannot be done, worded for the user; ``hint`` says how to mend it."""

    def __init__(self, message: str, *, hint: str = "") -> None:
        super().__init__(message)
        self.hint = hint
