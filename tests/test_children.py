"""Whom a garment is for, as ``made for:`` says it, and the rules that are data."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.trade.children import OLDEST, child_rules, is_child, months_of


@pytest.mark.parametrize(
    ("text", "months"),
    [
        ("children 3 to 8 years", (36, 107)),
        ("children, 3-8 years", (36, 107)),
        ("children 7 years", (84, 95)),
        ("girls from 6 to 11", (72, 143)),
        ("children under 3 years", (0, 35)),
        ("babies 6 to 18 months", (6, 18)),
        ("babies, 6 months to 2 years", (6, 35)),
        ("children up to 6 years 11 months", (0, 83)),
        ("a child of 2 years and up", (24, OLDEST)),
        ("children from 7 years", (84, OLDEST)),
        ("children", None),
        ("children 98 to 140 cm", None),
    ],
)
def test_ages_are_read_as_they_are_said(text: str, months: tuple[int, int] | None) -> None:
    assert is_child(text)
    assert months_of(text) == months


@pytest.mark.parametrize("text", ["adults", "women", "a grown-up with a childish taste", "kidney belts"])
def test_others_are_no_children(text: str) -> None:
    assert not is_child(text)


@pytest.mark.parametrize(
    ("months", "heights", "groups"),
    [  # "6 y 11 m is young, 7 y older, 134 cm young": tukes.fi and bioline-jato.eu; US sizes: cpsc.gov
        ((83, 83), [], {"young", "sizes to 12", "sizes to 16"}),
        ((84, 84), [], {"older", "sizes to 12", "sizes to 16"}),
        ((36, 107), [], {"young", "older", "sizes to 12", "sizes to 16"}),
        ((168, 179), [], {"sizes to 16"}),
        ((204, 216), [], set()),
        (None, [134.0], {"young", "sizes to 12", "sizes to 16"}),
        (None, [135.0], {"older", "sizes to 12", "sizes to 16"}),
        (None, [], {"young", "older", "sizes to 12", "sizes to 16"}),
    ],
)
def test_which_rules_a_child_comes_under(
    months: tuple[int, int] | None, heights: list[float], groups: set[str]
) -> None:
    assert {each.name for each in child_rules().counted(months, heights)} == groups


def test_every_limit_speaks_the_words_of_the_file() -> None:
    rules = child_rules()
    ages = {each.name: each.rule for each in rules.ages}
    for limit in rules.limits:
        assert limit.never or limit.most or limit.must
        assert {ages[name] for name in limit.ages} == {limit.rule}
        assert set(limit.zones) <= set(rules.zones.values())
        assert set(limit.kinds) <= set(rules.kinds)
        assert {*limit.most, *limit.must} <= set(rules.measures)
        assert all(rules.measures[name].is_length for name in limit.most)
        assert not any(rules.measures[name].is_length for name in limit.must)
        assert limit.status in ("found", "memory")
        assert bool(limit.source) == (limit.status == "found")
        assert limit.garments in ("", *rules.garments)


@given(st.text(max_size=60))
def test_any_text_is_read_without_complaint(text: str) -> None:
    months = months_of(text)
    assert months is None or 0 <= months[0] <= months[1]


@given(st.integers(0, 17), st.integers(0, 17))
def test_two_ages_in_either_order_are_the_same_children(first: int, second: int) -> None:
    low, high = sorted((first, second))
    assert months_of(f"children {first} to {second} years") == (12 * low, 12 * high + 11)
