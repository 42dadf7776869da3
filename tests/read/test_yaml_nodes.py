"""Texts to nodes: what is accepted, the limits, and that no text whatever raises."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlore.read.yaml_nodes import COMPOSERS, LIMITS, Limits, compose, read_yaml

EVERY_COMPOSER = pytest.mark.parametrize("composer", sorted(COMPOSERS))


def test_the_fast_composer_is_tested() -> None:
    """The tests' own environment has the C parser; without it half of these tests would say nothing."""
    assert set(COMPOSERS) == {"fast", "pure"}


@EVERY_COMPOSER
def test_scalars_stay_text(composer: str) -> None:
    text = "a: NO\nb: 12:30\nc: 0123\nd: 1e3\ne: 2026-05-03\nf: on\ng: 0x1F\nh: .inf\ni: 1_000\n"
    read = read_yaml(text, composer=composer)
    assert read.problems == ()
    assert read.data == {
        "a": "NO", "b": "12:30", "c": "0123", "d": "1e3", "e": "2026-05-03", "f": "on", "g": "0x1F", "h": ".inf",
        "i": "1_000",
    }  # fmt: skip


@EVERY_COMPOSER
def test_nothing_is_nothing_and_quoted_is_text(composer: str) -> None:
    text = "a:\nb: ~\nc: null\nd: ''\ne: 'null'\n"
    assert read_yaml(text, composer=composer).data == {"a": None, "b": None, "c": None, "d": "", "e": "null"}


@EVERY_COMPOSER
@pytest.mark.parametrize(
    ("text", "data"),
    [
        ("a: |\n  one\n  two\n\nb: >\n  one\n  two\n", {"a": "one\ntwo", "b": "one two"}),
        ("a: |-\n  one\nb: |+\n  two\n\n", {"a": "one", "b": "two"}),
        ('a: "µ \\u03A9 \\x41"\n', {"a": "µ Ω A"}),
        ("a: R&D, 2*3 and *bold*, wow!\n", {"a": "R&D, 2*3 and *bold*, wow!"}),
        ("notes: |\n  **bold** & *it*\n  - &not an anchor\n", {"notes": "**bold** & *it*\n- &not an anchor"}),
        ("notes: |\n  !not a tag\n", {"notes": "!not a tag"}),
        ("a: plain text\n  that goes on\n", {"a": "plain text that goes on"}),
        ("---\na: b\n", {"a": "b"}),
        ("a: b\n...\n", {"a": "b"}),
        ("- a\n- - b\n  - c\n", ["a", ["b", "c"]]),
        ("a: 'it''s'\n", {"a": "it's"}),
        ("emoji: 🔧 and µ\n", {"emoji": "🔧 and µ"}),
    ],
)
def test_ordinary_yaml(composer: str, text: str, data: object) -> None:
    read = read_yaml(text, composer=composer)
    assert (read.problems, read.data) == ((), data)


@EVERY_COMPOSER
def test_line_ends_and_byte_order_mark(composer: str) -> None:
    read = read_yaml("\ufeffa: 1\r\nb:\r\n  - 2\r\n", composer=composer)
    assert (read.problems, read.data) == ((), {"a": "1", "b": ["2"]})


# Limits -------------------------------------------------------------------------------------------------------------


@EVERY_COMPOSER
@pytest.mark.parametrize("opening", ["[", "{a: ", "- ", "? ", "[{a: "])
def test_nesting_is_bounded(composer: str, opening: str) -> None:
    count = LIMITS.size // len(opening) if composer == "fast" else 400
    (problem,) = read_yaml(opening * count, composer=composer).problems
    assert problem.kind == "too-deep"


@EVERY_COMPOSER
def test_nesting_by_indentation_is_bounded(composer: str) -> None:
    (problem,) = read_yaml("".join(" " * n + "a:\n" for n in range(600)), composer=composer).problems
    assert problem.kind == "too-deep"


@EVERY_COMPOSER
def test_nesting_up_to_the_limit_is_read(composer: str) -> None:
    depth = LIMITS.depth
    assert not read_yaml("[" * depth + "]" * depth, composer=composer).problems
    assert read_yaml("[" * (depth + 1) + "]" * (depth + 1), composer=composer).problems


