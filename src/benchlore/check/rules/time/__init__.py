"""Rules about dates and minutes."""
