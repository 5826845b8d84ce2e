"""The ledger: what it holds, how it reads, what counts as a change."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.amounts import Marks, Rounding
from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Faults, Source, as_text
from chalkfold.formula import key_of
from chalkfold.plan import Manner, Style
from chalkfold.reading import Excerpt, Mapping, load
from chalkfold.site.ledger.corrections import Correction, correction_text, read_correction
from chalkfold.site.ledger.printed import in_marks
from chalkfold.site.ledger.records import Number, PostRecord, kept, same
from chalkfold.site.ledger.text import from_text, to_text
from ledger_help import MADE, SITE, changes, ledger, mend, plain, release, released
from site_help import post

KINDS = (Kind.LENGTH, Kind.AREA, Kind.ANGLE, Kind.WEIGHT, Kind.PLAIN, Kind.TRUTH, Kind.SERIES, Kind.OUTLINE)
WORDS = st.lists(st.text("abcdefgh½ü", min_size=1, max_size=6), min_size=1, max_size=3).map(" ".join)
SIZES = st.lists(
    st.text("SML|: 0123½\"'#", min_size=1, max_size=5).map(str.strip).filter(bool), max_size=4, unique_by=key_of
)
AMOUNTS = st.floats(-1e6, 1e6)


def cell(kind: Kind) -> st.SearchStrategy[float | bool | tuple[float, ...]]:
    if kind is Kind.TRUTH:
        return st.booleans()
    return st.lists(AMOUNTS, max_size=4).map(tuple) if kind in (Kind.SERIES, Kind.OUTLINE) else AMOUNTS


@st.composite
def records(draw: st.DrawFn) -> PostRecord:
    sizes = tuple(draw(SIZES)) or ("",)
    numbers = {}
    for name in draw(st.lists(WORDS, max_size=4, unique_by=key_of)):
        kind = draw(st.sampled_from(KINDS))
        count = draw(st.sampled_from((1, len(sizes))))
        values = tuple(kept(draw(cell(kind)), kind) for _ in range(count))
        numbers[key_of(name)] = Number(name, kind, draw(WORDS), draw(WORDS | st.just("")), "to 5 mm", values)
    return PostRecord("skirt", "posts/skirt.md", draw(WORDS), sizes, numbers)


class TestText:
    """Small, sorted, one line a fact; and it reads back."""

    @given(records())
    def test_what_is_written_reads_back_and_is_written_the_same(self, record: PostRecord) -> None:
        faults = Faults()
        text = to_text(record)
        read = from_text(Source("ledger/posts/skirt.txt", text), "skirt", faults)
        assert list(faults) == []
        assert read is not None
        assert to_text(read) == text
        assert read.sizes == record.sizes
        for key, number in record.numbers.items():
            again = read.numbers[key]
            assert (again.name, again.kind, again.formula) == (number.name, number.kind, number.formula)
            assert all(same(a, b, number.kind) for a, b in zip(again.values, number.values, strict=True))

    @pytest.mark.parametrize(
        ("old", "new", "place"),
        [
            ("mm: small 1000 | large 1400", "mm: small 1000", "18:1"),
            ("mm: small 1000 | large 1400", "mm: small 1000 | large 14OO", "18:1"),
            ("mm: small 1000 | large 1400", "mm: small 1000 | large inf", "18:1"),
            ("mm: small 1000 | large 1400", "<<<<<<< HEAD", "18:1"),
            ("size: large", "sise: large", "5:1"),
            ("  mm: 10\n", "", "31:1"),
        ],
    )
    def test_a_line_that_no_release_writes_is_a_fault_at_its_place(
        self, tmp_path: Path, old: str, new: str, place: str
    ) -> None:
        site = released(tmp_path)
        text = ledger(site)["posts/cushion.txt"].replace("printed", "printed")
        before = text.splitlines().index("  mm: small 1000 | large 1400") + 1
        mend(site, "ledger/posts/cushion.txt", old, new)
        status, said = changes(site)
        assert status == 1
        assert (
            f"ledger/posts/cushion.txt:{place.replace('18', str(before))}: this line is none that a release writes"
            in said
        )
        assert "take the last good file of the ledger from your version control" in said

    def test_the_files_are_the_same_for_the_same_site(self, tmp_path: Path) -> None:
        assert ledger(released(tmp_path / "one")) == ledger(released(tmp_path / "other"))

    @given(
        st.dictionaries(
            WORDS,
            st.dictionaries(WORDS, st.text("a: #'\"→½{}[]-,", min_size=1).map(str.strip).filter(bool), min_size=1),
        )
    )
    def test_a_correction_reads_back(self, changed: dict[str, dict[str, str]]) -> None:
        given = Correction(
            date(2026, 6, 1), "It's: a # note", tuple((a, tuple(b.items())) for a, b in changed.items()), 2
        )
        text = correction_text(given)
        faults = Faults()
        body = load(Excerpt.whole(Source("a.yml", text)), faults)
        assert isinstance(body, Mapping), [as_text(fault) for fault in faults]
        assert read_correction(body, faults) == given


LENGTH = (Kind.LENGTH, Manner(), Marks())
FINE = (Kind.LENGTH, Manner(style=Style.FINE), Marks())


class TestMarks:
    """What shows where a number is printed: marks of 5 mm and 1/8 in, finely of 1 mm and 1/16 in."""

    @pytest.mark.parametrize(
        ("old", "new", "how", "shows"),
        [
            (1000.0, 1003.1, LENGTH, False),
            (1000.0, 1003.2, LENGTH, True),  # an eighth of an inch is 3.175 mm
            (10.0, 10.9, LENGTH, False),
            (10.0, 11.0, LENGTH, True),  # below four marks a length is printed to 1 mm
            (159.0, 159.9, FINE, False),
            (159.0, 160.0, FINE, True),
            (1000.0, 1000.2, (Kind.LENGTH, Manner(Rounding(metric=0.1)), Marks()), True),
            (7.0, 8.0, (Kind.PLAIN, Manner(style=Style.COUNT), Marks()), True),
            (0.5, 0.504, (Kind.PLAIN, Manner(), Marks()), False),
            (0.5, 0.51, (Kind.PLAIN, Manner(), Marks()), True),
            (45.0, 45.05, (Kind.ANGLE, Manner(), Marks()), False),
            (140.0, 140.8, (Kind.WEIGHT, Manner(), Marks()), False),
            (140.0, 141.0, (Kind.WEIGHT, Manner(), Marks()), True),
            ((0.0, 80.0), (0.0, 80.0, 160.0), (Kind.SERIES, Manner(), Marks()), True),
            ((0.0, 80.0), (0.0, 80.9), (Kind.OUTLINE, Manner(), Marks()), False),
            (True, False, (Kind.TRUTH, Manner(), Marks()), True),
        ],
    )
    def test_a_whole_mark_shows(self, old: float, new: float, how: tuple[Kind, Manner, Marks], shows: bool) -> None:
        assert (in_marks(old, new, *how) >= 1) is shows
        assert (in_marks(new, old, *how) >= 1) is shows


WAIST = """title: Waists
numbers:
  bend: 100 mm
  half way: 2 * bend
  girth: 2 * pi * bend
