"""Results kept between runs: the same findings as without, from no more work than what has changed calls for."""

from __future__ import annotations

import datetime as dt
import json
import os
import random
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from benchlore.check import spread
from benchlore.check.finding import Finding
from benchlore.check.registry import RULES
from benchlore.check.runner import lint
from benchlore.read.base import Base
from tests.check.examples import ANOTHER, MINIMAL, TODAY, laid_over, new_base

FOLDER = "entries/dehumidifier"


@pytest.fixture
def checked(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[str]]:
    """The names of the files that are looked at anew."""
    seen: list[str] = []
    check_file = spread.check_file

    def noting(base: Base, path: Path, *rest: Any) -> Any:
        seen.append(path.name)
        return check_file(base, path, *rest)

    monkeypatch.setattr(spread, "check_file", noting)
    yield seen


@pytest.fixture
def base(tmp_path: Path) -> Base:
    made = new_base(tmp_path / "base")
    (made.root / FOLDER).mkdir()
    for number in range(4):
        title = f"title: Relay number {number} chatters under load; dropper capacitor\n"
        put(made, f"entry-{number}.yaml", laid_over(f"{title}author: odd-{number}\n"))
    return made


def put(base: Base, name: str, text: str) -> None:
    (base.root / FOLDER / name).write_text(text, encoding="utf-8")


def kept(base: Base, today: dt.date = TODAY, **options: Any) -> tuple[Finding, ...]:
    time.sleep(0.06)  # a file changed just now is not told from one changed again
    return lint(Base(base.root), today=today, cache=base.root.parent / "cache", **options).findings


def anew(base: Base, today: dt.date = TODAY) -> tuple[Finding, ...]:
    return lint(Base(base.root), today=today).findings


def test_an_unchanged_base_is_not_looked_at_again(base: Base, checked: list[str]) -> None:
    first = kept(base)
    assert len(checked) == 4
    assert kept(base) == first
    assert len(checked) == 4
    assert anew(base) == first


def test_one_changed_entry_is_looked_at_alone(base: Base, checked: list[str]) -> None:
    kept(base)
    checked.clear()
    put(base, "entry-2.yaml", laid_over("outcome: not-repaired\n"))
    found = kept(base)
    assert checked == ["entry-2.yaml"]
    assert found == anew(base)
    assert "not-repaired-without-reason" in {finding.name for finding in found}


def test_a_file_touched_but_not_changed_is_not_looked_at(base: Base, checked: list[str]) -> None:
    kept(base)
    checked.clear()
    os.utime(base.root / FOLDER / "entry-1.yaml", ns=(1, 1))
    kept(base)
    assert checked == []


def test_a_photo_that_appears_and_goes_is_noticed(base: Base) -> None:
    put(base, "entry-0.yaml", MINIMAL + "photos: [{file: c1.jpg, shows: fault, of: C1}]\n")
    assert "photo-missing" in {finding.name for finding in kept(base)}
    photo = base.root / FOLDER / "c1.jpg"
    photo.write_bytes(b"picture")
    assert "photo-missing" not in {finding.name for finding in kept(base)}
    photo.unlink()
    assert "photo-missing" in {finding.name for finding in kept(base)}


@pytest.mark.parametrize("change", ["shop", "vocabulary"])
def test_other_surroundings_forget_everything(base: Base, checked: list[str], change: str) -> None:
    kept(base)
    if change == "shop":
        shop = base.root / "site_config" / "shop.yaml"
        shop.write_text(shop.read_text(encoding="utf-8").replace("EUR", "GBP"), encoding="utf-8")
    else:
        own = base.root / "schema" / "vocabulary"
        own.parent.mkdir()
        own.symlink_to(base.vocabulary_folder)
    checked.clear()
    kept(base)
    assert len(checked) == 4


def test_a_date_that_has_come_is_no_longer_in_the_future(base: Base) -> None:
    put(base, "entry-0.yaml", laid_over(f"date: {TODAY + dt.timedelta(days=30)}\n"))
    assert "future-date" in {finding.name for finding in kept(base)}
    assert "future-date" not in {finding.name for finding in kept(base, TODAY + dt.timedelta(days=40))}
    assert "future-date" in {finding.name for finding in kept(base, TODAY - dt.timedelta(days=1))}


def test_a_choice_of_rules_works_on_what_is_kept(base: Base) -> None:
    put(base, "entry-0.yaml", laid_over("outcome: not-repaired\nhazards: [mians, mains]\n"))
    kept(base)
    only = [rule for rule in RULES if rule.name == "unknown-term"]
    assert [finding.name for finding in kept(base, rules=only)] == ["unknown-term"]
    assert kept(base) == anew(base)


@pytest.mark.parametrize("damage", ["garbage", "other json", "half", "numbers"])
def test_a_damaged_cache_is_forgotten(base: Base, damage: str) -> None:
    put(base, "entry-0.yaml", laid_over("hazards: [mians, mains]\n"))
    first = kept(base)
    for path in (base.root.parent / "cache").rglob("*.json"):
        whole = path.read_text(encoding="utf-8")
        if damage == "numbers":
            content = json.loads(whole)
            if "records" in content:
                content["records"] = {key: [7] * 9 for key in content["records"]}
            content["found"] = content["terms"] = 7
            path.write_text(json.dumps(content), encoding="utf-8")
        else:
            path.write_text({"garbage": "\0}", "other json": "[1]", "half": whole[: len(whole) // 2]}[damage])
    assert kept(base) == first


def test_a_cache_that_cannot_be_written_is_no_failure(base: Base) -> None:
    (base.root.parent / "cache").write_text("a file where the folder should be", encoding="utf-8")
    assert kept(base) == anew(base)


def test_nothing_kept_is_a_pickle(base: Base) -> None:
    kept(base)
    files = [path for path in (base.root.parent / "cache").rglob("*") if path.is_file()]
    assert files
    for path in files:
        json.loads(path.read_text(encoding="ascii"))


def test_any_run_of_changes_gives_what_a_fresh_run_gives(base: Base) -> None:
    """Entries are added, changed, taken away and linked to each other at random; collection rules must follow."""
    chance = random.Random(7)
    texts = [
        MINIMAL,
        laid_over("equipment: {class: dehumidifier, maker: brackwater, model: BW12}\n"),
        laid_over("equipment: {class: dehumidifier, maker: Tarnwick, model: BW-12}\n"),
        laid_over("formerly: [entry-1]\n"),
        laid_over("follows: entry-2\ndate: 2026-06-01\n"),
        laid_over("follow_up: [{date: 2026-06-01, result: same-fault, entry: entry-3}]\n"),
        laid_over("follows: entry-33\n"),
        laid_over("follows: entry-5\nlint_ignore: [{rule: follows-missing, reason: to come}]\n"),
        ANOTHER,
        "not: an entry\n",
    ]
    for _ in range(25):
        name = f"entry-{chance.randrange(7)}.yaml"
        path = base.root / FOLDER / name
        if chance.random() < 0.25 and path.exists():
            path.unlink()
        else:
            put(base, name, chance.choice(texts))
        assert kept(base) == anew(base)


def test_several_processes_find_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    base = new_base(tmp_path)
    (base.root / FOLDER).mkdir()
    for number in range(9):
        put(base, f"entry-{number}.yaml", laid_over(f"author: odd-{number}\nhazards: [mians, mains]\n"))
    monkeypatch.setattr(spread, "_CHUNK", 2)
    assert lint(base, today=TODAY, processes=3).findings == lint(base, today=TODAY).findings
