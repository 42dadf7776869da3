"""The same index as data parts for the browser: what a page loads piece by piece, and only when a query needs it.

CONTRACT. :func:`browser_parts` gives file names under the site's root, ``data/<name>.js``, each an ASCII script
``Benchlore.part("<name>",<JSON>);`` and a line end. The same records and vocabulary give the same bytes. Entries are
numbered by the place of their slug (by code point). *Digits* and *front-coded* lists are those of
:mod:`benchlore.index.packing`, names and cuts those of :mod:`benchlore.index.part_files`; *names* are the characters of
parts' names behind the kind, one after the other without anything between. ``search`` alone keeps its name::

    {"entries": N, "fields": [[name, weight, b], …],
     "totals": […], "having": […],                           as in benchlore.index.rank.Statistics
     "facets": [[name, label, key, [[low, high | null], …], unit, name of its part], …],
     "plain_marks": […], "dates": name,
     "terms": {"firsts": front-coded, "names": names},       directories "terms-…" of shards "shard-…"
     "cards": {"starts": digits, "names": names},            directories "cards-…" of chunks "card-…"
     "spelling": {"letters": "abc…", "names": names},        parts "spelling-…"
     "phrases": {"firsts": front-coded, "names": names}}     parts "phrases-…"

``terms-…``: ``[front-coded first terms, names]`` of shards in order.

``shard-…``: the terms from the shard's first one up to the next shard's: ``[front-coded terms, digits: characters of
each term's postings, digits: the shard's patterns, postings]``. A *pattern* says which fields have a term:
``(how many << 1) + repeated`` and the field numbers, each less the one before; the patterns stand one after the other.
Postings of a term are digits: how many entries; for each the number less that of the entry before (of the first: its
number); then for each the place of its pattern in the shard's list; then for each entry with a *repeated* pattern the
term frequency in each field (else they are all 1); then for each field of each entry whose b is not 0 the field's
length code. The code of a length below 8 is the length; that of ``m * 2**s`` with m from 4 to 7 is ``4 * s + m``.

``facet-…``: ``[[[key, label], …] by key, [[places of choices], …], digits: for each entry the place of its set]``.

``dates-…``: digits: for each entry the days from its date to the newest, which is not told.

``cards-…``: ``[digits: entries before each chunk within the directory, names]``; ``card-…``: for each entry ``[slug,
title, equipment, class, cause, failure, outcome, stopped_because, minutes | null, cost, holding, date]``
(:class:`benchlore.index.card.Card`).

``spelling-…``: ``[front-coded words, digits: entries that have each]``: known words that begin with the letter,
vocabulary included.

``phrases-…``: the vocabulary's phrases, each under the one of its tokens that fewest phrases hold (a phrase can be
found only where all its tokens stand; tokens that others may stand for are passed over): those with keys not before
this part's and before the next part's: ``[[[kind, id, label or "" (the id with spaces and a capital)], …], [[key,
[place in terms, "token token …"], …], …]]``.
"""

from __future__ import annotations

import datetime as dt
import json
from collections import Counter
from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import chain
from typing import TYPE_CHECKING, Any

from benchlore.index.catalogue import Catalogue, Kept
from benchlore.index.documents import Document, document, occurrences_of, pairs_in
from benchlore.index.facets import FACETS
from benchlore.index.fields import FIELDS, PAIRS
from benchlore.index.lexicon import words_of
from benchlore.index.packing import digits, front_coded
from benchlore.index.part_files import DIRECTORY, OF_CARDS, Parts, is_cut, runs, script
from benchlore.index.rank import Where
from benchlore.terms import recogniser
from benchlore.terms.vocabulary import Vocabulary

if TYPE_CHECKING:
    from benchlore.read.base import Record

CARDS_EACH = 8
"""Entries in a chunk of cards, on average."""
LEAST_SHARD, GREATEST_SHARD, OWN_SHARD = 2_500, 9_000, 3_000
"""Characters of a shard at least and at most, and of postings that have a shard to themselves; before compression."""
_CUT = 40
"""Once a shard is long enough, one term in so many begins a new one."""
_PHRASES = 3_000
"""Characters of phrases in a part, about."""

_REPLACEABLE = {token for tokens in recogniser.CONTRARY.values() for token in tokens}
"""Tokens of phrases in whose place another one may stand."""

Phrase = tuple[str, str, tuple[str, ...]]
Postings = dict[str, list[tuple[int, Where]]]


