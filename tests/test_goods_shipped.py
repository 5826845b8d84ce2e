"""The cloths and notions that ship: every value has a source, and lies where published ranges put it."""

from __future__ import annotations

import pytest

from books_help import SHELF
from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Faults, Source
from chalkfold.formula import Literal
from chalkfold.reading import Excerpt, Mapping, load
from chalkfold.trade.goods import read_goods_file
from chalkfold.trade.records import Goods

CLOTHS = SHELF.names("fabric")
NOTIONS = SHELF.names("notion")
ALL = [("fabric", name) for name in CLOTHS] + [("notion", name) for name in NOTIONS]


def goods(kind: str, name: str) -> Goods:
    faults = Faults()
    found = SHELF.goods(kind, name, faults)
    assert found is not None and list(faults) == []
    return found


def literal(found: Goods, key: str) -> Literal:
    said = found.amounts[key][1]
    assert isinstance(said, Literal)
    return said


def amount(found: Goods, key: str) -> float:
    return literal(found, key).value


@pytest.mark.parametrize(("kind", "name"), ALL)
def test_it_says_where_its_values_come_from(kind: str, name: str) -> None:
    found = goods(kind, name)
    assert found.texts["status"] in ("found", "practice", "memory")
    assert found.texts["source"].endswith(".")
    if found.texts["status"] == "memory":
        assert "memory" in found.texts["source"]


@pytest.mark.parametrize("name", CLOTHS)
def test_a_cloth_has_all_a_post_may_ask_for(name: str) -> None:
    found = goods("fabric", name)
    assert set(found.amounts) >= {"usable width", "weight", "stretch", "shrinkage"}
    assert "care" in found.texts
    assert literal(found, "weight").kind is Kind.WEIGHT


@pytest.mark.parametrize(
    ("typed", "hint"),
    [
        ("190", "write the unit too: 190 g/m² or 190 oz/yd²"),
        ("190 cm", "write a weight of cloth, such as 140 g/m² or 4 oz/yd²"),
        ("190 g", "write 190 g/m²"),
        ("heavy", "write a weight of cloth, such as 140 g/m² or 4 oz/yd²"),
    ],
)
def test_the_weight_of_a_cloth_is_an_amount(typed: str, hint: str) -> None:
    faults = Faults()
    body = load(Excerpt.whole(Source("fabrics.yml", f"calico: {{weight: {typed}}}")), faults)
    assert isinstance(body, Mapping)
    read_goods_file("fabric", body, "", faults)
    assert [fault.hint for fault in faults] == [hint]


@pytest.mark.parametrize("name", NOTIONS)
def test_a_notion_has_a_measure_of_its_own(name: str) -> None:
    found = goods("notion", name)
    assert {"width", "thickness", "length"} & set(found.amounts)
    assert found.texts["what"]


@pytest.mark.parametrize(
    ("name", "least", "most"),
    [  # g/m², from the mill lists, sheets and tables that each record names
        ("sheeting cotton", 125, 155),
        ("patchwork cotton", 136, 203),
        ("lawn", 102, 170),
        ("voile", 34, 68),
        ("denim", 203, 440),
        ("single jersey", 135, 155),
        ("interlock", 260, 270),
        ("sweatshirt fleece", 150, 339),
    ],
)
def test_weights_lie_in_published_ranges(name: str, least: int, most: int) -> None:
    assert least <= amount(goods("fabric", name), "weight") <= most


@pytest.mark.parametrize(
    ("name", "least", "most"),
    [  # per cent; woven cotton 2 to 7, rayon 5 to 10, polyester 0: a trade page on shrinkage by fibre
        ("sheeting cotton", 2, 7),
        ("patchwork cotton", 2, 7),
        ("lawn", 2, 7),
        ("linen", 4, 10),
        ("viscose", 5, 10),
        ("polyester satin", 0, 0),
        ("canvas", 3, 5),
        ("single jersey", 2, 7),
        ("stretch jersey", 2, 7),
        ("interlock", 2, 8),
    ],
)
def test_shrinkage_lies_in_published_ranges(name: str, least: int, most: int) -> None:
    assert least <= round(100 * amount(goods("fabric", name), "shrinkage"), 6) <= most


@pytest.mark.parametrize("name", [name for name in NOTIONS if name.startswith("button ")])
def test_a_button_is_as_wide_as_its_ligne(name: str) -> None:
    """40 ligne to the inch; a shop's table rounds by 0.7 mm at most."""
    assert amount(goods("notion", name), "width") == pytest.approx(0.635 * int(name.split()[1]), abs=0.7)


def test_a_skein_is_8_7_yards() -> None:
    """https://spiegato.com/en/what-is-embroidery-floss"""
    assert amount(goods("notion", "stranded cotton"), "length") == pytest.approx(8.7 * 914.4)


@pytest.mark.parametrize("name", [name for name in NOTIONS if "elastic" in name])
def test_an_elastic_is_of_the_usual_widths_and_stretches(name: str) -> None:
    """Widths are common practice; a published test of elastics runs from 40 to 100 %, more is from memory."""
    found = goods("notion", name)
    assert amount(found, "width") in (3, 6, 10, 12, 20, 25, 30, 40, 50)
    assert literal(found, "stretch").kind is Kind.PLAIN
    assert 0.4 <= amount(found, "stretch") <= 1.8
