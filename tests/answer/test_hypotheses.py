"""Hypotheses by the vocabulary alone."""

from __future__ import annotations

import pytest

from benchlore.answer.hypotheses import Hypothesis, base_shares, mode_shares
from benchlore.data import folder
from benchlore.terms.model import EquipmentClass
from benchlore.terms.vocabulary import Vocabulary, load


@pytest.fixture(scope="module")
def vocabulary() -> Vocabulary:
    return load(folder("schema") / "vocabulary")


def test_every_class_has_hypotheses_that_sum_to_one(vocabulary: Vocabulary) -> None:
    for class_id in vocabulary.terms("class"):
        shares = base_shares(class_id, vocabulary)
        assert sum(shares.values()) == pytest.approx(1)
        assert all(share > 0 for share in shares.values())


def test_blocks_of_a_class_count_alike(vocabulary: Vocabulary) -> None:
    shares = base_shares("dehumidifier", vocabulary)
    term = vocabulary.get_as(EquipmentClass, "dehumidifier")
    assert term
    for block in term.blocks:
        assert sum(p for h, p in shares.items() if h.block == block) == pytest.approx(1 / len(term.blocks))


def test_handbook_ratios_enter_to_the_power_of_a_half(vocabulary: Vocabulary) -> None:
    """MIL-HDBK-338B, wet electrolytic: short 0.53, open (as dried out) 0.35."""
    shares = mode_shares("electrolytic-capacitor", vocabulary)
    assert shares["short"] / shares["high-esr"] == pytest.approx((0.53 / 0.35) ** 0.5)
    assert sum(shares.values()) == pytest.approx(1)


def test_an_unknown_class_has_none(vocabulary: Vocabulary) -> None:
    assert base_shares("no-such-class", vocabulary) == {}
    assert mode_shares("no-such-part", vocabulary) == {"": 1.0}
    assert Hypothesis("a", "b", "c").mode == "c"
