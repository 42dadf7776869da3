"""Rules about entries seen together."""
