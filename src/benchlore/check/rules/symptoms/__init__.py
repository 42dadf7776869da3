"""Rules about what was seen and what was not."""
