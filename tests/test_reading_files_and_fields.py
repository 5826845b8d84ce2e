"""Front matter, files and the fields of a mapping."""

from __future__ import annotations

import datetime
import os
from pathlib import Path
from typing import Any

import pytest

from chalkfold.diagnostics import Code, Faults, Source
from chalkfold.reading import Fields, inside, read_text, split_front_matter
from reading_help import plain, well
from spec_cases import told

# ---- front matter


@pytest.mark.parametrize(
    ("text", "front", "body"),
    [
        ("---\ntitle: Apron\ntags: [linen]\n---\nText\n", {"title": "Apron", "tags": ["linen"]}, "Text\n"),
        ("\ufeff---\ntitle: Apron\n---\nText\n", {"title": "Apron"}, "Text\n"),
        ("---\r\ntitle: Apron\r\n---\r\nText\r\n", {"title": "Apron"}, "Text\r\n"),
        ("---\n---\nText\n", {}, "Text\n"),
        ("---\ntitle: Apron\n---", {"title": "Apron"}, ""),
        ("Text\n\n---\n\nmore\n", None, "Text\n\n---\n\nmore\n"),
        ("\ufeffText\n", None, "Text\n"),
        ("----\nText\n", None, "----\nText\n"),
    ],
)
def test_front_matter_is_split_off(text: str, front: Any, body: str) -> None:
    faults = Faults()
    mapping, start = split_front_matter(Source("post.md", text), faults)
    assert (plain(mapping), text[start:], told(faults)) == (front, body, "")


def test_faults_in_front_matter_stand_at_their_line() -> None:
    faults = Faults()
    assert split_front_matter(Source("a.md", "---\ntitle: Apron: linen\n---\nText"), faults) == (None, 28)
    assert split_front_matter(Source("b.md", "---\ntitle: Apron\n"), faults) == (None, 0)
    assert split_front_matter(Source("c.md", "---\nApron\n---\n"), faults) == (None, 14)
    assert told(faults) == (
        "a.md:2:13: a colon in plain text [data.colon-in-text]\n"
        '  hint: put quotes around the text: "Apron: linen"\n'
        "b.md:1:1: front matter is opened and never closed [file.front-matter]\n"
        "  hint: write a line of three hyphens, `---`, below the last key\n"
        "c.md:2:1: front matter without keys [file.front-matter]\n"
        "  hint: write `key: value`, one to a line, as in `title: Apron from a tablecloth`\n"
    )


# ---- files


def file(folder: Path, data: bytes) -> tuple[Source | None, str]:
    path = folder / "post.md"
    path.write_bytes(data)
    faults = Faults()
    return read_text(path, "posts/post.md", faults), told(faults)


def test_a_file_reads_the_same_whichever_system_wrote_it(tmp_path: Path) -> None:
    for data in (b"\xef\xbb\xbfS\xc3\xa4ume\r\nnaht", b"S\xc3\xa4ume\nnaht", b"S\xc3\xa4ume\rnaht"):
        source, said = file(tmp_path, data)
        assert source is not None and said == ""
        assert (source.path, source.text) == ("posts/post.md", "Säume\nnaht")


@pytest.mark.parametrize(
    ("data", "message"),
    [
        ("Saum\r\nNähte".encode("latin-1"), "posts/post.md:2:2: a byte that is not UTF-8 text (hex E4)"),
        ("Saum".encode("utf-16"), "posts/post.md:1:1: the file is saved as UTF-16"),
        (b"Saum\0", "posts/post.md:1:5: a byte that is not UTF-8 text (hex 00)"),
        (b"\xc3\xa4\n\x89PNG\r\n", "posts/post.md:2:1: a byte that is not UTF-8 text (hex 89)"),
    ],
)
def test_what_is_not_utf8_is_refused_at_its_first_byte(tmp_path: Path, data: bytes, message: str) -> None:
    source, said = file(tmp_path, data)
    assert source is None
    assert said.startswith(f"{message} [file.not-text]\n  hint: save the file as UTF-8")


MERGED = "hem: 2 cm\n<<<<<<< mine\nseam: 1 cm\n=======\nseam: 15 mm\n>>>>>>> theirs\n"


def test_two_versions_in_one_file_are_one_fault(tmp_path: Path) -> None:
    for text in (MERGED, MERGED + MERGED, MERGED.replace("\n", "\r\n")):
        source, said = file(tmp_path, text.encode())
        assert source is None
        assert said.startswith("posts/post.md:2:1: from here on two versions of the file stand in it")
        assert said.count("[file.two-versions]") == 1
    for line in ("<<<<<<< mine", "=======", ">>>>>>> theirs"):
        assert file(tmp_path, MERGED.replace(line, "").encode())[1] == ""


