"""What can be wrong with a kind of equipment, by the vocabulary alone: block, component class and failure mode."""

from __future__ import annotations

from typing import NamedTuple

from benchlore.terms.model import Block, ComponentClass, EquipmentClass
from benchlore.terms.vocabulary import Vocabulary

RATIO_POWER = 0.5
"""Handbook ratios are drawn together by this power: they hold for new parts in all equipment, not for this bench."""


class Hypothesis(NamedTuple):
    """A cause: where, which kind of part, how it failed. A field is empty where an entry left it open."""

    block: str
    component: str
    mode: str


NOT_SEEN_BEFORE = Hypothesis("", "", "")
"""Something that neither an entry nor the vocabulary names."""


def base_shares(equipment_class: str, vocabulary: Vocabulary) -> dict[Hypothesis, float]:
    """Shares of all hypotheses of a class before any entry, summing to 1; empty for an unknown class.

    Every block of the class counts alike; within it the component classes by their weights; within those the failure
    modes by ratio to the power ``RATIO_POWER``, renormalised (ratios of MIL-HDBK-338B where the vocabulary says so:
    P(mode | the part failed)).
    """
    term = vocabulary.get_as(EquipmentClass, equipment_class)
    shares: dict[Hypothesis, float] = {}
    for block_id in term.blocks if term else ():
        block = vocabulary.get_as(Block, block_id)
        components = block.components if block else {}
        whole = sum(components.values())
        if not whole:
            shares[Hypothesis(block_id, "", "")] = 1.0
        for component_id, weight in components.items():
            for mode, ratio in mode_shares(component_id, vocabulary).items():
                shares[Hypothesis(block_id, component_id, mode)] = weight / whole * ratio
    total = sum(shares.values())
    return {hypothesis: share / total for hypothesis, share in shares.items()}


def mode_shares(component_id: str, vocabulary: Vocabulary) -> dict[str, float]:
    """P(failure mode | a part of this class failed), drawn together by ``RATIO_POWER``, summing to 1."""
    component = vocabulary.get_as(ComponentClass, component_id)
    if component is None:
        return {"": 1.0}
    powers = {mode: ratio.ratio**RATIO_POWER for mode, ratio in component.failure_modes.items()}
    total = sum(powers.values())
    return {mode: power / total for mode, power in powers.items()}
