"""Which scripts a page loads, in the order that they need one another."""

from __future__ import annotations

SEARCHING = (
    "tables.js", "stem.js", "fold.js", "fold_near.js", "recogniser.js", "quantity_scan.js", "tokens.js", "spelling.js",
    "query.js", "near_values.js", "plain_text.js", "sisters.js", "rank.js", "part_codes.js", "facets.js",
    "term_shards.js", "parts.js", "search.js",
    "browser_index.js",
)  # fmt: skip
"""What searches; needs nothing of the page."""
SEARCH_PAGE = (
    *SEARCHING, "dom.js", "search_state.js", "search_hits.js", "search_facets.js", "search_nearest.js",
    "search_page.js",
)  # fmt: skip
"""Everything of the search page."""
EVERY_PAGE = ("header.js",)
"""What the frame around every page needs."""