def browser_parts(
    records: Iterable[Record], vocabulary: Vocabulary, *, licence: str | None = None, currency: str | None = None
) -> dict[str, str]:
    """File name under the site's root to text, for the search in the browser.

    ``licence`` and ``currency`` are the shop's, where an entry names none.
    """
    made = (document(record, vocabulary, licence=licence, currency=currency) for record in records)
    return parts_of(list(made), vocabulary)


def parts_of(documents: Sequence[Document], vocabulary: Vocabulary) -> dict[str, str]:
    """The same from documents that are already there."""
    documents = sorted(documents, key=lambda d: d.slug)
    catalogue = Catalogue.of(Kept.of(d) for d in documents)
    parts = Parts()
    manifest = {
        "entries": len(documents),
        "fields": [[f.name, f.weight, f.b] for f in FIELDS],
        "totals": catalogue.statistics.totals,
        "having": catalogue.statistics.having,
        "facets": _facets(catalogue, parts),
        "plain_marks": sorted(catalogue.plain_marks),
        "dates": _dates(catalogue.dates, parts),
        "terms": _terms(_inverted(documents), parts),
        "cards": _cards(documents, parts),
        "spelling": _spelling(documents, vocabulary, parts),
        "phrases": _phrases(vocabulary, parts),
    }
    return {**parts.files(), "data/search.js": script("search", json.dumps(manifest, separators=(",", ":")))}


def _inverted(documents: Sequence[Document]) -> Postings:
    postings: Postings = {}
    for number, doc in enumerate(documents):
        for term, where in occurrences_of(doc).items():
            postings.setdefault(term, []).append((number, where))
        for pair, count in pairs_in(doc).items():
            postings.setdefault(pair, []).append((number, ((PAIRS, count, 0),)))
    return postings


def _terms(postings: Postings, parts: Parts) -> dict[str, str]:
    """Put shards and their directories into ``parts``; the table of the manifest."""
    firsts: list[str] = []
    names: list[str] = []
    shard: list[str] = []
    size, alone = 0, False
    for term in sorted(postings):
        long = 3 * len(postings[term])
        weight = long + len(term) // 2 + 2
        full = size + weight > GREATEST_SHARD or (size >= LEAST_SHARD and is_cut(term, _CUT))
        if shard and (full or alone or (long >= OWN_SHARD and size >= LEAST_SHARD // 4)):
            firsts.append(shard[0])
            names.append(parts.add("shard", _shard(shard, postings)))
            shard, size = [], 0
        shard.append(term)
        size += weight
        alone = long >= OWN_SHARD
    if shard:
        firsts.append(shard[0])
        names.append(parts.add("shard", _shard(shard, postings)))
    directories = runs(firsts, DIRECTORY)
    return {
        "firsts": front_coded([firsts[start] for start, _ in directories]),
        "names": "".join(
            parts.add("terms", [front_coded(firsts[start:end]), "".join(names[start:end])])
            for start, end in directories
        ),
    }


def _shard(terms: Sequence[str], postings: Postings) -> list[str]:
    patterns = Counter(_encoded(where)[0] for term in terms for _, where in postings[term])
    ordered = sorted(patterns, key=lambda pattern: (-patterns[pattern], pattern))
    place = {pattern: number for number, pattern in enumerate(ordered)}
    written = []
    for term in terms:
        entries = postings[term]
        numbers = [entry for entry, _ in entries]
        coded = [len(entries), *(b - a for a, b in zip([0, *numbers], numbers, strict=False))]
        encoded = [_encoded(where) for _, where in entries]
        coded += [place[pattern] for pattern, _, _ in encoded]
        coded += chain.from_iterable(tfs for _, tfs, _ in encoded)
        coded += chain.from_iterable(lengths for _, _, lengths in encoded)
        written.append(digits(coded))
    return [
        front_coded(terms),
        digits(map(len, written)),
        digits(number for pattern in ordered for number in pattern),
        "".join(written),
    ]


@lru_cache(maxsize=100_000)
def _encoded(where: Where) -> tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...]]:
    """The pattern of a posting, its term frequencies where they are told, and its length codes."""
    fields = [field for field, _, _ in where]
    tfs = tuple(tf for _, tf, _ in where)
    repeated = max(tfs) > 1
    pattern = (2 * len(fields) + repeated, *(b - a for a, b in zip([0, *fields], fields, strict=False)))
    lengths = tuple(_length_code(length) for field, _, length in where if FIELDS[field].b)
    return pattern, tfs if repeated else (), lengths


