"""A page that holds nothing but the site's scripts, under the site's content security policy."""

from __future__ import annotations

from pathlib import Path

SCRIPTS = Path(__file__).parents[2] / "src" / "benchlore" / "publish" / "theme" / "scripts"
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self';"
    " base-uri 'none'; form-action 'self'"
)


def write_script_page(folder: Path, scripts: list[str], body: str = "") -> Path:
    """Write ``page.html`` into ``folder``, with copies of ``scripts`` (file names) in ``scripts/``; its path."""
    target = folder / "scripts"
    target.mkdir(exist_ok=True)
    for name in scripts:
        (target / name).write_bytes((SCRIPTS / name).read_bytes())
    tags = "".join(f'<script defer src="scripts/{name}"></script>' for name in scripts)
    page = folder / "page.html"
    page.write_text(
        "<!doctype html><html lang='en'><head><meta charset='utf-8'><title>Scripts</title>"
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'
        f"{tags}</head><body>{body}</body></html>",
        encoding="utf-8",
    )
    return page
