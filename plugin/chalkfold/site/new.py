"""``chalkfold new``: a small site that builds at once and is meant to be changed."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import suppress
from importlib.metadata import version
from pathlib import Path

from chalkfold.diagnostics import Code
from chalkfold.site.swap import refused

STARTER = Path(__file__).parent / "starter"
RENAMED = {"gitignore.txt": ".gitignore"}  # under its own name git would heed it here as well
VERSION = "{version}"
"""Stands in the starter for the version of chalkfold that writes the site."""


def new_site(folder: Path) -> list[str]:
    """Write the starter into ``folder`` and return the paths written, relative to it.

    Raises RefusedError where the folder already holds something, OSError when the disk says no.
    """
    if folder.exists() and not (folder.is_dir() and not any(folder.iterdir())):
        raise refused(
            Code.SITE_OUTPUT,
            "something is already here, and a new site never overwrites it",
            folder,
            "give the name of a new or empty folder",
        )
    was_there = folder.exists()
    try:
        return list(_write(folder))
    except OSError:
        _clear(folder, was_there)
        raise


def _write(folder: Path) -> Iterator[str]:
    for file in sorted(each for each in STARTER.rglob("*") if each.is_file()):
        name = file.relative_to(STARTER).as_posix()
        name = RENAMED.get(name, name)
        text = file.read_text("utf-8").replace(VERSION, version("chalkfold"))
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
        yield name
    (folder / "photos").mkdir()


def _clear(folder: Path, was_there: bool) -> None:
    """Take away a site that was begun and could not be finished."""
    with suppress(OSError):
        if not was_there:
            shutil.rmtree(folder)
            return
        for each in folder.iterdir():
            shutil.rmtree(each) if each.is_dir() else each.unlink()
