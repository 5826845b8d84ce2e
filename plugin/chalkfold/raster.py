"""SVG to PNG and PDF by cairo, which a system has or has not: imported when something is to be rendered."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.metadata import version

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
        return self._render("svg2png", svg, output_width=width, output_height=height)

    def pdf(self, svg: str) -> bytes:
        """The image as a PDF of one page. Raises NotDrawable."""
        return self._render("svg2pdf", svg)

    def _render(self, how: str, svg: str | bytes, **options: int | None) -> bytes:
        import cairosvg

        data = svg.encode() if isinstance(svg, str) else svg
        try:
            made: bytes = getattr(cairosvg, how)(bytestring=data, **options)
        except Exception as error:  # whatever a broken picture makes the library raise
            raise NotDrawable(str(error) or type(error).__name__) from error
        return made
