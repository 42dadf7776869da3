"""The runner: stamps and sorts, applies ignores, survives a rule that crashes, keeps to the files asked for."""

from __future__ import annotations

import dataclasses
import datetime as dt
import pickle
from collections.abc import Collection, Iterable, Iterator
from pathlib import Path

import pytest

from benchlore.check.facts import Facts
from benchlore.check.finding import Observation
from benchlore.check.one_file import MOST_IGNORES, MOST_OF_A_KIND, check_file
from benchlore.check.registry import BY_NAME, RULES
from benchlore.check.rule import CollectionRule, EntryRule, Subject
from benchlore.check.rules.terms.retired_term import RetiredTerm
from benchlore.check.runner import lint
from benchlore.terms.vocabulary import Vocabulary
from tests.check.examples import TODAY, laid_over, lint_example, new_base, write_example


class Crashing(EntryRule):
    """A rule with a defect of its own."""

    code, name, severity = "ZZZ001", "crashing", "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        yield Observation(("outcome",), "said before it crashed")
        raise KeyError("\x1b[31mred")


class CrashingTogether(CollectionRule):
    """The same over all entries."""

    code, name, severity = "ZZZ002", "crashing-together", "note"

    least = 1

    def keys(self, entry: Facts) -> Iterable[str]:
        return ("all",)

    def check(self, key: str | int, entries: tuple[Facts, ...], slugs: Collection[str]) -> Iterator[Observation]:
        yield Observation(("date",), "said before", file=entries[-1].file)
        raise ZeroDivisionError


def test_a_crashing_rule_becomes_a_finding_and_the_others_go_on(tmp_path: Path) -> None:
    base = new_base(tmp_path)
    write_example(base, "outcome: not-repaired")
    report = lint(base, rules=[Crashing, BY_NAME["not-repaired-without-reason"]], today=TODAY)
    assert [f.name for f in report.findings] == ["rule-crashed", "not-repaired-without-reason", "crashing"]
    crash = report.findings[0]
    assert crash.severity == "error"
    assert "Benchlore failed here, not the entry" in crash.message
    assert "KeyError" in crash.message
    assert "test_runner.py" in crash.message
    assert report.tool_failed
    assert report.exit_code == 2


def test_a_crashing_collection_rule_becomes_a_finding(tmp_path: Path) -> None:
    base = new_base(tmp_path)
    write_example(base, "minutes: 60")
    report = lint(base, rules=[CrashingTogether], today=TODAY)
    assert [f.name for f in report.findings] == ["rule-crashed", "crashing-together"]
    assert report.exit_code == 2


@pytest.mark.parametrize(
    ("fragment", "strict", "code"),
    [
        ("minutes: 60", False, 0),
        ("minutes: 60", True, 0),
        ("verification: null\nequipment: {class: cordless-drill, model: FD-18}\nroot_cause:\n", False, 1),
        ("symptoms: [{note: it smells of fish}]", False, 0),
        ("symptoms: [{note: it smells of fish}]", True, 1),
        ("outcome: not-repaired", False, 1),
        ("outcome: fixed", False, 1),
    ],
)
def test_exit_codes(fragment: str, strict: bool, code: int, tmp_path: Path) -> None:
    base = new_base(tmp_path)
    write_example(base, fragment)
    assert lint(base, today=TODAY, strict=strict).exit_code == code


def test_findings_are_sorted_by_file_line_and_column(tmp_path: Path) -> None:
    report = lint_example(
        tmp_path,
        "# file: entries/dehumidifier/b-entry.yaml\nminutes: 0\nhazards: [moving-parts, mians]\n---\n"
        "# file: entries/dehumidifier/a-entry.yaml\noutcome: not-repaired\nhazards: [mians]\n",
    )
    places = [(f.file, f.line, f.column) for f in report.findings]
    assert places == sorted(places)
    assert len({f.file for f in report.findings}) == 2


def test_a_hostile_file_is_soon_done_with(tmp_path: Path) -> None:
    unknown = ", ".join(f"nonsense-{n}" for n in range(5_000))
    ignores = ", ".join("{rule: nonsense, reason: none}" for _ in range(2_000))
    report = lint_example(tmp_path, f"hazards: [{unknown}]\nlint_ignore: [{ignores}]\n")
    names = [finding.name for finding in report.findings]
    assert names.count("unknown-term") == MOST_OF_A_KIND
    assert names.count("ignore-unknown") == MOST_IGNORES


def test_a_long_text_of_an_entry_is_not_repeated_in_full(tmp_path: Path) -> None:
    report = lint_example(tmp_path, f"hazards: [{'x' * 20_000}]\n")
    assert max(len(finding.message) for finding in report.findings) <= 400


def test_an_ignore_hides_by_name_or_code(tmp_path: Path) -> None:
    for named in ("symptom-without-term", "SYM002"):
        report = lint_example(
            tmp_path / named,
            f"symptoms: [{{note: it smells of fish}}]\nlint_ignore: [{{rule: {named}, reason: no term for it yet}}]",
        )
        assert report.findings == ()