def _length_code(length: int) -> int:
    shift = 0
    while length >= 8:
        length //= 2
        shift += 1
    return 4 * shift + length


def _facets(catalogue: Catalogue, parts: Parts) -> list[list[Any]]:
    table = []
    for facet, column in zip(FACETS, catalogue.facets.columns, strict=True):
        name = parts.add("facet", [column.choices, column.combos, digits(column.values)])
        table.append([facet.name, facet.label, facet.key, facet.bands, facet.unit, name])
    return table


def _dates(dates: Sequence[str], parts: Parts) -> str:
    days = [dt.date.fromisoformat(date).toordinal() for date in dates]
    newest = max(days, default=0)
    return parts.add("dates", digits(newest - day for day in days))


def _cards(documents: Sequence[Document], parts: Parts) -> dict[str, str]:
    slugs = [d.slug for d in documents]
    chunks = runs(slugs, CARDS_EACH)
    names = [parts.add("card", [_card(doc) for doc in documents[start:end]]) for start, end in chunks]
    directories = runs([slugs[start] for start, _ in chunks], OF_CARDS)
    starts = []
    listed = []
    for first, after in directories:
        start = chunks[first][0]
        starts.append(start)
        within = digits(chunks[n][0] - start for n in range(first, after))
        listed.append(parts.add("cards", [within, "".join(names[first:after])]))
    return {"starts": digits(starts), "names": "".join(listed)}


def _card(doc: Document) -> list[Any]:
    c = doc.card
    return [
        doc.slug, c.title, c.equipment, c.class_, c.cause, c.failure, c.outcome, c.stopped_because, c.minutes, c.cost,
        c.holding, c.date,
    ]  # fmt: skip


def _spelling(documents: Sequence[Document], vocabulary: Vocabulary, parts: Parts) -> dict[str, str]:
    counted = Counter(word for doc in documents for word in doc.words)
    by_letter: dict[str, set[str]] = {letter: set(words) for letter, words in words_of(vocabulary).items()}
    for word in counted:
        by_letter.setdefault(word[0], set()).add(word)
    letters = sorted(letter for letter in by_letter if "a" <= letter <= "z")
    names = []
    for letter in letters:
        words = sorted(by_letter[letter])
        names.append(parts.add("spelling", [front_coded(words), digits(counted[word] for word in words)]))
    return {"letters": "".join(letters), "names": "".join(names)}


def _phrases(vocabulary: Vocabulary, parts: Parts) -> dict[str, str]:
    phrases = vocabulary.recogniser.phrases()
    common = Counter(token for _, _, tokens in phrases for token in set(tokens))
    by_key: dict[str, list[Phrase]] = {}
    for phrase in phrases:
        said = set(phrase[2]) - {recogniser.END}
        key = min(said - _REPLACEABLE or said, key=lambda token: (common[token], token))
        by_key.setdefault(key, []).append(phrase)
    firsts: list[str] = []
    names: list[str] = []
    part: list[str] = []
    size = 0
    for key in sorted(by_key):
        if part and size >= _PHRASES:
            firsts.append(part[0])
            names.append(parts.add("phrases", _phrase_part(part, by_key, vocabulary)))
            part, size = [], 0
        part.append(key)
        size += sum(len(" ".join(tokens)) + 8 for _, _, tokens in by_key[key])
    if part:
        firsts.append(part[0])
        names.append(parts.add("phrases", _phrase_part(part, by_key, vocabulary)))
    return {"firsts": front_coded(firsts), "names": "".join(names)}


def _phrase_part(
    keys: Sequence[str], by_key: dict[str, list[Phrase]], vocabulary: Vocabulary
) -> list[list[Any]]:
    terms: dict[tuple[str, str], int] = {}
    table: list[list[Any]] = []
    for key in keys:
        rows: list[Any] = [key]
        for kind, term_id, tokens in by_key[key]:
            rows.append([terms.setdefault((kind, term_id), len(terms)), " ".join(tokens)])
        table.append(rows)
    return [[[kind, term_id, _label(vocabulary, kind, term_id)] for kind, term_id in terms], table]


def _label(vocabulary: Vocabulary, kind: str, term_id: str) -> str:
    label = vocabulary.label(kind, term_id)
    plain = term_id.replace("-", " ")
    return "" if label == plain[:1].upper() + plain[1:] else label
