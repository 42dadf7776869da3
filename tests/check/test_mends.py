"""Mending: cases as data, every broken entry, and what must hold of any text that is mended."""

from __future__ import annotations

import tempfile
from difflib import SequenceMatcher
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlore.check.mends.dates import day_meant
from benchlore.check.mends.edit import Edit, Mend, applied, disjoint
from benchlore.check.mends.likeness import slips, surely
from benchlore.check.mends.numbers import minutes_meant, money_meant
from benchlore.check.mends.page import written
from benchlore.check.mends.run import MendedFile, mend
from benchlore.check.registry import RULES
from benchlore.check.runner import lint
from benchlore.cli.lint import command
from benchlore.errors import BenchloreError
from benchlore.read.base import Base
from benchlore.read.yaml_nodes import read_yaml
from tests.check.examples import MINIMAL, TODAY, laid_over, new_base, write_example
from tests.check.test_broken import CASES as BROKEN
from tests.check.test_broken import findings_in

HERE = Path(__file__).parent
CASES: list[dict[str, Any]] = yaml.safe_load((HERE / "mends.yaml").read_text(encoding="utf-8"))
NAME = "entries/dehumidifier/example-entry.yaml"


def whole(fragment: str, case: dict[str, Any]) -> str:
    return MINIMAL.replace("minutes: 60\n", fragment + "\n") if case.get("alone") else laid_over(fragment + "\n")


def base_with(folder: Path, text: str) -> Base:
    base = new_base(folder)
    path = base.root / NAME
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(text.encode())
    return base


def rules_found(base: Base) -> set[str]:
    return {finding.name for finding in lint(Base(base.root), today=TODAY).findings}


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['rule']}: {case['before'][:50]}")
def test_case(case: dict[str, Any], tmp_path: Path) -> None:
    before = whole(case["before"], case)
    base = base_with(tmp_path, before)
    assert case["rule"] in rules_found(base)
    surely_mended = mend(base, today=TODAY)
    if case.get("sure", True) is False:
        assert surely_mended == []
        mend(base, today=TODAY, boldly=True)
    after = (base.root / NAME).read_text(encoding="utf-8")
    if "after" not in case:
        assert after == before
        return
    assert after == (whole(case["after"], case) if case["after"] else MINIMAL)
    assert case["rule"] not in rules_found(base)


OTHERWISE = {"retired-term", "one-name-two-spellings", "follows-missing", "bad-file-name", "wrong-class-folder",
             "hidden-character", "tab-indentation", "missing-key", "bad-form", "value-cut-off"}  # fmt: skip
"""Mended in tests of their own, or in the broken entries."""


def test_every_rule_that_may_mend_is_shown_mending() -> None:
    assert {rule.name for rule in RULES if rule.may_mend()} == {case["rule"] for case in CASES} | OTHERWISE


LEFT_BY_NATURE = {"follows-missing", "bad-form--follows"}
"""Two defects of which one needs a person."""


@pytest.mark.parametrize("boldly", [False, True], ids=["sure", "all"])
@pytest.mark.parametrize("case", BROKEN, ids=lambda case: case.stem)
def test_mending_twice_changes_nothing_and_leaves_no_new_error(case: Path, boldly: bool, tmp_path: Path) -> None:
    before = {finding.name for finding in findings_in(case, tmp_path) if finding.severity == "error"}
    mended = mend(Base(tmp_path), today=TODAY, boldly=boldly)
    left = {finding.name for finding in lint(Base(tmp_path), today=TODAY).findings if finding.severity == "error"}
    assert left <= before or case.stem in LEFT_BY_NATURE
    for file in mended:
        assert file.done or file.move_to
    assert mend(Base(tmp_path), today=TODAY, boldly=boldly) == []


@pytest.mark.parametrize("case", BROKEN, ids=lambda case: case.stem)
def test_a_broken_entry_that_is_mended_is_clean_and_only_its_line_has_changed(case: Path, tmp_path: Path) -> None:
    places = {(finding.file, finding.line) for finding in findings_in(case, tmp_path)}
    mended = mend(Base(tmp_path), today=TODAY)
    if not mended:
        return
    if case.stem not in LEFT_BY_NATURE:
        assert lint(Base(tmp_path), today=TODAY).findings == ()
    for file in mended:
        old, new = file.before.split("\n"), file.after.split("\n")
        for tag, first, last, *_ in SequenceMatcher(a=old, b=new, autojunk=False).get_opcodes():
            if tag != "equal":
                assert last - first <= 1
                assert (file.file, first + 1) in places


