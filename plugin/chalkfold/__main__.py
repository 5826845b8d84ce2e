"""``python -m chalkfold`` is the ``chalkfold`` command."""

from chalkfold.cli import main

main()
