"""The JSON Schema, read by jsonschema; entries loaded by ruamel.yaml as editors load them (YAML 1.2)."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from benchlore.cli.schema import command
from benchlore.read.base import Base
from benchlore.read.entry import FaultEntry
from benchlore.read.json_schema import SCHEMA_FILE, fault_entry_schema, schema_text, write_schema
from benchlore.read.parse import parse_entry
from benchlore.terms.vocabulary import Vocabulary

REPOSITORY = Path(__file__).parents[2]
EXAMPLE = (Path(__file__).parent / "entry.yaml").read_text(encoding="utf-8")
BASE = Base(REPOSITORY)
SCHEMA = fault_entry_schema(BASE.vocabulary)
VALIDATOR = Draft202012Validator(SCHEMA)
SAMPLE = REPOSITORY / "tests" / "sample_base"
ENTRIES = sorted([*SAMPLE.glob("entries/*/*.yaml"), *REPOSITORY.glob("entries/*/*.yaml")])


def as_editors_load(text: str) -> Any:
    """YAML 1.2 core schema: ruamel.yaml's, but that has dates, which the core schema has not."""
    return _without_dates(YAML(typ="safe", pure=True).load(text))


def _without_dates(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _without_dates(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_without_dates(item) for item in value]
    return value.isoformat() if isinstance(value, dt.date) else value


def errors(text: str) -> list[str]:
    found = VALIDATOR.iter_errors(as_editors_load(text))
    return [f"{'/'.join(map(str, error.path))}: {error.message[:90]}" for error in found]


def test_it_is_a_schema() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == Draft202012Validator.META_SCHEMA["$id"]


def test_the_file_is_fresh() -> None:
    """When this fails: benchlore schema"""
    written = (REPOSITORY / SCHEMA_FILE).read_text(encoding="utf-8")
    assert written == schema_text(BASE.vocabulary), "write it again with: benchlore schema"


@pytest.mark.parametrize("path", ENTRIES, ids=lambda path: path.stem)
def test_it_accepts_the_entries(path: Path) -> None:
    assert errors(path.read_text(encoding="utf-8")) == []


def test_yes_no_and_numbers_as_editors_see_them() -> None:
    """What differs between YAML 1.1 and 1.2 is right for editors: yes is text, 12:30 too, and 1 is a number."""
    assert as_editors_load("[yes, off, NO, 12:30, 1, 2026-01-01]") == ["yes", "off", "NO", "12:30", 1, "2026-01-01"]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("format: 1", "format: '1'"),
        ("model: BW-12", "model: 450"),
        ("revision: B", "revision: 2"),
        ("in_circuit: no", "in_circuit: false"),
        ("fault_showing: yes", "fault_showing: true"),
        ("find: 35", "find: 7.5"),
        ("find: 35", "find: '35'"),
        ("made: 2019", "made: '2019'"),
        ("unit_price: 1.10 EUR", "unit_price: 1.10"),
        ("after: 24.1 V", "after: 24"),
        ("licence: CC-BY-SA-4.0 ", "licence: "),
        ("not_seen: [blown-fuse, burnt-smell] ", "not_seen: "),
        ("original: {ratings: {ac-voltage: 275 V ac}}", "original: same"),
        ("bleeder: 680 kΩ", "bleeder: none"),
    ],
)
def test_it_accepts_what_reading_accepts(old: str, new: str) -> None:
    assert old in EXAMPLE
    text = EXAMPLE.replace(old, new, 1)
    assert parse_entry(text).problems == ()
    assert errors(text) == errors(EXAMPLE)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("format: 1", "format: 2"),
        ("title: ", "titel: "),
        ("outcome: repaired ", "outcome: mended "),
        ("date: 2026-05-03", "date: 3 May 2026"),
        ("model: BW-12", "model: ''"),
        ("model: BW-12", "model: [BW-12]"),
        ("made: 2019", "made: lately"),
        ("brought_on_by: [load]", "brought_on_by: load"),
        ("find: 35", "find: long"),
        ("find: 35", "find: -5"),
        ("unit_price: 1.10 EUR", "unit_price: cheap"),
        ("in_circuit: no", "in_circuit: maybe"),
        ("equipment:\n", "equipments:\n"),
        ("original: {ratings: {ac-voltage: 275 V ac}}", "original: different"),
        ("quantity: 1\n", "quantity: 1.5\n"),
        ("{do: replace, on: C1}", "{on: C1}"),
    ],
)
def test_it_rejects_what_reading_rejects(old: str, new: str) -> None:
    assert old in EXAMPLE
    text = EXAMPLE.replace(old, new, 1)
    assert parse_entry(text).model is None
    assert len(errors(text)) > len(errors(EXAMPLE))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("term: dim-display", "term: dimm-display"),
        ("class: dehumidifier", "class: dehumidifer"),
        ("hazards: [mains,", "hazards: [main,"),
        ("pitch: 27.5 mm", "pich: 27.5 mm"),
        ("block: low-voltage-supply", "block: no-voltage-supply"),
    ],
)
def test_it_knows_the_terms(old: str, new: str) -> None:
    assert old in EXAMPLE
    assert len(errors(EXAMPLE.replace(old, new, 1))) > len(errors(EXAMPLE))


