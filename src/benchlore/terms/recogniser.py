"""The phrase recogniser: which terms a text names, by the phrases of the vocabulary, with negation.

The same rule in Python and JavaScript. It reads a text, and before that every phrase, as *tokens*:

1. Words are folded and stemmed, and ``NOT_WORDS`` become ``not``. For the kinds in ``SPOKEN`` (what customers say in
   their own words) words of one meaning become one token as well, by the classes of ``word_classes.yaml`` ("conked
   out" is ``dead``, "screen" is ``display``): longest first, twice, since a class may hold another's name. Members of
   several words may be parted by words that say nothing ("turn *it* on"). ``FILLERS`` go.
2. From each token on, a phrase matches when its tokens follow in their order. In the kinds in ``SPOKEN`` up to
   ``GAP`` words may stand between two of them (soft and free words, which say little, count nothing; a conjunction or
   a clause's end stops the search), and two tokens that both say something match in either order. A phrase with less
   than two such tokens ("not start") has no gaps, and one written with a full stop ("Leaks.") must be a clause of its
   own. In other kinds nothing stands between. Of a token that comes again the nearest is taken. One negating word may
   stand between: the term is then *negated* ("fuse not blown"). A phrase that has the negating word in itself ("no
   power") is matched as it stands.
3. Of all matches the one of the most tokens is taken first, then the one with the smallest gaps, the first, and the
   smaller term id; a match that shares a token with one taken before it is dropped.
4. A match with a negating word before it, or before linking words that are before it ("no sign of burning"), is
   negated, and so is what an "or" joins to what such a word denies ("no lines or streaks"). A token of ``CONTRARY``
   in place of a phrase's last ("motor OK" for "motor dead") negates as well.

Words hold no punctuation: a clause ends where two characters or more part two words.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import yaml

from benchlore.terms.fold import Word, words
from benchlore.terms.model import Term
from benchlore.terms.stem import stem

KINDS_RECOGNISED = ("symptom", "component", "failure-mode", "test", "class", "block", "mechanism")
"""Kinds that running text can name, in the order they are looked for."""
SPOKEN = frozenset({"symptom"})
"""Kinds that people describe in words of their own: read with word classes and gaps."""
GAP = 2
END = "."
"""Last token of a phrase that must be a clause of its own."""
LONGEST_SKIP = 3
"""Words that may part a class's member of several words."""


def _stems(text: str) -> frozenset[str]:
    return frozenset(stem(word) for word in text.split())


FILLERS = _stems(
    "a an the is are was were be been being it its my this that these those"
    " do does did will would has have had can could"
)
NOT_WORDS = _stems(
    "isnt wasnt arent werent doesnt dont didnt cant cannot couldnt wont wouldnt hasnt havent hadnt aint never"
)
"""Read as ``not``, so that "doesn't turn on", "will not turn on" and "never turns on" are one phrase."""
NEGATORS = _stems("no not without neither nor")
DENYING = NEGATORS | NOT_WORDS
"""Stems that deny what follows; words that only do that say nothing else."""
LINKS = _stems("any sign signs trace of longer see smell hear notice show evidence hint")
WALLS = _stems("then or because so although unless until since")
"""Tokens that a gap does not reach over."""
_RAW: dict[str, Any] = yaml.safe_load(Path(__file__).with_name("word_classes.yaml").read_text(encoding="utf-8"))
SOFT = _stems(_RAW["soft"])
"""Tokens that say little: no part of a phrase that has two others, and no part of a gap."""
CONTRARY = {"ok": ("dead", "nowork")}
"""Tokens that say the contrary of others: "display OK" is "display dead", negated."""
OR_REACH = 3
"""Tokens before an "or" among which a negating word reaches over it."""
FREE = SOFT | _stems(_RAW["free"])
"""Tokens that are no part of a gap."""


_BEFORE_CLAUSE = SOFT | NEGATORS | LINKS
_LIGHT = FREE | WALLS | NEGATORS


class _Node:
    """A place in a tree of phrases: what may follow, and what ends here."""

    __slots__ = ("after", "end")

    def __init__(self) -> None:
        self.after: dict[str, _Node] = {}
        self.end: str | None = None

    def add(self, stems: Iterable[str], end: str) -> None:
        node = self
        for one in stems:
            node = node.after.setdefault(one, _Node())
        if node.end is None or end < node.end:
            node.end = end


class Token(NamedTuple):
    """What phrases are matched against: a stem or class, its words (first, last), whether a clause ends before it."""

    stem: str
    first: int
    last: int
    broken: bool


class Found(NamedTuple):
    """A term found in a text: which, where (character offsets), and whether it was negated."""

    kind: str
    id: str
    start: int
    end: int
    negated: bool


