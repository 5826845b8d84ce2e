"""What must hold for every draft, tried on made-up posts and on 507 measured bodies."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from chalkfold.blocks.draft import MOST_EDGES
from chalkfold.geometry import edges, outlines
from chalkfold.geometry.crossings import is_simple
from chalkfold.geometry.shapes import Edge
from chalkfold.work import Worked
from drafted import SHELF, by_size, circle_skirt, drafted, line, shape, value
from geometry_help import FINE, dense
from post_help import block, post, worked
from test_on_real_bodies import Body, bodies

TOLERANCE = 0.05
"""How far (mm) a cutting line may be off its allowance."""

widths = st.integers(20, 60)
depths = st.integers(30, 90)
flares = st.integers(-10, 40)
bows = st.sampled_from(
    ["line to {}", "arc to {} with radius 80 cm bulging up", "arc to {} with radius 80 cm bulging down"]
)
added = st.sampled_from(["0", "5 mm", "1 cm", "1.5 cm", "4 cm"])


def half(width: int, depth: int, flare: int, waist: str = "line to {}", hem: str = "line to {}", **others: str) -> str:
    """Half of a skirt panel: edges waist, side, hem, and front, which lies straight down."""
    given = {"cut": "1 on fold", "on fold": "front", "allowances": "none"} | {
        key.replace("_", " "): said for key, said in others.items()
    }
    lines = "\n".join(f"{key}: {said}" for key, said in given.items() if said and key != "cut")
    body = f"""piece: panel
cut: {given["cut"]} in main
points:
  a: here
  b: {{from: a, across: {width} cm}}
  c: {{from: b, across: {flare} cm, down: {depth} cm}}
  d: {{from: a, down: {depth} cm}}
