"""The same index as data parts for the browser: what a page loads piece by piece, and only when a query needs it.

CONTRACT. :func:`browser_parts` gives file names under the site's root, ``data/<name>.js``, each an ASCII script
``Benchlore.part("<name>", <JSON>);`` and a line end. The same records and vocabulary give the same bytes. Entries are
numbered by the place of their slug (by code point). In what follows *varints* is base64 (with padding) of unsigned
LEB128 integers, one after the other, and a *front-coded* list is ``[shared, rest, shared, rest, …]``: each string is
the first ``shared`` code points of the one before and ``rest``; they are sorted by code point.

``search``: the manifest, read when the search box is touched::

    {"entries": N, "k1": K1, "fields": [[name, weight, b], …],
     "lengths": {"fields": [field numbers], "totals": […], "having": […]},     totals and having in the order of fields
     "facets": [[name, label, "words" | "marking"], …], "plain_marks": […],
     "shards": {"firsts": [first term, …], "names": […]},                      part "terms-<name>"
     "columns": {"starts": [first entry, …], "names": […]},                    parts "lengths-<name>", "facets-<name>"
     "cards": {"starts": […], "names": […]},                                   part "cards-<name>"
     "spelling": "abc…",                                                       letters x with a part "spelling-<x>"
     "phrases": ["ab", …]}                                                     keys xy with a part "phrases-<xy>"

``terms-<name>``: the terms from the shard's first one up to the next shard's. ``{"terms": front-coded, "sizes": [bytes
of each term's postings], "postings": base64 of all postings}``. Postings of a term, entry after entry: the number less
that of the entry before (of the first: its number), then what fields have it. For terms that stand in one field only
(``pair:`` in ``pairs``; ``board:``, ``boards-of:``, ``models-on:`` in ``links``) that is the term frequency. For the
others it is ``2 * mask + more``: bit f of the mask stands for field f; with ``more`` = 0 every frequency is 1, with 1
the frequencies follow, by field.

``lengths-<name>``: varints: for each field of ``lengths.fields``, for each entry of the chunk, the field's length.

``facets-<name>``: varints: for each facet, for each entry of the chunk, its values: 0 for none, else for each value
``2 * (place in the facet's list in "choices" + 1) + (1 if another value follows)``.

``choices``: for each facet the list of ``[key, label]``, by key.

``cards-<name>``: for each entry of the chunk ``[slug, title, equipment, class, cause, failure, outcome,
stopped_because, minutes | null, cost, holding, date]`` (:class:`benchlore.index.documents.Card`).

``spelling-<x>``: ``{"words": front-coded, "counts": varints}``: known words that begin with x, vocabulary included.

``phrases-<xy>``: the vocabulary's phrases whose first stem begins with xy (up to two characters, all of a to z; what
begins otherwise is in ``phrases-_``): ``{"terms": [[kind, id, label], …], "phrases": [[place in terms, "stem stem …"],
…]}`` in the order of :meth:`benchlore.terms.recogniser.Recogniser.phrases`.

A boundary between chunks or shards is decided by the CRC-32 of the slug or first term there (shards also have a least
and a greatest size), which names the part as well. So a part changes when what is in it changes, not when something
is added before it.
"""

from __future__ import annotations

import base64
import json
from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import chain
from typing import TYPE_CHECKING, Any
from zlib import crc32

from benchlore.index.documents import Document, document
from benchlore.index.facets import FACETS
from benchlore.index.fields import FIELDS, LENGTH_FIELDS, fields_holding
from benchlore.index.rank import K1
from benchlore.index.store import Catalogue, Kept, known_words
from benchlore.index.tokens import pairs_of
from benchlore.terms.vocabulary import Vocabulary

if TYPE_CHECKING:
    from benchlore.read.base import Record

CARDS_EACH = 32
COLUMNS_EACH = 512
"""Entries in a chunk, on average."""
SHARD_BYTES, LEAST_SHARD, GREATEST_SHARD = 8_000, 3_000, 24_000
"""Bytes of a shard on average, at least and at most, before compression."""



