"""A folder of posts becomes a folder of pages; every fault of the site is told in one go."""

from __future__ import annotations

from pathlib import Path

import pytest

from chalkfold.diagnostics import Code
from site_help import broken_links, build, built, page, post, told, tree, write

SKIRT = post("Half-circle skirt", tags="[skirt, bedding]", summary="One cut, one seam.")
APRON = post("Fringed apron", day="2026-05-02", tags="[Bedding]")


def test_posts_stand_in_posts_and_pages_at_the_top(tmp_path: Path) -> None:
    out = built(tmp_path, {"posts/Half circle.md": SKIRT, "pages/about.md": page("About us")})
    assert sorted(name for name in tree(out) if name.endswith(".html")) == [
        "404.html",
        "about.html",
        "index.html",
        "posts/half-circle.html",
        "tags/bedding.html",
        "tags/skirt.html",
    ]
    skirt = (out / "posts/half-circle.html").read_text("utf-8")
    assert "<title>Half-circle skirt · Tidewater Mending Room</title>" in skirt
    assert 'content="One cut, one seam."' in skirt
    assert '<time datetime="2026-04-11">11 April 2026</time>' in skirt
    assert 'href="../about.html"' in skirt


def test_the_front_page_lists_posts_newest_first_after_its_introduction(tmp_path: Path) -> None:
    front = page("Welcome", "We mend on *Mondays*.")
    out = built(tmp_path, {"posts/skirt.md": SKIRT, "posts/apron.md": APRON, "pages/index.md": front})
    index = (out / "index.html").read_text("utf-8")
    assert "<h1>Welcome</h1>" in index
    assert index.index("<em>Mondays</em>") < index.index("posts/apron.html") < index.index("posts/skirt.html")


def test_a_tag_is_one_tag_whatever_its_capitals(tmp_path: Path) -> None:
    out = built(tmp_path, {"posts/skirt.md": SKIRT, "posts/apron.md": APRON})
    bedding = (out / "tags/bedding.html").read_text("utf-8")
    assert "Fringed apron" in bedding
    assert "Half-circle skirt" in bedding
    skirt = (out / "tags/skirt.html").read_text("utf-8")
    assert "Fringed apron" not in skirt


def test_what_a_writer_types_is_escaped_everywhere(tmp_path: Path) -> None:
    out = built(tmp_path, {"posts/a.md": post("'Hems & <seams>'", tags="['<b>']", summary="'\"x\" <i>'")})
    for name, data in tree(out).items():
        if name.endswith(".html"):
            assert b"<seams>" not in data, name
            assert b"<b>" not in data, name
            assert b"<i>" not in data, name


def test_posts_held_back_or_dated_later_are_left_out(tmp_path: Path) -> None:
    site = write(
        tmp_path,
        {
            "posts/skirt.md": SKIRT,
            "posts/later.md": post("Later", day="2026-06-02", tags="[later]"),
            "posts/held.md": post("Held", published="no"),
        },
    )
    assert build(site).pages == 4  # the front page, a post and its two tags
    assert not {"posts/later.html", "posts/held.html", "tags/later.html"} & set(tree(site / "public"))
    assert build(site, unpublished=True).pages == 7
    assert b"Not published" in (site / "public/posts/later.html").read_bytes()
    assert b"Not published" not in (site / "public/posts/skirt.html").read_bytes()


def test_links_and_pictures_are_found_from_the_post_or_the_site(tmp_path: Path) -> None:
    ways = "[a](../apron.md) [b](posts/apron.md#hem) [c](/pages/about.md) [d](index.html) [e](/tags/skirt.html)"
    pictures = "![f](../../photos/my%20hem.jpg) ![g](photos/naïve.jpg) ![h](/photos/my%20hem.jpg) [i](/)"
    outside = "[j](https://example.org/a.md) [k](mailto:a@example.org) [l](#hem)"
    out = built(
        tmp_path,
        {
            "posts/2026/skirt.md": post("Skirt", f"{ways} {pictures} {outside}", tags="[skirt]"),
            "posts/apron.md": APRON.replace("Text.", "![cover](../photos/my%20hem.jpg)"),
            "pages/about.md": page("About", "[skirt](../posts/2026/skirt.md)"),
            "photos/my hem.jpg": "a picture",
            "photos/naïve.jpg": "another",
        },
    )
    skirt = (out / "posts/skirt.html").read_text("utf-8")
    for kept in ("https://example.org/a.md", "mailto:a@example.org", "#hem", "apron.html#hem"):
        assert f'href="{kept}"' in skirt
    assert 'src="../photos/my%20hem.jpg"' in skirt
    assert "posts/skirt.html" in (out / "about.html").read_text("utf-8")
    assert broken_links(out) == []


