"""The fault entry's typed model; the only place a field of the entry is declared."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from benchlore.read.fields import (
    Count,
    Date,
    Flag,
    LongText,
    MinutesField,
    MoneyField,
    QuantityText,
    ShortText,
    TermRef,
    Text,
)

Slug = Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", min_length=3, max_length=100)]
ClassId = Annotated[str, TermRef("class")]
SymptomId = Annotated[str, TermRef("symptom")]
BlockId = Annotated[str, TermRef("block")]
ComponentId = Annotated[str, TermRef("component")]
FailureModeId = Annotated[str, TermRef("failure-mode")]
MechanismId = Annotated[str, TermRef("mechanism")]
TestId = Annotated[str, TermRef("test")]
HazardId = Annotated[str, TermRef("hazard")]
ActionId = Annotated[str, TermRef("action")]
QuantityId = Annotated[str, TermRef("quantity")]
RatingId = Annotated[str, TermRef("rating")]
ConditionId = Annotated[str, TermRef("condition")]
ToolId = Annotated[str, TermRef("tool")]

Outcome = Literal["repaired", "partly-repaired", "not-repaired", "no-fault-found"]
StoppedBecause = Literal["uneconomic", "no-part", "declined", "unsafe", "no-documents"]
Confidence = Literal["confirmed", "probable", "suspected"]


class _Part(BaseModel):
    """A mapping inside an entry: unknown keys are errors, values do not change once read."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Board(_Part):
    """A circuit board by what is printed on it; ``marking`` is the key that joins sister models."""

    marking: ShortText
    revision: ShortText | None = None
    function: ShortText | None = None


class Equipment(_Part):
    """What came in."""

    class_: ClassId = Field(alias="class")
    maker: ShortText | None = None
    model: ShortText | None = None
    made: Annotated[Count, Field(ge=1900, le=2100)] | None = None
    supply: ShortText | None = None
    protection: Literal["I", "II", "III", "unknown"] | None = None
    boards: tuple[Board, ...] = ()
    designators: Literal["ieee-315", "common"] | None = None
    """The designator scheme of the boards, where the letters differ between schemes."""


class History(_Part):
    """What happened to the unit before it came in."""

    event: Literal["dropped", "liquid", "surge", "stored", "none-known"] | None = None
    earlier_repair: Literal["yes", "no", "unknown"] | None = None
    note: Text | None = None


class Document(_Part):
    """A document that helped, and the board or model it covers."""

    title: ShortText
    kind: (
        Literal["schematic", "service-manual", "user-manual", "data-sheet", "parts-list", "layout", "other"] | None
    ) = None
    covers: ShortText | None = None
    link: ShortText | None = None


class SeenSymptom(_Part):
    """A symptom that was there before the repair."""

    term: SymptomId | None = None
    said_by: Literal["customer", "bench"] | None = None
    pattern: Literal["constant", "intermittent", "worsening"] | None = None
    brought_on_by: tuple[ConditionId, ...] = ()
    note: Text | None = None


class TestMade(_Part):
    """A test as it was made: where, under which conditions, what it said, how long it took."""

    __test__ = False

    test: TestId
    target: BlockId | None = None
    component: ShortText | None = None
    power: Literal["off", "limited", "on"] | None = None
    load: Literal["connected", "disconnected", "dummy"] | None = None
    fault_showing: Flag | None = None
    in_circuit: Flag | None = None
    outcome: Literal["normal", "abnormal", "inconclusive"]
    minutes: MinutesField | None = None
    note: Text | None = None


class Measurement(_Part):
    """A reading: what it should be, what it was before and after. Verdicts are computed, never written."""

    point: ShortText
    to: ShortText | None = None
    quantity: QuantityId
    condition: ShortText | None = None
    in_circuit: Flag | None = None
    expected: QuantityText | None = None
    expected_from: (
        Literal["document", "good-unit", "good-channel", "calculated", "new-part", "marking", "guess"] | None
    ) = None
    before: QuantityText | None = None
    after: QuantityText | None = None
    instrument: ShortText | None = None
    note: Text | None = None


class Cause(_Part):
    """The one cause that explains the symptoms."""

    block: BlockId | None = None
    component: ShortText | None = None
    component_class: ComponentId | None = None
    failure_mode: FailureModeId | None = None
    mechanism: MechanismId | None = None
    confidence: Confidence | None = None
    confirm_by: Text | None = None
    note: Text | None = None


class AlsoFound(Cause):
    """Another fault that was there: what the cause took with it, or something apart from it."""

    role: Literal["consequence", "same-event", "separate", "earlier-repair"]
    due_to: ShortText | None = None


