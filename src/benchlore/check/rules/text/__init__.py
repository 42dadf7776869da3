"""Rules about words written by people."""
