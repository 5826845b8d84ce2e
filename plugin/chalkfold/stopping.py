"""How every command ends where something is wrong, and how folders are shown."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

if TYPE_CHECKING:
    from chalkfold.diagnostics import Fault


def stop(faults: Iterable[Fault]) -> NoReturn:
    """Print all faults and a closing line, and end with status 1."""
    from chalkfold.diagnostics import as_text

    listed = list(faults)
    for fault in listed:
        click.echo(as_text(fault) + "\n", err=True)
    count, files = len(listed), len({fault.span.source.path for fault in listed})
    all_faults = "1 fault" if count == 1 else f"{count} faults"
    all_files = "1 file" if files == 1 else f"{files} files"
    click.echo(f"{all_faults} in {all_files}; nothing was written.", err=True)
    sys.exit(1)


def shown_folder(path: Path) -> str:
    return f"{path.as_posix().rstrip('/')}/"
