"""Drawings made at build time as inline SVG, without style attributes, one file each."""
