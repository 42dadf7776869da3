"""Rules about where a file lies, and whether it can be read at all."""