def _is_number(stemmed: str) -> bool:
    return stemmed.isascii() and stemmed.isdigit()


def _plain(stemmed: str) -> str:
    return "not" if stemmed in NOT_WORDS else stemmed


def word_classes() -> list[tuple[str, list[str]]]:
    """Every member of a class as (class, words of the member as stems; ``=`` before a form that is meant alone)."""
    rows = []
    for name, members in _RAW["classes"].items():
        for member in [f"={name}" if f"={name}" in members else name, *members.split(",")]:
            rows.append((name, [w if w.startswith("=") else _plain(stem(w)) for w in member.split()]))
    return rows


def _class_tree() -> _Node:
    tree = _Node()
    for name, members in word_classes():
        tree.add(members, name)
    return tree


_CLASSES = _class_tree()
PARTING = FILLERS | SOFT | {s[0] for name, s in word_classes() if name == "unit" and len(s) == 1}
"""Stems that may part the words of a class's member."""


def _tokens(text_words: Sequence[Word], spoken: bool) -> list[Token]:
    tokens = []
    for index, word in enumerate(text_words):
        broken = index > 0 and word.start - text_words[index - 1].end > 1
        tokens.append(Token(_plain(stem(word.text)), index, index, broken))
    if spoken:
        tokens = _classed(tokens, text_words)
        tokens = _classed(tokens, None)
    kept: list[Token] = []
    broken = False
    for token in tokens:
        broken = broken or token.broken
        if token.stem not in FILLERS:
            kept.append(token._replace(broken=broken))
            broken = False
    return kept


def _classed(tokens: list[Token], text_words: Sequence[Word] | None) -> list[Token]:
    """The tokens with every member of a word class replaced by its class."""
    found: list[Token] = []
    index = 0
    while index < len(tokens):
        node, at, skipped = _CLASSES, index, 0
        best: tuple[str, int] | None = None
        while at < len(tokens) and not (at > index and tokens[at].broken):
            token = tokens[at]
            following = node.after.get("=" + text_words[token.first].text) if text_words else None
            following = following or node.after.get(token.stem)
            if following is not None:
                node, skipped = following, 0
                if node.end is not None:
                    best = node.end, at
            elif node is not _CLASSES and token.stem in PARTING and skipped < LONGEST_SKIP:
                skipped += 1
            else:
                break
            at += 1
        if best is None:
            found.append(tokens[index])
            index += 1
        else:
            name, last = best
            found.append(Token(name, tokens[index].first, tokens[last].last, tokens[index].broken))
            index = last + 1
    return found


def phrase_stems(phrase: str, kind: str) -> tuple[str, ...]:
    """The tokens of a phrase without fillers, and without soft words where two others remain."""
    spoken = kind in SPOKEN
    found = words(phrase)
    stems = tuple(token.stem for token in _tokens(found, spoken))
    if spoken:
        if phrase.endswith("."):
            return (*(s for s in stems if s not in SOFT), END)
        hard = tuple(s for s in stems if s not in SOFT and not _is_number(s))
        if len(hard) >= 2:
            return hard
    return stems or tuple(_plain(stem(word.text)) for word in found)


def _weight(stems: Iterable[str]) -> int:
    """How many of the tokens say something by themselves."""
    return sum(s not in _LIGHT and not _is_number(s) for s in stems)


class _Match(NamedTuple):
    id: str
    places: tuple[int, ...]
    gap: int
    negated: bool


class Recogniser:
    """Finds the terms that texts name. Built once from the vocabulary's terms by kind."""

    def __init__(self, terms: Mapping[str, Mapping[str, Term]]) -> None:
        self._phrases: dict[str, list[tuple[tuple[str, ...], str]]] = {}
        self._trees: dict[str, _Node] = {}
        for kind in KINDS_RECOGNISED:
            entries = {
                (phrase_stems(phrase, kind), term.replaced_by or term_id)
                for term_id, term in terms.get(kind, {}).items()
                for phrase in (term.label, term_id.replace("-", " "), *term.phrases)
            }
            self._phrases[kind] = sorted(entry for entry in entries if entry[0])
            tree = self._trees[kind] = _Node()
            for stems, term_id in self._phrases[kind]:
                tree.add(stems, term_id)
            if kind in SPOKEN:
                for stems, term_id in self._phrases[kind]:
                    if len(stems) == 2 and _weight(stems) == 2:
                        tree.add(stems[::-1], term_id)

    def find(self, text_words: Sequence[Word], kinds: Iterable[str] = KINDS_RECOGNISED) -> list[Found]:
        """The terms named by folded words (of :func:`benchlore.terms.fold.words`), by kind, then by place."""
        read: dict[bool, list[Token]] = {}
        found: list[Found] = []
        for kind in kinds:
            spoken = kind in SPOKEN
            if spoken not in read:
                read[spoken] = _tokens(text_words, spoken)
            tokens = read[spoken]
            for match in _chosen(tokens, self._trees[kind], spoken):
                start = text_words[tokens[match.places[0]].first].start
                end = text_words[tokens[match.places[-1]].last].end
                found.append(Found(kind, match.id, start, end, match.negated))
        return found

    def find_in(self, text: str, kinds: Iterable[str] = KINDS_RECOGNISED) -> list[Found]:
        """The terms named by ``text``."""
        return self.find(words(text), kinds)

    def phrases(self) -> list[tuple[str, str, tuple[str, ...]]]:
        """Every phrase as (kind, term id, tokens): the table that the browser is given."""
        return [(kind, term_id, stems) for kind, entries in self._phrases.items() for stems, term_id in entries]


