"""Reads published HTML back with the standard library's parser: elements, text, links, ids."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


@dataclass
class Element:
    """An element with its attributes and children (elements and texts in order)."""

    tag: str
    attributes: dict[str, str]
    children: list[Element | str] = field(default_factory=list)

    def all(self, tag: str | None = None, **attributes: str) -> list[Element]:
        """All elements below with this tag and these attribute values (``class_`` asks for one class)."""
        found = []
        for child in self.children:
            if isinstance(child, Element):
                if (tag is None or child.tag == tag) and child._has(attributes):
                    found.append(child)
                found += child.all(tag, **attributes)
        return found

    def one(self, tag: str | None = None, **attributes: str) -> Element:
        found = self.all(tag, **attributes)
        assert len(found) == 1, f"{len(found)} of {tag} {attributes}"
        return found[0]

    def _has(self, wanted: dict[str, str]) -> bool:
        for name, value in wanted.items():
            own = self.attributes.get(name.rstrip("_"))
            if own is None or (value not in own.split() if name == "class_" else own != value):
                return False
        return True

    @property
    def text(self) -> str:
        """All text below, with single spaces (no-break spaces too)."""
        return " ".join("".join(self._texts()).split())

    def _texts(self) -> list[str]:
        return [piece for c in self.children for piece in ([c] if isinstance(c, str) else [" ", *c._texts(), " "])]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.root = Element("", {})
        self.open = [self.root]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = [name for name, _ in attrs]
        assert len(names) == len(set(names)), f"attribute twice on {tag}: {names}"
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].children.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1].tag == tag, f"</{tag}> closes <{self.open[-1].tag}>"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].children.append(data)


def read_html(html: str) -> Element:
    """The document; fails on elements that are not closed in order."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    assert reader.open == [reader.root], f"left open: {[e.tag for e in reader.open[1:]]}"
    return reader.root


def read_page(path: Path) -> Element:
    """The page in a file."""
    return read_html(path.read_text(encoding="utf-8"))
