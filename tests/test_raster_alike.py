"""An image is the same to the byte whatever was rendered before it in the same process."""

from __future__ import annotations

import subprocess
import sys

import pytest

LETTERS = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="300" height="120" viewBox="0 0 300 120">'
    '<text x="9.3" y="30.7" font-family="{0}" font-size="13">Front 27.5 cm</text>'
    '<text x="9.3" y="60.7" font-family="{0}" font-size="13" font-weight="700">Front 27.5 cm</text>'
    '<text x="9.3" y="99.7" font-family="{0}" font-size="17" transform="rotate(-37 9 99)">Cut 2</text></svg>'
)
RENDERED = """
import re, sys
from hashlib import sha256
from chalkfold.raster import Renderer
render, svg = Renderer.open(), sys.argv[1]
ways = {"png": lambda: render.png(svg, 640), "pdf": lambda: render.pdf([svg])}
made = [ways[way]() for way in sys.argv[2:]]
print(sha256(re.sub(rb"/CreationDate .*", b"", made[-1])).hexdigest())
"""


def last_of(svg: str, *ways: str) -> str:
    """A hash of what the last way makes of an image, all of them in turn in a process of its own."""
    command = [sys.executable, "-c", RENDERED, svg, *ways]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


@pytest.mark.parametrize("family", ["sans-serif", "serif"])
def test_what_was_rendered_before_changes_nothing(family: str) -> None:
    svg = LETTERS.format(family)
    assert last_of(svg, "png") == last_of(svg, "pdf", "png") == last_of(svg, "png", "png")
    assert last_of(svg, "pdf") == last_of(svg, "png", "pdf")
