"""What every page owes to besides its own text and the shelf: the program, its libraries, the settings, the theme."""

from __future__ import annotations

import hashlib
import json
import os
import sys
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import fields, is_dataclass
from datetime import date
from functools import lru_cache
from pathlib import Path

from chalkfold.trade.drawers import hashed
from chalkfold.trade.settings import Settings

LIBRARIES = ("babel", "jinja2", "markdown-it-py", "markupsafe", "mdit-py-plugins", "python-slugify", "pyyaml")


@lru_cache(maxsize=1)
def program() -> str:
    """Of this copy of the program, byte for byte, and its libraries: what is kept is as good on another computer."""
    root = str(Path(__file__).parents[2])
    whole = hashlib.sha256()
    for path in sorted(_files(root)):
        data = Path(path).read_bytes()
        whole.update(f"{path.removeprefix(root)} {len(data)} ".encode() + data)
    return hashed(sys.version, *_versions(), whole.hexdigest())


def _versions() -> Iterator[str]:
    """The version of each library, from the name of the folder in which pip notes it: reading that takes far longer."""
    noted = {}
    for folder in reversed(sys.path):
        with suppress(OSError):
            for entry in (each.name for each in Path(folder).iterdir()):
                name, _, version_of = entry.removesuffix(".dist-info").partition("-")
                if entry.endswith(".dist-info"):
                    noted[name.casefold().replace("_", "-")] = version_of
    return (f"{name} {noted.get(name) or _version(name)}" for name in LIBRARIES)


def _version(name: str) -> str:
    from importlib.metadata import version

    return version(name)


def _files(folder: str) -> Iterator[str]:
    with os.scandir(folder) as entries:
        for entry in entries:
            if not entry.is_dir():
                yield entry.path
            elif entry.name not in ("__pycache__", "shipped"):
                yield from _files(entry.path)


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
    return hashed(body_stamp(settings), settings.title, settings.paper, settings.address, render, _version("pypdf"))


def theme_stamp(folders: Iterable[Path]) -> str:
    """Of the templates of a theme, in the order in which they are looked for."""
    return hashed(program(), *(part for folder in folders for part in _texts(folder / "templates")))


def _texts(folder: Path) -> Iterator[str]:
    for path in sorted(each for each in folder.rglob("*") if each.is_file()):
        yield from (path.relative_to(folder).as_posix(), path.read_text("utf-8", "replace"))


def view_stamp(view: object) -> str:
    """Of what a template is given."""
    return hashed(_ENCODER.encode(view))


def _plain(value: object) -> object:
    if is_dataclass(value) and not isinstance(value, type):
        return {each.name: getattr(value, each.name) for each in fields(value)}
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"a template is given plain data, not {type(value).__name__}")


_ENCODER = json.JSONEncoder(sort_keys=True, ensure_ascii=False, default=_plain)
