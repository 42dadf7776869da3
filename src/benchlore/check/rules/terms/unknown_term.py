"""Rule: a word that should be a term of the vocabulary and is not."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.keys import term_kind_at
from benchlore.check.mends.likeness import plain, surely
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import replacement
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import KIND_WORDS, one_of
from benchlore.terms.model import KINDS
from benchlore.terms.vocabulary import Vocabulary


class UnknownTerm(EntryRule):
    """A term that the vocabulary does not have.

    What
        The field takes the id of a term of the vocabulary, and there is no such term.
    Why
        Entries are found, compared and counted by their terms. A term of one's own stands alone.
    Bad
        symptoms: [{term: relay-chater}]
    Good
        symptoms: [{term: relay-chatter}]
    How to mend
        Take the term that is proposed, or look it up in schema/vocabulary/. When nothing fits, leave the term out and
        describe it in a note, or add the term: one item in one file.
    """

    code = "TRM001"
    name = "unknown-term"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for leaf in subject.leaves:
            if leaf.term_kind and subject.vocabulary.get(leaf.term_kind, leaf.value) is None:
                message = f"“{leaf.value}” is not {KIND_WORDS[leaf.term_kind]} of the vocabulary"
                hint = _hint(subject.vocabulary, leaf.term_kind, leaf.value)
                meant = _meant(subject.vocabulary, leaf.term_kind, leaf.value)
                yield Observation(leaf.path, message, hint, leaf.on_key, instead=meant)

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        if seen.instead is not None or not seen.path:
            return super().mend(page, seen)
        written = seen.path[-1] if seen.on_key else page.value(seen.path)
        kind = "rating" if seen.on_key else term_kind_at(seen.path)
        close = page.vocabulary.suggest(kind, str(written), 1) if kind else []
        return replacement(page, seen, close[0], sure=False) if close else None


def _meant(vocabulary: Vocabulary, kind: str, written: str) -> str | None:
    """The term that must be meant: one slip away, or its label or a phrase that no other term has."""
    current = {i: t for i, t in vocabulary.terms(kind).items() if not t.replaced_by}
    names: dict[str, str] = {}
    shared: set[str] = set()
    for term_id, term in current.items():
        for name in {plain(term.label), *map(plain, term.phrases)}:
            if names.setdefault(name, term_id) != term_id:
                shared.add(name)
    return surely(written, current, {name: i for name, i in names.items() if name not in shared})


def _hint(vocabulary: Vocabulary, kind: str, written: str) -> str:
    close = vocabulary.suggest(kind, written)
    if close:
        return f"Did you mean {one_of(close)}?"
    elsewhere = [other for other in KINDS if vocabulary.get(other, written) is not None]
    if elsewhere:
        return f"It is {KIND_WORDS[elsewhere[0]]}: look whether it belongs under another key."
    return "Take a term of the vocabulary; when none fits, leave it out and say it in a note."
