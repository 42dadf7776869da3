"""Entry and component pages say whether the part fitted may stand in for the original, and why."""

from __future__ import annotations

from benchlore.publish.writer import PublishResult
from tests.publish.reading import read_page


def test_the_entry_page_judges_the_part_by_its_ratings(demo: PublishResult) -> None:
    text = read_page(demo.out / "e" / "bw-12-relay-chatters.html").one("section", class_="parts").text
    assert "By these ratings it may stand in for the original: AC voltage rating 310 V ac in place of 275 V ac" in text
    assert "A safety part: like for like only, with its approvals." in text


def test_a_part_that_is_the_same_is_not_judged(demo: PublishResult) -> None:
    text = read_page(demo.out / "e" / "ax-204-starts-only-when-warm.html").one("section", class_="parts").text
    assert "By these ratings" not in text


def test_the_component_page_shows_it_for_each_part(demo: PublishResult) -> None:
    text = read_page(demo.out / "p" / "safety-film-capacitor.html").text
    assert text.count("By these ratings it may stand in") >= 3
