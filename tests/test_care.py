"""How ``care:`` of cloths and notions is read, and that the strictest is the strictest."""

from __future__ import annotations

from itertools import product

import pytest

from chalkfold.diagnostics import Faults, Source, as_text
from chalkfold.reading import Excerpt, Mapping, load
from chalkfold.trade.care import Care, CareField, care_fields, read_care, strictest
from faults_help import assert_well_told


def read(text: str) -> tuple[Care, str, list[str]]:
    faults = Faults()
    body = load(Excerpt.whole(Source("fabrics.yml", text)), faults)
    assert isinstance(body, Mapping)
    care, note = read_care(body.entries[0], "calico", faults)
    for fault in faults:
        assert_well_told(fault)
    return care, note, [as_text(fault) for fault in faults]


def test_the_five_fields_stand_in_the_order_of_the_standards() -> None:
    """ISO 3758:2012 and ASTM D5489-18: https://standardsclub.mealir.com/astm-d5489-18-pdf-download.html"""
    assert list(care_fields()) == ["wash", "bleach", "dry", "iron", "professional care"]


def test_wash_temperatures_are_those_of_the_standard() -> None:
    """https://doublered.eu/content/249-products-care"""
    heats = [int(word.split()[0]) for word in care_fields()["wash"].said["heat"] if word[0].isdigit()]
    assert heats == [95, 70, 60, 50, 40, 30]
    assert care_fields()["wash"].said["action"] == ("normal", "mild", "very mild")


def test_words_may_stand_in_a_list_or_with_commas() -> None:
    listed, _, _ = read("care: {wash: [40 degrees, Mild]}")
    assert listed == read("care:\n  wash: 40 degrees, mild\n")[0] == {"wash": {"heat": 4, "action": 1}}


def test_a_few_words_are_a_note() -> None:
    assert read("care: Wash it alone.") == ({}, "Wash it alone.", [])


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        ("care: {wash: 45 degrees}", "`wash` cannot be `45 degrees`", "95 degrees | 70 degrees"),
        ("care: {iron: 15O degrees}", "`iron` cannot be `15o degrees`", "did you mean `150 degrees`?"),
        ("care: {wash: [40 degrees, 60 degrees]}", "`wash` says a second heat: `60 degrees`", "keep one of them"),
        ("care: {press: cool}", "the care of calico has no key `press`", "the care of calico takes"),
        ("care: [warm]", "the care of calico is a list", "write `care: {wash: 40 degrees"),
    ],
)
def test_what_cannot_be_is_told(text: str, message: str, hint: str) -> None:
    (told,) = read(text)[2]
    assert message in told
    assert hint in told


@pytest.mark.parametrize("field", care_fields().values(), ids=lambda field: field.name)
def test_what_is_safe_for_all_is_as_strict_as_each(field: CareField) -> None:
    """For every pair of things that may be said: no less strict than either, and no stricter than one of them."""
    for thing, words in field.said.items():
        for first, second in product(range(len(words)), repeat=2):
            cares: dict[str, Care] = {"cloth": {field.name: {thing: first}}, "tape": {field.name: {thing: second}}}
            worst, makers, silent = strictest(cares, field.name)
            assert worst == {thing: max(first, second)}
            assert silent == ()
            assert makers == {0: (), 1: ("cloth",), -1: ("tape",)}[(first > second) - (first < second)]
