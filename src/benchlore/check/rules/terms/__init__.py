"""Rules about terms of the vocabulary."""