class DoneAction(_Part):
    """One thing that was done, and to what."""

    do: ActionId
    on: ShortText | None = None
    note: Text | None = None


class Fix(_Part):
    """What was done to mend it."""

    actions: tuple[DoneAction, ...] = ()
    steps: tuple[Text, ...] = ()
    tools: tuple[ToolId, ...] = ()


class TimeSpent(_Part):
    """Attended minutes."""

    find: MinutesField | None = None
    repair: MinutesField | None = None
    prove: MinutesField | None = None


class Original(_Part):
    """What differs in the original part from the one named."""

    type: ShortText | None = None
    ratings: dict[RatingId, ShortText] = {}


class Part(_Part):
    """A part fitted, tried, considered or rejected."""

    ref: ShortText | None = None
    use: Literal["fitted", "tried", "considered", "rejected"] = "fitted"
    source: Literal["new", "donor", "pulled"] | None = None
    component_class: ComponentId | None = None
    type: ShortText | None = None
    ratings: dict[RatingId, ShortText] = {}
    original: Original | Literal["same"] | None = None
    quantity: Count = 1
    unit_price: MoneyField | None = None
    note: Text | None = None


class StoredEnergy(_Part):
    """A capacitor that holds a charge after switching off."""

    component: ShortText
    capacitance: QuantityText
    voltage: QuantityText
    bleeder: QuantityText | Literal["none"] | None = None


class SafetyCheck(_Part):
    """A safety test after work on mains equipment; its limits come from the shop's configuration."""

    test: TestId
    applied: QuantityText | None = None
    value: QuantityText | None = None
    result: Literal["pass", "fail"]


class Verification(_Part):
    """How the repair was proved."""

    result: Literal["holding", "came-back", "not-checked"]
    soak: QuantityText | None = None
    checks: tuple[Text, ...] = ()
    safety: tuple[SafetyCheck, ...] = ()


class FollowUp(_Part):
    """What happened later."""

    date: Date
    result: Literal["holding", "same-fault", "other-fault", "our-work"]
    entry: Slug | None = None
    note: Text | None = None


class Photo(_Part):
    """A picture beside the entry."""

    file: ShortText
    shows: Literal["before", "fault", "after", "label"]
    of: ShortText | None = None
    alt: Text | None = None


class Adjustment(_Part):
    """A setting before and after."""

    what: ShortText
    before: ShortText | None = None
    after: ShortText | None = None


class Software(_Part):
    """Firmware version and whether a backup was taken."""

    what: ShortText
    before: ShortText | None = None
    after: ShortText | None = None
    backup: Flag | None = None


class Bypass(_Part):
    """A protective device bypassed for a test; it must be restored."""

    what: ShortText
    why: Text | None = None
    restored: Flag


class Ignore(_Part):
    """A lint rule not applied to this entry, with the reason."""

    rule: ShortText
    reason: Text


class FaultEntry(_Part):
    """One finished repair."""

    format: Literal["1"]
    title: Annotated[str, Field(min_length=1, max_length=200)]
    outcome: Outcome
    date: Date
    author: ShortText | None = None
    licence: ShortText | None = None
    formerly: tuple[Slug, ...] = ()
    follows: Slug | None = None

    equipment: Equipment
    history: History | None = None
    documents: tuple[Document, ...] = ()
    symptoms: Annotated[tuple[SeenSymptom, ...], Field(min_length=1)]
    not_seen: tuple[SymptomId, ...] = ()
    tests: tuple[TestMade, ...] = ()
    measurements: tuple[Measurement, ...] = ()
    root_cause: Cause | None = None
    also_found: tuple[AlsoFound, ...] = ()
    stopped_because: StoppedBecause | None = None
    fix: Fix | None = None
    adjustments: tuple[Adjustment, ...] = ()
    software: tuple[Software, ...] = ()
    calibration: Literal["done", "needed", "not-applicable"] | None = None
    bypassed: tuple[Bypass, ...] = ()
    time: TimeSpent | None = None
    minutes: MinutesField | None = None
    parts: tuple[Part, ...] = ()
    hazards: tuple[HazardId, ...] = ()
    stored_energy: tuple[StoredEnergy, ...] = ()
    verification: Verification | None = None
    follow_up: tuple[FollowUp, ...] = ()
    photos: tuple[Photo, ...] = ()
    notes: LongText | None = None
    lint_ignore: tuple[Ignore, ...] = ()

    @property
    def minutes_spent(self) -> float | None:
        """All attended minutes: ``minutes``, or the sum of ``time``; None when neither was given."""
        if self.minutes is not None:
            return self.minutes
        if self.time is None:
            return None
        spent = [m for m in (self.time.find, self.time.repair, self.time.prove) if m is not None]
        return sum(spent) if spent else None