def browser_parts(
    records: Iterable[Record], vocabulary: Vocabulary, *, licence: str | None = None, currency: str | None = None
) -> dict[str, str]:
    """File name under the site's root to text, for the search in the browser.

    ``licence`` and ``currency`` are the shop's, where an entry names none.
    """
    ordered = sorted(records, key=lambda record: record.slug)
    documents = [document(record, vocabulary, licence=licence, currency=currency) for record in ordered]
    catalogue = Catalogue(Kept.of(d) for d in documents)
    slugs = [d.slug for d in documents]
    postings, spelling = _inverted(documents, vocabulary)
    phrases = _phrases(vocabulary)
    parts: dict[str, Any] = {"choices": _choices(catalogue)}
    parts.update((f"phrases-{key}", part) for key, part in phrases.items())
    shards = _shards(postings, parts)
    columns, cards = _chunks(slugs, COLUMNS_EACH), _chunks(slugs, CARDS_EACH)
    value_ids = [{key: n for n, (key, _) in enumerate(values)} for values in parts["choices"]]
    for name, start, end in columns:
        chunk = catalogue.entries[start:end]
        parts[f"lengths-{name}"] = _varints(
            kept.lengths[place] for place in range(len(LENGTH_FIELDS)) for kept in chunk
        )
        parts[f"facets-{name}"] = _varints(
            number for facet in range(len(FACETS)) for kept in chunk for number in _values(kept, facet, value_ids)
        )
    for name, start, end in cards:
        parts[f"cards-{name}"] = [_card(kept) for kept in catalogue.entries[start:end]]
    for letter, words in sorted(spelling.items()):
        known = sorted(words)
        parts[f"spelling-{letter}"] = {"words": _front_coded(known), "counts": _varints(words[w] for w in known)}
    parts["search"] = {
        "entries": len(documents),
        "k1": K1,
        "fields": [[f.name, f.weight, f.b] for f in FIELDS],
        "lengths": {
            "fields": list(LENGTH_FIELDS),
            "totals": [catalogue.statistics.totals[f] for f in LENGTH_FIELDS],
            "having": [catalogue.statistics.having[f] for f in LENGTH_FIELDS],
        },
        "facets": [[f.name, f.label, f.key] for f in FACETS],
        "plain_marks": sorted(catalogue.plain_marks),
        "shards": shards,
        "columns": {"starts": [start for _, start, _ in columns], "names": [name for name, _, _ in columns]},
        "cards": {"starts": [start for _, start, _ in cards], "names": [name for name, _, _ in cards]},
        "spelling": "".join(sorted(spelling)),
        "phrases": sorted(phrases),
    }
    return {f"data/{name}.js": _script(name, payload) for name, payload in sorted(parts.items())}


def _script(name: str, payload: Any) -> str:
    return f"Benchlore.part({json.dumps(name)}, {json.dumps(payload, separators=(',', ':'))});\n"


def _inverted(
    documents: Sequence[Document], vocabulary: Vocabulary
) -> tuple[dict[str, list[int]], dict[str, dict[str, int]]]:
    """Term to the integers of its postings, and letter to its known words with the number of entries that have them."""
    postings: dict[str, list[int]] = {}
    last: dict[str, int] = {}
    spelling = {letter: dict.fromkeys(words, 0) for letter, words in known_words(vocabulary).items()}
    for number, doc in enumerate(documents):
        masks: dict[str, int] = {}
        frequencies: dict[str, list[int]] = {}
        for field, counts in enumerate(doc.fields):
            for term, tf in counts.items():
                masks[term] = masks.get(term, 0) | 1 << field
                frequencies.setdefault(term, []).append(tf)
        for pair, tf in Counter(chain.from_iterable(pairs_of(line.split()) for line in doc.items.splitlines())).items():
            masks[pair] = 0
            frequencies[pair] = [tf]
        for term, mask in masks.items():
            coded = postings.setdefault(term, [])
            coded.append(number - last.get(term, 0))
            last[term] = number
            tfs = frequencies[term]
            if mask == 0 or len(fields_holding(term)) == 1:
                coded.append(tfs[0])
            elif max(tfs) == 1:
                coded.append(2 * mask)
            else:
                coded.append(2 * mask + 1)
                coded += tfs
        for word in doc.words:
            of_letter = spelling.setdefault(word[0], {})
            of_letter[word] = of_letter.get(word, 0) + 1
    return postings, {letter: words for letter, words in spelling.items() if "a" <= letter <= "z"}


