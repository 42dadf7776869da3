"""Rule: a symptom told in the title that is not among the symptoms."""

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.terms.vocabulary import Vocabulary

_WORD = re.compile(r"[\w'-]+")
_LONGEST = 5
"""Words of a phrase that are looked for at most; of one word alone nothing is made."""
_DENIES = frozenset({"no", "not", "without", "never", "nor", "isn't", "doesn't", "longer"})


class SymptomToldNotListed(EntryRule):
    """A symptom told, but not listed.

    What
        The title says more symptoms, in the vocabulary's own words, than are listed, and one of them is neither among
        the symptoms nor under not_seen.
    Why
        Search by symptom and diagnosis count what is listed; what only a title says is not counted.
    Bad
        title: Compressor relay chatters, dim display; dropper capacitor C1 had lost its value
    Good
        title: Compressor relay chatters under load; dropper capacitor C1 had lost its value
    How to mend
        Add it to symptoms, or to not_seen if it was looked for and not there.
    """

    code = "SYM006"
    name = "symptom-told-not-listed"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry, vocabulary = subject.entry, subject.vocabulary
        listed = {symptom.term for symptom in entry.symptoms if symptom.term} | set(entry.not_seen)
        if any(symptom.term is None for symptom in entry.symptoms):
            return  # another rule asks for the term
        told = list(_told(vocabulary, entry.title))
        if len(told) <= len(entry.symptoms):
            return  # as many as are listed: most likely the same, in other words
        for term in told:
            if not _related(vocabulary, term, listed):
                message = f"the title tells “{vocabulary.label('symptom', term).lower()}”, which is not listed"
                hint = f"Add {{term: {term}}} to symptoms, or {term} to not_seen."
                yield Observation(("title",), message, hint)


def _told(vocabulary: Vocabulary, title: str) -> Iterator[str]:
    """The symptoms that the first half of a title says, and does not deny, each once."""
    words = [match[0] for match in _WORD.finditer(title.lower().partition(";")[0])]
    phrases, position, seen = _phrases(vocabulary), 0, set()
    while position < len(words):
        for length in range(min(_LONGEST, len(words) - position), 1, -1):
            term = phrases.get(" ".join(words[position : position + length]))
            if term:
                if term not in seen and not _DENIES & {*words[max(0, position - 2) : position]}:
                    yield term
                seen.add(term)
                position += length - 1
                break
        position += 1


@lru_cache(maxsize=4)
def _phrases(vocabulary: Vocabulary) -> Mapping[str, str]:
    """Labels and phrases of several words to the one symptom that they mean."""
    found: dict[str, str] = {}
    shared: set[str] = set()
    for term_id, term in vocabulary.terms("symptom").items():
        for phrase in {term.label.lower(), term_id.replace("-", " "), *(phrase.lower() for phrase in term.phrases)}:
            if found.setdefault(phrase, term_id) != term_id:
                shared.add(phrase)
    return {phrase: i for phrase, i in found.items() if phrase not in shared and " " in phrase}


def _related(vocabulary: Vocabulary, term: str, listed: set[str]) -> bool:
    """Whether the term, one above it, or one below it is listed."""
    return any(term in _upwards(vocabulary, one) or one in _upwards(vocabulary, term) for one in listed)


def _upwards(vocabulary: Vocabulary, term_id: str) -> list[str]:
    above, here = [term_id], vocabulary.get("symptom", term_id)
    while here and here.broader and here.broader not in above:
        above.append(here.broader)
        here = vocabulary.get("symptom", here.broader)
    return above
