"""Writes ``helpers_tables.js`` anew: ``python -m benchlore.publish.theme.make_helper_tables`` (for maintainers).

It has what the bench helpers in the browser need and Python declares: colours, preferred numbers, codes, and how values
are written. A test fails when it is stale.
"""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path

from benchlore.answer import bench
from benchlore.quantity import preferred
from benchlore.quantity.format import shown_steps

PATH = Path(__file__).with_name("scripts") / "helpers_tables.js"
UNITS = ("V", "A", "ohm", "F", "Hz", "s", "W")


def script() -> str:
    """The script's text."""
    colours = _data("colours.json")
    payload = {
        "colours": {
            name: [colour["digit"], colour["power"], colour.get("tolerance_newer")]
            for name, colour in colours["colours"].items()
        },
        "noBandTolerance": colours["no_band_tolerance"],
        "figures": {name: preferred.figures(name) for name in preferred.SERIES},
        "eia96": _data("markings.json")["eia96"]["multipliers"],
        "shown": {unit: shown_steps(unit) for unit in UNITS},
        "ratedPowers": bench.RATED_W,
        "powerMargin": bench.POWER_MARGIN,
    }
    body = json.dumps(payload, ensure_ascii=True, separators=(",", ":"))
    made_by = "// Written by benchlore.publish.theme.make_helper_tables; do not edit."
    rows = body.replace('"figures":', '\n"figures":').replace(',"E', ',\n"E').replace('"shown":', '\n"shown":')
    return f'"use strict";\n{made_by}\n(globalThis.Benchlore ??= {{}}).helperTables = {rows};\n'


def _data(name: str) -> dict[str, dict[str, dict[str, object]]]:
    text = files("benchlore.quantity").joinpath(f"data/{name}").read_text(encoding="utf-8")
    data: dict[str, dict[str, dict[str, object]]] = json.loads(text)
    return data


if __name__ == "__main__":
    PATH.write_text(script(), encoding="ascii")
    print(f"wrote {PATH.name}")
