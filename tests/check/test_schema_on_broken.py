"""The JSON Schema, by an independent reader, on the broken entries: it rejects what it can express and takes the rest.

YAML is loaded as editors load it (1.2, by ruamel.yaml).
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

from tests.check.test_broken import CASES

REPOSITORY = Path(__file__).parents[2]
SCHEMA = json.loads((REPOSITORY / "schema" / "fault-entry.schema.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)
EXPRESSED = {
    "bad-date", "bad-form", "bad-money", "bad-number", "empty-file", "empty-value", "missing-key", "not-yes-or-no",
    "too-long", "unknown-format", "unknown-key", "unknown-term", "wrong-choice", "wrong-type",
}  # fmt: skip
"""Rules whose defects a schema can state: keys, types, choices, terms, lengths, forms."""
EITHER = {"file-too-large"}
"""Rules whose broken entries may also be of a wrong type."""


def loaded(path: Path) -> Any:
    text = path.read_text(encoding="utf-8")
    entry = YAML(typ="safe", pure=True).load(text)
    return json.loads(json.dumps(entry, default=str))


@pytest.mark.parametrize("case", [case for case in CASES if case.is_file()], ids=lambda case: case.stem)
def test_broken_entry(case: Path) -> None:
    rule = case.stem.split("--")[0]
    try:
        entry = loaded(case)
    except YAMLError:
        assert rule not in EXPRESSED
        return
    except ValueError:  # a day that is in no calendar, refused by the loader
        assert rule == "bad-date"
        return
    rejected = not VALIDATOR.is_valid(entry)
    if rule in EXPRESSED:
        assert rejected
    elif rule not in EITHER:
        assert not rejected, [error.message for error in VALIDATOR.iter_errors(entry)]


def test_the_demo_entries_are_accepted() -> None:
    entries = sorted(REPOSITORY.glob("entries/*/*.yaml"))
    assert entries
    for path in entries:
        VALIDATOR.validate(loaded(path))
