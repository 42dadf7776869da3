"""Rules about tests as they were made."""
