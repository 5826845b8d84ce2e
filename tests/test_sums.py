"""How the numbers of a page come about: the list at its end, and the numbers that lead there."""

from __future__ import annotations

import re

import pytest
from lxml import html

from chalkfold.diagnostics import Source
from chalkfold.post import build_post, convert
from post_help import block, post, workroom

SKIRT = post(
    "top edge: max(hip girth, waist girth) + 4 cm",
    "drop: {M: 60 cm, step: 1 cm}",
    "seam: 1.5 cm",
    "quarter: (top edge + 2 * seam) / 4",
    head="sizes: workroom chart\nfinished: {round the top: top edge, twice: 2 * drop, a quarter: quarter}",
    blocks=block(
        "cut-list",
        """
        pieces:
          - piece: skirt
            rectangle: {across: top edge / 4, down: drop}
            on fold: left
            allowances: {all: 1 cm}
            cut: 2 on fold in main
        """,
    )
    + "## Swing {= top edge }\n\n"
    "Hold {= top edge }, again {= top edge }, [see {= drop }](a.md), then {= 3 cm } of {= drop }.",
)


def page(text: str = SKIRT) -> html.HtmlElement:
    built = build_post(Source("posts/skirt.md", text), workroom())
    assert not len(built.faults), [fault.message for fault in built.faults]
    return html.fromstring(f"<main>{built.html}</main>")


def entries(text: str = SKIRT) -> dict[str, dict[str, str]]:
    """What the list tells, by name: of each number its working and where it is from, as plain text."""
    return {
        _plain(entry.find("dt")): {kind: _plain(dd) for dd in entry.findall("dd") if (kind := dd.get("class", ""))}
        for entry in page(text).xpath("//details[@class='sums']/dl/div")
    }


def _plain(element: html.HtmlElement) -> str:
    return " ".join(element.text_content().split())


def test_a_sum_has_its_formula_the_values_put_in_and_its_source() -> None:
    """M has hips of 98 cm and a waist of 76 cm."""
    told = entries()["top edge"]
    assert told["put"] == ("max(hip girth, waist girth) + 4 cm = max(98 cm, 76 cm) + 4 cm = max(38⅝ in, 29⅞ in) + 4 cm")
    assert told["from"] == "from the post."


def test_factors_and_brackets_are_told() -> None:
    told = entries()["quarter"]["put"]
    assert told.startswith("(top edge + 2 × seam) / 4 = (102 cm + 2 × 1.5 cm) / 4")


def test_it_goes_down_to_the_chart_and_its_source() -> None:
    assert entries()["hip girth"]["from"] == (
        "given in chart workroom chart; source: Invented for these cases, with numbers that are easy to reckon with."
        " Level round the seat."
    )


def test_what_the_page_calls_a_number_is_its_name() -> None:
    assert entries()["twice"]["put"] == "2 × drop = 2 × 60 cm = 2 × 23⅝ in"


def test_the_result_is_there_in_every_size_and_both_units() -> None:
    (result,) = page().xpath("//details[@class='sums']/dl/div[dt='top edge']/dd[1]")
    assert _plain(result).replace("\u00a0", " ") == (
        "XS: 88 cm (34⅝ in); S: 94 cm (37 in); M: 102 cm (40⅛ in); L: 110 cm (43¼ in); XL: 104 cm (41 in)"
    )


def test_each_number_leads_to_its_sum_once() -> None:
    found = page()
    ids = {element.get("id") for element in found.xpath("//details[@class='sums']/dl/div")}
    targets = [link.get("href").removeprefix("#") for link in found.xpath("//a[@class='how']")]
    assert targets
    assert set(targets) <= ids
    assert len(targets) == len(set(targets))


def test_no_link_in_a_link_or_a_heading() -> None:
    found = page()
    assert found.xpath("//a//a") == []
    assert found.xpath("//h2//a[@class='how']") == []


def test_a_typed_amount_needs_no_sum() -> None:
    assert "3 cm" not in entries()


def test_a_page_without_numbers_has_no_list() -> None:
    assert page("Only words.").xpath("//details") == []


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_the_site_s_own_unit_is_put_in_first(unit: str) -> None:
    shelf = workroom(inches=unit == "in")
    built = build_post(Source("posts/skirt.md", SKIRT), shelf)
    first = re.findall(r'class="put">[^<]*<span class="(\w)">', built.html)
    assert set(first) == {"m" if unit == "cm" else "i"}


def test_other_hosts_get_no_list() -> None:
    text, faults = convert(Source("posts/skirt.md", SKIRT), workroom())
    assert not len(faults)
    assert 'class="sums"' not in text


def test_no_formula_names_a_number_that_has_no_name_in_the_post() -> None:
    """Part of an edge is worked out on the way to a seam; readers get what it is made of."""
    text = post(
        "height: 30 cm",
        "mouth: 4 cm",
        head="sizes: none",
        blocks=block(
            "draft",
            """
            piece: body
            cut: 2 in main
            rectangle: {across: 20 cm, down: height}
            allowances: {all: 1 cm}
            """,
        )
        + block(
            "sew",
            """
            seams:
              - left of body from mouth to height to right of body from mouth to height
            """,
        )
        + block("materials", "items:\n  - item: sewing thread\n    from: seams"),
    )
    told = entries(text)
    assert told["length of seam 1"]["put"].startswith("2 × (height - mouth) = 2 × (30 cm - 4 cm)")
    assert not [name for name, entry in told.items() if "= part" in name + entry.get("put", "")]
