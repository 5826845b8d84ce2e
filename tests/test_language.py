"""The examples by which the writing language is explained, each built: they must stay true."""

from __future__ import annotations

from pathlib import Path

import pytest

from chalkfold.diagnostics import Faults, Source
from chalkfold.post import build_post
from chalkfold.trade import Shelf

FILES = {
    "chalkfold.yml": "title: Tidewater Mending Room\nlanguage: en-GB\ntape marks: {in: 1/8, cm: 0.5}\n",
    "sizes/house chart.yml": """
title: House chart
unit: cm
sizes: [S, M, L, XL]
measures:
  waist girth: {how: where a belt settles, values: [68, 74, 82, 92]}
  hip girth: {how: at the fullest part, values: [92, 98, 106, 114]}
""",
    "books/circle skirt.yml": """
title: Circle skirts
expects:
  waist edge: {kind: length, note: finished girth of the top edge}
  fraction: {kind: plain, note: "part of a full circle: 1, 3/4, 1/2, 1/4"}
numbers:
  waist radius:
    is: waist edge / (2 * pi * fraction)
    note: The waist is an arc of the given fraction of a circle.
    source: plane geometry
""",
    "donors/double duvet cover.yml": """
title: Double duvet cover
unit: cm
sizes: [double, king]
measures:
  across: [200, 230]
  down: [200, 220]
""",
    "fabrics.yml": "light fusible: {usable width: 90 cm}\n",
    "notions.yml": "firm 25 mm: {width: 25 mm, stretch: 60 %}\n",
}
PROJECT = """
```project
sizes: house chart            # or a list of the post's own: [small, large]; or: none
sample size: M                # the one in the photos
made for: adults              # or: children 3 to 8 years
books: [circle skirt]
cut from:                     # roles
  main: {donor: double duvet cover, sample: king}
  interfacing: {fabric: light fusible}
notions: {elastic: firm 25 mm}
closes with: elastic
pulled on: {total inner of skirt: {over: hips, elastic: elastic to cut}}
time: {cutting: 30 min, sewing: 90 min}
numbers:
  waist edge: max(hip girth, waist girth) + 4 cm
  fraction: 1/2
  skirt length: {M: 60 cm, step: 1 cm}
  pocket depth: {S: 14 cm, M: 15 cm, L: 15 cm, XL: 16 cm}
  elastic to cut: if stretch of elastic >= 60 % then 85 % of waist girth else 95 % of waist girth
  band depth: width of elastic + 5 mm
  slit length: 20 cm
finished:                     # what readers ask for first: shown at the top
  waist before the elastic: total inner of skirt
  length: skirt length
  hem circumference: total outer of skirt
```
"""
CUT_LIST = """
```cut-list
pieces:
  - piece: skirt
    flounce: {inner radius: waist radius, depth: skirt length, fraction: fraction}
    allowances: {inner: 1 cm, outer: 1 cm, left end: 1.5 cm, right end: 1.5 cm}
    cut: 1 in main
  - piece: waistband
    rectangle: {across: waist edge, down: 2 * band depth}
    allowances: {all: 1 cm}
    cut: 1 in main
  - piece: slit facing
    rectangle: {across: 3 cm, down: slit length + 2 cm}
    allowances: {all: 1 cm}
    cut: [1 in main, 1 in interfacing]
```
"""
SPACING = """
```spacing
name: tassels
along: [outer of skirt]
in the round: yes
every: nearest 4 cm
```
"""
MATERIALS = """
```materials
items:
  - item: elastic, {= width of elastic } wide
    length: elastic to cut
  - item: interfacing
    from: pieces cut in interfacing
  - item: stranded cotton
    each: 60 cm
    count: count of tassels
    sold in: 8 m skeins
```
"""
CHECKS = """
```checks
must hold:
  - total inner of skirt = waist edge
  - top of waistband = bottom of waistband ± 2 mm
  - total outer of skirt >= total inner of skirt
```

```sizes
```
"""
TEXT = "\nHold the tape at the corner and swing it at {= cut radius of inner of skirt }.\n"


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    for name, text in FILES.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text.lstrip(), encoding="utf-8")
    faults = Faults()
    shelf = Shelf.open(tmp_path, faults)
    assert not len(faults)
    return shelf


def test_the_post_of_the_language_page(shelf: Shelf) -> None:
    """Size M by hand: waist edge max(98, 74) + 4 = 102 cm; radius 102 / pi = 32.47 cm, less 1 cm allowance 31.47."""
    built = build_post(Source("posts/skirt.md", PROJECT + CUT_LIST + SPACING + MATERIALS + CHECKS + TEXT), shelf)
    assert list(built.faults) == []
    page = built.html.replace("\u00a0", " ")
    assert "31.5 cm" in page
    assert "102 cm" in page
    assert "290.5 cm" in page  # pi × 32.47 + pi × 60


@pytest.mark.parametrize(
    ("formula", "printed"),
    [
        ("12 cm", "12 cm"),
        ("5 mm", "5 mm"),
        ("1.2 m", "120 cm"),
        ("7 1/2 in", "19 cm"),
        ("7½ in", "19 cm"),
        ('7 1/2"', "19 cm"),
        ("1/4 in", "6 mm"),
        ("2 yd", "183 cm"),
        ("3 ft", "91.5 cm"),
        ("15 %", "15 %"),
        ("90°", "90°"),
        ("3", "3"),
        ("1/4 of hip girth", "24.5 cm"),
        ("half of hip girth", "49 cm"),
        ("90 % of waist girth", "66.5 cm"),
        ("marked(waist girth / 4)", "18.5 cm"),
        ("waist girth × 2 − 48 cm", "100 cm"),
        ("waist girth ÷ 2", "37 cm"),
        ("across of main", "230 cm"),
        ("usable width of interfacing", "90 cm"),
        ("stretch of elastic", "60 %"),
    ],
)
def test_amounts_and_formulas(formula: str, printed: str, shelf: Shelf) -> None:
    """In size M: hip girth 98 cm, waist girth 74 cm; tape marks of half a centimetre."""
    built = build_post(Source("posts/a.md", f"{PROJECT}{CUT_LIST}\n{{= {formula} }}\n"), shelf)
    assert list(built.faults) == []
    assert f">{printed}<" in built.html.replace("\u00a0", " ")


def test_a_backslash_prints_a_value_as_it_stands_and_code_is_left_alone(shelf: Shelf) -> None:
    built = build_post(Source("a.md", "Write \\{= x }, or `{= y }`.\n"), shelf)
    assert list(built.faults) == []
    assert built.html == "<p>Write {= x }, or <code>{= y }</code>.</p>\n"


def test_a_value_in_heading_alt_text_cell_list_and_quote(shelf: Shelf) -> None:
    text = (
        "# Up to {= 10 cm }\n\n![A band {= 10 cm } wide](band.png)\n\n| a | b |\n|---|---|\n| {= 10 cm } | x |\n\n"
        "- {= 10 cm }\n\n> {= 10 cm }\n"
    )
    built = build_post(Source("a.md", text), shelf)
    assert list(built.faults) == []
    page = built.html.replace("\u00a0", " ")
    assert page.count("10 cm") == 5
    assert 'alt="A band 10 cm (3⅞ in) wide"' in page
