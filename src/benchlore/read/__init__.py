"""YAML text to entries with source positions; problems are values."""