def test_every_field_has_a_title_and_every_term_a_meaning() -> None:
    definitions = {**SCHEMA["$defs"], "FaultEntry": SCHEMA}
    for name, definition in definitions.items():
        assert definition["title"], name
        assert definition["description"], name
        for key, field in definition.get("properties", {}).items():
            assert field["title"], f"{name}.{key}"
        if name.startswith("term-"):
            assert len(definition["enum"]) == len(definition["enumDescriptions"]) > 0
    assert SCHEMA["properties"]["outcome"]["description"] == "How the repair ended."
    assert SCHEMA["$defs"]["AlsoFound"]["properties"]["confirm_by"]["description"]
    symptom = SCHEMA["$defs"]["term-symptom"]
    shown = symptom["enumDescriptions"][symptom["enum"].index("relay-chatter")]
    assert BASE.vocabulary.label("symptom", "relay-chatter") in shown


def test_every_key_of_the_model_is_there() -> None:
    assert set(SCHEMA["properties"]) == {field.alias or name for name, field in FaultEntry.model_fields.items()}


def test_no_mark_of_ours_is_left_in_it() -> None:
    text = schema_text(BASE.vocabulary)
    assert "x-term-kind" not in text
    assert text == schema_text(BASE.vocabulary)
    assert text.endswith("}\n")


def test_a_vocabulary_without_terms_takes_any_id() -> None:
    schema = fault_entry_schema(Vocabulary({}, ""))
    Draft202012Validator.check_schema(schema)
    assert not list(Draft202012Validator(schema).iter_errors(as_editors_load(EXAMPLE)))


TEXTS = st.sampled_from(
    ["a", "12", "1999", "0.5", "true", "yes", "~", "'5'", "x y", "[]", "{}", "1.10 EUR", "2026-01-01", "same", "none"]
)
PLACES = st.sampled_from([
    "author: {}", "made: {}", "in_circuit: {}", "minutes: {}", "unit_price: {}", "original: {}", "note: {}",
    "follows: {}",
])  # fmt: skip


@given(place=PLACES, value=TEXTS)
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_where_the_schema_accepts_a_value_reading_does(place: str, value: str) -> None:
    """Terms, and quantities and slugs written as numbers, are beyond a schema; the rest agrees one way at least."""
    line = place.format(value)
    text = "format: 1\ntitle: x\noutcome: repaired\ndate: 2026-01-01\nequipment: {class: dehumidifier, model: b@M}\n"
    text = text.replace("@M", f", {line}" if line.startswith("made") else "")
    text += "symptoms: [{term: no-power@S}]\n".replace("@S", f", {line}" if line.startswith("note") else "")
    if line.startswith("in_circuit"):
        text += f"tests: [{{test: voltage-check, outcome: normal, {line}}}]\n"
    elif line.startswith(("unit_price", "original")):
        text += f"parts: [{{{line}}}]\n"
    elif line.startswith(("author", "minutes")) or (line.startswith("follows") and not value.strip("'")[0].isdigit()):
        text += line + "\n"
    if not errors(text):
        assert parse_entry(text).problems == (), text


# The command ----------------------------------------------------------------------------------------------------------


def run(root: Path, *options: str) -> Result:
    return CliRunner().invoke(command, ["--base", str(root), *options])


@pytest.fixture
def root(tmp_path: Path) -> Path:
    (tmp_path / "site_config").mkdir()
    (tmp_path / "site_config" / "shop.yaml").write_text("name: Bench\n")
    return tmp_path


def test_the_command_writes_once(root: Path) -> None:
    assert run(root, "--check").exit_code == 1
    first = run(root)
    assert (first.exit_code, first.output) == (0, f"Wrote {SCHEMA_FILE.as_posix()}\n")
    assert json.loads((root / SCHEMA_FILE).read_text(encoding="utf-8")) == SCHEMA
    again = run(root)
    assert (again.exit_code, "up to date" in again.output) == (0, True)
    assert run(root, "--check").exit_code == 0
    assert [path.name for path in (root / "schema").iterdir()] == [SCHEMA_FILE.name]


def test_the_command_says_when_it_is_stale(root: Path) -> None:
    write_schema(root / SCHEMA_FILE, BASE.vocabulary)
    (root / SCHEMA_FILE).write_text("{}")
    stale = run(root, "--check", "--json")
    assert stale.exit_code == 1
    assert json.loads(stale.output) == {"file": SCHEMA_FILE.as_posix(), "fresh": False, "written": False}
    assert (root / SCHEMA_FILE).read_text() == "{}"
    assert json.loads(run(root, "--json").output)["written"] is True


def test_the_command_prints(root: Path) -> None:
    printed = run(root, "--print")
    assert printed.output == schema_text(BASE.vocabulary)
    assert not (root / "schema").exists()
    assert run(root, "--print", "--check").exit_code == 2


def test_a_schema_that_cannot_be_written(root: Path) -> None:
    (root / "schema").write_text("in the way")
    failed = run(root)
    assert failed.exit_code == 1
    assert "cannot be written" in str(failed.exception)
