"""Rule: an unquoted value that starts with a character YAML keeps for itself."""

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import in_quotes
from benchlore.check.rule import ReadingRule


class UnquotedStart(ReadingRule):
    """An unquoted value that starts with a sign of YAML's own.

    What
        A value without quotes starts with >, |, %, @, ` or a bracket.
    Why
        At the start of a value these mean something to YAML. A limit such as >200 MΩ is lost or stops the reader.
    Bad
        measurements:
          - point: live pin to case
            quantity: insulation-resistance
            before: >1 MΩ
    Good
        measurements:
          - point: live pin to case
            quantity: insulation-resistance
            before: ">1 MΩ"
    How to mend
        Put the value in quotes, or say it in words: over 1 MΩ.
    """

    code = "RDG005"
    name = "unquoted-start"
    severity = "error"
    kinds = frozenset({"unquoted-start", "block-marker"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        first = page.text[seen.offset : seen.offset + 1] if seen.offset is not None else ""
        return in_quotes(page, seen, sure=first not in (",", "]", "}"))
