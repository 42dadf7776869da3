"""``python -m benchlore`` is the ``benchlore`` command."""

from benchlore.cli import main

main()
