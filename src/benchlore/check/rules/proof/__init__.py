"""Rules about how the repair was proved."""
