"""The parts of an entry page as plain data, one file each."""
