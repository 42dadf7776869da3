"""A page of the site as plain data: where it lies, what it is called, which template draws which facts."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Page:
    """``url`` is relative to the site's root (``e/some-slug.html``); ``template`` is a file of the theme's templates.

    ``data`` becomes the template's variables. ``section`` is the address of the navigation item the page belongs to.
    ``scripts`` are files of the theme's scripts that only this page needs. ``updated`` is the newest date among the
    entries shown; ``listed`` says whether the page belongs in the sitemap.
    """

    url: str
    title: str
    template: str
    data: Mapping[str, object]
    description: str = ""
    section: str = ""
    scripts: tuple[str, ...] = ()
    updated: dt.date | None = None
    listed: bool = True
