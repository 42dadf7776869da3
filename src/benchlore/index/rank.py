"""BM25 over our own fields and our own statistics: pure arithmetic, mirrored digit for digit in JavaScript.

CONTRACT. Everything is IEEE double arithmetic in the order written here; no library function is called except the
rounding at the end, so Python and JavaScript agree to the last bit.

The part of a score that comes from a term in one field of an entry (Robertson and Zaragoza, "The Probabilistic
Relevance Framework: BM25 and Beyond", 2009, without the constant factor k1 + 1; the idf with the 1 inside the logarithm
is Lucene's form)::

    idf  = ln(1 + (N - df + 0.5) / (df + 0.5))
    norm = K1 * (1 - b + b * (length / mean))            (b = 0: norm = K1, no length needed)
    part = weight * idf * (tf / (tf + norm))

``N`` live entries; ``df`` entries that have the term in any scored field (one figure for all fields, so that a common
word does not seem rare because few titles have it); ``length`` terms of this entry's field, ``mean`` = all terms of the
field / entries in which the field is not empty. Fields with weight 0 are not scored and do not count for ``df``.

An entry's score: for each group of the query, in order, and each of its terms, in order: the best of its expansions
(the first of equals), an expansion giving ``expansion.weight *`` the sum of ``part`` over the fields in declared order;
times ``term.weight``. These are added up in order, multiplied by ``(2 * matched + partly) / (2 * groups)``, and rounded
to 12 significant digits. A group is matched as :class:`benchlore.index.query_terms.Group` says, and partly matched when
only some of its terms are there.

A ``sister`` expansion gives ``weight * w * idf(df) / (1 + K1)`` to entries that have its term in the field ``identity``
and not the directly named one, where ``w`` is the weight of ``identity`` and ``df`` that of the direct term: so it is
always below what the unit itself gets there.

Order: score downwards, then slug (entries are numbered by slug, so: number) upwards.

``ln`` is our own: x is halved until it is at most 1.4142135623730951, e times; s = (x - 1) / (x + 1), z = s * s;
p = 1/27; for d in 25, 23, … 1: p = p * z + 1/d; ln = 2 * s * p + e * 0.6931471805599453.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass

from benchlore.index.query_terms import Expansion, Group, QueryTerm

K1 = 1.2
_LN2 = 0.6931471805599453
_SQRT2 = 1.4142135623730951

Occurrences = Mapping[int, Sequence[tuple[int, int]]]
"""Entry number to its (field number, term frequency) pairs; entries and fields in rising order."""


@dataclass(frozen=True, slots=True)
class FieldWeight:
    """How a field counts: its name, weight and length normalisation b (0 to 1)."""

    name: str
    weight: float
    b: float


@dataclass(frozen=True, slots=True)
class Statistics:
    """What is known of all live entries: how many there are, and exact field lengths.

    ``totals[f]`` is the number of terms in field f over all entries, ``having[f]`` the number of entries in which the
    field is not empty; ``length(entry, f)`` is the number of terms in the field of one entry.
    """

    entries: int
    totals: Sequence[int]
    having: Sequence[int]
    length: Callable[[int, int], int]

    def mean(self, field: int) -> float:
        """Mean length of the field over the entries that have it."""
        return self.totals[field] / self.having[field] if self.having[field] else 1.0


@dataclass(frozen=True, slots=True)
class Scored:
    """An entry's score, and the numbers of the groups that it matches wholly and partly."""

    entry: int
    score: float
    matched: frozenset[int]
    partly: frozenset[int]


@dataclass(frozen=True, slots=True)
class Evidence:
    """Why an entry matches a group: the expansion that counted, the field that gave most, and how much it gave."""

    group: int
    term: QueryTerm
    expansion: Expansion
    field: int
    score: float


def ln(x: float) -> float:
    """Natural logarithm of x ≥ 1, by plain arithmetic, within 1e-15 of the true value (relative, for x ≥ 1.01)."""
    halvings = 0
    while x > _SQRT2:
        x = x / 2
        halvings += 1
    s = (x - 1) / (x + 1)
    z = s * s
    p = 1 / 27
    for divisor in range(25, 0, -2):
        p = p * z + 1 / divisor
    return 2 * s * p + halvings * _LN2


def idf(entries: int, df: int) -> float:
    """Inverse document frequency of a term that ``df`` of ``entries`` entries have."""
    return ln(1 + (entries - df + 0.5) / (df + 0.5))


def saturation(tf: int, length: int, mean: float, b: float, k1: float = K1) -> float:
    """How far a term frequency goes towards 1, by the field's length."""
    norm = k1 * (1 - b + b * (length / mean)) if b else k1
    return tf / (tf + norm)


def round12(score: float) -> float:
    """``score`` to 12 significant digits."""
    return float(f"{score:.11e}")


