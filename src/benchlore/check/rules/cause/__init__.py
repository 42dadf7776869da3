"""Rules about what was wrong, and how the outcome fits it."""
