"""Fuzzing of lint: run by hand, its seeds kept."""