"""
ROUND = post("A skirt", "```project\nsizes: none\nbooks: [waists]\n```\n\n{show}")


def skirt(folder: Path, show: str) -> Path:
    return released(folder, {"books/waists.yml": WAIST, "posts/skirt.md": ROUND.replace("{show}", show)})


class TestAnnounced:
    """A change is announced unless this number and every number built on it stay below their mark."""

    def test_two_millimetres_on_a_radius_move_a_waist_by_twelve(self, tmp_path: Path) -> None:
        """2 × 2π mm = 12.6 mm, from the radius of a full circle."""
        site = skirt(tmp_path, "{= bend } gives {= girth }, and {= half way }")
        mend(site, "books/waists.yml", "bend: 100 mm", "bend: 102 mm")
        status, said = changes(site)
        assert status == 1
        assert "bend\n    10 cm (3 15⁄16 in) → 10.2 cm (4 in)\n" in said
        assert "girth\n    63 cm (24¾ in) → 64 cm (25¼ in)\n" in said
        assert "half way\n    20 cm (7⅞ in) → 20.5 cm (8 in)\n" in said  # 4 mm, more than an eighth of an inch
        assert release(site, "Wider.")[1].startswith("posts/skirt.md: correction of 3 numbers\n")

    def test_the_same_without_the_waist_is_not_announced(self, tmp_path: Path) -> None:
        site = skirt(tmp_path, "{= bend }")
        mend(site, "books/waists.yml", "bend: 100 mm", "bend: 102 mm")
        assert "bend\n    10 cm (3 15⁄16 in) → 10.2 cm (4 in) (less than a mark, not announced)\n" in changes(site)[1]
        assert release(site, "Wider.")[1].startswith("posts/skirt.md: nothing that a reader would see\n")
        assert not any(name.startswith("corrections") for name in ledger(site))
        assert changes(site) == (0, "Nothing differs from the ledger.\n")

    def test_a_formula_without_a_name_counts_where_it_is_shown(self, tmp_path: Path) -> None:
        site = skirt(tmp_path, "{= 10 * bend }")
        mend(site, "books/waists.yml", "bend: 100 mm", "bend: 101 mm")
        assert release(site, "Wider.")[1].startswith("posts/skirt.md: correction of 2 numbers\n")
        assert "  10 × bend: 100 cm (39⅜ in) → 101 cm (39¾ in)\n" in plain(
            ledger(site)["corrections/skirt/2026-06-01.yml"]
        )

    def test_only_the_sizes_that_change_are_told(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        mend(site, "posts/cushion.md", "large: 140 cm", "large: 142 cm")
        assert "rim\n    large: 140 cm (55⅛ in) → 142 cm (55⅞ in)\n" in changes(site)[1]
        release(site, "The large one was too small.")
        (text,) = (text for name, text in ledger(site).items() if name.startswith("corrections"))
        assert "large:" in text
        assert "small:" not in text

    def test_another_formula_with_the_same_values_is_told_to_the_writer_alone(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        mend(site, "books/round things.yml", "rim + 2 * seam", "seam + rim + seam")
        status, said = changes(site)
        assert status == 1
        assert (
            "  band length: another formula, the same values\n    was: rim + 2 * seam, from book round things\n" in said
        )
        assert release(site, "Tidied.")[1].startswith("posts/cushion.md: nothing that a reader would see\n")

    def test_another_mark_is_told_to_the_writer_alone(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        (site / "chalkfold.yml").write_text(SITE["chalkfold.yml"] + "tape marks: {cm: 1}\n")
        status, said = changes(site)
        assert status == 1
        assert "  strap: printed to another mark\n    printed to 5 mm, 1/8 in → to 10 mm, 1/8 in\n" in said

    def test_units_stand_in_the_order_of_the_site(self, tmp_path: Path) -> None:
        site = released(tmp_path, {**SITE, "chalkfold.yml": SITE["chalkfold.yml"] + "units: in first\n"})
        mend(site, "posts/apron.md", "60 cm", "70 cm")
        assert "    23⅝ in (60 cm) → 27½ in (70 cm)\n" in changes(site)[1]


class TestWhatIsKept:
    """Names that a writer would know; drawings as well as numbers."""

    def test_a_drawing_that_moves_is_told(self, tmp_path: Path) -> None:
        site = released(tmp_path, {"posts/flap.md": post("A flap", MADE)})
        mend(site, "posts/flap.md", "across: 10 cm, down: 5 cm", "across: 10 cm, down: 6 cm")
        assert "  flap, as drawn\n    all sizes: its line moves by up to 1 cm (⅜ in)\n" in changes(site)[1]
        mend(site, "posts/flap.md", "  - drill at hole", "  - drill at hole\n  - notch on top at 5 cm from A")
        assert "  flap, as drawn\n    all sizes: drawn anew\n" in changes(site)[1]

    def test_an_item_put_in_above_moves_no_name(self, tmp_path: Path) -> None:
        site = released(tmp_path, {"posts/flap.md": post("A flap", MADE)})
        assert "tape, … wide (bought)" in ledger(site)["posts/flap.txt"]
        assert "item" not in ledger(site)["posts/flap.txt"]
        mend(site, "posts/flap.md", "items:\n", "items:\n  - item: chalk\n    count: 1\n")
        assert changes(site)[1].startswith("posts/flap.md\n  chalk (number): new\n    from the post\n\n1 post differs")

    def test_posts_that_are_not_out_are_not_kept_and_those_held_back_later_are(self, tmp_path: Path) -> None:
        site = released(tmp_path, {**SITE, "posts/later.md": post("Later", day="2027-01-01")})
        assert "posts/later.txt" not in ledger(site)
        mend(site, "posts/apron.md", "title: An apron", "title: An apron\npublished: no")
        assert changes(site) == (
            0,
            "posts/apron.md: held back; the ledger keeps it as it was\nNothing differs from the ledger.\n",
        )
        mend(site, "posts/cushion.md", "seam: 1 cm", "seam: 2 cm")
        assert release(site, "Seams.")[0] == 0
        assert "posts/apron.txt" in ledger(site)

    def test_own_files_in_the_folder_stay(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        (site / "ledger/README.md").write_text("why we keep this")
        mend(site, "posts/apron.md", "60 cm", "70 cm")
        release(site, "Longer.")
        assert ledger(site)["README.md"] == "why we keep this"