def test_comments_order_quotes_line_ends_and_the_mark_stay(tmp_path: Path) -> None:
    text = "# kept\n" + laid_over("outcome: Repaired   # said so\n").replace("author: ines-w", "author:   'ines-w'")
    base = base_with(tmp_path, text)
    path = base.root / NAME
    path.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    path.chmod(0o640)
    mend(base, today=TODAY)
    wanted = text.replace("outcome: Repaired ", "outcome: repaired ").replace("\n", "\r\n")
    assert path.read_bytes() == b"\xef\xbb\xbf" + wanted.encode()
    assert path.stat().st_mode & 0o777 == 0o640
    assert [item.name for item in path.parent.iterdir()] == [path.name]


def test_several_defects_of_one_file_are_mended_in_one_go(tmp_path: Path) -> None:
    text = laid_over("title: Relay chatters: dropper capacitor\ndate: 3.5.2026\noutcome: Repaired\nhazards: %mains\n")
    base = base_with(tmp_path, text.replace("relay-chatter,", "relay-chater,"))
    (file,) = mend(base, today=TODAY)
    assert {done.name for done in file.done} >= {"second-colon", "bad-date", "wrong-choice", "unquoted-start"}
    assert "hazards: [\"%mains\"]" in file.after
    assert "relay-chatter," in file.after


def test_what_is_ignored_is_not_mended(tmp_path: Path) -> None:
    text = laid_over("licence: CC BY SA 4.0\nlint_ignore: [{rule: licence-unknown-form, reason: as the maker asks}]\n")
    base = base_with(tmp_path, text)
    assert mend(base, today=TODAY) == []


def test_the_spelling_of_most_is_taken(tmp_path: Path) -> None:
    base = new_base(tmp_path)
    fields = "equipment: {class: sewing-machine, maker: Brackwater, model: S-210}"
    write_example(
        base,
        "# file: entries/dehumidifier/relay-chatters.yaml\nminutes: 60\n---\n"
        f"# file: entries/sewing-machine/skips-stitches.yaml\n# another\n{fields}\n---\n"
        "# file: entries/sewing-machine/jams.yaml\n# another\ntitle: Bobbin jams after two rows of zigzag\n"
        f"{fields.replace('Brackwater', 'brack water')}\n",
    )
    (file,) = mend(base, today=TODAY)
    assert (file.file, file.done[0].name) == ("entries/sewing-machine/jams.yaml", "one-name-two-spellings")
    assert "maker: Brackwater," in file.after
    assert mend(Base(base.root), today=TODAY) == []


def test_a_file_is_moved_only_when_everything_is_asked_for_and_never_over_another(tmp_path: Path) -> None:
    base = new_base(tmp_path)
    write_example(base, "# file: entries/sewing-machine/relay-chatters.yaml\nminutes: 60\n")
    assert mend(base, today=TODAY) == []
    taken = base.root / "entries/dehumidifier/relay-chatters.yaml"
    taken.parent.mkdir()
    taken.write_text("mine", encoding="utf-8")
    mend(Base(base.root), today=TODAY, boldly=True)
    assert taken.read_text(encoding="utf-8") == "mine"
    taken.unlink()
    mend(Base(base.root), today=TODAY, boldly=True)
    assert taken.is_file()
    assert lint(Base(base.root), today=TODAY).findings == ()


def test_a_link_is_not_written_through(tmp_path: Path) -> None:
    base = base_with(tmp_path, laid_over("outcome: Repaired\n"))
    path = base.root / NAME
    kept = path.with_suffix(".txt")
    path.rename(kept)
    path.symlink_to(kept.name)
    mend(Base(base.root), today=TODAY)
    assert path.is_symlink()
    assert "Repaired" in kept.read_text(encoding="utf-8")


