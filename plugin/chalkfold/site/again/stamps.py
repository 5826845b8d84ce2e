"""What every page owes to besides its own text and the shelf: the program, its libraries, the settings, the theme."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterable, Iterator
from dataclasses import asdict, is_dataclass
from datetime import date
from functools import lru_cache
from importlib.metadata import version
from pathlib import Path

from chalkfold.trade.drawers import hashed
from chalkfold.trade.settings import Settings

LIBRARIES = ("Babel", "Jinja2", "markdown-it-py", "MarkupSafe", "mdit-py-plugins", "python-slugify", "PyYAML")


@lru_cache(maxsize=1)
def program() -> str:
    """Of this copy of the program and its libraries: like Python's own compiled files it goes by sizes and times."""
    root = Path(__file__).parents[2]
    files = (f"{path.removeprefix(str(root))} {size} {time}" for path, size, time in sorted(_files(str(root))))
    return hashed(sys.version, *map(version, LIBRARIES), *files)


def _files(folder: str) -> Iterator[tuple[str, int, int]]:
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir():
                if entry.name not in ("__pycache__", "shipped"):
                    yield from _files(entry.path)
            else:
                found = entry.stat()
                yield entry.path, found.st_size, found.st_mtime_ns


def body_stamp(settings: Settings) -> str:
    """Of all that the body of any page owes to beyond what it looks up."""
    return hashed(program(), settings.language.tag, settings.main_unit, repr(settings.marks))


def beside_stamp(settings: Settings) -> str:
    """Of all that pictures and patterns owe to beyond their own inputs; the libraries that render are among it."""
    from chalkfold.raster import NoCairo, Renderer

    try:
        render = Renderer.open().version
    except NoCairo:
        render = ""
    return hashed(body_stamp(settings), settings.title, settings.paper, settings.address, render, version("pypdf"))


def theme_stamp(folders: Iterable[Path]) -> str:
    """Of the templates of a theme, in the order in which they are looked for."""
    return hashed(program(), *(part for folder in folders for part in _texts(folder / "templates")))


def _texts(folder: Path) -> Iterator[str]:
    for path in sorted(each for each in folder.rglob("*") if each.is_file()):
        yield from (path.relative_to(folder).as_posix(), path.read_text("utf-8", "replace"))


def view_stamp(view: object) -> str:
    """Of what a template is given."""
    return hashed(json.dumps(view, sort_keys=True, ensure_ascii=False, default=_plain))


def _plain(value: object) -> object:
    if is_dataclass(value) and not isinstance(value, type):
        return asdict(value)
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"a template is given plain data, not {type(value).__name__}")
