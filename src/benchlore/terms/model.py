"""The typed terms of the vocabulary: one model per kind of term; the only place a term's field is declared."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

TermId = Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)]
Sentence = Annotated[str, Field(min_length=3, max_length=600)]
Phrase = Annotated[str, Field(min_length=2, max_length=80)]
Weight = Annotated[float, Field(gt=0, le=1000)]
Minutes = Annotated[float, Field(ge=0, le=10_000)]
Power = Literal["off", "limited", "on"]


class _Strict(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Term(_Strict):
    """What every term has.

    ``phrases`` are what people say for it (the label need not be repeated). ``broader`` names a term of the same
    kind. ``replaced_by`` marks a retired term: entries that use it are pointed to the new one.
    """

    label: Annotated[str, Field(min_length=2, max_length=60)]
    definition: Sentence
    phrases: tuple[Phrase, ...] = ()
    broader: TermId | None = None
    replaced_by: TermId | None = None


class TeardownGroup(_Strict):
    """Blocks that one opening gives access to, and the minutes that opening takes."""

    label: Annotated[str, Field(min_length=2, max_length=80)]
    minutes: Minutes
    blocks: tuple[TermId, ...]


class EquipmentClass(Term):
    """A kind of equipment. ``blocks`` stand in signal or power order; the first is where power enters.

    ``stores_energy`` says that a capacitor or spring in it holds a hazardous charge after switching off.
    """

    blocks: Annotated[tuple[TermId, ...], Field(min_length=1)]
    teardown: tuple[TeardownGroup, ...] = ()
    hazards: tuple[TermId, ...] = ()
    hazards_by_action: dict[TermId, tuple[TermId, ...]] = {}
    mains: bool = False
    """Whether equipment of this class is itself connected to the mains supply."""


class Block(Term):
    """A functional block. ``components``: usual component classes with weights (relative, any scale)."""

    components: dict[TermId, Weight] = {}
    source_side: tuple[TermId, ...] = ()
    """Blocks that usually feed this one."""
    load_side: tuple[TermId, ...] = ()
    """Blocks that this one usually feeds."""


class Test(Term):
    """A test a technician makes. ``speaks_about``: block, or ``any``, to strength 0..1 (how surely it tells)."""

    __test__ = False  # not a pytest class

    minutes: Minutes
    power: Power
    speaks_about: dict[TermId, Annotated[float, Field(ge=0, le=1)]] = {}
    component_classes: dict[TermId, Annotated[float, Field(ge=0, le=1)]] = {}
    """Component classes it can clear or condemn, to strength 0..1."""
    after: tuple[TermId, ...] = ()
    """Tests that must come before it."""
    quantity: TermId | None = None
    first_power_up_limited: bool = False


class RatingRule(_Strict):
    """How a rating of a replacement compares with the original's, for one component class."""

    compare: Literal["equal", "at-least", "at-most", "within", "same-or-higher-class", "check"]
    required: bool = False
    within: str | None = None
    """For ``within``: the window, e.g. ``0 %..+20 %``."""
    check: str | None = None
    """For ``check``: what to check, in a few words."""
    note: str | None = None
    order: tuple[str, ...] = ()
    """For ``same-or-higher-class``: the classes from lowest to highest."""
    also: dict[str, tuple[str, ...]] = {}
    """For ``same-or-higher-class``: classes outside the order that may stand in with care, by the class replaced."""
    loss: Annotated[str, Field(min_length=3, max_length=120)] | None = None
    """For ``at-least`` and ``at-most``: what is lost by a somewhat worse figure that can be borne with care. Without
    it, a worse figure rules the part out. Voltages never have it."""
    care_above: Annotated[float, Field(gt=1, le=100)] | None = None
    """For ``at-least``: how many times the original's figure is more than is good for it without care."""


class FailureRatio(_Strict):
    """P(mode | the part failed), with where the figure comes from."""

    ratio: Annotated[float, Field(gt=0, le=1)]
    source: Literal["MIL-HDBK-338B", "from memory", "common practice"]


class ComponentClass(Term):
    """A kind of component: designator letters, ratings, failure modes; safety-critical ones go like for like."""

    family: Literal[
        "electronic", "electromechanical", "mechanical", "joint", "track", "connector", "cable", "seal", "firmware",
        "setting", "outside",
    ]
    designators: tuple[Annotated[str, Field(pattern=r"^[A-Z]{1,5}$")], ...] = ()
    ratings: dict[TermId, RatingRule] = {}
    failure_modes: Annotated[dict[TermId, FailureRatio], Field(min_length=1)]
    safety_critical: bool = False
    stand_ins: dict[TermId, Sentence] = {}
    """Other component classes that may stand in for this one with care, and what to mind; no others may."""
    typical: tuple[str, ...] = ()
    """Measured limits a bench knows by heart, one per line, each worded as common practice."""


class Symptom(Term):
    """Something seen, heard, smelt or felt that makes somebody report a fault."""

    group: Annotated[str, Field(min_length=2, max_length=40)]
    opposite_of: TermId | None = None


class FailureMode(Term):
    """The manner in which a part fails (IEV 192-03-17, paraphrased)."""


class Mechanism(Term):
    """The physical or chemical process behind a failure."""


class Hazard(Term):
    """A way to get hurt, with its caution in our own words; every caution defers to codes and licensed practice."""

    caution: Sentence
    """One or two sentences shown first on an entry."""
    why: Sentence
    before_opening: Sentence
    before_power: Sentence
    stop_when: Sentence
    sign: Literal["electricity", "hot-surface", "general", "moving-parts", "laser", "battery", "explosive"] = "general"
    severity: Annotated[int, Field(ge=1, le=3)] = 2
    """3 can kill at once, 2 can injure, 1 can harm over time; the order in which cautions are shown."""


class Action(Term):
    """What was done to mend it. ``past`` completes "C1 ..." ("replaced")."""

    past: Annotated[str, Field(min_length=2, max_length=40)]


class QuantityKind(Term):
    """A measurable quantity and the unit (symbol as in ``quantity.units``) it is given in."""

    unit: str
    current_kind: Literal["ac", "dc"] | None = None


class Rating(Term):
    """A rating name a part may carry; ``unit`` is empty for words (a safety class, a package)."""

    unit: str | None = None


class Condition(Term):
    """What brings a symptom on (``symptoms[].brought_on_by``)."""


class Tool(Term):
    """A tool or instrument of the bench (``fix.tools``)."""


KINDS: dict[str, type[Term]] = {
    "class": EquipmentClass,
    "symptom": Symptom,
    "block": Block,
    "component": ComponentClass,
    "failure-mode": FailureMode,
    "mechanism": Mechanism,
    "test": Test,
    "hazard": Hazard,
    "action": Action,
    "quantity": QuantityKind,
    "rating": Rating,
    "condition": Condition,
    "tool": Tool,
}
"""Kind of term to its model, in the order kinds are loaded and listed."""

FOLDERS: dict[str, str] = {
    "class": "classes",
    "symptom": "symptoms",
    "block": "blocks",
    "component": "components",
    "failure-mode": "failure-modes",
    "mechanism": "mechanisms",
    "test": "tests",
    "hazard": "hazards",
    "action": "actions",
    "quantity": "quantities",
    "rating": "ratings",
    "condition": "conditions",
    "tool": "tools",
}
"""Kind of term to its folder under ``schema/vocabulary/``; each YAML file there maps term ids to terms."""