def test_missing_odd_and_huge_files_are_faults(tmp_path: Path) -> None:
    faults = Faults()
    os.mkfifo(tmp_path / "pipe.md")
    (tmp_path / "huge.md").write_bytes(b"a" * 2_000_001)
    for name in (".", "none.md", "pipe.md", "huge.md", "bad\0name.md"):
        assert read_text(tmp_path / name, name, faults) is None
    assert sorted(f.code for f in faults) == [*[Code.FILE_MISSING] * 4, Code.FILE_TOO_LONG]


def test_only_files_of_the_site_are_reached(tmp_path: Path) -> None:
    site, outside = tmp_path / "site", tmp_path / "secret.txt"
    site.mkdir()
    outside.write_text("not yours")
    (site / "in.txt").write_text("yours")
    (site / "link.txt").symlink_to(outside)
    (site / "near.txt").symlink_to(site / "in.txt")
    (site / "round.txt").symlink_to(site / "round.txt")
    assert [inside(site, site / n) for n in ("in.txt", "near.txt", "link.txt", "../secret.txt")] == [
        *(True, True),
        *(False, False),
    ]


# ---- fields


def fields(body: str, **more: Any) -> tuple[Fields, Faults]:
    faults = Faults()
    return Fields(well(body), faults, "a spacing", **more), faults


def test_fields_are_taken_by_what_they_should_be() -> None:
    taken, faults = fields(
        "Name: tassels\nalong: hem of back\nkeep: [a, b]\nin the round: yes\nends: {first: 2 cm}\n"
        'date: 2026-04-11\nkind: KNIFE\ncaption: ""\nid: x\n',
        also=["id"],
    )
    name, caption = taken.required_text("name"), taken.text("caption")
    assert name is not None and name.value == "tassels"
    assert caption is not None and caption.value == ""
    assert [t.value for t in taken.texts("along")] == ["hem of back"]
    assert [plain(n) for n in taken.items("keep")] == ["a", "b"]
    assert taken.yes_no("in the round") is True
    assert taken.yes_no("on the fold", default=True) is True
    assert plain(taken.mapping("ends")) == {"first": "2 cm"}
    assert taken.date("date") == datetime.date(2026, 4, 11)
    assert taken.choice("kind", ["knife", "box"]) == "knife"
    assert (taken.node("x"), taken.text("x"), taken.mapping("x"), taken.date("x")) == (None,) * 4
    assert (taken.items("x"), taken.texts("x"), taken.choice("x", ["y"])) == ([], [], None)
    taken.finish()
    assert told(faults) == ""


def test_every_fault_of_the_fields_is_told() -> None:
    taken, faults = fields(
        "along: {hem: back}\nnote:\nround: true\nkind: knif\ndate: 2026-02-30\n"
        "marks:\n  - notch: 3 cm\n  -\nends: 2 cm\nevry: 4 cm\n"
    )
    taken.required_text("name")
    taken.text("along")
    taken.text("note")
    taken.yes_no("round")
    taken.choice("kind", ["knife", "box"])
    taken.date("date")
    taken.texts("marks")
    taken.mapping("ends")
    taken.text("every")
    taken.finish()
    assert told(faults) == (
        "post.md:1:1: a spacing without `name` [data.missing-key]\n"
        "  hint: add a line `name: …`\n"
        "post.md:1:8: `along` takes text, and this is a mapping [data.wrong-shape]\n"
        "  hint: write `along: …` with one value\n"
        "post.md:2:6: `note` is empty [data.empty]\n"
        "  hint: write a value, or take the line out\n"
        "post.md:3:8: `round` cannot be `true` [data.not-a-choice]\n"
        "  hint: choose one of: `yes`, `no`\n"
        "post.md:4:7: `kind` cannot be `knif` [data.not-a-choice]\n"
        "  hint: did you mean `knife`? choose one of: `knife`, `box`\n"
        "post.md:5:7: `date` is not a date [data.wrong-shape]\n"
        "  hint: write year, month and day as in 2026-04-11\n"
        "post.md:7:5: `marks` takes text, and this is a mapping [data.wrong-shape]\n"
        "  hint: put quotes around text that holds a colon\n"
        "post.md:8:4: an item of `marks` is empty [data.empty]\n"
        "  hint: write a value, or take the line out\n"
        "post.md:9:7: `ends` takes a mapping, and this is a single value [data.wrong-shape]\n"
        "  hint: write `ends: {name: value}`, or one `name: value` to a line, indented below `ends:`\n"
        "post.md:10:1: a spacing has no key `evry` [data.unknown-key]\n"
        "  hint: did you mean `every`? a spacing takes `along`, `date`, `ends`, `every`, `kind`, `marks`, "
        "`name`, `note`, `round`\n"
    )
