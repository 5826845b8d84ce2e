"""A fault as part of a page: for a preview, and for the guide."""

from __future__ import annotations

from collections.abc import Iterable

from chalkfold.diagnostics import Fault, as_text
from chalkfold.show.markup import escape


def fault_box(faults: Iterable[Fault]) -> str:
    """The messages, word for word as in the terminal. No line of it is blank or indented."""
    messages = (as_text(fault) for fault in faults)
    shown = "&#10;&#10;".join("&#10;".join(escape(line) for line in text.splitlines()) for text in messages)
    return f'<pre class="fault" role="group" aria-label="What is wrong">{shown}</pre>'


def waiting_box(name: str) -> str:
    """Stands in a preview where a block cannot be shown yet, for a fault that is told elsewhere."""
    return (
        f'<p class="fault">The block <code>{escape(name)}</code> is shown when the faults of this page are mended.</p>'
    )