def test_the_pages_work_in_any_folder(tmp_path: Path) -> None:
    """No address within the site starts at a server's root, but for the page shown for a missing address."""
    site = {"posts/skirt.md": SKIRT, "chalkfold.yml": "title: Room\naddress: https://example.org/sub/\n"}
    out = built(tmp_path, site)
    for name, data in tree(out).items():
        if name.endswith(".html"):
            assert (b'="/' in data) == (name == "404.html"), name
    assert 'href="/sub/static/calico.css"' in (out / "404.html").read_text("utf-8")
    assert 'rel="canonical" href="https://example.org/sub/posts/skirt.html"' in (out / "posts/skirt.html").read_text(
        "utf-8"
    )


def test_a_cover_is_a_picture_by_its_name(tmp_path: Path) -> None:
    out = built(tmp_path, {"posts/a.md": post("A", cover="hem.jpg", tags="[t]"), "photos/hem.jpg": "x"})
    assert '<img src="photos/hem.jpg"' in (out / "index.html").read_text("utf-8")
    assert '<img src="../photos/hem.jpg"' in (out / "tags/t.html").read_text("utf-8")


FAULTS = {
    "a picture with another spelling": (
        {"posts/a.md": post("A", "![x](../photos/Hem.jpg)"), "photos/hem.jpg": "x"},
        "posts/a.md:6:6: there is no picture ../photos/Hem.jpg [site.link]",
        "did you mean ../photos/hem.jpg?",
    ),
    "a link to a post that is not there": (
        {"posts/a.md": post("A", "[x](apro.md)"), "posts/apron.md": APRON},
        "posts/a.md:6:5: there is no page apro.md [site.link]",
        "did you mean apron.md?",
    ),
    "a link to a post that is not out": (
        {"posts/a.md": post("A", "[x](b.md)"), "posts/b.md": post("B", published="no")},
        "posts/a.md:6:5: b.md is not published yet [site.link]",
        "take the link out until that post is published, or build with --unpublished",
    ),
    "a picture outside the site": (
        {"posts/a.md": post("A", "![x](../../secret.jpg)")},
        "posts/a.md:6:6: ../../secret.jpg leads out of the site's folder [file.outside-the-site]",
        "keep the picture in the site's folder and write the way from this post to it",
    ),
    "a cover that is not there": (
        {"posts/a.md": post("A", cover="hem.jpg")},
        "posts/a.md:4:8: there is no picture hem.jpg [site.link]",
        "put the picture into photos/ and write ../photos/NAME.jpg",
    ),
    "two posts at one address": (
        {"posts/half circle.md": SKIRT, "posts/other.md": post("Other", address="half-circle")},
        "posts/other.md:4:10: two pages would stand at posts/half-circle.html [file.same-address]",
        "give it another line `address: …` in its front matter",
    ),
    "an address that is none": (
        {"posts/a.md": post("A", address="Half Circle")},
        "posts/a.md:4:10: `Half Circle` cannot be an address: small letters, figures and hyphens only "
        "[data.wrong-shape]",
        "write `address: half-circle`",
    ),
    "a file name without letters": (
        {"posts/___.md": SKIRT},
        "posts/___.md:1:1: the file's name gives no address, for it holds neither letter nor figure [data.missing-key]",
        "write `address: half-circle-skirt`",
    ),
    "a page in the place of the lost-page notice": (
        {"pages/404.md": page("Lost")},
        "pages/404.md:1:1: 404.html is the page for addresses that do not exist, which the theme makes "
        "[file.same-address]",
        "give it another line `address: …` in its front matter",
    ),
    "no front matter": (
        {"posts/a.md": "# Skirt\n"},
        "posts/a.md:1:1: no front matter [file.front-matter]",
        "begin the file with `---`, a line `title: …` and another `---`",
    ),
    "no date": (
        {"posts/a.md": page("A")},
        "posts/a.md:2:1: front matter without `date` [data.missing-key]",
        "add a line `date: …`",
    ),
    "a key nobody knows": (
        {"posts/a.md": post("A", sumary="x")},
        "posts/a.md:4:1: front matter has no key `sumary` [data.unknown-key]",
        "did you mean `summary`? front matter takes `address`, `cover`, `date`, `patterns`, `published`, `summary`, "
        "`tags`, `title`",
    ),
    "a tag without letters": (
        {"posts/a.md": post("A", tags="[ok, '!!']")},
        "posts/a.md:4:13: `!!` cannot be a tag, for it holds neither letter nor figure [data.wrong-shape]",
        "write a word, as in `tags: [bedding]`",
    ),
    "a theme outside the site": (
        {"posts/a.md": SKIRT, "chalkfold.yml": "title: Room\ntheme: ../../x\n"},
        "chalkfold.yml:2:8: there is no theme ../../x [site.theme]",
        "write one of: calico; or the name of a folder in themes/",
    ),
    "a theme with another spelling": (
        {"posts/a.md": SKIRT, "chalkfold.yml": "title: Room\ntheme: calicoo\n"},
        "chalkfold.yml:2:8: there is no theme calicoo [site.theme]",
        "did you mean calico?",
    ),
}


