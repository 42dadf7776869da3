"""Rules about measurements, their units and their limits."""
