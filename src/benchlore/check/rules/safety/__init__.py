"""Rules about hazards, stored energy, protective devices."""