@pytest.mark.parametrize("case", FAULTS)
def test_a_fault_says_where_it_is_and_what_to_write(tmp_path: Path, case: str) -> None:
    files, message, hint = FAULTS[case]
    report = build(write(tmp_path, files))
    assert told(report.faults) == [message]
    assert [fault.hint for fault in report.faults] == [hint]
    assert report.pages == 0
    assert not (tmp_path / "public").exists()


def test_all_faults_of_a_site_are_told_in_one_go(tmp_path: Path) -> None:
    site = write(
        tmp_path,
        {
            "chalkfold.yml": "title: Room\ntheme: linen\n",
            "posts/a.md": page("No date", "[x](nowhere.md)"),
            "posts/b.md": post("B", "{= no such number }\n"),
            "pages/c.md": "no front matter",
        },
    )
    assert {fault.span.place for fault in build(site).faults} == {
        "chalkfold.yml:2:8",
        "pages/c.md:1:1",
        "posts/a.md:2:1",
        "posts/a.md:5:5",
        "posts/b.md:6:4",
    }


def test_a_post_with_a_fault_of_its_own_is_no_broken_link(tmp_path: Path) -> None:
    files = {"posts/a.md": post("A", "[b](b.md)"), "posts/b.md": page("No date")}
    assert [fault.code for fault in build(write(tmp_path, files)).faults] == [Code.DATA_MISSING_KEY]


def test_faults_leave_the_last_good_site(tmp_path: Path) -> None:
    out = built(tmp_path, {"posts/skirt.md": SKIRT})
    before = tree(out)
    write(tmp_path, {"posts/apron.md": page("No date")})
    assert build(tmp_path).pages == 0
    assert tree(out) == before


@pytest.mark.parametrize("kind", ["posts/a.md", "photos/a.jpg", "photos"])
def test_a_symbolic_link_out_of_the_site_is_refused(tmp_path: Path, kind: str) -> None:
    secret = tmp_path / "secret"
    secret.mkdir()
    (secret / "a.md").write_text(SKIRT)
    site = write(tmp_path / "site", {"posts/skirt.md": SKIRT})
    (site / kind).parent.mkdir(exist_ok=True)
    (site / kind).symlink_to(secret / "a.md" if "." in kind else secret)
    assert told(build(site).faults) == [
        f"{kind}:1:1: this is a link that leads out of the site [file.outside-the-site]"
    ]


def test_a_link_to_itself_is_told_as_such(tmp_path: Path) -> None:
    site = write(tmp_path, {"posts/skirt.md": SKIRT})
    (site / "posts/loop.md").symlink_to("loop.md")
    assert told(build(site).faults) == ["posts/loop.md:1:1: this is a link that leads back to itself [file.missing]"]


