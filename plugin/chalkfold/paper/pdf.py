"""Images in millimetres to pages of one PDF, the same to the byte every time."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

from chalkfold.raster import Renderer


def joined(pages: Sequence[str], title: str, language: str, render: Renderer) -> bytes:
    """A PDF with a page for each image. It asks viewers to print at full size, and has neither date nor id."""
    from pypdf import PdfWriter
    from pypdf.generic import NameObject, TextStringObject

    writer = PdfWriter(clone_from=BytesIO(render.pdf(pages)))
    writer.metadata = None
    writer.add_metadata({"/Title": title})
    writer.create_viewer_preferences()[NameObject("/PrintScaling")] = NameObject("/None")
    writer.root_object[NameObject("/Lang")] = TextStringObject(language)
    out = BytesIO()
    writer.write(out)
    return out.getvalue()
