"""Titles of blocks stand one level below the heading before them, whatever the writer's headings are."""

from __future__ import annotations

import pytest
from lxml import html

from chalkfold.diagnostics import Source
from chalkfold.post import build_post, convert
from chalkfold.trade import Shelf
from post_help import block

NEEDS = block("materials", "items: [{item: elastic, length: 60 cm}]")


def headings(text: str) -> list[str]:
    """The headings of a page's body, in order, as ``h2 Cut``."""
    built = build_post(Source("posts/case.md", text), Shelf())
    assert not len(built.faults), [fault.message for fault in built.faults]
    return told(built.html)


def told(page: str) -> list[str]:
    found = html.fromstring(f"<div>{page}</div>").xpath(
        "//*[self::h1 or self::h2 or self::h3 or self::h4 or self::h5 or self::h6]"
    )
    return [f"{each.tag} {each.text_content()}" for each in found]


def test_without_a_heading_the_title_stands_below_that_of_the_page() -> None:
    assert headings(NEEDS) == ["h2 You need"]


@pytest.mark.parametrize(("heading", "level"), [("##", 3), ("###", 4), ("####", 5), ("#####", 6), ("######", 6)])
def test_below_a_heading_the_title_is_one_level_deeper_and_six_at_most(heading: str, level: int) -> None:
    assert headings(f"{heading} Buy\n\n{NEEDS}") == [f"h{len(heading)} Buy", f"h{level} You need"]


def test_the_last_heading_before_a_block_counts() -> None:
    assert headings(f"## One\n\n### Two\n\n## Three\n\n{NEEDS}")[-1] == "h3 You need"


def test_a_heading_of_the_first_level_goes_below_the_title_of_the_page_and_takes_the_others_along() -> None:
    found = build_post(Source("posts/case.md", f"# Cut\n\n## Buy\n\n{NEEDS}"), Shelf())
    assert told(found.html) == ["h2 Cut", "h3 Buy", "h4 You need"]
    assert html.fromstring(found.html).xpath("//h2/@id") == ["cut"]


def test_a_host_keeps_its_headings_and_gets_titles_below_them() -> None:
    copy, faults = convert(Source("posts/case.md", f"# Cut\n\n{NEEDS}"), Shelf())
    assert not len(faults)
    assert copy.startswith("# Cut\n") and told(copy) == ["h2 You need"]


def test_what_is_checked_in_every_size_names_no_size() -> None:
    text = block("project", "sizes: [S, M]\nnumbers:\n  hem: {S: 60 cm, M: 64 cm}") + block(
        "checks", "must hold: [hem < 70 cm]"
    )
    copy, faults = convert(Source("posts/case.md", text), Shelf())
    assert not len(faults)
    assert told(copy) == ["h2 Checked in every size"]
