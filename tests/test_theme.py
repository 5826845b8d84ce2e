"""The theme: colours that can be read, forty sizes, templates that fill in, nothing fetched from elsewhere."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import html5lib
import pytest

from chalkfold.diagnostics import Code, Faults, Source, Span
from chalkfold.draw.svg import FAINT
from chalkfold.site.theme import find_theme
from show_help import ALL_VIEWS, CALICO, SITE, page, rendered, shower

LOOK = (CALICO / "static" / "calico.css").read_text("utf-8")
SIZES = (CALICO / "static" / "sizes.css").read_text("utf-8")
DRAWINGS = (CALICO / "static" / "drawings.css").read_text("utf-8")
SCRIPT = (CALICO / "static" / "calico.js").read_text("utf-8")
POST = {
    "title": "Half-circle skirt",
    "url": "posts/skirt.html",
    "summary": "One cut, one seam.",
    "date": "11 April 2026",
    "iso": "2026-04-11",
    "cover": "photos/skirt.jpg",
}
TAG = {"name": "skirt", "url": "tags/skirt.html"}
PAGES = {
    "post.html": {},
    "page.html": {"here": "guide.html", "root": ""},
    "index.html": {"here": "index.html", "root": "", "posts": [POST, POST | {"cover": ""}], "tags": [TAG]},
    "tag.html": {"here": "tags/skirt.html", "tag": TAG, "posts": [POST]},
    "404.html": {"here": "", "root": "/workshop/"},
}


def colours(scheme: str) -> dict[str, str]:
    """The colours of ``light`` or ``dark``: the first and the second list of :root."""
    lists = re.findall(r":root \{(.*?)\}", LOOK, re.DOTALL)
    found = dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6})", lists[0]))
    return found if scheme == "light" else found | dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6})", lists[1]))


def contrast(one: str, other: str) -> float:
    """The contrast ratio of WCAG 2.2 (relative luminance, definition of the standard)."""

    def luminance(colour: str) -> float:
        parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def laid_over(one: str, ground: str, opacity: float) -> str:
    """What is seen of a colour that lets its ground through."""
    parts = [[int(colour[at : at + 2], 16) for at in (1, 3, 5)] for colour in (one, ground)]
    seen = [round(opacity * over + (1 - opacity) * under) for over, under in zip(*parts, strict=True)]
    return "#" + "".join(f"{part:02x}" for part in seen)


class TestColours:
    def test_the_formula_agrees_with_the_standard(self) -> None:
        assert contrast("#000000", "#ffffff") == pytest.approx(21)
        assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)  # the well-known lightest grey

    @pytest.mark.parametrize("scheme", ["light", "dark"])
    def test_every_text_can_be_read(self, scheme: str) -> None:
        found = colours(scheme)
        grounds = {
            "paper": ("ink", "soft", "mark", "warn"),
            "card": ("ink", "soft", "mark", "warn"),
            "warn-card": ("ink", "soft", "warn", "mark"),
            "mark": ("on-mark",),
        }
        for ground, texts in grounds.items():
            for each in texts:
                assert contrast(found[each], found[ground]) >= 4.5, f"{each} on {ground}"

    @pytest.mark.parametrize("scheme", ["light", "dark"])
    def test_edges_of_what_can_be_used_are_seen(self, scheme: str) -> None:
        found = colours(scheme)
        for ground in ("paper", "card"):
            assert contrast(found["edge"], found[ground]) >= 3

    @pytest.mark.parametrize("scheme", ["light", "dark"])
    def test_lines_of_drawings_are_seen(self, scheme: str) -> None:
        """Faint lines too: what is left of the ink lies over the paper."""
        found = colours(scheme)
        said = map(float, re.findall(r"stroke-opacity: ([.\d]+)", LOOK + SIZES + DRAWINGS))
        for opacity in (FAINT, *said):
            assert contrast(laid_over(found["ink"], found["paper"], opacity), found["paper"]) >= 3

    def test_colours_stand_in_one_place(self) -> None:
        screen = LOOK[LOOK.index("/* Page */") : LOOK.index("@media print")]
        assert not re.findall(r"#[0-9a-fA-F]{3,8}\b", screen + SIZES)


class TestSizes:
    def test_each_of_forty_sizes_has_its_two_rules(self) -> None:
        """One rule hides what belongs to other sizes, the other marks the column of this one."""
        for number in range(40):
            own, chosen = ".bar:not(.result .bar)", f".z{number}:checked"
            hides = (
                f":root:has({own} {chosen}) .z:not(.z{number}, .result .z), .result:has({chosen}) .z:not(.z{number})"
            )
            column = f"td:nth-child({number + 2})"
            marks = f":root:has({own} {chosen}) .all:not(.result .all) {column}, .result:has({chosen}) .all {column}"
            for rule in (hides, marks):
                assert len(re.findall(re.escape(rule) + r"(?:,| \{)\n?", SIZES)) == 1, rule
        assert ".z40:checked" not in SIZES

    def test_paper_shows_the_size_and_not_the_bar(self) -> None:
        """In sizes.css, which is read last: the same rules in calico.css would lose against its own."""
        assert re.search(r"@media print \{\s+\.bar \{ display: none; \}\s+\.for-print \{ display: block;", SIZES)
        assert SIZES.index("@media print") > SIZES.index(".for-print { display: none; }")

    def test_classes_of_the_page_are_those_of_the_style_sheets(self) -> None:
        write = shower()
        html = "\n".join(write.view(view) for view in ALL_VIEWS)
        used = {name for names in re.findall(r'class="([^"]+)"', html) for name in names.split()}
        plain = {"sizes", "units", "finished", "need", "u-both", "side"}  # no style of their own
        for name in used - plain:
            assert re.search(rf"\.{re.escape(name)}\b", LOOK + SIZES), name


class TestTemplates:
    @pytest.mark.parametrize("template", PAGES)
    def test_every_page_fills_in_as_sound_markup(self, template: str) -> None:
        html = rendered(template, **PAGES[template])
        document = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(html)
        assert document.get("lang") == "en-GB"
        assert len(document.findall(".//h1")) == 1
        assert document.find(".//main").get("id") == "main"
        assert document.find(".//a").get("href") == "#main"
        assert document.find(".//head/title").text.endswith("Tidewater Mending Room")

    @pytest.mark.parametrize("template", PAGES)
    def test_nothing_is_fetched_from_elsewhere(self, template: str) -> None:
        html = rendered(template, **PAGES[template])
        fetched = re.findall(r'<(?:link rel="stylesheet" href|script src|img src)="([^"]+)"', html)
        root = str(PAGES[template].get("root", "../"))
        own = ("calico.css", "sizes.css", "drawings.css", "calico.js")
        assert fetched[:4] == [f"{root}static/{name}" for name in own]
        assert all(each.startswith(root) and "//" not in each for each in fetched)

    def test_style_sheets_and_script_name_no_address(self) -> None:
        for each in (LOOK, SIZES, DRAWINGS, SCRIPT):
            assert not re.search(r"url\(|@import|//[a-z]+\.|fetch\(|import\(", each)

    def test_what_the_writer_typed_is_escaped(self) -> None:
        bad = '"><script>alert(1)</script>'
        given = page("", title=bad, summary=bad, tags=[{"name": bad, "url": "tags/x.html"}])
        site = SITE | {"title": bad, "nav": [{"title": bad, "url": "x.html"}]}
        html = rendered("post.html", page=given, site=site)
        assert "<script>alert" not in html
        assert "&lt;script&gt;alert" in html

    def test_a_bare_post_leaves_nothing_empty(self) -> None:
        html = rendered(
            "post.html",
            page=page("", summary="", date="", iso="", tags=[], notices={"recent": [], "earlier": []}),
            site=SITE | {"nav": []},
        )
        for left_out in ("<nav", "lead", "<time", "tags", 'name="description"'):
            assert left_out not in html

    def test_the_menu_marks_where_the_reader_is(self) -> None:
        html = rendered("page.html", here="guide.html", root="")
        assert '<a href="guide.html" aria-current="page">Guide</a>' in html
        assert html.count("aria-current") == 1

    def test_a_page_that_is_held_back_says_so(self) -> None:
        assert "Not published." in rendered("post.html", page=page("", unpublished=True))
        assert "Not published." not in rendered("post.html")

    @pytest.mark.parametrize("template", PAGES)
    def test_each_template_says_what_it_takes(self, template: str) -> None:
        assert (CALICO / "templates" / template).read_text("utf-8").startswith("{#-")


@pytest.mark.parametrize("linked", ["themes", "themes/own", "themes/own/static", "themes/own/static/own.css"])
def test_a_theme_of_the_site_does_not_lead_out_of_it(linked: str, tmp_path: Path) -> None:
    site, outside = tmp_path / "site", tmp_path / "outside"
    for folder in (site, outside):
        place = folder / "themes/own/static/own.css"
        place.parent.mkdir(parents=True)
        place.write_text("p { color: inherit }\n", encoding="utf-8")
    within = site / linked
    shutil.rmtree(within) if within.is_dir() else within.unlink()
    within.symlink_to(outside / linked)
    faults = Faults()
    found = find_theme(site, "own", Span(Source("chalkfold.yml", ""), 0, 0), faults)
    assert found is None
    assert {fault.code for fault in faults} == {Code.FILE_OUTSIDE}