def _shards(postings: dict[str, list[int]], parts: dict[str, Any]) -> dict[str, list[str]]:
    """Put the shards into ``parts``; returns the table of the manifest."""
    encoded = [(term, _leb128(postings[term])) for term in sorted(postings)]
    weights = [len(code) + len(term) // 2 + 4 for term, code in encoded]
    each = max(1, len(encoded) * SHARD_BYTES // max(1, sum(weights)))
    divisor = 1 << (each.bit_length() - 1)
    firsts: list[str] = []
    names: dict[str, None] = {}
    start = size = 0
    for index, (term, _) in enumerate(encoded):
        wanted = size >= GREATEST_SHARD or (size >= LEAST_SHARD and crc32(term.encode()) % divisor == 0)
        if index and wanted and _name(term) not in names:
            parts[f"terms-{list(names)[-1]}"] = _shard(encoded[start:index])
            start, size = index, 0
        if index == start:
            firsts.append(term)
            names[_name(term)] = None
        size += weights[index]
    if encoded:
        parts[f"terms-{list(names)[-1]}"] = _shard(encoded[start:])
    return {"firsts": firsts, "names": list(names)}


def _shard(encoded: Sequence[tuple[str, bytes]]) -> dict[str, Any]:
    return {
        "terms": _front_coded([term for term, _ in encoded]),
        "sizes": [len(code) for _, code in encoded],
        "postings": base64.b64encode(b"".join(code for _, code in encoded)).decode(),
    }


def _name(key: str) -> str:
    return f"{crc32(key.encode()) & 0xFFFFFF:06x}"


def _chunks(slugs: Sequence[str], each: int) -> list[tuple[str, int, int]]:
    """Chunks of entries as (name, first entry, after last)."""
    starts: dict[str, int] = {}
    for number, slug in enumerate(slugs):
        if number == 0 or (crc32(slug.encode()) % each == 0 and _name(slug) not in starts):
            starts[_name(slug)] = number
    bounds = [*starts.values(), len(slugs)]
    return [(name, start, bounds[n + 1]) for n, (name, start) in enumerate(starts.items())]


def _choices(catalogue: Catalogue) -> list[list[list[str]]]:
    facets = catalogue.facets
    return [[[key, facets.label(number, key)] for key in facets.keys(number)] for number in range(len(FACETS))]


def _values(kept: Kept, facet: int, value_ids: Sequence[dict[str, int]]) -> list[int]:
    numbers = sorted(value_ids[facet][key] for key, _ in kept.facets[facet])
    return [2 * (n + 1) + (place + 1 < len(numbers)) for place, n in enumerate(numbers)] or [0]


def _card(kept: Kept) -> list[Any]:
    c = kept.card
    return [
        kept.slug, c.title, c.equipment, c.class_, c.cause, c.failure, c.outcome, c.stopped_because, c.minutes, c.cost,
        c.holding, c.date,
    ]  # fmt: skip


def _phrases(vocabulary: Vocabulary) -> dict[str, dict[str, Any]]:
    """Key of a first stem to the phrases that begin so."""
    table: dict[str, dict[str, Any]] = {}
    places: dict[tuple[str, str, str], int] = {}
    for kind, term_id, stems in vocabulary.recogniser.phrases():
        key = _phrase_key(stems[0])
        part = table.setdefault(key, {"terms": [], "phrases": []})
        place = places.setdefault((key, kind, term_id), len(part["terms"]))
        if place == len(part["terms"]):
            part["terms"].append([kind, term_id, vocabulary.label(kind, term_id)])
        part["phrases"].append([place, " ".join(stems)])
    return table


def _phrase_key(stem: str) -> str:
    start = stem[:2]
    return start if all("a" <= c <= "z" for c in start) else "_"


def _front_coded(strings: Sequence[str]) -> list[int | str]:
    coded: list[int | str] = []
    before = ""
    for string in strings:
        shared = 0
        while shared < min(len(before), len(string)) and before[shared] == string[shared]:
            shared += 1
        coded += [shared, string[shared:]]
        before = string
    return coded


def _leb128(numbers: Iterable[int]) -> bytes:
    numbers = list(numbers)
    if max(numbers, default=0) < 128:
        return bytes(numbers)
    coded = bytearray()
    for number in numbers:
        while number > 127:
            coded.append(number & 127 | 128)
            number >>= 7
        coded.append(number)
    return bytes(coded)


def _varints(numbers: Iterable[int]) -> str:
    return base64.b64encode(_leb128(numbers)).decode()
