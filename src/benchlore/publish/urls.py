"""Addresses of pages: flat, lower-case, plain ASCII file names that no text in an entry can break out of."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping

from benchlore.terms.fold import fold

HOME = "index.html"
SEARCH = "search.html"
CLASSES = "classes.html"
SYMPTOMS = "symptoms.html"
BOARDS = "boards.html"
MAKERS = "makers.html"
COMPONENTS = "components.html"
RULES = "rules.html"
CAUTIONS = "cautions.html"
HELPERS = "helpers.html"
FIGURES = "figures.html"
NOT_FOUND = "404.html"

_LONGEST = 80
_DEVICES = frozenset({"con", "prn", "aux", "nul", *(f"{d}{n}" for d in ("com", "lpt") for n in range(10))})


def address(text: str) -> str:
    """``text`` as part of a file name: lower-case ASCII letters, digits and single hyphens; never empty.

    Letters outside ASCII become their code point in hexadecimal. Names that Windows keeps for devices get a suffix,
    and what is over 80 characters is cut and closed with a hash of the whole.
    """
    spelled = "".join(c if c.isascii() else f"u{ord(c):x}" if c.isalnum() else "-" for c in fold(text))
    name = re.sub(r"[^a-z0-9]+", "-", spelled).strip("-") or "unnamed"
    if len(name) > _LONGEST:
        name = f"{name[: _LONGEST - 9].rstrip('-')}-{hashlib.sha256(text.encode()).hexdigest()[:8]}"
    return f"{name}-0" if name in _DEVICES else name


def assign(keys: Iterable[str]) -> dict[str, str]:
    """Key to its own address part; the same keys always get the same addresses.

    A key that is an address already keeps it; the others follow in sorted order, and the second of two that would
    share an address gets ``-2``, and so on.
    """
    wanted = sorted({key: address(key) for key in keys}.items(), key=lambda pair: (pair[0] != pair[1], pair[0]))
    taken: set[str] = set()
    given: dict[str, str] = {}
    for key, name in wanted:
        free, count = name, 1
        while free in taken:
            count += 1
            free = f"{name}-{count}"
        taken.add(free)
        given[key] = free
    return dict(sorted(given.items()))


class Addresses:
    """Where the page of each thing lies. Looking up what has no page gives None."""

    def __init__(
        self,
        *,
        entries: Iterable[str],
        classes: Iterable[str],
        symptoms: Iterable[str],
        boards: Iterable[str],
        models: Iterable[str],
        components: Iterable[str],
    ) -> None:
        self._entries = _in_folder("e", entries)
        self._classes = _in_folder("c", classes)
        self._symptoms = _in_folder("s", symptoms)
        self._boards = _in_folder("b", boards)
        self._models = _in_folder("m", models)
        self._components = _in_folder("p", components)

    def entry(self, slug: str) -> str | None:
        """The page of an entry by its slug."""
        return self._entries.get(slug)

    def class_(self, class_id: str) -> str | None:
        """The page of an equipment class."""
        return self._classes.get(class_id)

    def symptom(self, symptom_id: str) -> str | None:
        """The page of a symptom."""
        return self._symptoms.get(symptom_id)

    def board(self, key: str) -> str | None:
        """The page of a board by its folded marking."""
        return self._boards.get(key)

    def model(self, key: str) -> str | None:
        """The page of a model by its key."""
        return self._models.get(key)

    def component(self, component_id: str) -> str | None:
        """The page of a component class."""
        return self._components.get(component_id)


def numbered(url: str, number: int) -> str:
    """The address of page ``number`` of a list whose first page is ``url``: ``c/x.html``, ``c/x.2.html``.

    The dot keeps it apart from every address part, which never holds one.
    """
    return url if number == 1 else f"{url.removesuffix('.html')}.{number}.html"


def to_root(url: str) -> str:
    """What leads from the page at ``url`` to the site's root: empty, or ``../`` per folder."""
    return "../" * url.count("/")


def _in_folder(folder: str, keys: Iterable[str]) -> Mapping[str, str]:
    return {key: f"{folder}/{name}.html" for key, name in assign(keys).items()}
