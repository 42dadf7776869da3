"""Rules about whether the text is YAML, and each value what its key needs."""
