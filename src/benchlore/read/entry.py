"""The fault entry's typed model; the only place a field of the entry is declared."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from benchlore.read.fields import (
    ActionId,
    BlockId,
    ClassId,
    ComponentId,
    ConditionId,
    Count,
    Date,
    FailureModeId,
    Flag,
    HazardId,
    LongText,
    MechanismId,
    MinutesField,
    MoneyField,
    QuantityId,
    QuantityText,
    RatingId,
    ShortText,
    Slug,
    SymptomId,
    TestId,
    Text,
    ToolId,
    Year,
)

Outcome = Literal["repaired", "partly-repaired", "not-repaired", "no-fault-found"]
StoppedBecause = Literal["uneconomic", "no-part", "declined", "unsafe", "no-documents"]
Confidence = Literal["confirmed", "probable", "suspected"]


class _Part(BaseModel):
    """A mapping inside an entry: unknown keys are errors, values do not change once read."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Board(_Part):
    """A circuit board by what is printed on it; ``marking`` is the key that joins sister models."""

    marking: ShortText
    """What is printed on the board, such as BWC-02; not laminate, flammability, approval or date marks."""
    revision: ShortText | None = None
    """The letter or number of its revision, as printed."""
    function: ShortText | None = None


class Equipment(_Part):
    """What came in."""

    class_: ClassId = Field(alias="class")
    """The kind of equipment."""
    maker: ShortText | None = None
    """The maker, or: unknown."""
    model: ShortText | None = None
    """The model, as on the rating plate."""
    made: Year | None = None
    supply: ShortText | None = None
    """What it runs from, such as 230 V 50 Hz."""
    protection: Literal["I", "II", "III", "unknown"] | None = None
    """Class of protection against electric shock: I (earthed), II (double insulated), III (extra-low voltage)."""
    boards: tuple[Board, ...] = ()
    """Its circuit boards, by what is printed on them; equipment that shares one is a sister."""
    designators: Literal["ieee-315", "common"] | None = None
    """The designator scheme of the boards, where the letters differ between schemes."""


class History(_Part):
    """What happened to the unit before it came in."""

    event: Literal["dropped", "liquid", "surge", "stored", "none-known"] | None = None
    earlier_repair: Literal["yes", "no", "unknown"] | None = None
    """Whether somebody was in it before."""
    note: Text | None = None


class Document(_Part):
    """A document that helped, and the board or model it covers."""

    title: ShortText
    kind: (
        Literal["schematic", "service-manual", "user-manual", "data-sheet", "parts-list", "layout", "other"] | None
    ) = None
    covers: ShortText | None = None
    """The board or model it is for."""
    link: ShortText | None = None


class SeenSymptom(_Part):
    """A symptom that was there before the repair."""

    term: SymptomId | None = None
    """The symptom; leave it out while no term fits, and say it in the note."""
    said_by: Literal["customer", "bench"] | None = None
    """A complaint of the customer that the bench has not confirmed weighs less."""
    pattern: Literal["constant", "intermittent", "worsening"] | None = None
    brought_on_by: tuple[ConditionId, ...] = ()
    note: Text | None = None


class TestMade(_Part):
    """A test as it was made: where, under which conditions, what it said, how long it took."""

    __test__ = False

    test: TestId
    target: BlockId | None = None
    """The functional block it looked at."""
    component: ShortText | None = None
    """Reference designator, if it looked at one part."""
    power: Literal["off", "limited", "on"] | None = None
    """Whether the unit was off, on a limited supply, or on."""
    load: Literal["connected", "disconnected", "dummy"] | None = None
    fault_showing: Flag | None = None
    """Whether the fault was there at the time; a test made while it was away clears nothing."""
    in_circuit: Flag | None = None
    """Whether the part was still connected."""
    outcome: Literal["normal", "abnormal", "inconclusive"]
    """Normal, abnormal, or not to be told."""
    minutes: MinutesField | None = None
    """What it took, opening up included."""
    note: Text | None = None


