"""The browser's parts, unpacked by a reader of our own, hold what the index in memory holds."""

from __future__ import annotations

import datetime as dt
import json
import re
from itertools import accumulate
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.index.browser_parts import browser_parts
from benchlore.index.documents import document
from benchlore.index.facets import FACET_NAMES
from benchlore.index.fields import FIELDS
from benchlore.index.lexicon import VocabularyLexicon
from benchlore.index.packing import digits, front_coded, numbers, strings_of
from benchlore.index.part_files import NAME, Parts
from benchlore.index.store import MemoryStore, StoreLookup
from benchlore.index.tokens import count_pair
from tests.index.made_up import made_up, record, vocabulary

RECORDS = made_up(250)


def unpacked(parts: dict[str, str]) -> dict[str, Any]:
    found = {}
    for name, text in parts.items():
        match = re.fullmatch(r'Benchlore\.part\("([\w-]+)",(.*)\);\n', text)
        assert match
        assert text.isascii()
        assert name == f"data/{match[1]}.js"
        found[match[1]] = json.loads(match[2])
    return found


def names(joined: str) -> list[str]:
    return [joined[at : at + NAME] for at in range(0, len(joined), NAME)]


FILES = browser_parts(RECORDS, vocabulary())
PARTS = unpacked(FILES)
MANIFEST = PARTS["search"]
DOCUMENTS = sorted((document(r, vocabulary()) for r in RECORDS), key=lambda d: d.slug)
STORE = MemoryStore(DOCUMENTS)
LOOKUP = StoreLookup(STORE, VocabularyLexicon(vocabulary()))


@given(st.lists(st.integers(0, 10**9)))
def test_numbers_come_back(given_numbers: list[int]) -> None:
    coded = digits(given_numbers)
    assert list(numbers(coded)) == given_numbers
    assert json.dumps(coded) == f'"{coded}"', "nothing in it needs escaping"


@given(st.lists(st.text(st.characters(exclude_characters=" ", exclude_categories=["Cs"]), min_size=1)))
def test_front_coded_strings_come_back(strings: list[str]) -> None:
    assert strings_of(front_coded(sorted(strings))) == sorted(strings)


def shards() -> list[tuple[str, list[str]]]:
    """Every shard with the first term that its directory gives it."""
    found = []
    table = MANIFEST["terms"]
    for first, name in zip(strings_of(table["firsts"]), names(table["names"]), strict=True):
        firsts, within = PARTS[f"terms-{name}"]
        assert strings_of(firsts)[0] == first
        found += [(f, PARTS[f"shard-{n}"]) for f, n in zip(strings_of(firsts), names(within), strict=True)]
    return found


def unpack_length(code: int) -> int:
    return code if code < 8 else (4 + code % 4) << code // 4 - 1


