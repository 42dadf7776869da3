"""Quantities as technicians write them: parsing, formatting, tolerance, preferred numbers."""
