"""Search: entries and queries to terms, ranked hits and facets; the same index as parts for the browser."""