def test_a_file_changed_meanwhile_is_not_overwritten(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    base = base_with(tmp_path, laid_over("outcome: Repaired\n"))
    path = base.root / NAME
    read_bytes = Path.read_bytes
    monkeypatch.setattr(Path, "read_bytes", lambda self: b"changed" if self == path else read_bytes(self))
    with pytest.raises(BenchloreError, match="meanwhile"):
        mend(base, today=TODAY)


def run(folder: Path, *arguments: str) -> Any:
    return CliRunner().invoke(command, ["--base", str(folder), "--no-cache", *arguments])


def test_dry_run_shows_a_diff_of_the_mended_spot_and_writes_nothing(tmp_path: Path) -> None:
    text = laid_over("outcome: Repaired\n")
    base = base_with(tmp_path, text)
    result = run(tmp_path, "--mend", "--dry-run")
    assert result.exit_code == 1
    changed = [line for line in result.output.splitlines() if line.startswith(("+", "-"))]
    assert changed == [f"--- a/{NAME}", f"+++ b/{NAME}", "-outcome: Repaired", "+outcome: repaired"]
    assert (base.root / NAME).read_text(encoding="utf-8") == text


def test_mend_says_what_it_did_and_then_what_is_left(tmp_path: Path) -> None:
    base_with(tmp_path, laid_over("outcome: Repaired\nhazards: [nonsense, mains]\n"))
    result = run(tmp_path, "--mend")
    assert f"{NAME}:3: mended RDG018 wrong-choice: Repaired → repaired" in result.output
    assert "nonsense" in result.output
    assert result.exit_code == 1


def test_a_moved_file_is_linted_where_it_went(tmp_path: Path) -> None:
    write_example(new_base(tmp_path), "# file: entries/sewing-machine/relay-chatters.yaml\nminutes: 60\n")
    result = run(tmp_path, "--mend-all", str(tmp_path / "entries/sewing-machine/relay-chatters.yaml"))
    assert "moved to entries/dehumidifier/relay-chatters.yaml" in result.output
    assert result.exit_code == 0
    assert (tmp_path / "entries/dehumidifier/relay-chatters.yaml").is_file()


def test_dry_run_alone_is_refused(tmp_path: Path) -> None:
    new_base(tmp_path)
    assert run(tmp_path, "--dry-run").exit_code == 2


def test_edits_must_not_overlap() -> None:
    assert applied("abcdef", [Edit(4, 5, ""), Edit(0, 1, "XY")]) == "XYbcdf"
    with pytest.raises(ValueError, match="overlap"):
        applied("abcdef", [Edit(0, 3, ""), Edit(2, 4, "")])
    one, other, third = (Mend(n, (Edit(*place, ""),)) for n, place in (("a", (0, 3)), ("b", (2, 4)), ("c", (5, 6))))
    assert disjoint([third, other, one]) == [one, third]


@pytest.mark.parametrize(
    ("written_so", "known", "meant"),
    [
        ("relay-chater", ["relay-chatter", "relay-hums"], "relay-chatter"),
        ("Relay Chatter", ["relay-chatter"], "relay-chatter"),
        ("unlocked", ["locked"], None),
        ("lockd", ["locked", "rocked"], "locked"),
        ("esp", ["esr"], None),
        ("type-2", ["type-1"], None),
        ("hot-spots", ["hot-spot", "hot-spotz"], None),
    ],
)
def test_only_what_can_have_been_meant(written_so: str, known: list[str], meant: str | None) -> None:
    assert surely(written_so, known) == meant


@given(st.text("abc", max_size=7), st.text("abc", max_size=7))
def test_slips_are_symmetric_and_at_most_the_longer_length(one: str, other: str) -> None:
    assert slips(one, other, 9) == slips(other, one, 9) <= max(len(one), len(other))
    assert (slips(one, other, 0) == 0) == (one == other)


@given(st.dates(min_value=TODAY.replace(year=1990), max_value=TODAY.replace(year=2090)))
def test_a_day_in_words_is_that_day(day: Any) -> None:
    for form in ("%Y/%m/%d", "%d.%m.%Y", "%d %B %Y", "%B %d, %Y", "%d %b %Y", "%Y%m%d"):
        assert day_meant(day.strftime(form)) == day


@given(st.integers(0, 99), st.integers(0, 59))
def test_hours_and_minutes(hours: int, minutes: int) -> None:
    assert minutes_meant(f"{hours} h {minutes} min") == str(60 * hours + minutes)


@pytest.mark.parametrize("text", ["1,100 EUR", "$3", "3 kr", "€3 EUR", "3 €/pc", ""])
def test_money_that_is_not_certain(text: str) -> None:
    assert money_meant(text) is None


PRINTED = st.text(st.characters(blacklist_categories=("C", "Zl", "Zp")), min_size=1)


@given(PRINTED, st.booleans(), st.sampled_from(["", "'", '"']))
def test_whatever_is_written_is_read_back(value: str, in_brackets: bool, quotes: str) -> None:
    line = written(value, in_brackets=in_brackets, quotes=quotes)
    read = read_yaml(f"k: [{line}, z]" if in_brackets else f"k: {line}")
    if read.problems:  # a character that no entry may hold
        assert {problem.kind for problem in read.problems} <= {"invisible-character", "control-character"}
        return
    assert read.data == {"k": [value, "z"] if in_brackets else value}


LINES = MINIMAL.splitlines(keepends=True)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(0, len(MINIMAL) - 1), st.sampled_from("x:#,\"'[]{}&*!|>%@\t- ")), max_size=4))
def test_mending_any_damage_is_idempotent_and_never_fails(damage: list[tuple[int, str]]) -> None:
    text = MINIMAL
    for place, character in damage:
        text = text[:place] + character + text[place + 1 :]
    with tempfile.TemporaryDirectory() as folder:
        base = base_with(Path(folder), text)
        first: list[MendedFile] = mend(base, today=TODAY)
        assert mend(Base(base.root), today=TODAY) == []
        for file in first:
            assert file.after != file.before
