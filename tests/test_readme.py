"""The README's post gives what the README shows, and its slip gets the answer printed there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from lxml import html
from markdown_it import MarkdownIt

from chalkfold import FaultsFound, chalkfold_plugin

README = (Path(__file__).parents[1] / "README.md").read_text("utf-8")
POST = README.split("~~~markdown\n")[1].split("~~~")[0]


def rendered(text: str) -> str:
    return str(MarkdownIt().use(chalkfold_plugin).render(text, {"path": "posts/bag.md"}))


def words(text: str) -> str:
    """Plain words, without what sets them off."""
    return " ".join(text.replace("*", "").replace("> ", "").split())


def test_the_page_shows_the_numbers_of_the_readme() -> None:
    page = words(html.fromstring(f"<main>{rendered(POST)}</main>").text_content())
    shown = README.split("## What a reader gets")[1].split("The page also draws")[0]
    amounts = re.findall(r"[\d.]+ (?:× [\d.]+ )?cm \([^)]+ in\)", words(shown))
    assert len(amounts) == 4
    assert not [amount for amount in amounts if amount not in page]
    (marks,) = re.findall(r"Mark at (.+) cm from the first seam", words(shown))
    assert marks.split(" · ") == ["0", "5.7", "11.4", "17.1", "22.9", "28.6", "34.3"]
    assert not [mark for mark in marks.split(" · ")[1:] if f"{mark} cm" not in page]
    assert "total top of side = 2 × bag width" in page


def test_the_slip_gets_the_answer_of_the_readme() -> None:
    (answer,) = re.findall(r"```\n(posts/bag\.md:.+?)\n```", README, re.S)
    with pytest.raises(FaultsFound) as found:
        rendered(POST.replace("cut width of side }", "cut widht of side }"))
    assert answer in str(found.value)
