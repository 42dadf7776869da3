"""The rules: one file each, grouped by family; the list that counts is ``check/registry.py``."""