def postings() -> dict[str, dict[int, tuple[tuple[int, int, int], ...]]]:
    found: dict[str, dict[int, tuple[tuple[int, int, int], ...]]] = {}
    for first, (coded_terms, sizes, coded_patterns, written) in shards():
        terms = strings_of(coded_terms)
        assert terms[0] == first
        codes = numbers(coded_patterns)
        patterns = [(list(accumulate(next(codes) for _ in range(head // 2))), head % 2) for head in codes]
        at = 0
        for term, size in zip(terms, numbers(sizes), strict=True):
            codes = numbers(written[at : at + size])
            at += size
            count = next(codes)
            entries = list(accumulate(next(codes) for _ in range(count)))
            kinds = [patterns[next(codes)] for _ in range(count)]
            frequencies = [[next(codes) if repeated else 1 for _ in fields] for fields, repeated in kinds]
            found[term] = {
                entry: tuple(
                    (field, tf, unpack_length(next(codes)) if FIELDS[field].b else 0)
                    for field, tf in zip(kind[0], tfs, strict=True)
                )
                for entry, kind, tfs in zip(entries, kinds, frequencies, strict=True)
            }
    return found


def test_the_postings_are_those_of_the_index() -> None:
    found = postings()
    wanted = {term for d in DOCUMENTS for counts in d.fields for term in counts}
    assert wanted <= found.keys()
    assert list(found) == sorted(found)
    for term in [*sorted(wanted), *list(found)[::50]]:
        assert found[term] == LOOKUP.occurrences(term)


def test_pairs_count_overlapping_repeats() -> None:
    items = " a  a  a  b \n b  a "
    assert [count_pair(items, f"pair:{p}") for p in ("a+a", "a+b", "b+a", "b+b")] == [2, 1, 1, 0]


def test_statistics_facets_and_dates() -> None:
    statistics = STORE.catalogue.statistics
    assert (MANIFEST["totals"], MANIFEST["having"]) == (statistics.totals, statistics.having)
    assert [name for name, *_ in MANIFEST["facets"]] == list(FACET_NAMES)
    for place, (*_, part) in enumerate(MANIFEST["facets"]):
        choices, combos, coded = PARTS[f"facet-{part}"]
        for document_, value in zip(DOCUMENTS, numbers(coded), strict=True):
            assert [choices[n][0] for n in combos[value]] == sorted(key for key, _ in document_.facets[place])
    ages = list(numbers(PARTS[f"dates-{MANIFEST['dates']}"]))
    days = [dt.date.fromisoformat(d.card.date) for d in DOCUMENTS]
    assert ages == [(max(days) - day).days for day in days]


def test_cards() -> None:
    table, at = MANIFEST["cards"], 0
    for start, name in zip(numbers(table["starts"]), names(table["names"]), strict=True):
        assert start == at
        within, chunks = PARTS[f"cards-{name}"]
        for inside, chunk in zip(numbers(within), names(chunks), strict=True):
            assert start + inside == at
            for card in PARTS[f"card-{chunk}"]:
                assert card[:2] == [DOCUMENTS[at].slug, DOCUMENTS[at].card.title]
                at += 1
    assert at == len(DOCUMENTS)


def test_spellings() -> None:
    for letter, name in zip(MANIFEST["spelling"]["letters"], names(MANIFEST["spelling"]["names"]), strict=True):
        words, counts = PARTS[f"spelling-{name}"]
        counted = dict(zip(strings_of(words), numbers(counts), strict=True))
        assert counted == {word: LOOKUP.count(word) for word in LOOKUP.spellings(letter)}


def test_every_phrase_is_filed_under_a_token_of_its_own() -> None:
    table = MANIFEST["phrases"]
    firsts = strings_of(table["firsts"])
    found = []
    for place, name in enumerate(names(table["names"])):
        terms, rows = PARTS[f"phrases-{name}"]
        for key, *phrases in rows:
            assert firsts[place] <= key < (firsts[place + 1] if place + 1 < len(firsts) else "\uffff")
            for at, said in phrases:
                assert key in said.split(" ")
                found.append((*terms[at][:2], tuple(said.split(" "))))
    assert sorted(found) == sorted(vocabulary().recogniser.phrases())


def test_the_same_entries_give_the_same_bytes_in_any_order() -> None:
    assert browser_parts(RECORDS[::-1], vocabulary()) == FILES


def changed(records: list[Any]) -> list[str]:
    """Kinds of the files that are new or gone when the entries are these."""
    after = browser_parts(records, vocabulary())
    different = {name for name in FILES | after if FILES.get(name) != after.get(name)}
    assert different & FILES.keys() & after.keys() <= {"data/search.js"}, "no other file changes under its name"
    return sorted(name.removeprefix("data/").split("-")[0].removesuffix(".js") for name in different & after.keys())


def test_one_edited_word_changes_few_files() -> None:
    old = RECORDS[100].entry
    edited = old.model_copy(update={"notes": f"{old.notes} Wobblegasket."})
    kinds = changed([*RECORDS[:100], type(RECORDS[0])(RECORDS[100].slug, "", "", edited), *RECORDS[101:]])
    assert kinds.count("shard") <= 4
    assert set(kinds) <= {"shard", "terms", "search", "spelling"}


def test_an_added_entry_leaves_the_cards_of_the_others() -> None:
    kinds = changed([record("aaa-first", title="Nothing new"), *RECORDS])
    assert sum(name.startswith("data/card-") for name in FILES) > 20
    assert kinds.count("card") <= 2


def test_two_parts_that_would_share_a_name_do_not(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("benchlore.index.part_files.NAME", 1)
    parts = Parts()
    given_names = [parts.add("card", [number]) for number in range(20)]
    assert len(set(given_names)) == len(parts.payloads) == 20
    assert [parts.add("card", [number]) for number in range(20)] == given_names


@pytest.mark.parametrize("records", [[], RECORDS[:1]])
def test_an_empty_base_and_one_entry(records: list[Any]) -> None:
    manifest = unpacked(browser_parts(records, vocabulary()))["search"]
    assert manifest["entries"] == len(records)