outline:
  start: a
  waist: {waist.format("b")}
  side: line to c
  hem: {hem.format("d")}
  front: line to a
{lines}"""
    off = "{square at the fold: it may end in a point, hem depth: as deep as it is drawn}"
    return post(blocks=block("draft", body) + block("checks", f"not needed: {off}"))


def laid(text: str, *also: str) -> Worked:
    """The post; one whose allowances find no room is left out, if it says so."""
    found = worked(text, SHELF, also)
    for fault in found.faults:
        assert "allowance" in fault.message or "cutting lines" in fault.message or "crosses" in fault.message
        assume(False)
    return found


def away_from_corners(cut: Edge, seam: Edge) -> Iterator[shapely.Point]:
    """Places on a cutting line that lie beside the inside of its seam."""
    for point in dense(cut):
        nearest = edges.nearest(seam, point)
        if 1 < nearest < edges.length(seam) - 1:
            yield shapely.Point(point)


@given(widths, depths, flares, bows, bows, st.tuples(added, added, added))
def test_a_cutting_line_lies_at_its_allowance(
    width: int, depth: int, flare: int, waist: str, hem: str, adds: tuple[str, ...]
) -> None:
    allowances = dict(zip(("waist", "side", "hem"), adds, strict=True))
    said = ", ".join(f"{name}: {each}" for name, each in allowances.items())
    found = laid(half(width, depth, flare, waist, hem, allowances=f"{{{said}}}"), "cut area of panel", "area of panel")
    assert value(found, "cut area of panel") >= value(found, "area of panel") - 1e-6
    seam, cut = line(found, "outline of panel"), line(found, "cutting line of panel")
    for number, name in enumerate(allowances):
        wanted = float(allowances[name].split()[0]) * (1 if "mm" in allowances[name] else 10)
        whole = shapely.LineString(dense(seam[number]))
        # straight bits at a corner, which belong to an edge, lie beside the end of its seam
        for place in away_from_corners(cut[number], seam[number]):
            assert whole.distance(place) == pytest.approx(wanted, abs=TOLERANCE + FINE)
    assert edges.is_straight(cut[3])  # the fold takes nothing


@given(widths, depths, flares, bows, bows)
def test_unfolding_doubles(width: int, depth: int, flare: int, waist: str, hem: str) -> None:
    names = ("width of panel", "area of panel", "waist of panel", "hem of panel", "height of panel", "side of panel")
    folded = laid(half(width, depth, flare, waist, hem), *names, "total side of panel")
    flat = laid(half(width, depth, flare, waist, hem, cut="1", on_fold=""), *names)
    for name in names[:4]:
        assert value(folded, name) == pytest.approx(2 * value(flat, name))
    for name in names[4:]:
        assert value(folded, name) == pytest.approx(value(flat, name))
    assert value(folded, "total side of panel") == pytest.approx(2 * value(flat, "side of panel"))


@given(widths, depths, flares, st.integers(0, 30), st.integers(0, 30), added)
def test_larger_measures_lie_outside_smaller_ones(
    width: int, depth: int, flare: int, wider: int, longer: int, allowance: str
) -> None:
    said = f"{{all: {allowance}}}"
    small = drafted(half(width, depth, flare, allowances=said))
    # as much flare for the length, so that the sides lie side by side
    large = drafted(half(width + wider, depth, flare, allowances=said)) if wider else small
    for name in ("outline of panel", "cutting line of panel"):
        assert shape(large, name).buffer(TOLERANCE).contains(shape(small, name))
    long = drafted(post(*skirt_of(longer), blocks=circle_skirt(allowances="{all: 1 cm}")))
    short = drafted(post(*skirt_of(0), blocks=circle_skirt(allowances="{all: 1 cm}")))
    assert shape(long, "outline of skirt").buffer(TOLERANCE).contains(shape(short, "outline of skirt"))


def skirt_of(longer: int) -> tuple[str, ...]:
    return f"skirt length: {40 + longer} cm", "waist radius: 25 cm"


@given(widths, depths, flares, st.tuples(added, added, added, added))
def test_a_piece_drawn_on_its_cutting_line_comes_back(
    width: int, depth: int, flare: int, adds: tuple[str, ...]
) -> None:
    """The seam line of the drawn cutting line has that as its cutting line; straight edges only."""
    said = ", ".join(f"{name}: {each}" for name, each in zip(("waist", "side", "hem", "front"), adds, strict=True))
    drawn = half(width, depth, flare, cut="1", on_fold="", allowances=f"{{{said}}}", outline_is="cutting line")
    given = laid(drawn)
    places = enumerate(outlines.corners(line(given, "outline of panel")))
    points = "".join(f"  p{n}: {{from: zero, across: {x:.9f} mm, down: {y:.9f} mm}}\n" for n, (x, y) in places)
    again = laid(
        post(
            blocks=block(
                "draft",
                f"piece: panel\ncut: 1 in main\npoints:\n  zero: here\n{points}outline:\n  start: p0\n"
                "  waist: line to p1\n  side: line to p2\n  hem: line to p3\n  front: line to p0\n"
                f"allowances: {{{said}}}",
            )
        )
    )
    assume(all(len(edge) == 1 for edge in line(again, "cutting line of panel")))  # no step, nothing cut off
    there, back = shape(given, "cutting line of panel"), shape(again, "cutting line of panel")
    assert there.symmetric_difference(back).area < 0.1


def groups(everyone: Sequence[Body], many: int = 39) -> Iterator[Sequence[Body]]:
    for start in range(0, len(everyone), many):
        yield everyone[start : start + many]


def girths(group: Sequence[Body]) -> dict[str, list[float]]:
    return {
        "hip girth": [float(body.hips) for body in group],
        "waist girth": [float(body.waist) for body in group],
        "bust girth": [float(body.bust) for body in group],
    }


def with_numbers(group: Sequence[Body], *numbers: str) -> str:
    return by_size(girths(group)).replace("numbers:\n", "numbers:\n" + "".join(f"  {each}\n" for each in numbers))


def test_a_half_circle_skirt_for_507_bodies() -> None:
    """Finished top edge: hips or waist, whichever is more, and 4 cm. It is twice the quarter arc that is drawn."""
    numbers = ("waist edge: max(hip girth, waist girth) + 4 cm", "waist radius: waist edge / pi", "skirt length: 60 cm")
    blocks = circle_skirt(allowances="{waist: 1 cm, back: 1.5 cm, hem: 1 cm}")
    for group in groups(bodies()):
        found = drafted(with_numbers(group, *numbers) + blocks, "total waist of skirt", "total hem of skirt")
        for size, body in enumerate(group):
            wanted = float(max(body.hips, body.waist) + 4) * 10
            assert value(found, "total waist of skirt", size) == pytest.approx(wanted)
            assert value(found, "total hem of skirt", size) == pytest.approx(wanted + 600 * 3.141592653589793)
            for name in ("outline of skirt", "cutting line of skirt"):
                assert is_simple(line(found, name, size))
                assert shape(found, name, size).is_valid


APRON = """
piece: apron
cut: 1 on fold in main
points:
  top at fold: here
  bib corner: {from: top at fold, across: bust girth / 8 + 2 cm}
  waist at fold: {from: top at fold, down: 28 cm}
  waist at side: {from: waist at fold, across: hip girth / 4 + 8 cm}
  hem at side: {from: waist at side, down: 50 cm}
  hem at fold: {square down from: top at fold, square across from: hem at side}
  bib edge: {from: bib corner, down: 6 cm}
