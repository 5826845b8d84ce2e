"""SVG to PNG and PDF by cairo, which a system has or has not: imported when something is to be rendered."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.metadata import version
from io import BytesIO
from typing import Any

DOTS = 96
"""Pixels of an image to the inch, as CSS has them; a page in millimetres comes out in millimetres."""

HOW_TO_GET_CAIRO = (
    "install the cairo library: on Debian `apt install libcairo2`, on Fedora `dnf install cairo`, on macOS"
    " `brew install cairo`; on Windows the GTK runtime brings it (not tried here)"
)


class NoCairo(Exception):
    """The cairo library is not on this system; its text says what to install."""

    def __init__(self) -> None:
        super().__init__(HOW_TO_GET_CAIRO)


class NotDrawable(Exception):
    """An SVG image that cannot be rendered; its text says why."""


@dataclass(frozen=True, slots=True)
class Renderer:
    """Renders SVG text. Nothing is fetched: pictures in it count only where they stand in it as data.

    ``version`` names the libraries, for what is kept from build to build.
    """

    version: str

    @classmethod
    def open(cls) -> Renderer:
        """Raises NoCairo."""
        try:
            import cairocffi
        except OSError:  # it finds no library of that name
            raise NoCairo from None
        return cls(f"cairosvg {version('cairosvg')}, cairo {cairocffi.cairo_version_string()}")

    def png(self, svg: str | bytes, width: int | None = None, height: int | None = None) -> bytes:
        """The image as PNG, so many pixels wide and high. Raises NotDrawable."""
        from cairosvg.surface import PNGSurface

        class Image(PNGSurface):  # type: ignore[misc]  # the library has no types
            def draw(self, node: dict[str, object]) -> None:
                super().draw(_steady(node))

        data = svg.encode() if isinstance(svg, str) else svg
        with _told():
            made: bytes = Image.convert(data, output_width=width, output_height=height)
        return made

    def pdf(self, images: Sequence[str]) -> bytes:
        """A page for each image, as large as it says; fonts stand in the file once. Raises NotDrawable."""
        from cairocffi import PDFSurface
        from cairosvg.parser import Tree
        from cairosvg.surface import PDFSurface as Drawn

        class Page(Drawn):  # type: ignore[misc]  # the library has no types
            """A page of the file that is its ``output``, instead of a file of its own."""

            def _create_surface(self, width: float, height: float) -> tuple[Any, float, float]:
                self.output.set_size(width, height)
                return self.output, width, height

            def draw(self, node: dict[str, object]) -> None:
                super().draw(_steady(node))

            def finish(self) -> None:
                self.context.show_page()

        out = BytesIO()
        file = PDFSurface(out, 1, 1)
        with _told():
            for each in images:
                Page(Tree(bytestring=each.encode()), file, DOTS).finish()
            file.finish()
        return out.getvalue()


def _steady(node: dict[str, object]) -> dict[str, object]:
    """An element whose letters are shaped alike everywhere.

    Cairo keeps a typeface as its first use in a process has shaped it, and by itself it shapes letters for pages
    otherwise than for pixels: an image would owe to what was rendered before it.
    """
    node["text-rendering"] = "geometricPrecision"
    return node


@contextmanager
def _told() -> Iterator[None]:
    """Whatever a broken picture makes the libraries raise, as one error of ours."""
    try:
        yield
    except Exception as error:
        raise NotDrawable(str(error) or type(error).__name__) from error
