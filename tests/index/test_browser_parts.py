"""The browser's parts, unpacked by a reader of our own, hold what the index in memory holds."""

from __future__ import annotations

import base64
import json
import re
from typing import Any

import pytest

from benchlore.index.browser_parts import browser_parts
from benchlore.index.documents import count_pair, document
from benchlore.index.facets import FACET_NAMES
from benchlore.index.fields import FIELDS, LENGTH_FIELDS
from benchlore.index.store import MemoryStore, StoreLookup
from benchlore.terms.recogniser import Recogniser
from tests.index.made_up import made_up, record, vocabulary

RECORDS = made_up(250)
SINGLE = ("pair:", "board:", "boards-of:", "models-on:")


def unpacked(parts: dict[str, str]) -> dict[str, Any]:
    found = {}
    for name, text in parts.items():
        match = re.fullmatch(r'Benchlore\.part\("([\w-]+)", (.*)\);\n', text)
        assert match
        assert text.isascii()
        assert name == f"data/{match[1]}.js"
        found[match[1]] = json.loads(match[2])
    return found


def numbers(coded: bytes | str) -> list[int]:
    found, value, shift = [], 0, 0
    for byte in base64.b64decode(coded) if isinstance(coded, str) else coded:
        value |= (byte & 127) << shift
        shift += 7
        if byte < 128:
            found.append(value)
            value = shift = 0
    return found


def strings(coded: list[int | str]) -> list[str]:
    found = [""]
    for shared, rest in zip(coded[::2], coded[1::2], strict=True):
        found.append(found[-1][: int(shared)] + str(rest))
    return found[1:]


PARTS = unpacked(browser_parts(RECORDS, vocabulary()))
MANIFEST = PARTS["search"]
DOCUMENTS = sorted((document(r, vocabulary()) for r in RECORDS), key=lambda d: d.slug)
STORE = MemoryStore(DOCUMENTS)


def postings() -> dict[str, dict[int, list[tuple[int, int]]]]:
    found: dict[str, dict[int, list[tuple[int, int]]]] = {}
    for first, name in zip(MANIFEST["shards"]["firsts"], MANIFEST["shards"]["names"], strict=True):
        shard = PARTS[f"terms-{name}"]
        terms = strings(shard["terms"])
        assert terms[0] == first
        assert terms == sorted(terms)
        raw, at = base64.b64decode(shard["postings"]), 0
        for term, size in zip(terms, shard["sizes"], strict=True):
            codes = iter(numbers(raw[at : at + size]))
            at += size
            entry, entries = 0, found.setdefault(term, {})
            for delta in codes:
                entry += delta
                if term.startswith(SINGLE):
                    entries[entry] = [(-1, next(codes))]
                    continue
                code = next(codes)
                fields = [f for f in range(len(FIELDS)) if code >> (f + 1) & 1]
                entries[entry] = [(f, next(codes) if code & 1 else 1) for f in fields]
    return found


def test_the_postings_are_those_of_the_index() -> None:
    lookup = StoreLookup(STORE, vocabulary())
    found = postings()
    wanted = {term for d in DOCUMENTS for counts in d.fields for term in counts}
    assert wanted <= found.keys()
    for term in found:
        mine = lookup.occurrences(term)
        if term.startswith(SINGLE):
            assert {e: [tf for _, tf in where] for e, where in found[term].items()} == {
                e: [tf for _, tf in where] for e, where in mine.items()
            }
        else:
            assert found[term] == mine
    assert list(MANIFEST["shards"]["firsts"]) == sorted(MANIFEST["shards"]["firsts"])


def test_pairs_count_overlapping_repeats() -> None:
    items = " a  a  a  b \n b  a "
    assert [count_pair(items, f"pair:{p}") for p in ("a+a", "a+b", "b+a", "b+b")] == [2, 1, 1, 0]


def _chunks(kind: str, table: str) -> list[tuple[int, int, Any]]:
    starts = [*MANIFEST[table]["starts"], len(DOCUMENTS)]
    return [
        (start, end, PARTS[f"{kind}-{name}"])
        for start, end, name in zip(starts, starts[1:], MANIFEST[table]["names"], strict=False)
    ]


def test_lengths_facets_and_cards() -> None:
    statistics = STORE.catalogue.statistics
    assert MANIFEST["lengths"]["totals"] == [statistics.totals[f] for f in LENGTH_FIELDS]
    for start, end, coded in _chunks("lengths", "columns"):
        found = iter(numbers(coded))
        for field in MANIFEST["lengths"]["fields"]:
            for entry in range(start, end):
                assert next(found) == statistics.length(entry, field)
    for start, end, coded in _chunks("facets", "columns"):
        found = iter(numbers(coded))
        for facet in range(len(FACET_NAMES)):
            for entry in range(start, end):
                keys = []
                more = True
                while more and (value := next(found)):
                    keys.append(PARTS["choices"][facet][value // 2 - 1][0])
                    more = bool(value & 1)
                assert keys == sorted(key for key, _ in DOCUMENTS[entry].facets[facet])
    for start, end, cards in _chunks("cards", "cards"):
        assert [card[0] for card in cards] == [d.slug for d in DOCUMENTS[start:end]]
        assert [card[1] for card in cards] == [d.card.title for d in DOCUMENTS[start:end]]


def test_spellings() -> None:
    lookup = StoreLookup(STORE, vocabulary())
    for letter in MANIFEST["spelling"]:
        part = PARTS[f"spelling-{letter}"]
        counted = dict(zip(strings(part["words"]), numbers(part["counts"]), strict=True))
        assert counted == lookup.spellings(letter)


def test_phrases_make_the_same_recogniser() -> None:
    parts = [PARTS[f"phrases-{key}"] for key in MANIFEST["phrases"]]
    found = [(*part["terms"][place][:2], stems) for part in parts for place, stems in part["phrases"]]
    wanted = [(kind, term_id, " ".join(stems)) for kind, term_id, stems in vocabulary().recogniser.phrases()]
    assert sorted(found) == sorted(wanted)
    assert isinstance(vocabulary().recogniser, Recogniser)


def test_the_same_entries_give_the_same_bytes_in_any_order() -> None:
    assert browser_parts(RECORDS[::-1], vocabulary()) == browser_parts(RECORDS, vocabulary())


def test_one_edited_word_changes_few_files() -> None:
    before = browser_parts(RECORDS, vocabulary())
    old = RECORDS[100].entry
    edited = old.model_copy(update={"notes": f"{old.notes} Wobblegasket."})
    changed = [*RECORDS[:100], type(RECORDS[0])(RECORDS[100].slug, "", "", edited), *RECORDS[101:]]
    after = browser_parts(changed, vocabulary())
    different = {name for name in before | after if before.get(name) != after.get(name)}
    kinds = sorted(name.removeprefix("data/").split("-")[0].removesuffix(".js") for name in different)
    assert kinds.count("terms") <= 4
    assert set(kinds) <= {"terms", "lengths", "search", "spelling"}


def test_an_added_entry_leaves_the_cards_of_the_others() -> None:
    before = browser_parts(RECORDS, vocabulary())
    after = browser_parts([record("aaa-first", title="Nothing new"), *RECORDS], vocabulary())
    cards = [name for name in before if name.startswith("data/cards-")]
    assert len(cards) > 3
    assert sum(before[name] != after.get(name) for name in cards) <= 1


@pytest.mark.parametrize("records", [[], RECORDS[:1]])
def test_an_empty_base_and_one_entry(records: list[Any]) -> None:
    manifest = unpacked(browser_parts(records, vocabulary()))["search"]
    assert manifest["entries"] == len(records)
