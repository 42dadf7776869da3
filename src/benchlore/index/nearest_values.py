"""When nothing is found: the facet values that are nearest to the words of the query, so that the road goes on.

CONTRACT (mirrored in JavaScript). Two folded words have in common: 3 points for the same stem; 2 when the query's word
has four characters or more and the other is one slip away; 1 when they begin with the same four characters, or three
that are at least three fifths of the longer word. Each word of the query that is no stop word counts for the best word
of a value's label. Values of ``FACETS`` with points stand by points, then by entries (downwards), then by key; the
first ``MOST``. When none has points: the ``MOST`` / 2 commonest symptoms, then classes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from benchlore.index.facets import FacetCounts
from benchlore.index.spelling import one_slip
from benchlore.index.tokens import STOP_WORDS
from benchlore.terms.fold import words
from benchlore.terms.stem import stem

FACETS = ("symptom", "class", "component", "block", "failure", "maker", "board")
MOST = 6


@dataclass(frozen=True, slots=True)
class NearValue:
    """A facet value to look at, and how many entries have it."""

    facet: str
    key: str
    label: str
    count: int


def likeness(asked: str, other: str) -> int:
    """How much two folded words have in common, 0 to 3."""
    if stem(asked) == stem(other):
        return 3
    if len(asked) >= 4 and one_slip(asked, other):
        return 2
    same = 0
    while same < min(len(asked), len(other)) and asked[same] == other[same]:
        same += 1
    return int(same >= 4 or (same >= 3 and 5 * same >= 3 * max(len(asked), len(other))))


def nearest_values(counted: Sequence[FacetCounts], query: str) -> list[NearValue]:
    """What of ``counted`` (the facets over all entries) is nearest to the query; else what most entries have."""
    asked = [word.text for word in words(query) if word.text not in STOP_WORDS]
    by_name = {facet.name: facet.values for facet in counted}
    found = []
    for name in FACETS:
        for value in by_name.get(name, ()):
            said = [word.text for word in words(value.label)]
            points = sum(max((likeness(one, other) for other in said), default=0) for one in asked)
            if points:
                found.append((-points, -value.count, value.key, NearValue(name, value.key, value.label, value.count)))
    if found:
        return [row[3] for row in sorted(found, key=lambda row: row[:3])[:MOST]]
    commonest = [(name, value) for name in ("symptom", "class") for value in by_name.get(name, ())[: MOST // 2]]
    return [NearValue(name, value.key, value.label, value.count) for name, value in commonest]