@EVERY_COMPOSER
@pytest.mark.parametrize("item", ["- a\n", "a,", "{},"])
def test_the_number_of_values_is_bounded(composer: str, item: str) -> None:
    limits = Limits(nodes=500)
    text = item * 600 if item.startswith("-") else f"[{item * 600}]"
    (problem,) = read_yaml(text, limits, composer=composer).problems
    assert problem.kind == "too-many-values"


def test_size_is_bounded() -> None:
    (problem,) = read_yaml("a" * (LIMITS.size + 1)).problems
    assert problem.kind == "too-large"
    assert not read_yaml("a" * LIMITS.size).problems


@EVERY_COMPOSER
def test_aliases_are_refused_before_they_multiply(composer: str) -> None:
    lines = ["a0: &a0 [x, x]"] + [f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}]" for n in range(1, 30)]
    read = read_yaml("\n".join(lines), composer=composer)
    assert read.root is None
    assert {problem.kind for problem in read.problems} == {"alias", "too-many-problems"}


@EVERY_COMPOSER
def test_an_alias_to_itself(composer: str) -> None:
    assert {problem.kind for problem in read_yaml("&a [*a]", composer=composer).problems} == {"alias"}


@EVERY_COMPOSER
@pytest.mark.parametrize(
    "text", ["a: \x01" * 200, "<<: x\n" * 200, "a: &x y\n" * 200, "\u202e" * 200, "a: 1\n" * 200, '"\\a": 1\n' * 200]
)
def test_the_number_of_problems_is_bounded(composer: str, text: str) -> None:
    problems = read_yaml(text, composer=composer).problems
    assert len(problems) == LIMITS.problems + 1
    assert problems[-1].kind == "too-many-problems"


# Any text whatever ----------------------------------------------------------------------------------------------------

YAMLISH = st.text(alphabet=st.sampled_from("ab1: -?[]{},#&*!|>'\"%@`~\n\n\t\\\r<=.µ\ufeff\u202e\x00\x85"), max_size=80)


@EVERY_COMPOSER
@given(text=YAMLISH | st.text(max_size=60))
@settings(max_examples=400, deadline=None)
def test_no_text_raises_and_every_problem_has_a_place(composer: str, text: str) -> None:
    read = read_yaml(text, composer=composer)
    assert read.root is not None or read.problems
    assert read.data is None or not read.problems
    for problem in read.problems:
        assert problem.offset is not None
        assert problem.end is not None
        assert 0 <= problem.offset <= problem.end <= len(text)


@given(text=st.text(alphabet=st.sampled_from("a1:-?[]{}, &*!'\"\n\ufeff"), max_size=30))
@settings(max_examples=600, deadline=None)
def test_wherever_yaml_sees_an_anchor_alias_or_tag_we_look(text: str) -> None:
    """The quick look that comes first may not miss any: PyYAML's own events say what is there."""
    seen = False
    try:
        for event in yaml.parse(text, Loader=yaml.SafeLoader):
            seen = seen or isinstance(event, yaml.AliasEvent) or bool(getattr(event, "anchor", None))
            seen = seen or bool(getattr(event, "tag", None))
    except yaml.YAMLError:
        pass
    if seen:
        assert compose(text)[0] is None


@given(text=YAMLISH)
@settings(max_examples=300, deadline=None)
def test_what_is_read_is_what_yaml_says(text: str) -> None:
    """Against PyYAML's own construction with every scalar as text (C parser too: tabs differ)."""
    read = read_yaml(text)
    if not read.problems:
        assert _blank(read.data) == _blank(yaml.load(text, Loader=yaml.CBaseLoader))


def _blank(value: object) -> object:
    """Nothing and empty text alike, and line ends of blocks off: that is where we differ on purpose."""
    if isinstance(value, dict):
        return {key: _blank(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_blank(item) for item in value]
    return None if value in ("", "~", None) else str(value).rstrip("\n")