def test_keys_of_another_generator_are_left_to_it(tmp_path: Path) -> None:
    built(tmp_path, {"posts/a.md": post("A", layout="wide", subtitle="with pockets", updated="2026-05-01")})


@pytest.mark.parametrize(("slip", "meant"), [("titel", "title"), ("publish", "published"), ("Tag", "tags")])
def test_a_key_that_is_nearly_one_of_ours_is_a_slip(tmp_path: Path, slip: str, meant: str) -> None:
    (fault,) = build(write(tmp_path, {"posts/a.md": post("A", **{slip: "no"})})).faults
    assert fault.message == f"front matter has no key `{slip}`"
    assert fault.hint.startswith(f"did you mean `{meant}`?")


def test_the_sites_own_theme_comes_before_the_shipped_one_file_by_file(tmp_path: Path) -> None:
    out = built(
        tmp_path,
        {
            "posts/skirt.md": SKIRT,
            "themes/calico/templates/404.html": "Gone, {{ site.title }}\n",
            "themes/calico/static/sizes.css": "/* ours */",
        },
    )
    assert (out / "404.html").read_text("utf-8") == "Gone, Tidewater Mending Room\n"
    assert (out / "static/sizes.css").read_text("utf-8") == "/* ours */"
    assert (out / "static/calico.css").stat().st_size > 100
    assert "Half-circle skirt" in (out / "posts/skirt.html").read_text("utf-8")


@pytest.mark.parametrize(
    ("template", "place", "why"),
    [
        ("one\n{{ page.titel }}\n", 2, "has no attribute 'titel'"),
        ("one\ntwo {% if %}\n", 2, "Expected an expression"),
        ("one\ntwo\n{{ 1 / 0 }}\n", 3, "division by zero"),
        ("{% extends 'nothing.html' %}\n", 1, "nothing.html cannot be filled in: it is missing"),
    ],
)
def test_a_template_that_fails_is_told_at_its_line(tmp_path: Path, template: str, place: int, why: str) -> None:
    files = {"posts/a.md": SKIRT, "posts/b.md": APRON, "themes/calico/templates/post.html": template}
    (fault,) = build(write(tmp_path, files)).faults
    assert fault.code is Code.SITE_THEME
    assert fault.span.source.line_and_column(fault.span.start) == (place, 1)
    assert why in fault.message


def test_two_processes_and_one_write_the_same_bytes(tmp_path: Path) -> None:
    files = {f"posts/p{n}.md": post(f"Post {n}", f"[next](p{(n + 1) % 70}.md)", tags="[t]") for n in range(70)}
    site = write(tmp_path, files)
    assert build(site, workers=1).pages == 72
    alone = tree(site / "public")
    assert build(site, workers=2).pages == 72
    assert tree(site / "public") == alone


def test_two_processes_and_one_tell_the_same_faults(tmp_path: Path) -> None:
    files = {f"posts/p{n}.md": post(f"Post {n}", "[x](nowhere.md)") for n in range(8)}
    site = write(tmp_path, files)
    assert told(build(site, workers=2).faults) == told(build(site, workers=1).faults) != []


def test_the_pages_do_not_depend_on_times_or_on_the_order_of_the_disk(tmp_path: Path) -> None:
    files = {"posts/skirt.md": SKIRT, "posts/apron.md": APRON, "photos/hem.jpg": "x"}
    first = tree(built(tmp_path / "one", files))
    second = tree(built(tmp_path / "two", dict(reversed(files.items()))))
    assert first == second


def test_a_site_without_posts_is_a_front_page(tmp_path: Path) -> None:
    out = built(tmp_path, {})
    assert "Tidewater Mending Room" in (out / "index.html").read_text("utf-8")


def test_a_full_disk_is_a_fault_and_leaves_the_last_site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = built(tmp_path, {"posts/skirt.md": SKIRT})
    before = tree(out)
    write(tmp_path, {"posts/skirt.md": SKIRT.replace("One cut", "Two cuts")})

    def full(_self: Path, _data: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    (fault,) = build(tmp_path).faults
    assert fault.message == "this cannot be written: no space left on device"
    assert tree(out) == before