class Measurement(_Part):
    """A reading: what it should be, what it was before and after. Verdicts are computed, never written."""

    point: ShortText
    to: ShortText | None = None
    """The reference point."""
    quantity: QuantityId
    condition: ShortText | None = None
    in_circuit: Flag | None = None
    expected: QuantityText | None = None
    """A value with its tolerance, a range or a limit."""
    expected_from: (
        Literal["document", "good-unit", "good-channel", "calculated", "new-part", "marking", "guess"] | None
    ) = None
    """Where the expected value comes from."""
    before: QuantityText | None = None
    after: QuantityText | None = None
    instrument: ShortText | None = None
    """An instrument of the shop (site_config/shop.yaml)."""
    note: Text | None = None


class Cause(_Part):
    """The one cause that explains the symptoms."""

    block: BlockId | None = None
    component: ShortText | None = None
    """Reference designator, or what the part is called."""
    component_class: ComponentId | None = None
    """The kind of part; joints, tracks, seals, settings and things outside the unit count too."""
    failure_mode: FailureModeId | None = None
    """How it failed."""
    mechanism: MechanismId | None = None
    """Why it failed, physically or chemically."""
    confidence: Confidence | None = None
    """How sure this is."""
    confirm_by: Text | None = None
    """The one check that proves it on the next unit."""
    note: Text | None = None


class AlsoFound(Cause):
    """Another fault that was there: what the cause took with it, or something apart from it."""

    role: Literal["consequence", "same-event", "separate", "earlier-repair"]
    """How it hangs together with the root cause."""
    due_to: ShortText | None = None


class DoneAction(_Part):
    """One thing that was done, and to what."""

    do: ActionId
    on: ShortText | None = None
    note: Text | None = None


class Fix(_Part):
    """What was done to mend it."""

    actions: tuple[DoneAction, ...] = ()
    """What was done, in terms."""
    steps: tuple[Text, ...] = ()
    """What somebody else should do, in words."""
    tools: tuple[ToolId, ...] = ()
    """Tools and instruments that it takes."""


class TimeSpent(_Part):
    """Attended minutes."""

    find: MinutesField | None = None
    repair: MinutesField | None = None
    prove: MinutesField | None = None
    """Attended minutes to prove the repair."""


class Original(_Part):
    """What differs in the original part from the one named."""

    type: ShortText | None = None
    ratings: dict[RatingId, ShortText] = {}


class Part(_Part):
    """A part fitted, tried, considered or rejected."""

    ref: ShortText | None = None
    use: Literal["fitted", "tried", "considered", "rejected"] = "fitted"
    """Fitted; tried, and made no difference; considered; or rejected."""
    source: Literal["new", "donor", "pulled"] | None = None
    """New, from a donor unit, or pulled from stock."""
    component_class: ComponentId | None = None
    type: ShortText | None = None
    """What to ask for: kind, value, and what matters."""
    ratings: dict[RatingId, ShortText] = {}
    original: Original | Literal["same"] | None = None
    """What differs in the original part; or: same."""
    quantity: Count = 1
    unit_price: MoneyField | None = None
    """Price of one, such as 1.10 EUR; without letters, in the currency of the shop."""
    note: Text | None = None


class StoredEnergy(_Part):
    """A capacitor that holds a charge after switching off."""

    component: ShortText
    capacitance: QuantityText
    voltage: QuantityText
    """The highest voltage across it."""
    bleeder: QuantityText | Literal["none"] | None = None
    """The resistor that discharges it; or: none."""


class SafetyCheck(_Part):
    """A safety test after work on mains equipment; its limits come from the shop's configuration."""

    test: TestId
    applied: QuantityText | None = None
    """Test voltage or current."""
    value: QuantityText | None = None
    result: Literal["pass", "fail"]


