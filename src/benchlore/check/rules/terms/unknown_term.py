"""Rule: a word that should be a term of the vocabulary and is not."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
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
                yield Observation(leaf.path, message, hint, leaf.on_key)


def _hint(vocabulary: Vocabulary, kind: str, written: str) -> str:
    close = vocabulary.suggest(kind, written)
    if close:
        return f"Did you mean {one_of(close)}?"
    elsewhere = [other for other in KINDS if vocabulary.get(other, written) is not None]
    if elsewhere:
        return f"It is {KIND_WORDS[elsewhere[0]]}: look whether it belongs under another key."
    return "Take a term of the vocabulary; when none fits, leave it out and say it in a note."