def test_an_ignore_hides_what_a_collection_rule_finds(tmp_path: Path) -> None:
    report = lint_example(
        tmp_path,
        "# file: entries/dehumidifier/relay-chatters.yaml\nminutes: 60\n---\n"
        "# file: entries/dehumidifier/relay-chatters-copy.yaml\n"
        "lint_ignore: [{rule: near-duplicate-entry, reason: two units side by side}]\n",
    )
    assert report.findings == ()


def test_the_same_ignore_twice_is_once_too_many(tmp_path: Path) -> None:
    twice = "[{rule: SYM002, reason: no term yet}, {rule: symptom-without-term, reason: no term yet}]"
    report = lint_example(tmp_path, f"symptoms: [{{note: it smells of fish}}]\nlint_ignore: {twice}")
    assert [(f.name, f.path) for f in report.findings] == [("ignore-unused", ("lint_ignore", 1))]


def test_an_ignore_of_a_rule_that_was_not_run_is_not_called_unused(tmp_path: Path) -> None:
    base = new_base(tmp_path)
    write_example(base, "lint_ignore: [{rule: no-proof, reason: collected at once}]")
    rules = [rule for rule in RULES if rule.name != "no-proof"]
    assert lint(base, rules=rules, today=TODAY).findings == ()


def test_a_retired_term_names_its_successor(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    base = new_base(tmp_path)
    write_example(base, "minutes: 60")
    now = base.vocabulary
    old = now.terms("symptom")["relay-chatter"].model_copy(update={"replaced_by": "clicking-repeatedly"})
    symptoms = {**now.terms("symptom"), "relay-chatter": old}
    monkeypatch.setitem(base.__dict__, "vocabulary", Vocabulary({"symptom": symptoms}, ""))
    (finding,) = lint(base, rules=[RetiredTerm], today=TODAY).findings
    assert (finding.line, finding.severity) == (12, "warning")
    assert "clicking-repeatedly" in finding.hint


def test_only_findings_in_the_files_asked_for_are_reported_but_all_entries_are_compared(tmp_path: Path) -> None:
    base = new_base(tmp_path)
    write_example(
        base,
        "# file: entries/dehumidifier/relay-chatters.yaml\noutcome: not-repaired\n---\n"
        "# file: entries/sewing-machine/relay-chatters.yaml\n# another\nminutes: 40\n",
    )
    report = lint(base, [tmp_path / "entries/sewing-machine"], today=TODAY)
    (finding,) = report.findings
    assert (finding.file, finding.name) == ("entries/sewing-machine/relay-chatters.yaml", "duplicate-slug")
    assert (report.files_checked, report.entries_checked) == (1, 1)


def test_a_file_named_twice_is_checked_once(tmp_path: Path) -> None:
    base = new_base(tmp_path)
    write_example(base, "outcome: not-repaired")
    entry = next(iter(base.entry_paths()))
    assert lint(base, [entry, entry.parent, entry], today=TODAY).files_checked == 1


def test_what_one_file_gives_can_pass_between_processes(tmp_path: Path) -> None:
    base = new_base(tmp_path)
    write_example(base, "outcome: not-repaired\nfollow_up: [{date: 2026-06-01, result: holding, entry: other-entry}]")
    result = check_file(base, base.entry_paths()[0], RULES, TODAY)
    assert pickle.loads(pickle.dumps(result)) == result

    def plain(value: object) -> bool:
        if isinstance(value, (list, tuple)):
            return all(plain(item) for item in value)
        if isinstance(value, dict):
            return all(plain(item) for item in value.values())
        return value is None or isinstance(value, (str, int, float))

    assert plain(dataclasses.asdict(result))


def test_crlf_and_byte_order_mark_do_not_move_a_finding(tmp_path: Path) -> None:
    base = new_base(tmp_path)
    path = base.entries_folder / "dehumidifier" / "example-entry.yaml"
    path.parent.mkdir()
    text = laid_over("outcome: not-repaired\n")
    path.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    (finding,) = lint(base, today=TODAY).findings
    assert (finding.line, finding.column, finding.text) == (3, 10, "outcome: not-repaired")


def test_the_date_of_today_is_the_systems_when_none_is_given(tmp_path: Path) -> None:
    base = new_base(tmp_path)
    write_example(base, f"date: {dt.date.today() + dt.timedelta(days=5)}")
    assert [f.name for f in lint(base).findings] == ["future-date"]


def test_an_empty_base_is_clean(tmp_path: Path) -> None:
    report = lint(new_base(tmp_path), today=TODAY)
    assert (report.findings, report.files_checked, report.exit_code) == ((), 0, 0)


def test_the_minimal_entries_are_clean(tmp_path: Path) -> None:
    second = "# file: entries/sewing-machine/skips-stitches.yaml\n# another\nminutes: 40"
    report = lint_example(tmp_path, f"minutes: 60\n---\n{second}")
    assert report.findings == ()
    assert report.entries_checked == 2
