"""The theme's own files as they are published: one style sheet, the scripts, the site's mark."""

from __future__ import annotations

import re
from collections.abc import Mapping

from benchlore.publish.render import THEME

STYLES = (
    "tokens.css",
    "text.css",
    "frame.css",
    "lists.css",
    "cautions.css",
    "entry.css",
    "figures.css",
    "search.css",
    "helpers.css",
    "print.css",
)
"""The style sheets in the order they are joined; later ones may refine earlier ones."""
_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)


def theme_files() -> Mapping[str, bytes]:
    """Address to bytes of everything in the theme that pages load."""
    files = {"styles/site.css": _style_sheet().encode()}
    files["styles/mark.svg"] = (THEME / "styles" / "mark.svg").read_bytes()
    for path in sorted((THEME / "scripts").glob("*.js")):
        files[f"scripts/{path.name}"] = path.read_bytes()
    return files


def _style_sheet() -> str:
    """All style sheets in one, without comments, indents and empty lines."""
    joined = "\n".join((THEME / "styles" / name).read_text(encoding="utf-8") for name in STYLES)
    lines = (line.strip() for line in _COMMENT.sub("", joined).splitlines())
    return "\n".join(line for line in lines if line) + "\n"
