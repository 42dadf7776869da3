"""The template environment of all pages, generated and hand-written alike, and the frame around each page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from benchlore.publish.page import Page
from benchlore.publish.wording import capital

THEME = Path(__file__).parent / "theme"
POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "manifest-src 'self'",
        "connect-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'self'",
    )
)
"""The content security policy of every page: nothing inline, nothing from another host."""


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands around every page.

    ``site_url`` is empty or ends in a slash; ``ways`` and ``foot`` are navigation; ``scripts`` are on every page.
    """

    shop: str
    language: str
    site_url: str
    ways: Sequence[tuple[str, str]]
    foot: Sequence[tuple[str, str]]
    closing: str
    scripts: Sequence[str]
    policy: str = POLICY


def environment() -> Environment:
    """Our templates: text is escaped, and a name that is not there is an error."""
    env = Environment(
        loader=FileSystemLoader([THEME / "templates", THEME]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    env.filters["capital"] = capital
    return env


def render(env: Environment, frame: Frame, page: Page, root: str) -> str:
    """The HTML of one page, ending in one line break; ``root`` leads from the page to the site's root."""
    html = env.get_template(page.template).render(page.data, head=page, frame=frame, root=root)
    return html.rstrip() + "\n"
