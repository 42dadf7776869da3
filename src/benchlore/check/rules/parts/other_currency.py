"""Rule: a price in another currency than the shop's."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class OtherCurrency(EntryRule):
    """A price in another currency.

    What
        A price is not in the shop's currency.
    Why
        It is shown as it is, but left out of every sum and estimate: rates of exchange are not guessed.
    Bad
        parts: [{ref: C1, original: same, unit_price: 1.30 USD}]
    Good
        parts: [{ref: C1, original: same, unit_price: 1.10 EUR}]
    How to mend
        Write what it cost in the shop's currency, if it matters for the estimate.
    """

    code = "PRT008"
    name = "other-currency"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        own = subject.shop.currency
        for index, part in enumerate(subject.entry.parts):
            price = part.unit_price
            if price is not None and price.currency not in (None, own):
                message = f"this price is in {price.currency}, and the shop reckons in {own}"
                yield Observation(("parts", index, "unit_price"), message, "It is left out of sums and estimates.")
