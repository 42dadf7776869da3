"""What holds of every script of the site: small, strict, without what the content security policy or file: forbids."""

from __future__ import annotations

import re

import pytest

from benchlore.publish.theme import script_lists
from tests.browser.script_page import SCRIPTS

FORBIDDEN = re.compile(
    r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\b|new Function|\bfetch\b|XMLHttpRequest|"
    r"^\s*import\b|^\s*export\b|https?://(?!snowballstem\.org)",
    re.MULTILINE,
)
FILES = sorted(path.name for path in SCRIPTS.glob("*.js"))
GENERATED = {"tables.js", "fold_near.js", "fold_far.js", "helpers_tables.js"}


@pytest.mark.parametrize("name", FILES)
def test_a_script_is_small_strict_and_makes_no_markup_of_text(name):
    text = (SCRIPTS / name).read_text(encoding="utf-8")
    assert len(text.splitlines()) < 300
    assert all(len(line) <= 120 for line in text.splitlines()) or name in GENERATED
    assert text.startswith('"use strict";\n// ') or name in GENERATED
    # Only where parts are loaded may anything be fetched, and there only over http: from file: it does not work.
    allowed = text.replace("fetch(new URL(address, ROOT)", "").replace("where fetch does", "")
    assert not FORBIDDEN.search(allowed if name == "parts.js" else text)


def test_listed_scripts_are_there():
    for listed in (script_lists.EVERY_PAGE, script_lists.SEARCH_PAGE):
        assert set(listed) <= set(FILES)
