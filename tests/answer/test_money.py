"""Cost, worth and comebacks: by hand, and over the demo base against plain sums of the raw files."""

from __future__ import annotations

import datetime as dt
import json
import re
import statistics
from decimal import ROUND_HALF_UP, Decimal

import pytest
import yaml
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import poisson

from benchlore import data
from benchlore.answer.money import Chance, worth_repairing
from benchlore.cli.figures import command as figures_command
from benchlore.cli.stock import command as stock_command
from benchlore.cli.worth import command as worth_command

DEMO = data.folder("entries").parent
RATE = Decimal("32.00")


def raw_entries() -> dict[str, dict]:
    found = {}
    for path in sorted((DEMO / "entries").glob("*/*.yaml")):
        found[path.stem] = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    return found


def run(command, *words: str) -> dict:
    done = CliRunner().invoke(command, [*words, "--base", str(DEMO), "--json"])
    assert done.output.startswith("{"), (done.output, done.exception)
    return json.loads(done.output)


def minutes(entry: dict) -> Decimal | None:
    if "minutes" in entry:
        return Decimal(entry["minutes"])
    return sum((Decimal(m) for m in entry["time"].values()), Decimal(0)) if "time" in entry else None


def fitted(entry: dict) -> list[dict]:
    return [part for part in entry.get("parts", []) if part.get("use", "fitted") == "fitted"]


def test_a_sure_repair_is_worth_its_difference():
    worth = worth_repairing(Chance(value=100, cost=40, success=1, cost_if_not=20, scrap=10))
    assert (worth.gain, worth.worth_it, worth.most_for_dead) == (50, True, 60)


def test_an_uncertain_repair_by_hand():
    # 0.7·(120 - 45 - 0.1·30) + 0.3·(5 - 15) - 5 = 50.4 - 3 - 5 = 42.4; break even: (5 + 10)/(72 + 10) = 0.183
    worth = worth_repairing(Chance(120, 45, 0.7, 15, 5, 0.1, 30))
    assert worth.gain == pytest.approx(42.4)
    assert worth.most_for_dead == pytest.approx(47.4)
    assert worth.break_even == pytest.approx(15 / 82)


@given(st.floats(0, 500), st.floats(0, 300), st.floats(0, 300), st.floats(0, 100))
def test_at_the_break_even_chance_nothing_is_gained(value, cost, lost, scrap):
    at = worth_repairing(Chance(value, cost, 0.5, lost, scrap)).break_even
    if at is not None and 0 < at <= 1:
        assert worth_repairing(Chance(value, cost, at, lost, scrap)).gain == pytest.approx(0, abs=1e-6)


@given(st.floats(0, 500), st.floats(0, 300), st.floats(0, 300), st.floats(0, 0.9))
def test_a_better_chance_is_never_worth_less_when_success_pays(value, cost, lost, chance):
    if value - cost >= -lost:
        worse, better = (worth_repairing(Chance(value, cost, p, lost)) for p in (chance, chance + 0.1))
        assert better.gain >= worse.gain - 1e-9


def test_impossible_chances_are_refused():
    with pytest.raises(ValueError, match="chance"):
        Chance(1, 1, 1.5, 1)


def test_figures_of_the_demo_base_against_plain_sums():
    entries = raw_entries()
    told = run(figures_command)
    assert told["entries"] == len(entries)
    assert told["outcomes"] == {o: sum(e["outcome"] == o for e in entries.values()) for o in told["outcomes"]}
    spent = [m for e in entries.values() if (m := minutes(e)) is not None]
    assert told["minutes_total"] == pytest.approx(float(sum(spent)))
    assert told["minutes_median"] == pytest.approx(float(statistics.median(spent)))
    ninth = statistics.quantiles([float(m) for m in spent], n=10, method="inclusive")[8]
    assert told["minutes_ninth_tenth"] == pytest.approx(ninth)
    labour = [(RATE * m / 60).quantize(Decimal("0.01"), ROUND_HALF_UP) for m in spent]
    assert told["labour_total"] == pytest.approx(float(sum(labour)))
    parts = Decimal(0)
    for entry in entries.values():
        for part in fitted(entry):
            if "unit_price" in part:
                parts += Decimal(part["unit_price"].split()[0]) * int(part.get("quantity", 1))
    assert told["parts_total"] == pytest.approx(float(parts))
    worked_on = [e for e in entries.values() if e["outcome"] != "no-fault-found"]
    assert told["success"]["total"] == len(worked_on)
    assert told["success"]["hits"] == sum(e["outcome"] == "repaired" for e in worked_on)