class Ranker:
    """Scores entries for a query over given statistics, fields and occurrences of terms."""

    def __init__(
        self,
        fields: Sequence[FieldWeight],
        statistics: Statistics,
        occurrences: Callable[[str], Occurrences],
        k1: float = K1,
    ) -> None:
        self._fields = fields
        self._statistics = statistics
        self._occurrences = occurrences
        self._k1 = k1
        self._means = [statistics.mean(f) for f in range(len(fields))]
        self._bests: dict[QueryTerm, dict[int, tuple[float, Expansion, int]]] = {}
        self._identity = next((i for i, f in enumerate(fields) if f.name == "identity"), -1)

    def df(self, term: str) -> int:
        """Entries that have the term in a scored field."""
        return sum(any(self._fields[f].weight for f, _ in where) for where in self._occurrences(term).values())

    def rank(self, groups: Sequence[Group], allowed: Collection[int] | None = None) -> list[Scored]:
        """Entries that match any group, and every required one, best first; of ``allowed`` alone when it is given."""
        sums: dict[int, float] = {}
        matched: dict[int, set[int]] = {}
        touched: dict[int, set[int]] = {}
        for number, group in enumerate(groups):
            hits: list[set[int]] = []
            for term in group.terms:
                best = self._best(term)
                hits.append(set(best))
                for entry, (score, _, _) in best.items():
                    sums[entry] = sums.get(entry, 0.0) + term.weight * score
                    touched.setdefault(entry, set()).add(number)
            for entry in self._matching(group, hits):
                matched.setdefault(entry, set()).add(number)
        required = {number for number, group in enumerate(groups) if group.required}
        scored = []
        for entry, total in sums.items():
            full = frozenset(matched.get(entry, ()))
            if required <= full and (allowed is None or entry in allowed):
                partly = frozenset(touched[entry] - full)
                share = (2 * len(full) + len(partly)) / (2 * len(groups))
                scored.append(Scored(entry, round12(total * share), full, partly))
        return sorted(scored, key=lambda s: (-s.score, s.entry))

    def evidence(self, groups: Sequence[Group], entry: int) -> list[Evidence]:
        """Every term of every group that this entry has, in the order of the query."""
        found = []
        for number, group in enumerate(groups):
            for term in group.terms:
                best = self._best(term).get(entry)
                if best:
                    found.append(Evidence(number, term, best[1], best[2], term.weight * best[0]))
        return found

    def is_sister(self, group: Group, entry: int) -> bool:
        """Whether the entry is found through a board that it shares with a marking of the group, not by that itself."""
        return any(
            expansion.kind == "sister" and entry in self._sisters(expansion)
            for term in group.terms
            for expansion in term.expansions
        )

    def _matching(self, group: Group, hits: Sequence[set[int]]) -> set[int]:
        """Entries that match the group: see :class:`benchlore.index.query_terms.Group`."""
        if not hits:
            return set()
        if group.required:
            return set.intersection(*hits)
        found: set[int] = set()
        parts: list[set[int]] = []
        for term, entries in zip(group.terms, hits, strict=True):
            if term.part:
                parts.append(entries)
            else:
                found |= entries
        if parts and group.parts_suffice:
            found |= set.intersection(*parts)
        return found

    def _best(self, term: QueryTerm) -> dict[int, tuple[float, Expansion, int]]:
        if term in self._bests:
            return self._bests[term]
        best = self._bests[term] = {}
        for expansion in term.expansions:
            scores = self._sisters(expansion) if expansion.kind == "sister" else self._direct(expansion)
            for entry, (score, field) in scores.items():
                if entry not in best or score > best[entry][0]:
                    best[entry] = (score, expansion, field)
        return best

    def _direct(self, expansion: Expansion) -> dict[int, tuple[float, int]]:
        """For each entry the expansion's score and the field that gave most of it (the first of equals)."""
        occurrences = self._occurrences(expansion.term)
        rarity = idf(self._statistics.entries, self.df(expansion.term))
        scores: dict[int, tuple[float, int]] = {}
        for entry, where in occurrences.items():
            total, most, top = 0.0, -1.0, -1
            for number, tf in where:
                field = self._fields[number]
                if field.weight:
                    length = self._statistics.length(entry, number) if field.b else 0
                    reach = saturation(tf, length, self._means[number], field.b, self._k1)
                    part = field.weight * rarity * reach
                    total = total + part
                    if part > most:
                        most, top = part, number
            if top >= 0:
                scores[entry] = (expansion.weight * total, top)
        return scores

    def _sisters(self, expansion: Expansion) -> dict[int, tuple[float, int]]:
        direct = self._with_identity(expansion.direct)
        rarity = idf(self._statistics.entries, self.df(expansion.direct))
        weight = self._fields[self._identity].weight
        score = expansion.weight * weight * rarity / (1 + self._k1)
        return {
            entry: (score, self._identity) for entry in self._with_identity(expansion.term) if entry not in direct
        }

    def _with_identity(self, term: str) -> dict[int, None]:
        where = self._occurrences(term).items()
        return {entry: None for entry, places in where if any(f == self._identity for f, _ in places)}
