"""The bench helpers: small sums that the browser works out, with the same figures as ``benchlore bench``."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchlore.publish.page import Page
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import HELPERS

SCRIPTS = (
    "tables.js", "quantity_scan.js", "helpers_tables.js", "helpers_format.js", "helpers_math.js", "helpers_codes.js",
    "helpers_page.js",
)  # fmt: skip
"""In the order that they need one another."""


@dataclass(frozen=True, slots=True)
class Box:
    """One box to fill in: its name for the script, its label, an example, and whether it may stay empty."""

    name: str
    label: str
    example: str
    optional: bool = False


@dataclass(frozen=True, slots=True)
class Helper:
    """One helper: its name for the script, heading, what it does, its boxes, and the same in the terminal."""

    name: str
    heading: str
    about: str
    boxes: tuple[Box, ...]
    command: str


HELPER_LIST = (
    Helper(
        "marking", "Marking code",
        "What a number code on a chip resistor or a ceramic capacitor means.",
        (Box("code", "Code", "104"),),
        "benchlore value 104",
    ),
    Helper(
        "bands", "Colour bands",
        "Three to six bands to a value, or a value to its bands.",
        (Box("bands", "Bands or value", "yellow violet red gold"),),
        "benchlore value yellow violet red gold",
    ),
    Helper(
        "preferred", "Preferred value",
        "The nearest values that resistors are made in (IEC 60063).",
        (Box("value", "Resistance", "4.45k"),),
        "benchlore value 4.45k --unit ohm",
    ),
    Helper(
        "divider", "Divider",
        "Output of two resistors in a row, with or without a load on the tap.",
        (Box("supply", "Supply", "12 V"), Box("upper", "Upper resistor", "10k"), Box("lower", "Lower resistor", "4k7"),
         Box("load", "Load", "none", optional=True)),
        "benchlore bench divider 12V 10k 4k7",
    ),
    Helper(
        "led", "LED resistor",
        "The series resistor, the E24 value to take, and its heat. For extra-low voltage, not for the mains.",
        (Box("supply", "Supply", "12 V"), Box("forward", "Forward voltage", "2.1 V"),
         Box("current", "Current", "10 mA")),
        "benchlore bench led 12V 2.1V 10mA",
    ),
    Helper(
        "rc", "RC time",
        "Time constant and corner; with two voltages, how long it takes to fall, if the bleeder is whole.",
        (Box("resistance", "Resistance", "100k"), Box("capacitance", "Capacitance", "220 µF"),
         Box("from", "From", "400 V", optional=True), Box("to", "To", "60 V", optional=True)),
        "benchlore bench rc 100k 220uF --from 400V --to 60V",
    ),
    Helper(
        "ripple", "Ripple",
        "Of a reservoir capacitor; after a bridge, the frequency is twice the line's.",
        (Box("load", "Load current", "1 A"), Box("frequency", "Frequency of the pulses", "100 Hz"),
         Box("capacitance", "Capacitance", "4700 µF")),
        "benchlore bench ripple 1A 100Hz 4700uF",
    ),
    Helper(
        "verdict", "Reading against limits",
        "Whether a reading is within, and how sure that is with the accuracy of the meter.",
        (Box("low", "Lowest", "4.75"), Box("high", "Highest", "5.25"), Box("reading", "Reading", "5.21"),
         Box("percent", "Meter: % of reading", "0.5"), Box("counts", "Meter: counts", "2", optional=True),
         Box("resolution", "Last digit", "0.01", optional=True)),
        'benchlore verdict "4.75..5.25 V" 5.21V --instrument dmm --explain',
    ),
)  # fmt: skip
"""In the order of the page."""


def pages(site: SiteData) -> Iterator[Page]:
    """The one page."""
    yield Page(
        url=HELPERS,
        title="Bench helpers",
        template="helpers.html",
        data={"helpers": HELPER_LIST},
        description="Marking codes, colour bands, divider, LED resistor, RC time, ripple, and a reading's verdict.",
        section=HELPERS,
        scripts=SCRIPTS,
    )