def test_comebacks_of_the_demo_base():
    back = known = 0
    for entry in raw_entries().values():
        if entry["outcome"] not in ("repaired", "partly-repaired"):
            continue
        later = [visit["result"] for visit in entry.get("follow_up", [])]
        returned = entry.get("verification", {}).get("result") == "came-back"
        returned = returned or bool({"same-fault", "our-work"} & set(later))
        known += bool(later) or returned
        back += returned
    told = run(figures_command)["comebacks"]
    assert (told["hits"], told["total"]) == (back, known)
    assert known > 5


SI = {"p": -12, "n": -9, "µ": -6, "m": -3, "k": 3, "M": 6}


def plain(text: str) -> object:
    """A rating's value for grouping: a number with its unit in SI, else folded words; written anew for this test."""
    if match := re.match(r"^(\d*)([kMRr])(\d+)\b", text):
        return float(f"{match[1] or 0}.{match[3]}") * 10.0 ** SI.get(match[2], 0), "Ω"
    match = re.match(r"^(\d+(?:\.\d+)?)\s*(p|n|µ|m|k|M)?(F|Ω|A|V|m|W|K|°C|Hz|H|Nm|rpm|Pa|bar|min)\b", text)
    if match:
        return float(f"{float(match[1]) * 10.0 ** SI.get(match[2], 0):.9g}"), match[3]
    return re.sub(r"[^a-z0-9]", "", text.lower())


def test_stock_of_the_demo_base_against_an_independent_count():
    entries = raw_entries()
    kinds = {}
    for path in (DEMO / "schema" / "vocabulary" / "components").glob("*.yaml"):
        kinds.update(yaml.safe_load(path.read_text(encoding="utf-8")))
    used: dict[object, dict[str, int]] = {}
    for slug, entry in entries.items():
        for part in fitted(entry):
            rules = kinds.get(part.get("component_class"), {}).get("ratings", {})
            same = ("equal", "within", "same-or-higher-class")
            telling = {
                name: plain(text) for name, text in part.get("ratings", {}).items()
                if rules.get(name, {}).get("compare") in same
            }  # fmt: skip
            if telling:
                key: object = (part["component_class"], tuple(sorted(telling.items(), key=str)))
            elif part.get("type"):
                key = (part.get("component_class"), re.sub(r"[^a-z0-9]", "", part["type"].lower()))
            else:
                continue
            pieces = used.setdefault(key, {})
            pieces[slug] = pieces.get(slug, 0) + int(part.get("quantity", 1))
    dates = [dt.date.fromisoformat(entry["date"]) for entry in entries.values()]
    years = (max(dates) - min(dates)).days / 365.25
    told = run(stock_command, "--lead-time", "90", "--dear", "1000")
    assert told["years"] == pytest.approx(years)
    theirs = {
        (frozenset(pieces), sum(pieces.values())): max(pieces.values())
        * max(1, int(poisson.ppf(0.95, len(pieces) / years * 90 / 365.25)))
        for pieces in used.values()
        if len(pieces) >= 2
    }
    ours = {(frozenset(p["entries"]), p["pieces"]): p["keep"] for p in told["parts"] if p["plan"] == "keep"}
    assert ours == theirs
    assert len(ours) > 3
    assert sum(p["pieces"] for p in told["parts"]) == sum(sum(pieces.values()) for pieces in used.values())


def test_cheap_and_common_is_told_from_special_orders():
    told = run(stock_command, "--dear", "5")
    plans = {p["name"]: (p["plan"], p["because"]) for p in told["parts"]}
    assert ("special-order", "used once so far") in plans.values()
    assert ("special-order", "dear: order it with the repair") in plans.values()
    assert all(p["keep"] == 0 for p in told["parts"] if p["plan"] == "special-order")
    assert told["measure"].endswith("P(D ≤ S)")


def test_worth_takes_its_figures_from_the_class():
    told = run(worth_command, "--value", "140", "--class", "dehumidifier")
    spent = [float(minutes(e)) for e in raw_entries().values() if e["equipment"]["class"] == "dehumidifier"]
    assert told["minutes"] == statistics.median(spent)
    assert told["worth_it"] is True
    by_hand = told["success"] * (140 - told["cost"] - told["comebacks"] * told["minutes"] * 32 / 60)
    assert told["gain"] == pytest.approx(by_hand - (1 - told["success"]) * told["cost_if_not"])


@pytest.mark.parametrize("command", [figures_command, stock_command])
def test_in_words(command):
    done = CliRunner().invoke(command, ["--base", str(DEMO)])
    assert done.exit_code == 0
    assert len(done.output.splitlines()) > 3