def _chosen(tokens: Sequence[Token], tree: _Node, spoken: bool) -> list[_Match]:
    """The matches that count, by place, with the negation before them."""
    matches: list[_Match] = []
    for index, token in enumerate(tokens):
        if token.stem in tree.after:
            _walk(tokens, tree.after[token.stem], _Match("", (index,), 0, False), spoken, matches)
    matches.sort(key=lambda m: (-len(m.places), m.gap, m.places[0], m.id))
    taken: set[int] = set()
    chosen = []
    for match in matches:
        if taken.isdisjoint(match.places):
            taken.update(match.places)
            chosen.append(match)
    chosen.sort(key=lambda m: m.places[0])
    return _with_negation(tokens, chosen, taken)


def _walk(tokens: Sequence[Token], node: _Node, so_far: _Match, spoken: bool, matches: list[_Match]) -> None:
    """Adds every phrase that goes on from ``node``, the nearest token of each kind first."""
    if node.end is not None and (so_far.gap == 0 or _weight(tokens[p].stem for p in so_far.places) > 1):
        matches.append(so_far._replace(id=node.end))
    if not node.after:
        return
    if END in node.after and _is_clause(tokens, so_far):
        matches.append(so_far._replace(id=node.after[END].end or ""))
    tried: set[str] = set()
    gap, negated = 0, False
    first = so_far.places[-1] + 1
    for at in range(first, len(tokens)):
        token = tokens[at]
        if token.broken and (at > first or spoken):
            break
        following = node.after.get(token.stem)
        if following is not None and token.stem not in tried:
            tried.add(token.stem)
            ahead = _Match("", (*so_far.places, at), so_far.gap + gap, so_far.negated or negated)
            _walk(tokens, following, ahead, spoken, matches)
        if spoken and gap == 0 and not (negated or so_far.negated) and _weight(tokens[p].stem for p in so_far.places):
            for other in CONTRARY.get(token.stem, ()):
                end = node.after[other].end if other in node.after else None
                if end is not None and token.stem not in node.after:
                    matches.append(_Match(end, (*so_far.places, at), so_far.gap + gap, True))
        if token.stem in NEGATORS:
            if negated or so_far.negated:
                break
            negated = True
        elif not spoken or token.stem in WALLS:
            break
        elif token.stem not in FREE and not _is_number(token.stem):
            gap += 1
            if gap > GAP:
                break


def _is_clause(tokens: Sequence[Token], match: _Match) -> bool:
    first, last = match.places[0], match.places[-1]
    while first > 0 and not tokens[first].broken and tokens[first - 1].stem in _BEFORE_CLAUSE:
        first -= 1
    while last + 1 < len(tokens) and not tokens[last + 1].broken and tokens[last + 1].stem in SOFT:
        last += 1
    return (first == 0 or tokens[first].broken) and (last + 1 == len(tokens) or tokens[last + 1].broken)


def _reaches_over(tokens: Sequence[Token], place: int) -> bool:
    """Whether a negating word stands shortly before an "or", in its clause."""
    for at in range(place - 1, max(place - 1 - OR_REACH, -1), -1):
        if tokens[at + 1].broken:
            return False
        if tokens[at].stem in NEGATORS:
            return True
    return False


def _with_negation(tokens: Sequence[Token], chosen: list[_Match], taken: set[int]) -> list[_Match]:
    found: list[_Match] = []
    for match in chosen:
        at = match.places[0] - 1
        broken = tokens[match.places[0]].broken
        while at >= 0 and at not in taken and not broken and (tokens[at].stem in LINKS or tokens[at].stem in SOFT):
            broken = tokens[at].broken
            at -= 1
        before = at >= 0 and not broken and at not in taken and tokens[at].stem in NEGATORS
        if not before and not broken and at >= 0 and tokens[at].stem == "or":
            before = _reaches_over(tokens, at)
        found.append(match._replace(negated=match.negated or before))
    return found
