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
word does not seem rare because few titles have it); ``length`` terms of this entry's field, rounded to three binary
digits (:func:`rounded_length`), so that it takes little room beside each occurrence; ``mean`` = the sum of these over
the entries in which the field is not empty / their number. Fields with weight 0 are not scored and do not count for
``df``.

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

from collections import Counter
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from benchlore.index.query_terms import Expansion, Group, QueryTerm

K1 = 1.2
_LN2 = 0.6931471805599453
_SQRT2 = 1.4142135623730951

Where = tuple[tuple[int, int, int], ...]
"""Where an entry has a term: (field number, term frequency, rounded length of the field; 0 when b is 0), by field."""
Occurrences = Mapping[int, Where]
"""Entry number to where it has the term; entries in rising order."""


@dataclass(frozen=True, slots=True)
class FieldWeight:
    """How a field counts: its name, weight and length normalisation b (0 to 1)."""

    name: str
    weight: float
    b: float


@dataclass(frozen=True, slots=True)
class Statistics:
    """What is known of all live entries: how many there are, and exact field lengths.

    ``totals[f]`` is the sum of the rounded lengths of field f over all entries, ``having[f]`` the number of entries in
    which the field is not empty.
    """

    entries: int
    totals: Sequence[int]
    having: Sequence[int]

    def mean(self, field: int) -> float:
        """Mean length of the field over the entries that have it."""
        return self.totals[field] / self.having[field] if self.having[field] else 1.0


class Scored(NamedTuple):
    """An entry's score, and as bits the numbers of the groups that it matches wholly, and in any way."""

    entry: int
    score: float
    full: int
    touched: int

    def matches(self, group: int) -> bool:
        """Whether the entry matches the group wholly."""
        return bool(self.full >> group & 1)


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


