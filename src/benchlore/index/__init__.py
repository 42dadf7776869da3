"""Search: entries and queries to terms, terms to ranked hits and facets, and the same index as parts for the browser."""
