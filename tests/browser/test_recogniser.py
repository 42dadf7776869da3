"""The phrase recogniser in the browser finds what Python's finds, over the vocabulary itself."""

from __future__ import annotations

import random

import pytest

from benchlore import data
from benchlore.terms.fold import words
from benchlore.terms.vocabulary import load
from tests.browser.script_page import write_script_page
from tests.browser.strings import chance_strings

FILES = ["tables.js", "stem.js", "fold.js", "fold_near.js", "fold_far.js", "recogniser.js"]
JOINTS = ["", "not", "no sign of", "never", "it's", "the", "isn't any", "without", ",", "no longer", "was", "and", "ü"]


@pytest.fixture(scope="module")
def recogniser():
    return load(data.folder("schema") / "vocabulary").recogniser


@pytest.fixture
def recognising(page, tmp_path, recogniser):
    page.goto(write_script_page(tmp_path, FILES).as_uri())
    page.evaluate(
        "phrases => { window.twin = new Benchlore.Recogniser(); twin.add(phrases); }", recogniser.phrases()
    )
    return page


def spoken(recogniser, count):
    """Chance talk of phrases cut, joined and negated; stems stand in for the words they come from."""
    chance = random.Random(7)
    phrases = [" ".join(stems) for _, _, stems in recogniser.phrases()]
    texts = []
    for _ in range(count):
        parts = []
        for _ in range(chance.randint(1, 5)):
            said = chance.choice(phrases).split()
            if chance.random() < 0.3:
                said.insert(chance.randint(0, len(said)), chance.choice(JOINTS))
            if chance.random() < 0.1:
                said.pop()
            parts += [chance.choice(JOINTS), *said]
        texts.append(" ".join(parts))
    return texts


def test_terms_found_in_chance_talk(recognising, recogniser):
    texts = [
        "fuse not blown", "no sign of burning", "fuse isn't blown", "turned the kettle on and it conked out",
        "Dead. Fuse intact", "turn😀on won't turn😀on, no😀power 😀 no power",
        "no lines or streaks, it never tripped the breaker", "screen went and cracked",
        *chance_strings(1_000, 2),
    ]  # fmt: skip
    texts += spoken(recogniser, 3_000)
    theirs = recognising.evaluate(
        """texts => texts.map(text => twin.find(Benchlore.words(text)).map(
          f => [f.kind, f.id, text.slice(0, f.start), text.slice(0, f.end), f.negated]))""",
        texts,
    )
    seen = set()
    for text, found in zip(texts, theirs, strict=True):
        ours = recogniser.find(words(text))
        assert found == [[f.kind, f.id, text[: f.start], text[: f.end], f.negated] for f in ours], text
        seen |= {(f.kind, f.negated) for f in ours}
    assert len({kind for kind, _ in seen}) >= 4 and {negated for _, negated in seen} == {True, False}