outline:
  start: top at fold
  top: line to bib corner
  armhole: line to bib edge; arc to waist at side with radius 70 cm bulging left
  side: line to hem at side
  hem: line to hem at fold
  front: line to top at fold
on fold: front
lines:
  waist line: from waist at fold; line to waist at side
allowances: {all: 1.5 cm, hem: 4 cm}
"""

NOT_ROUND = block("checks", "not needed: {half and quarter: an apron leaves the back open}")


def test_an_apron_for_507_bodies() -> None:
    """Hem: half of the hips and 16 cm; bib: a quarter of the bust and 4 cm; the waist line like the hem."""
    names = ("hem of apron", "top of apron", "waist line of apron", "cut height of apron")
    for group in groups(bodies()):
        found = drafted(by_size(girths(group)) + block("draft", APRON) + NOT_ROUND, *names)
        for size, body in enumerate(group):
            hem, bib = float(body.hips) * 5 + 160, float(body.bust) * 2.5 + 40
            assert [value(found, name, size) for name in names] == pytest.approx([hem, bib, hem, 780 + 15 + 40])
            for name in ("outline of apron", "cutting line of apron"):
                assert is_simple(line(found, name, size))
                assert shape(found, name, size).is_valid


class TestTooMuch:
    """A drawing beyond any piece is refused before anything of it is read."""

    def test_too_many_points_and_edges(self) -> None:
        many = "".join(f"  p{number}: here\n" for number in range(9000))
        edges_ = "".join(f"  e{number}: line to a\n" for number in range(9000))
        lines = "".join(f"  l{number}: from a; line to b\n" for number in range(5000))
        outline = "outline:\n  start: a\n  top: line to b\n  slant: line to c\n  side: line to a\n"
        points = "  a: here\n  b: {from: a, across: 9 cm}\n  c: {from: a, down: 9 cm}\n"
        head, foot = f"piece: p\ncut: 1 in main\npoints:\n{points}", "allowances: none\n"
        for body, message in (
            (f"{head}{many}{outline}{foot}", "p has 9003 points"),
            (f"{head}outline:\n  start: a\n{edges_}{foot}", "p has 9000 edges"),
            (
                f"{head}outline:\n  start: a\n  top: {'line to a; ' * 9000}\n  side: line to a\n{foot}",
                "top is joined from",
            ),
            (f"{head}{outline}{foot}marks:\n" + "  - drill at a\n" * 9000, "p has 9000 marks"),
            (f"{head}{outline}{foot}lines:\n" + lines, "p has 5000 lines"),
        ):
            (fault,) = worked(f"```draft\n{body}```\n", SHELF).faults
            assert fault.message.startswith(message)

    def test_too_many_curves(self) -> None:
        """Each is measured, met and laid aside at a cost; the first beyond the limit is shown."""
        curves = "; ".join(["curve to b leaving right arriving right", "curve to a leaving left arriving left"] * 20)
        head = "piece: p\ncut: 1 in main\npoints:\n  a: here\n  b: {from: a, across: 9 cm}\n"
        outline = f"outline:\n  start: a\n  top: {curves}\n  side: curve to a through b\nallowances: none\n"
        (fault,) = worked(f"```draft\n{head}{outline}```\n", SHELF).faults
        assert fault.message == "p has more than 40 curves"
        assert fault.span.text == "curve to a through b"

    def test_a_hundred_thousand_points(self) -> None:
        points = "".join(f"  p{number}: here\n" for number in range(100_000))
        text = f"```draft\npiece: p\ncut: 1 in main\npoints:\n{points}outline: {{}}\nallowances: none\n```\n"
        (fault,) = worked(text, SHELF).faults
        assert fault.message == "more than 200,000 characters in one body"

    def test_as_many_edges_as_are_allowed(self) -> None:
        """A zigzag round a circle: each edge is drawn in all sizes."""
        points = "".join(
            f"  p{n}: {{from: middle, angle: {360 / MOST_EDGES * n}°, distance: {30 + n % 2} cm}}\n"
            for n in range(MOST_EDGES)
        )
        sides = "".join(f"  e{n}: line to p{n}\n" for n in range(1, MOST_EDGES))
        head = f"piece: sun\ncut: 1 in main\npoints:\n  middle: here\n{points}"
        body = f"outline:\n  start: p0\n{sides}  e0: line to p0\nallowances: {{all: 5 mm}}\n"
        found = drafted(f"```draft\n{head}{body}```\n")
        assert len(line(found, "outline of sun")) == MOST_EDGES
