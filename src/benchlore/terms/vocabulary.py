"""Loads ``schema/vocabulary/`` into typed terms, and answers what an id means and which term was meant."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any, TypeVar

import yaml
from pydantic import ValidationError

from benchlore.errors import BenchloreError
from benchlore.terms.model import FOLDERS, KINDS, Term
from benchlore.terms.nearest import nearest
from benchlore.terms.recogniser import Recogniser

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_T = TypeVar("_T", bound=Term)


class VocabularyError(BenchloreError):
    """A vocabulary file that cannot be read; ``problems`` holds one line for each defect, with its file."""

    def __init__(self, problems: list[str]) -> None:
        super().__init__("the vocabulary has errors:\n" + "\n".join(problems))
        self.problems = problems


class Vocabulary:
    """All terms by kind and id. Retired terms (``replaced_by``) are included."""

    def __init__(self, terms: Mapping[str, Mapping[str, Term]], digest: str) -> None:
        self._terms = {kind: dict(terms.get(kind, {})) for kind in KINDS}
        self.digest = digest
        """SHA-256 of all files, for caches."""

    def terms(self, kind: str) -> Mapping[str, Term]:
        """The terms of one kind by id, sorted by id."""
        return self._terms[kind]

    def get(self, kind: str, term_id: str) -> Term | None:
        """The term, or None when the id is unknown."""
        return self._terms[kind].get(term_id)

    def get_as(self, model: type[_T], term_id: str | None) -> _T | None:
        """The term of the kind whose model is ``model``, typed; None when unknown."""
        if term_id is None:
            return None
        kind = next(k for k, m in KINDS.items() if m is model)
        term = self._terms[kind].get(term_id)
        return term if isinstance(term, model) else None

    def label(self, kind: str, term_id: str) -> str:
        """The term's label; for an unknown id, the id with its hyphens as spaces."""
        term = self.get(kind, term_id)
        return term.label if term else term_id.replace("-", " ")

    def suggest(self, kind: str, text: str, limit: int = 3) -> list[str]:
        """Ids of terms that ``text`` may have meant: by id, label or phrase."""
        names: dict[str, str] = {}
        for term_id, term in self._terms[kind].items():
            if term.replaced_by:
                continue
            for name in (term_id, term.label.lower(), *(p.lower() for p in term.phrases)):
                names.setdefault(name, term_id)
        found = [names[name] for name in nearest(text.strip().lower(), names, limit=limit * 3)]
        return list(dict.fromkeys(found))[:limit]

    @cached_property
    def recogniser(self) -> Recogniser:
        """The phrase recogniser over all terms that text can name."""
        return Recogniser(self._terms)


def read_terms(folder: Path) -> dict[str, dict[str, Term]]:
    """All terms under ``folder``, sorted by id; raises :class:`VocabularyError` naming every defect."""
    problems: list[str] = []
    terms: dict[str, dict[str, Term]] = {}
    for kind, model in KINDS.items():
        found: dict[str, Term] = {}
        for path in sorted((folder / FOLDERS[kind]).glob("*.yaml")):
            where = f"{FOLDERS[kind]}/{path.name}"
            try:
                raw = yaml.load(path.read_text(encoding="utf-8"), Loader=_LOADER)
            except (yaml.YAMLError, UnicodeDecodeError) as error:
                problems.append(f"{where}: {' '.join(str(error).split())}")
                continue
            if not isinstance(raw, dict):
                problems.append(f"{where}: expected a mapping of term ids to terms")
                continue
            for term_id, fields in raw.items():
                if term_id in found:
                    problems.append(f"{where}: {term_id} is defined twice")
                try:
                    found[str(term_id)] = model.model_validate(fields)
                except ValidationError as error:
                    problems += [
                        f"{where}: {term_id}.{'.'.join(map(str, e['loc']))}: {e['msg']}" for e in error.errors()
                    ]
        terms[kind] = dict(sorted(found.items()))
    if problems:
        raise VocabularyError(problems)
    return terms


@lru_cache(maxsize=4)
def load(folder: Path) -> Vocabulary:
    """The vocabulary in ``folder`` (``schema/vocabulary``); read once a process."""
    digest = hashlib.sha256()
    for path in sorted(folder.rglob("*.yaml")):
        digest.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return Vocabulary(read_terms(folder), digest.hexdigest())
