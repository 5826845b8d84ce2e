"""Pictures for feeds and link previews, and patterns to download: made once, at addresses that lead to them."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import pytest
from PIL import Image
from pypdf import PdfReader

from paper_help import BAG
from site_help import broken_links, build, post, told, tree, write

ATOM = "{http://www.w3.org/2005/Atom}"

pytestmark = pytest.mark.timeout(60)  # whole sites with all their pictures
SITE = "title: Tidewater Mending Room\naddress: https://tidewater.example/workshop\n"
RED = '<rect x="-10" width="80" height="50" fill="#f00"/>'
PICTURE = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="-10 0 80 50">{RED}</svg>'
FILES = {
    "chalkfold.yml": SITE,
    "posts/bag.md": BAG.replace("date:", "patterns: yes\nsummary: Two sides & a strap.\ndate:"),
    "posts/hem.md": post("A hem & a half", day="2026-05-01", cover="hem.svg"),
    "posts/plain.md": post("Plain", day="2026-03-01"),
    "photos/hem.svg": PICTURE,
}


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    site = write(tmp_path_factory.mktemp("site"), FILES)
    assert told(build(site).faults) == []
    return site / "public"


def opened(path: Path) -> Image.Image:
    return Image.open(BytesIO(path.read_bytes()))


class TestPreviews:
    def test_a_post_with_a_cover_has_a_picture_of_the_usual_size(self, out: Path) -> None:
        page = (out / "posts/hem.html").read_text("utf-8")
        (address,) = re.findall(r'<meta property="og:image" content="([^"]+)">', page)
        assert address == "https://tidewater.example/workshop/pictures/hem-cover.png"
        picture = opened(out / "pictures/hem-cover.png").convert("RGB")
        assert picture.size == (1200, 630)
        assert picture.getpixel((1150, 315)) == (255, 0, 0)
        assert picture.crop((40, 40, 500, 590)).convert("L").getextrema()[0] < 40  # the title is there

    def test_without_a_cover_it_is_the_first_drawing(self, out: Path) -> None:
        assert opened(out / "pictures/bag-cover.png").size == (1200, 630)

    def test_without_either_there_is_none(self, out: Path) -> None:
        assert "og:image" not in (out / "posts/plain.html").read_text("utf-8")

    def test_a_photograph_is_taken_as_it_is(self, tmp_path: Path) -> None:
        site = write(tmp_path, {"chalkfold.yml": SITE, "posts/a.md": post("A", cover="a.jpg"), "photos/a.jpg": "any"})
        assert told(build(site).faults) == []
        assert 'content="https://tidewater.example/workshop/photos/a.jpg"' in (site / "public/posts/a.html").read_text()

    def test_a_site_without_an_address_needs_no_pictures(self, tmp_path: Path) -> None:
        site = write(tmp_path, {name: text for name, text in FILES.items() if name != "chalkfold.yml"})
        assert told(build(site).faults) == []
        assert not (site / "public/pictures").exists() and not (site / "public/feed.xml").exists()
        assert (site / "public/patterns").exists()

    @pytest.mark.parametrize("text", ["<svg", "no picture", '<svg xmlns="http://www.w3.org/2000/svg"><rect width="x"'])
    def test_a_damaged_cover_is_told_where_it_is_named(self, text: str, tmp_path: Path) -> None:
        site = write(tmp_path, {**FILES, "photos/hem.svg": text})
        report = build(site)
        (fault,) = report.faults
        assert fault.span.place == "posts/hem.md:4:8"
        assert fault.message.startswith("this picture cannot be drawn: ")
        assert "plain SVG" in fault.hint
        assert not (site / "public").exists()

    def test_a_cover_fetches_nothing_from_anywhere(self, tmp_path: Path) -> None:
        secret = tmp_path / "secret.svg"
        secret.write_text(PICTURE)
        link = f'<image href="{secret.as_uri()}" width="80" height="50"/>'
        text = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 80 50">{link}</svg>'
        site = write(tmp_path / "site", {**FILES, "photos/hem.svg": text})
        assert told(build(site).faults) == []
        assert opened(site / "public/pictures/hem-cover.png").convert("RGB").getpixel((1150, 315)) != (255, 0, 0)


class TestFeed:
    def test_newest_first_with_summary_and_drawings(self, out: Path) -> None:
        feed = ElementTree.fromstring((out / "feed.xml").read_bytes())
        entries = feed.findall(f"{ATOM}entry")
        assert [each.findtext(f"{ATOM}title") for each in entries] == [
            "A hem & a half",
            "A bag from a tablecloth",
            "Plain",
        ]
        bag = entries[1]
        assert bag.findtext(f"{ATOM}summary") == "Two sides & a strap."
        content = bag.findtext(f"{ATOM}content") or ""
        assert "<p>Two sides &amp; a strap.</p>" in content
        addresses = re.findall(r'<img src="https://tidewater.example/workshop/([^"]+)"', content)
        assert addresses == ["pictures/bag-bag-side.png", "pictures/bag-half-moon.png"]
        assert all(opened(out / each).width == 1280 for each in addresses)
        assert 'alt="Half moon, half of the piece, every size"' in content

    def test_it_holds_what_a_feed_must(self, out: Path) -> None:
        """RFC 4287: id, title and updated of the feed and of each entry, absolute and in RFC 3339; an author."""
        feed = ElementTree.fromstring((out / "feed.xml").read_bytes())
        for each in (feed, *feed.findall(f"{ATOM}entry")):
            assert (each.findtext(f"{ATOM}id") or "").startswith("https://tidewater.example/workshop/")
            assert re.fullmatch(r"\d{4}-\d\d-\d\dT00:00:00Z", each.findtext(f"{ATOM}updated") or "")
            assert each.findtext(f"{ATOM}title")
        assert feed.findtext(f"{ATOM}author/{ATOM}name") == "Tidewater Mending Room"
        assert feed.findtext(f"{ATOM}updated") == "2026-05-01T00:00:00Z"

    def test_every_page_leads_to_it(self, out: Path) -> None:
        link = '<link rel="alternate" type="application/atom+xml" href="{}feed.xml" title="Tidewater Mending Room">'
        assert link.format("") in (out / "index.html").read_text("utf-8")
        assert link.format("../") in (out / "posts/bag.html").read_text("utf-8")


class TestPatterns:
    def test_a_post_that_asks_for_it_lists_a_file_for_each_size(self, out: Path) -> None:
        page = (out / "posts/bag.html").read_text("utf-8")
        found = re.findall(
            r'<a href="\.\./(patterns/[^"]+)">([^<]+)</a> \(PDF for A4, \d+ kB, numbers [0-9a-f]{4} [0-9a-f]{4}\)', page
        )
        assert found == [
            ("patterns/bag-small-A4.pdf", "Size small"),
            ("patterns/bag-large-A4.pdf", "Size large"),
        ]
        assert all("Pattern at full size" in PdfReader(out / name).pages[0].extract_text() for name, _ in found)
        assert [each for each in broken_links(out) if "404" not in each] == []

    def test_a_post_that_does_not_has_none(self, out: Path) -> None:
        assert "patterns" not in (out / "posts/hem.html").read_text("utf-8")

    def test_asking_without_a_draft_is_a_fault_at_that_line(self, tmp_path: Path) -> None:
        report = build(write(tmp_path, {"posts/a.md": post("A", patterns="yes")}))
        (fault,) = report.faults
        assert fault.span.place == "posts/a.md:4:11"
        assert "nothing is drafted" in fault.message and "take `patterns` out" in fault.hint

    def test_it_takes_yes_or_no(self, tmp_path: Path) -> None:
        (fault,) = build(write(tmp_path, {"posts/a.md": post("A", patterns="a4")})).faults
        assert fault.message == "`patterns` cannot be `a4`"


class TestKept:
    def test_a_second_build_renders_nothing_and_is_the_same_to_the_byte(self, tmp_path: Path) -> None:
        site = write(tmp_path, FILES)
        first = build(site)
        before = tree(site / "public")
        assert first.rendered == 6  # two covers, two drawings, two sizes of the pattern
        second = build(site)
        assert second.rendered == 0
        assert tree(site / "public") == before

    def test_from_several_processes_the_site_is_the_same(self, tmp_path: Path, out: Path) -> None:
        site = write(tmp_path, FILES)
        report = build(site, workers=2)
        assert (told(report.faults), report.rendered) == ([], 6)
        assert tree(site / "public") == tree(out)

    def test_a_damaged_file_is_made_again(self, tmp_path: Path) -> None:
        site = write(tmp_path, FILES)
        build(site)
        before = tree(site / "public")
        for path in (site / ".chalkfold").glob("*.*"):
            path.write_bytes(b"damaged")
        assert build(site).rendered == 6
        assert tree(site / "public") == before
