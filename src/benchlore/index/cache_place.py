"""Where what is kept of a base lies in the user's cache folder."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path


def cache_folder(root: Path, cache: Path | None = None) -> Path:
    """Where what is kept of the base at ``root`` lies, in ``cache`` (the user's own when left out)."""
    key = hashlib.sha256(os.fsencode(root.resolve())).hexdigest()[:24]
    return (cache or _user_cache()) / "search" / key


def _user_cache() -> Path:
    import platformdirs

    return platformdirs.user_cache_path("benchlore")
