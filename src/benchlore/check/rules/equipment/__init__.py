"""Rules about what came in."""
