"""Rule: a laminate, flammability, approval or date mark taken for a board marking."""

import re
from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.terms.fold import compact

_MARKS: tuple[tuple[str, re.Pattern[str]], ...] = (
    ("a flammability class (UL 94)", re.compile(r"(ul)?94(v[0-2]|vtm[0-2]|hb|5va|5vb)")),
    ("a laminate grade", re.compile(r"fr[1-6]|cem[1-5]|g10|xxxpc?|xpc")),
    ("an approval body's file number", re.compile(r"e\d{5,6}|ul")),
    ("an approval mark", re.compile(r"ce|ukca|fcc|csa|vde|tuv|ccc|kc|pse|eac|rcm|rohs|weee|pbfree|leadfree")),
    ("a date code (week and year)", re.compile(r"(0[1-9]|[1-4]\d|5[0-3])\d\d|\d\d(0[1-9]|[1-4]\d|5[0-3])")),
)
"""What boards carry besides their own marking: UL 94 classes, NEMA laminate grades; the rest common practice."""


class BoardMarkingIsApprovalMark(EntryRule):
    """A mark that every board may carry, taken for this board's own.

    What
        The marking is a laminate grade, a flammability class, an approval or a date code, such as 94V-0.
    Why
        Equipment that shares a board marking is treated as a sister, and its documents and values as applying. A mark
        that thousands of unrelated boards carry would join them all.
    Bad
        equipment:
          class: dehumidifier
          model: BW-12
          boards: [{marking: 94V-0}]
    Good
        equipment:
          class: dehumidifier
          model: BW-12
          boards: [{marking: BWC-02}]
    How to mend
        Look for the part number of the board, mostly in larger letters or near an edge. If there is none, leave the
        board out.
    """

    code = "EQP002"
    name = "board-marking-is-approval-mark"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, board in enumerate(subject.entry.equipment.boards):
            folded = compact(board.marking)
            for what, pattern in _MARKS:
                if pattern.fullmatch(folded):
                    message = f"“{board.marking}” is {what}, not the marking of this board"
                    hint = "It would join unrelated equipment. Take the board's own number, or leave it out."
                    yield Observation(("equipment", "boards", index, "marking"), message, hint)
                    break
