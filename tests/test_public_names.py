"""The public names of the package: this list, no more and no less, and each is there."""

from __future__ import annotations

import subprocess
import sys

import benchlore

PUBLIC = """
    Answer Base BenchloreError FaultEntry Finding ParsedEntry PublishResult Quantity QuantityError Record Report
    Vocabulary format_quantity lint parse_entry parse_quantity publish search
""".split()  # noqa: SIM905 - a list of names reads best as words


def test_the_list_is_held() -> None:
    assert benchlore.__all__ == PUBLIC


def test_every_public_name_is_there() -> None:
    for name in PUBLIC:
        assert getattr(benchlore, name) is not None


def test_importing_the_package_imports_no_stage() -> None:
    """The command line starts quickly because nothing is loaded that is not asked for."""
    code = "import sys, benchlore; print([m for m in sys.modules if m.startswith('benchlore.')])"
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "[]"
