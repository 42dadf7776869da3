"""Rule: a quantity that cannot be read without guessing."""

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import replacement
from benchlore.check.rule import ReadingRule
from benchlore.check.wording import unit_symbol
from benchlore.quantity.format import format_quantity
from benchlore.quantity.model import QuantityError
from benchlore.quantity.parse import parse
from benchlore.terms.model import QuantityKind


class UnreadableQuantity(ReadingRule):
    """A quantity that cannot be read without guessing.

    What
        The text is no quantity, or could mean more than one: 4,7k is 4.7 kΩ to one technician and 47 kΩ to another.
    Why
        A value read wrongly sends the next technician after a good part, or to a wrong replacement.
    Bad
        measurements:
          - point: R7
            quantity: resistance
            before: 4,7k
    Good
        measurements:
          - point: R7
            quantity: resistance
            before: 4.7 kΩ
    How to mend
        Write number, prefix and unit: 4.7 kΩ, 100 nF, 24 V ±5 %; limits as "<50 mV" or 10..12 V.
    """

    code = "RDG020"
    name = "unreadable-quantity"
    severity = "error"
    kinds = frozenset({"unreadable-quantity"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        """Only where one of the possible readings is of the measurement's own quantity: 20 C is 20 °C of a
        temperature.
        """
        kind = str(page.value((*seen.path[:2], "quantity")) or "") if seen.path[:1] == ("measurements",) else ""
        quantity = page.vocabulary.get_as(QuantityKind, kind)
        unit = unit_symbol(quantity.unit) if quantity else None
        try:
            parse(str(page.value(seen.path) or ""))
        except QuantityError as error:
            fitting = [reading.quantity for reading in error.readings if unit and reading.quantity.unit == unit]
            if len(fitting) == 1 and fitting[0].kind == "value":
                return replacement(page, seen, format_quantity(fitting[0]).replace("\u00a0", " "))
        return None
