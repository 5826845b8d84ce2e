"""Stories in Markdown, told command by command on a folder, and held to what they say."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from pathlib import Path

from lxml import html

from ledger_help import chalkfold, mend, plain

_FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.M | re.S)
CUT = "…"
"""On a line of its own it stands for any lines, at the end of one for the rest of it."""


def follow(story: str, site: Path) -> Iterator[tuple[str, str]]:
    """Do what the fences say; gives for each that shows something what it shows, and what is so."""
    for name, body in _FENCE.findall(story):
        first, *rest = body.splitlines()
        if name == "mend":
            mend(site, first, *(line[2:] for line in rest))
        elif name == "move":
            (site / rest[0]).parent.mkdir(exist_ok=True)
            (site / first).rename(site / rest[0])
        elif name == "sh":
            for said in re.split(r"^(?=\$ )", body, flags=re.M)[1:]:
                yield said, _run(said.splitlines()[0])
        elif name == "file":
            yield "\n".join(rest), plain((site / first).read_text("utf-8")).rstrip("\n")
        elif name == "page":
            yield "\n".join(rest), "\n".join(_corrections(site / "public" / first))


def agrees(said: str, found: str) -> bool:
    """Whether a text is as told."""
    pattern = "".join(map(_pattern, said.rstrip("\n").split("\n")))
    return re.fullmatch(pattern, found.rstrip("\n") + "\n") is not None


def _pattern(line: str) -> str:
    if line.strip() == CUT:
        return r"(?:.*\n)*?"
    rest = r".*\n" if line.endswith(CUT) else r"\n"
    return re.escape(line.removesuffix(CUT)) + rest


def _run(line: str) -> str:
    command, *arguments = shlex.split(line.removeprefix("$ "))
    assert command == "chalkfold", line
    status, said = chalkfold(*arguments)
    return f"{line}\n{said}" + (f"ends with {status}\n" if status else "")


def _corrections(page: Path) -> Iterator[str]:
    """The words of the corrections on a page, a line each; the cells of a row between bars."""
    for section in html.fromstring(page.read_bytes()).xpath("//section[contains(@class, 'corrections')]"):
        for part in section.xpath(".//h2 | .//p | .//summary | .//tr"):
            cells = [" ".join(cell.text_content().split()) for cell in part.xpath("./th | ./td")]
            yield " | ".join(cells) if cells else " ".join(part.text_content().split())
