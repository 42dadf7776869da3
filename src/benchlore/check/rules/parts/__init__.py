"""Rules about parts and their ratings."""