class Verification(_Part):
    """How the repair was proved."""

    result: Literal["holding", "came-back", "not-checked"]
    """Whether the repair holds; shown with its date."""
    soak: QuantityText | None = None
    """How long it ran afterwards."""
    checks: tuple[Text, ...] = ()
    safety: tuple[SafetyCheck, ...] = ()
    """Safety tests after work on mains equipment."""


class FollowUp(_Part):
    """What happened later."""

    date: Date
    result: Literal["holding", "same-fault", "other-fault", "our-work"]
    entry: Slug | None = None
    note: Text | None = None


class Photo(_Part):
    """A picture beside the entry."""

    file: ShortText
    """The picture file, beside the entry."""
    shows: Literal["before", "fault", "after", "label"]
    of: ShortText | None = None
    alt: Text | None = None
    """What somebody who cannot see it should know."""


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
    """Whether it was put back; it never stays bypassed."""


class Ignore(_Part):
    """A lint rule not applied to this entry, with the reason."""

    rule: ShortText
    """Code or name of the rule."""
    reason: Text
    """Why it does not apply here."""


class FaultEntry(_Part):
    """One finished repair."""

    format: Literal["1"]
    """Version of this format."""
    title: ShortText
    """Symptom and cause in a line, as you would tell a colleague."""
    outcome: Outcome
    """How the repair ended."""
    date: Date
    author: ShortText | None = None
    """Who writes this; a short name, no address."""
    licence: ShortText | None = None
    """SPDX expression; the shop's own when left out."""
    formerly: tuple[Slug, ...] = ()
    """Slugs this entry had before; their addresses lead here."""
    follows: Slug | None = None
    """Slug of the entry of this unit's earlier visit."""

    equipment: Equipment
    history: History | None = None
    documents: tuple[Document, ...] = ()
    """What helped, and what it covers."""
    symptoms: Annotated[tuple[SeenSymptom, ...], Field(min_length=1)]
    """What was seen before the repair."""
    not_seen: tuple[SymptomId, ...] = ()
    """Looked for, and not there."""
    tests: tuple[TestMade, ...] = ()
    """What was tried, in the order made."""
    measurements: tuple[Measurement, ...] = ()
    root_cause: Cause | None = None
    """May be missing or suspected where the outcome is not a repair."""
    also_found: tuple[AlsoFound, ...] = ()
    """Other faults that were there."""
    stopped_because: StoppedBecause | None = None
    """Why it was not repaired."""
    fix: Fix | None = None
    adjustments: tuple[Adjustment, ...] = ()
    software: tuple[Software, ...] = ()
    """Firmware and settings that were changed or saved."""
    calibration: Literal["done", "needed", "not-applicable"] | None = None
    """Whether it was calibrated, or must be."""
    bypassed: tuple[Bypass, ...] = ()
    """Protective devices bypassed for a test."""
    time: TimeSpent | None = None
    """Attended minutes, by what they went into."""
    minutes: MinutesField | None = None
    """All attended minutes, where time is not given."""
    parts: tuple[Part, ...] = ()
    hazards: tuple[HazardId, ...] = ()
    """What can hurt somebody; those of the class are added to them."""
    stored_energy: tuple[StoredEnergy, ...] = ()
    """Capacitors that hold a charge."""
    verification: Verification | None = None
    follow_up: tuple[FollowUp, ...] = ()
    photos: tuple[Photo, ...] = ()
    notes: LongText | None = None
    """Anything else, in Markdown."""
    lint_ignore: tuple[Ignore, ...] = ()
    """Lint rules that do not apply here, each with a reason."""

    @property
    def minutes_spent(self) -> float | None:
        """All attended minutes: ``minutes``, or the sum of ``time``; None when neither was given."""
        if self.minutes is not None:
            return self.minutes
        if self.time is None:
            return None
        spent = [m for m in (self.time.find, self.time.repair, self.time.prove) if m is not None]
        return sum(spent) if spent else None
