"""The theme: the site's own ``themes/NAME`` before the one that ships, file by file."""

from __future__ import annotations

import re
import shutil
from collections.abc import Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from chalkfold.diagnostics import Code, Fault, Faults, Source, Span, near
from chalkfold.reading import leads_out
from chalkfold.shipped import shipped

if TYPE_CHECKING:  # templates are loaded when the first is filled in
    from jinja2 import Environment


class ThemeError(Exception):
    """A template of the site's theme cannot be used; ``fault`` says which and where."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.message)
        self.fault = fault


class Theme:
    """Templates and static files of one theme, found in ``folders``, the first before the next."""

    def __init__(self, folders: Sequence[Path]) -> None:
        self.folders = folders

    @cached_property
    def _templates(self) -> Environment:
        from jinja2 import Environment, FileSystemLoader, StrictUndefined

        return Environment(
            loader=FileSystemLoader([each / "templates" for each in self.folders]),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
            auto_reload=False,
        )

    def render(self, template: str, values: Mapping[str, object]) -> str:
        """Fill in ``NAME.html``. Raises ThemeError with the template's own line."""
        try:
            return self._templates.get_template(template).render(values)
        except Exception as error:  # an expression in a template can raise anything
            raise ThemeError(self._fault(template, error)) from error

    def copy_static(self, out: Path) -> None:
        """Copy ``static/`` into ``out/static``; the site's own file wins over the shipped one."""
        for folder in reversed(self.folders):
            copy_files(folder / "static", out / "static")

    def _fault(self, template: str, error: Exception) -> Fault:
        from jinja2 import TemplateNotFound

        name = getattr(error, "name", None) or template
        line = getattr(error, "lineno", None) or _line_of(error, name)
        for folder in self.folders:
            if (file := folder / "templates" / name).is_file():
                text = file.read_text("utf-8", "replace")
                break
        else:
            text = ""
        source = Source(f"themes/{self.folders[0].name}/templates/{name}", text)
        start = source.line_starts[min(line, len(source.line_starts)) - 1]
        why = "it is missing" if isinstance(error, TemplateNotFound) else str(error)
        message = f"the template {name} cannot be filled in: {why}"
        return Fault(Code.SITE_THEME, message, Span(source, start, start), "mend the template at this line")


def find_theme(site: Path, name: str, place: Span, faults: Faults) -> Theme | None:
    """Find theme ``name`` in the site's ``themes/`` or among those that ship; else a fault at ``place``."""
    homes = [site / "themes", shipped("themes")]
    known = {folder.name for home in homes if home.is_dir() for folder in home.iterdir() if folder.is_dir()}
    if name in known:
        if _leads_out(site, homes[0] / name, faults):
            return None
        return Theme([home / name for home in homes if (home / name).is_dir()])
    close = near(name, known)
    listed = ", ".join(sorted(known))
    own = f"or make themes/{name}/" if re.fullmatch(r"\w[\w -]*", name) else "or the name of a folder in themes/"
    hint = f"did you mean {close}?" if close else f"write one of: {listed}; {own}"
    faults.add(Code.SITE_THEME, f"there is no theme {name}", place, hint)
    return None


def _leads_out(site: Path, own: Path, faults: Faults) -> bool:
    """Report every link in the site's own theme that leads out of the site."""
    links = [path for path in (own.parent, own, *sorted(own.rglob("*"))) if path.is_symlink()]
    told = [leads_out(site, path, path.relative_to(site).as_posix(), faults) for path in links]
    return True in told


def copy_files(source: Path, target: Path) -> None:
    """Copy a folder's files, contents only; times and owners play no part."""
    for file in sorted(source.rglob("*")):
        if file.is_file() and not any(part.startswith(".") for part in file.relative_to(source).parts):
            place = target / file.relative_to(source)
            place.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(file, place)


def _line_of(error: BaseException, template: str) -> int:
    """The line within ``template`` at which ``error`` rose; Jinja writes it into the traceback."""
    line, trace = 1, error.__traceback__
    while trace is not None:
        if trace.tb_frame.f_code.co_filename.endswith(template):
            line = trace.tb_lineno
        trace = trace.tb_next
    return line
