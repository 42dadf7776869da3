"""Rule: not an amount of money."""

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.numbers import money_meant
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import replacement
from benchlore.check.rule import ReadingRule


class BadMoney(ReadingRule):
    """Not an amount of money.

    What
        A price is an amount with at most two decimals, and a currency of three letters where it is not the shop's.
    Why
        Prices are added up for the estimate.
    Bad
        parts:
          - {ref: C1, original: same, unit_price: "€1,10"}
    Good
        parts:
          - {ref: C1, original: same, unit_price: 1.10 EUR}
    How to mend
        Write the amount with a point, then the currency's letters (ISO 4217).
    """

    code = "RDG024"
    name = "bad-money"
    severity = "error"
    kinds = frozenset({"bad-money"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        amount = money_meant(str(page.value(seen.path) or ""))
        return replacement(page, seen, amount) if amount else None
