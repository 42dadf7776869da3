"""Rules about lint itself: ignores, and rules that crash."""
