"""Rule: a term that was retired for another."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class RetiredTerm(EntryRule):
    """A term that was retired for another.

    What
        The term still exists, but the vocabulary says by which one it was replaced.
    Why
        Counts and searches go by the new term. The old one stays known only so that old entries can be read.
    Bad
        An entry that uses a term whose replaced_by names another.
    Good
        The same entry with the term named there.
    How to mend
        Write the new term.
    """

    code = "TRM002"
    name = "retired-term"
    severity = "warning"
    names_answer = True
    shown_by_files = False

    def check(self, subject: Subject) -> Iterator[Observation]:
        for leaf in subject.leaves:
            term = subject.vocabulary.get(leaf.term_kind, leaf.value) if leaf.term_kind else None
            if term and term.replaced_by:
                message = f"{leaf.value} was retired"
                yield Observation(
                    leaf.path, message, f"Write {term.replaced_by}.", leaf.on_key, instead=term.replaced_by
                )
