"""What the preview adds to a finished page: a notice on top, and the script that shows changes by itself."""

from __future__ import annotations

import posixpath
import re

from chalkfold.diagnostics import Faults
from chalkfold.preview import words
from chalkfold.show import fault_box
from chalkfold.show.markup import escape

OWN = "-preview"
"""Where the preview's own files lie; no page has such an address, for none begins with a hyphen."""

SCRIPT, STYLE, CHANGES = f"/{OWN}/preview.js", f"/{OWN}/preview.css", f"/{OWN}/changes"
_TOP = re.compile(r"<main\b[^>]*>|<body\b[^>]*>", re.IGNORECASE)


def notice(html: str, faults: Faults, elsewhere: list[tuple[str, str, int]], address: str) -> str:
    """The page with the faults of the site, and the posts and pages (path, address, number) that have some."""
    if not len(faults) and not elsewhere:
        return html
    inner = [fault_box(faults)] if len(faults) else []
    if elsewhere:
        items = "".join(
            f'<li><a href="{escape(_way(to, address))}">{escape(path)}</a>: {words.faults(count)}</li>'
            for path, to, count in elsewhere
        )
        inner.append(f"<p>{words.ELSEWHERE}</p>\n<ul>{items}</ul>")
    whole = f'<section class="preview-notice" aria-label="{words.NOTICE}">\n' + "\n".join(inner) + "\n</section>\n"
    tops = list(_TOP.finditer(html))
    at = tops[-1].end() if tops else 0
    return f"{html[:at]}\n{whole}{html[at:]}"


def framed(html: str, address: str, sign: str) -> str:
    """The page with script and styles of the preview; ``sign`` says which version of it this is."""
    style = f'<link rel="stylesheet" href="{STYLE}">\n'
    script = f'<script src="{SCRIPT}" data-page="{escape(address)}" data-sign="{sign}" defer></script>\n'
    head = html.find("</head>")
    html = f"{html[:head]}{style}{html[head:]}" if head >= 0 else style + html
    end = html.rfind("</body>")
    return f"{html[:end]}{script}{html[end:]}" if end >= 0 else html + script


def _way(to: str, seen_from: str) -> str:
    return posixpath.relpath(to, posixpath.dirname(seen_from) or ".")
