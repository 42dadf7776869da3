"""Pure computation on plain values: no files, no printing, no clock."""
