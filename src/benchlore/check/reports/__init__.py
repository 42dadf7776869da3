"""Reports of findings, one file per output format."""
