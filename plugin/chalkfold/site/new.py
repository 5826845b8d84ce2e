"""``chalkfold new``: a small site that builds at once and is meant to be changed."""

from __future__ import annotations

import shutil
from pathlib import Path

from chalkfold.diagnostics import Code
from chalkfold.site.swap import refused

STARTER = Path(__file__).parent / "starter"
RENAMED = {"gitignore.txt": ".gitignore"}  # under its own name git would heed it here as well


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
    written = []
    for file in sorted(each for each in STARTER.rglob("*") if each.is_file()):
        name = file.relative_to(STARTER).as_posix()
        name = RENAMED.get(name, name)
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(file, folder / name)
        written.append(name)
    (folder / "photos").mkdir()
    return written
