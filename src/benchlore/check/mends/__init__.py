"""Mends: what a rule's finding becomes when it is set right in the text, and how that is applied to files."""
