"""Drawings: what stands where. Positions are judged against the figures, not against earlier output."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.publish.drawings.bar import WIDTH as BAR
from benchlore.publish.drawings.bar import share_bar
from benchlore.publish.drawings.ruler import WIDTH, Stop, minute_ruler
from benchlore.publish.drawings.scale import limit_scale
from benchlore.publish.drawings.svg import element
from benchlore.quantity.parse import parse
from tests.publish.reading import Element, read_html


def scale(expected: str, before: str | None, after: str | None) -> Element | None:
    made = limit_scale(parse(expected), parse(before) if before else None, parse(after) if after else None, label="x")
    return read_html(str(made)).one("svg") if made else None


def brackets(svg: Element) -> list[float]:
    """Where the brackets stand: the upright of each."""
    found = []
    for path in svg.all("path", class_="bracket"):
        x, _, step = re.match(r"M([\d.]+) ([\d.]+)h(-?\d+)", path.attributes["d"]).groups()
        found.append(float(x) + float(step))
    return found


def after(svg: Element) -> list[float]:
    return [float(c.attributes["cx"]) for c in svg.all("circle")]


def before(svg: Element) -> list[float]:
    return [float(re.match(r"M([\d.]+)", p.attributes["d"])[1]) for p in svg.all("path", class_="mark-open")]


def test_a_reading_within_stands_between_the_brackets_and_one_outside_beyond() -> None:
    svg = scale("1 µF ±10 %", "0.41 µF", "0.99 µF")
    low, high = brackets(svg)
    assert before(svg)[0] < low < after(svg)[0] < high


def test_the_axis_is_true_to_scale() -> None:
    svg = scale("10 V ±10 %", "8 V", "10 V")
    low, high = brackets(svg)
    assert after(svg)[0] == pytest.approx((low + high) / 2, abs=0.2)
    assert low - before(svg)[0] == pytest.approx((high - low) / 2, abs=0.2)


def test_a_one_sided_limit_has_one_bracket_and_room_beyond() -> None:
    svg = scale("under 10 mV", "31 mV", "4 mV")
    (high,) = brackets(svg)
    assert after(svg)[0] < high < before(svg)[0]


def test_a_swing_is_a_bar_between_two_marks() -> None:
    svg = scale("24 V ±5 %", "swings 9..23 V", None)
    assert len(before(svg)) == 2
    assert len(svg.all("path", class_="swing")) == 1


@pytest.mark.parametrize(("reading", "end"), [("OL", 154), ("open", 154), ("short", 14)])
def test_states_stand_at_the_ends(reading: str, end: int) -> None:
    svg = scale("100 Ω ±10 %", reading, None)
    assert before(svg)[0] == pytest.approx(end, abs=12)


def test_figures_far_apart_get_a_logarithmic_axis() -> None:
    svg = scale("over 1 MΩ", "80 kΩ", "200 MΩ")
    (low,) = brackets(svg)
    decade_down, decades_up = low - before(svg)[0], after(svg)[0] - low
    assert decades_up / decade_down == pytest.approx(2.301 / 1.097, rel=0.02)  # log10 of 200 and of 12.5


@pytest.mark.parametrize(("expected", "reading"), [("±15 V", "14.9 V"), ("drifting", "5 V")])
def test_nothing_is_drawn_where_nothing_can_be_placed(expected: str, reading: str) -> None:
    assert scale(expected, reading, None) is None


number = st.floats(1e-9, 1e9)


@given(number, number, number)
def test_marks_never_leave_the_drawing(nominal: float, one: float, two: float) -> None:
    svg = scale(f"{nominal:.6g} V ±10 %", f"{one:.6g} V", f"{two:.6g} V")
    assert all(0 <= x <= 168 for x in (*brackets(svg), *before(svg), *after(svg)))


def ruler(stops: list[Stop]) -> Element:
    return read_html(str(minute_ruler(stops))).one("svg")


def test_a_mark_stands_at_the_minute_its_test_ended() -> None:
    svg = ruler([Stop("normal", 10, ("a",)), Stop("normal", 40, ("b",))])
    ten, forty = (float(c.attributes["cx"]) for c in svg.all("circle"))
    ticks = {t.text: float(t.attributes["x"]) for t in svg.all("text", class_="tick-label")}
    assert ten == pytest.approx(ticks["10"], abs=0.1)
    assert forty == pytest.approx(ticks["40"], abs=0.1)


def test_without_all_minutes_there_is_no_axis_of_minutes() -> None:
    svg = ruler([Stop("normal", None, ("a",)), Stop("normal", None, ("b",))])
    assert svg.all("text", class_="tick-label") == []
    one, two = (float(c.attributes["cx"]) for c in svg.all("circle"))
    assert one < two


@given(st.lists(st.tuples(st.integers(0, 300), st.text("abc def", max_size=20)), min_size=1, max_size=16))
def test_marks_stay_inside_and_labels_never_meet(tests: list[tuple[int, str]]) -> None:
    minutes, stops = 0, []
    for spent, label in tests:
        minutes += spent
        stops.append(Stop("normal", minutes, (label,) if label.strip() else ()))
    svg = ruler(stops)
    marks = [float(c.attributes["cx"]) for c in svg.all("circle")]
    assert all(0 <= x <= WIDTH for x in marks)
    rows: dict[str, list[tuple[float, float]]] = {}
    for text in svg.all("text", class_="stop-label"):
        middle, half = float(text.attributes["x"]), len("".join(text._texts())) * 6.6 / 2
        rows.setdefault(text.attributes["y"], []).append((middle - half, middle + half))
    for row in rows.values():
        row.sort()
        assert all(one[1] < two[0] for one, two in pairwise(row))


def test_a_share_is_drawn_to_scale() -> None:
    svg = read_html(str(share_bar(0.5, 0.25, 0.75))).one("svg")
    assert float(svg.one("rect").attributes["width"]) == pytest.approx((BAR - 2) / 2, abs=0.1)


def test_text_in_a_drawing_is_escaped() -> None:
    made = read_html(element("text", "<b>&", class_='"')).one()
    assert (made.text, made.attributes["class"]) == ("<b>&", '"')
