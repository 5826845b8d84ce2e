"""What the preview says, on the page and in the terminal."""

from __future__ import annotations

from chalkfold.diagnostics import Faults, as_text

NOTICE = "What is wrong in this site"
ELSEWHERE = "To mend on other pages:"
NOTHING = "nothing to mend"
ENDED = "The preview has ended."


def faults(count: int) -> str:
    return "1 fault" if count == 1 else f"{count} faults"


def started(folder: str, address: str) -> str:
    return f"The preview of {folder} is at {address} — open it in a browser, and stop it with Ctrl-C."


def failed(error: Exception) -> str:
    why = f"{type(error).__name__}: {error}"
    return f"chalkfold itself fails on this site ({why}). What is shown was seen before; take back the last change."


def looked(pages: int, found: Faults) -> str:
    """What there is to mend, all of it, with a closing line."""
    shown = "1 page" if pages == 1 else f"{pages} pages"
    if not len(found):
        return f"{shown}, {NOTHING}."
    files = len({fault.span.source.path for fault in found})
    where = "1 file" if files == 1 else f"{files} files"
    return "\n\n".join([*map(as_text, found), f"{faults(len(found))} in {where}; all the rest is shown."])
