"""Renders the site: pages as plain data, templates, drawings, and the one writer that puts files on disk."""
