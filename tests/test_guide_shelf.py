"""The fence ``shelf`` of a guide, and the guide's pages of books: nothing that ships is left out."""

from __future__ import annotations

import re

import pytest
from lxml import html

from books_help import SHELF, book, names
from chalkfold.diagnostics import Code, Source
from chalkfold.guide_shelf import LISTS
from chalkfold.post import build_post
from chalkfold.shipped import shipped
from chalkfold.trade.built_in import built_in_checks

PAGES = {page.name: page.read_text("utf-8") for page in shipped("content_example").glob("pages/guide-2[0-9]-*.md")}


def shown(words: str) -> html.HtmlElement:
    built = build_post(Source("page.md", f"```shelf {words}\n```\n"), SHELF)
    assert list(built.faults) == []
    return html.fromstring(f"<main>{built.html}</main>")


def rows(tree: html.HtmlElement) -> list[str]:
    return [" ".join(each.text_content().split()) for each in tree.xpath("//tbody//th")]


def test_books_are_listed_with_what_they_expect_and_give() -> None:
    tree = shown("books")
    assert rows(tree) == names()
    (circle,) = tree.xpath("//tr[th='circle skirt']")
    assert [cell.text_content() for cell in circle.xpath("td")][1] == "waist edge · fraction · skirt length"


@pytest.mark.parametrize("name", names())
def test_a_book_is_shown_number_by_number(name: str) -> None:
    found = book(name)
    tree = shown(f"book {name}")
    said = [each.name for each in found.expects.values()] + [step.name for step in found.numbers.values()]
    assert sorted(rows(tree)) == sorted(said)
    text = tree.text_content()
    assert all(f"Source: {step.origin.source}" in text for step in found.numbers.values())


def test_a_formula_stands_beside_its_number() -> None:
    (row,) = shown("book boxed corner").xpath("//tr[th='corner to cut out']")
    assert row.xpath("td")[0].text_content() == "bag depth / 2 + bag seam - corner seam"


@pytest.mark.parametrize(("words", "kind"), [("cloths", "fabric"), ("notions", "notion")])
def test_goods_are_listed_with_status_and_source(words: str, kind: str) -> None:
    tree = shown(words)
    assert rows(tree) == SHELF.names(kind)
    for row in tree.xpath("//tbody/tr"):
        assert re.match("found in a published list|common practice|from memory", row.xpath("td")[-1].text_content())


def test_charts_show_their_measures_and_where_they_come_from() -> None:
    tree = shown("charts")
    assert [each.text_content() for each in tree.xpath("//caption")] == SHELF.names("chart")
    assert "Source: ASTM D5585-11e1" in tree.text_content()


@pytest.mark.parametrize("words", ["", "cloth", "book", "book zebra skirt", "books and charts"])
def test_what_is_not_on_the_shelf_is_said(words: str) -> None:
    built = build_post(Source("page.md", f"```shelf {words}\n```\n"), SHELF)
    (fault,) = built.faults
    assert fault.code == Code.EXAMPLE
    assert all(f"`shelf {each}`" in fault.hint for each in LISTS)


@pytest.mark.parametrize("name", names())
def test_every_book_has_its_place_in_the_guide_and_an_example_that_uses_it(name: str) -> None:
    at = [page for page, text in PAGES.items() if f"```shelf book {name}\n" in text]
    assert len(at) == 1, "one page shows it"
    listed = re.findall(r"^books: \[(.*)\]$", PAGES[at[0]], re.M)
    assert any(name in [each.strip() for each in line.split(",")] for line in listed)


def test_the_index_of_books_leads_to_every_page_of_books() -> None:
    index = PAGES["guide-20-books.md"]
    assert "```shelf books\n" in index
    assert all(f"({page})" in index for page in PAGES if page != "guide-20-books.md")


def test_checks_are_listed_with_their_figures() -> None:
    tree = shown("checks")
    assert rows(tree) == list(built_in_checks())
    (turning,) = tree.xpath("//tr[th='turning']")
    assert turning.xpath("td")[1].text_content().startswith("narrowest 1/4 in (common practice, no source")
