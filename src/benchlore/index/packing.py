"""Whole numbers and sorted strings as short ASCII text that compresses well; unpacked in the browser by part_codes.js.

CONTRACT. *Digits*: the 92 printable ASCII characters but space, ``"`` and the backslash, in the order of their codes,
stand for 0 to 91. A number below 60 is its digit. Another one is the digit ``60 + (n - 60) % 32`` and then the number
``(n - 60) // 32`` in the same way. A *front-coded* list of sorted strings is each string's count of characters shared
with the one before (a digit, at most 59, none of them beyond U+FFFF, so that code points and UTF-16 units are the same)
and the rest, with spaces between; the strings hold no space.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

ALPHABET = "".join(chr(code) for code in range(0x21, 0x7F) if chr(code) not in '"\\')
ONE = 60
"""Numbers below are one character."""
_REST = len(ALPHABET) - ONE
_CODES = {character: code for code, character in enumerate(ALPHABET)}


def digits(numbers: Iterable[int]) -> str:
    """The numbers (0 or more), one after the other."""
    numbers = list(numbers)
    if max(numbers, default=0) < ONE:
        return "".join(map(ALPHABET.__getitem__, numbers))
    written = []
    for number in numbers:
        while number >= ONE:
            number -= ONE
            written.append(ALPHABET[ONE + number % _REST])
            number //= _REST
        written.append(ALPHABET[number])
    return "".join(written)


def numbers(text: str) -> Iterator[int]:
    """The numbers of :func:`digits`."""
    number, scale = 0, 1
    for character in text:
        code = _CODES[character]
        number += code * scale
        if code < ONE:
            yield number
            number, scale = 0, 1
        else:
            scale *= _REST


def front_coded(strings: Sequence[str]) -> str:
    """A sorted list of strings, see above."""
    coded = []
    before = ""
    for string in strings:
        shared, most = 0, min(len(before), len(string), ONE - 1)
        while shared < most and before[shared] == string[shared] <= "\uffff":
            shared += 1
        coded.append(ALPHABET[shared] + string[shared:])
        before = string
    return " ".join(coded)


def strings_of(text: str) -> list[str]:
    """The strings of :func:`front_coded`."""
    found: list[str] = []
    before = ""
    for coded in text.split(" ") if text else ():
        before = before[: _CODES[coded[0]]] + coded[1:]
        found.append(before)
    return found
