"""Free text in Markdown to HTML that cannot run, load or spoof anything: no raw HTML, no images, web links only."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.token import Token
from markupsafe import Markup

_LINK_RULES = "nofollow noopener noreferrer"
HEADING = "h3"
"""All headings of notes become this level, since the page has its own title and section headings."""


def to_html(text: str) -> Markup:
    """``text`` rendered; raw HTML in it stays visible as text."""
    return Markup(_parser().render(text))


def web_address(address: str) -> bool:
    """Whether ``address`` is an http or https address, the only kind that becomes a link."""
    return address.lower().startswith(("http://", "https://"))


@cache
def _parser() -> MarkdownIt:
    parser = MarkdownIt("commonmark", {"html": False, "linkify": False, "maxNesting": 12})
    parser.enable("table").disable(["image", "html_block", "html_inline", "lheading"])
    parser.validateLink = web_address  # type: ignore[assignment, method-assign]
    parser.add_render_rule("link_open", _link_open)
    parser.add_render_rule("heading_open", _heading_open)
    parser.add_render_rule("heading_close", _heading_close)
    parser.add_render_rule("th_open", _cell_open)
    parser.add_render_rule("td_open", _cell_open)
    return parser


def _link_open(self: RendererHTML, tokens: Sequence[Token], index: int, options: Any, env: Any) -> str:
    tokens[index].attrSet("rel", _LINK_RULES)
    return self.renderToken(tokens, index, options, env)


def _heading_open(self: RendererHTML, tokens: Sequence[Token], index: int, options: Any, env: Any) -> str:
    return f"<{HEADING}>"


def _heading_close(self: RendererHTML, tokens: Sequence[Token], index: int, options: Any, env: Any) -> str:
    return f"</{HEADING}>\n"


def _cell_open(self: RendererHTML, tokens: Sequence[Token], index: int, options: Any, env: Any) -> str:
    """A table cell without the style attribute that aligns it, which the content security policy forbids."""
    return f"<{tokens[index].tag}>"
