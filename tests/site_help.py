"""A small site in a temporary folder, and its links followed as a browser on a disk would."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path
from urllib.parse import unquote

from chalkfold.diagnostics import Faults
from chalkfold.site.build import BuildReport, build_site

TODAY = date(2026, 6, 1)
SITE_FILE = "title: Tidewater Mending Room\n"


def post(title: str, body: str = "Text.", day: str = "2026-04-11", **more: str) -> str:
    front = {"title": title, "date": day, **more}
    lines = "".join(f"{key}: {value}\n" for key, value in front.items())
    return f"---\n{lines}---\n\n{body}\n"


def page(title: str, body: str = "Text.") -> str:
    return f"---\ntitle: {title}\n---\n\n{body}\n"


def write(folder: Path, files: dict[str, str]) -> Path:
    """Write the files of a site; ``chalkfold.yml`` is added where it is not among them."""
    for name, text in {"chalkfold.yml": SITE_FILE, **files}.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def build(site: Path, *, unpublished: bool = False, workers: int | None = None) -> BuildReport:
    return build_site(site, site / "public", today=TODAY, unpublished=unpublished, workers=workers)


def built(folder: Path, files: dict[str, str]) -> Path:
    """Build a site that has no fault and return its output folder."""
    report = build(write(folder, files))
    assert told(report.faults) == []
    return folder / "public"


def told(faults: Faults) -> list[str]:
    return [f"{fault.span.place}: {fault.message} [{fault.code}]" for fault in faults]


def tree(out: Path) -> dict[str, bytes]:
    return {path.relative_to(out).as_posix(): path.read_bytes() for path in out.rglob("*") if path.is_file()}


def broken_links(out: Path) -> list[str]:
    """Every ``href`` and ``src`` of the site that leads to no file, or not into the site."""
    broken = []
    for file in sorted(out.rglob("*.html")):
        for target in re.findall(r' (?:href|src)="([^"]*)"', file.read_text("utf-8")):
            path = unquote(target.partition("#")[0])
            whole = (file.parent / path).resolve()
            if path and ":" not in path and not (whole.exists() and whole.is_relative_to(out.resolve())):
                broken.append(f"{file.relative_to(out).as_posix()}: {target}")
    return broken


APRON_WITH_NUMBERS = post(
    "Fringed apron",
    """```project
sizes: none
numbers:
  apron width: 80 cm
  fringe length: apron width / 4
```

Leave {= fringe length } for the fringe.""",
)
