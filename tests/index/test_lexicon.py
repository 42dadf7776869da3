"""The lexicon kept beside the index finds what the vocabulary finds, and lets a search begin without reading it."""

from __future__ import annotations

import json
import random
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from benchlore.index.lexicon import KeptLexicon, VocabularyLexicon, lexicon_json
from benchlore.index.open_index import open_index, open_quickly
from benchlore.index.search import Searcher
from benchlore.read.base import Base
from benchlore.terms.fold import words
from tests.index.made_up import vocabulary

SAMPLE = Path(__file__).parents[1] / "sample_base"
KEPT = KeptLexicon(json.loads(json.dumps(lexicon_json(vocabulary()))))
WHOLE = VocabularyLexicon(vocabulary())


def talk(count: int) -> list[str]:
    """Phrases of the vocabulary, joined, cut and denied."""
    chance = random.Random(4)
    kinds = ("symptom", "component", "test")
    phrases = [p for kind in kinds for term in vocabulary().terms(kind).values() for p in term.phrases]
    joints = ["", " ", ", ", " not ", " no ", " and ", " or ", ". ", " OK, ", " never ", " isn't "]
    texts = []
    for _ in range(count):
        picked = [chance.choice(phrases).split() for _ in range(chance.randint(1, 3))]
        texts.append(chance.choice(joints).join(" ".join(said[: chance.randint(1, len(said))]) for said in picked))
    return texts


def test_the_kept_lexicon_finds_what_the_vocabulary_finds() -> None:
    found = 0
    for text in ["fuse not blown", "motor OK", "turned it on and it conked. out", "", "漢", *talk(600)]:
        said = words(text)
        assert KEPT.recogniser.find(said) == WHOLE.recogniser.find(said), text
        found += len(WHOLE.recogniser.find(said))
    assert found > 300


def test_its_words_and_labels_are_the_same() -> None:
    assert dict(KEPT.words) == dict(WHOLE.words)
    for term_id in vocabulary().terms("symptom"):
        assert KEPT.label("symptom", term_id) == WHOLE.label("symptom", term_id)
    assert KEPT.label("symptom", "no-such-thing") == "no such thing"


@pytest.fixture
def base(tmp_path: Path) -> Base:
    shutil.copytree(SAMPLE, tmp_path / "shop")
    return Base(tmp_path / "shop")


def test_an_index_is_opened_quickly_only_while_nothing_changed(base: Base, tmp_path: Path) -> None:
    cache = tmp_path / "cache"
    assert open_quickly(base.root, cache) is None
    store, lexicon = open_index(base, cache)
    whole = [Searcher(store, lexicon).search(q) for q in ("display dark", "relya", "4k7", "")]
    store.close()
    opened = open_quickly(base.root, cache)
    assert opened
    assert [Searcher(*opened).search(q) for q in ("display dark", "relya", "4k7", "")] == whole
    opened[0].close()
    shop = base.root / "site_config" / "shop.yaml"
    shop.write_text(shop.read_text(encoding="utf-8") + "\n# another\n", encoding="utf-8")
    assert open_quickly(base.root, cache) is None
    open_index(Base(base.root), cache)[0].close()
    opened = open_quickly(base.root, cache)
    assert opened
    opened[0].close()
    next((base.root / "entries").rglob("*.yaml")).unlink()
    assert open_quickly(base.root, cache) is None


@pytest.mark.parametrize("damage", ["", "[]", "{}", '{"mark": 1}'])
def test_a_damaged_lexicon_is_not_used(base: Base, tmp_path: Path, damage: str) -> None:
    open_index(base, tmp_path / "cache")[0].close()
    (file,) = (tmp_path / "cache").rglob("lexicon.json")
    file.write_text(damage, encoding="utf-8")
    assert open_quickly(base.root, tmp_path / "cache") is None
    open_index(base, tmp_path / "cache")[0].close()
    opened = open_quickly(base.root, tmp_path / "cache")
    assert opened
    opened[0].close()


def test_a_second_search_loads_nothing_that_reads_entries(base: Base, tmp_path: Path) -> None:
    cache = str(tmp_path / "cache")
    told = f"""
import os, sys
os.environ["XDG_CACHE_HOME"] = {cache!r}
from benchlore.cli import group
group(["search", "relay", "--base", {str(base.root)!r}], standalone_mode=False)
print("LOADED", *sorted(sys.modules))
"""
    runs = [subprocess.run([sys.executable, "-c", told], check=True, capture_output=True, text=True) for _ in range(2)]
    first, second = (set(run.stdout.partition("LOADED")[2].split()) for run in runs)
    assert "benchlore.read.entry" in first
    assert not second & {"benchlore.read.entry", "benchlore.terms.vocabulary", "mkdocs", "jinja2"}
    assert "benchlore.index.whoosh_store" in second
    assert runs[0].stdout.partition("LOADED")[0] == runs[1].stdout.partition("LOADED")[0]