def rounded_length(length: int) -> int:
    """A field's length to three binary digits, halves upwards: 0 to 8, 10, 12, 14, 16, 20, 24 …"""
    step = 1
    while length >= 8 * step:
        step *= 2
    return (length + step // 2) // step * step


def round12(score: float) -> float:
    """``score`` to 12 significant digits."""
    return float(f"{score:.11e}")


@dataclass(slots=True)
class _Best:
    """What a query term gives to each entry, and the expansion that gives it where there are several."""

    scores: dict[int, float]
    expansions: dict[int, Expansion] = field(default_factory=dict)


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
        self._bests: dict[QueryTerm, _Best] = {}
        self._direct_scores: dict[Expansion, dict[int, float]] = {}
        self._identity = next((i for i, f in enumerate(fields) if f.name == "identity"), -1)
        self._scored = frozenset(i for i, f in enumerate(fields) if f.weight)

    def df(self, term: str) -> int:
        """Entries that have the term in a scored field."""
        counted = Counter(self._occurrences(term).values())
        return sum(times for where, times in counted.items() if any(f in self._scored for f, _, _ in where))

    def rank(self, groups: Sequence[Group], allowed: Collection[int] | None = None) -> list[Scored]:
        """Entries that match any group, and every required one, best first; of ``allowed`` alone when it is given."""
        sums: dict[int, float] = {}
        full: dict[int, int] = {}
        touched: dict[int, int] = {}
        required = 0
        for number, group in enumerate(groups):
            bit = 1 << number
            required |= bit if group.required else 0
            hits = []
            for term in group.terms:
                scores = self._best(term).scores
                hits.append(scores)
                weight = term.weight
                for entry, score in scores.items():
                    sums[entry] = sums.get(entry, 0.0) + weight * score
            for entry in self._matching(group, hits):
                full[entry] = full.get(entry, 0) | bit
            for scores in hits:
                for entry in scores:
                    touched[entry] = touched.get(entry, 0) | bit
        count = 2 * len(groups)
        scored = []
        shares: dict[tuple[int, int], float] = {}
        for entry, total in sums.items():
            mask = full.get(entry, 0)
            if mask & required != required or (allowed is not None and entry not in allowed):
                continue
            key = (mask, touched[entry])
            share = shares.get(key)
            if share is None:
                share = shares[key] = (2 * mask.bit_count() + (key[1] & ~mask).bit_count()) / count
            scored.append((-round12(total * share), entry))
        scored.sort()
        return [Scored(entry, -score, full.get(entry, 0), touched[entry]) for score, entry in scored]

    def evidence(self, groups: Sequence[Group], entry: int) -> list[Evidence]:
        """Every term of every group that this entry has, in the order of the query."""
        found = []
        for number, group in enumerate(groups):
            for term in group.terms:
                best = self._best(term)
                if entry in best.scores:
                    expansion = best.expansions.get(entry, term.expansions[0])
                    score = term.weight * best.scores[entry]
                    found.append(Evidence(number, term, expansion, self._top_field(expansion, entry), score))
        return found

    def is_sister(self, group: Group, entry: int) -> bool:
        """Whether the entry is found through a board that it shares with a marking of the group, not by that itself."""
        return any(
            expansion.kind == "sister" and entry in self._sisters(expansion)
            for term in group.terms
            for expansion in term.expansions
        )

    def _matching(self, group: Group, hits: Sequence[Mapping[int, float]]) -> Collection[int]:
        """Entries that match the group: see :class:`benchlore.index.query_terms.Group`."""
        if not hits:
            return ()
        if group.required:
            return set(hits[0]).intersection(*hits[1:])
        if len(hits) == 1 and not group.terms[0].part:
            return hits[0]
        found: set[int] = set()
        parts: list[Mapping[int, float]] = []
        for term, entries in zip(group.terms, hits, strict=True):
            if term.part:
                parts.append(entries)
            else:
                found.update(entries)
        if parts and group.parts_suffice:
            found.update(set(parts[0]).intersection(*parts[1:]))
        return found

    def _best(self, term: QueryTerm) -> _Best:
        best = self._bests.get(term)
        if best is not None:
            return best
        first = term.expansions[0]
        scores = self._sisters(first) if first.kind == "sister" else self._direct(first)
        best = self._bests[term] = _Best(scores)
        if len(term.expansions) > 1:
            best.scores = scores = dict(scores)
            for expansion in term.expansions[1:]:
                more = self._sisters(expansion) if expansion.kind == "sister" else self._direct(expansion)
                for entry, score in more.items():
                    if entry not in scores or score > scores[entry]:
                        scores[entry] = score
                        best.expansions[entry] = expansion
        return best

    def _direct(self, expansion: Expansion) -> dict[int, float]:
        """For each entry the expansion's score. Entries that have it alike are reckoned once."""
        found = self._direct_scores.get(expansion)
        if found is None:
            occurrences = self._occurrences(expansion.term)
            rarity = idf(self._statistics.entries, self.df(expansion.term))
            known: dict[Where, float] = {}
            found = self._direct_scores[expansion] = {}
            for entry, where in occurrences.items():
                score = known.get(where)
                if score is None:
                    total = 0.0
                    for number, tf, length in where:
                        if number in self._scored:
                            total = total + self._part(rarity, number, tf, length)
                    score = known[where] = expansion.weight * total if total else -1.0
                if score >= 0:
                    found[entry] = score
        return found

    def _part(self, rarity: float, number: int, tf: int, length: int) -> float:
        of = self._fields[number]
        return of.weight * rarity * saturation(tf, length, self._means[number], of.b, self._k1)

    def _top_field(self, expansion: Expansion, entry: int) -> int:
        """The field that gives most of an expansion's score (the first of equals)."""
        if expansion.kind == "sister":
            return self._identity
        rarity = idf(self._statistics.entries, self.df(expansion.term))
        most, top = -1.0, -1
        for number, tf, length in self._occurrences(expansion.term)[entry]:
            part = self._part(rarity, number, tf, length) if number in self._scored else -1.0
            if part > most:
                most, top = part, number
        return top

    def _sisters(self, expansion: Expansion) -> dict[int, float]:
        direct = self._with_identity(expansion.direct)
        rarity = idf(self._statistics.entries, self.df(expansion.direct))
        weight = self._fields[self._identity].weight
        score = expansion.weight * weight * rarity / (1 + self._k1)
        return {entry: score for entry in self._with_identity(expansion.term) if entry not in direct}

    def _with_identity(self, term: str) -> dict[int, None]:
        where = self._occurrences(term).items()
        return {entry: None for entry, places in where if any(f == self._identity for f, _, _ in places)}
