"""What a preview shows: the pages of a build, and where something is wrong all that can be shown, with the fault."""

from __future__ import annotations

import random
import re
import shutil
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import pytest
from starlette.testclient import TestClient

import edits_help
from chalkfold.diagnostics import Code, Faults, Source
from chalkfold.markdown import is_boxed
from chalkfold.post import build_post
from chalkfold.preview.app import News, app_of
from chalkfold.preview.boxes import put_boxes
from chalkfold.preview.stand import Stand
from chalkfold.shipped import shipped
from chalkfold.show.markup import escape
from chalkfold.site.build import build_site
from chalkfold.trade import Shelf
from site_help import APRON_WITH_NUMBERS, TODAY, page, post, told, tree, write

BAG = post(
    "Tote bag",
    """Cut it out first.

```project
sizes: [small, large]
numbers:
  width: {small: 20 cm, large: 40 cm}
```

The bag is {= width } wide and {= no such number } deep.

```spacing
name: eyelets
along: width
every: nearest 5 cm
```

```spacing
name: loops
along: nothing known
every: nearest 5 cm
```

Turn it out.""",
)
SOUND = {
    "posts/apron.md": APRON_WITH_NUMBERS,
    "posts/second.md": post("Second", "See [the apron](apron.md) ![hem](../photos/hem.svg).", tags="[mending]"),
    "pages/index.md": page("Welcome", "Come *in*."),
    "pages/about.md": page("About us", "Words."),
    "photos/hem.svg": '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 8 5"><path d="M0 0h8"/></svg>',
}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return write(tmp_path / "site", SOUND)


def stand_of(site: Path) -> Stand:
    return Stand(site, lambda: TODAY)


def shown(stand: Stand, address: str) -> str:
    html = stand.page(address)
    assert html is not None, address
    return html


def bare(html: str) -> str:
    """A page without what the preview adds."""
    return re.sub(r'<link rel="stylesheet" href="/-preview/[^>]*>\n|<script src="/-preview/[^>]*></script>\n', "", html)


def boxes(html: str) -> list[str]:
    """The first line of each fault on a page."""
    return [found.split(" [")[0] for found in re.findall(r'<pre class="fault"[^>]*>(.*?)&#10;', html)]


@pytest.fixture
def client(site: Path) -> Iterator[TestClient]:
    yield TestClient(app_of(stand_of(site), News()), base_url="http://127.0.0.1:8000", follow_redirects=False)


class TestPages:
    def test_a_sound_site_is_shown_as_it_is_built(self, site: Path) -> None:
        stand = stand_of(site)
        assert not len(build_site(site, site.with_name("out"), today=TODAY, unpublished=True).faults)
        for name, data in tree(site.with_name("out")).items():
            if name.endswith(".html") and name != "404.html":  # which knows its own root in a preview
                assert bare(shown(stand, name)) == data.decode(), name
            elif "/" in name and not name.startswith("."):
                assert stand.file(name) == data, name

    def test_no_built_page_has_anything_of_the_preview(self, site: Path) -> None:
        build_site(site, site / "public", today=TODAY)
        assert [name for name, data in tree(site / "public").items() if b"-preview" in data] == []

    def test_nothing_is_written(self, site: Path) -> None:
        build_site(site, site / "public", today=TODAY)
        before = tree(site.parent)
        stand = stand_of(site)
        (site / "posts/apron.md").write_text(BAG, "utf-8")
        before["site/posts/apron.md"] = BAG.encode()
        stand.look(None)
        assert list(stand.rest())
        assert shown(stand, "posts/apron.html")
        assert tree(site.parent) == before

    def test_an_unpublished_post_is_shown_and_marked(self, site: Path) -> None:
        write(site, {"posts/later.md": post("Later", day="2026-07-01"), "posts/held.md": post("Held", published="no")})
        stand = stand_of(site)
        for address in ("posts/later.html", "posts/held.html"):
            assert "<strong>Not published.</strong>" in shown(stand, address)
        assert "Not published" not in shown(stand, "posts/apron.html")
        cards = shown(stand, "index.html").split('<li class="card">')
        assert [title for title in ("Later", "Held", "Fringed apron", "Second") for card in cards[1:]
                if f">{title}</a>" in card and "Not published" in card] == ["Later", "Held"]  # fmt: skip

    def test_patterns_are_listed_at_once_and_made_when_opened(self, site: Path) -> None:
        from test_again import BAG as DRAFTED

        write(site, {"posts/bag.md": DRAFTED.replace("date:", "patterns: yes\ndate:")})
        stand = stand_of(site)
        addresses = re.findall(r'href="\.\./(patterns/[^"]*)"', shown(stand, "posts/bag.html"))
        assert len(addresses) == 2
        assert all((stand.file(address) or b"").startswith(b"%PDF") for address in addresses)

    def test_the_feed_is_there_where_a_build_has_one(self, site: Path) -> None:
        assert stand_of(site).file("feed.xml") is None
        write(site, {"chalkfold.yml": "title: Room\naddress: https://room.example/workshop\n"})
        stand = stand_of(site)
        assert b"<title>Second</title>" in (stand.file("feed.xml") or b"")
        assert 'href="/index.html"' in stand.lost("no/such.html"), "here the site stands at the root"


class TestFaults:
    def test_each_stands_where_it_is_and_the_rest_is_rendered(self, site: Path) -> None:
        write(site, {"posts/bag.md": BAG})
        html = shown(stand_of(site), "posts/bag.html")
        assert [box.split(": ")[0] for box in boxes(html)] == ["posts/bag.md:14:35", "posts/bag.md:24:8"]
        parts = [
            "Cut it out first",
            "posts/bag.md:14:35",
            "The bag is",
            "20\N{NO-BREAK SPACE}cm",
            "?</span> deep",
            'class="view ruler"',
            "posts/bag.md:24:8",
            "Turn it out",
        ]
        places = [html.find(part) for part in parts]
        assert -1 not in places
        assert places == sorted(places), list(zip(parts, places, strict=True))
        assert html.count('class="view ruler"') == 1
        assert '<fieldset class="sizes"' in html, "sizes can be chosen all the same"

    def test_a_dead_link_is_told_before_its_paragraph(self, site: Path) -> None:
        write(site, {"posts/a.md": post("A", "First.\n\n[x](gone.md)\n\nLast.")})
        html = shown(stand_of(site), "posts/a.html")
        assert boxes(html) == ["posts/a.md:8:5: there is no page gone.md"]
        assert html.index("First.") < html.index("posts/a.md:8:5") < html.index(">x</a>") < html.index("Last.")

    def test_a_fault_in_a_book_stands_on_top_and_names_the_book(self, site: Path) -> None:
        text = "```project\nsizes: none\nbooks: [room]\n```\n\n{= ease }"
        write(site, {"posts/a.md": post("A", text), "books/room.yml": "numbers:\n  ease: four cm\n"})
        html = shown(stand_of(site), "posts/a.html")
        assert len(boxes(html)) == 1
        assert boxes(html)[0].startswith("books/room.yml:2:9: ")

    def test_a_broken_site_file_is_told_on_every_page(self, site: Path) -> None:
        stand = stand_of(site)
        (site / "chalkfold.yml").write_text("title: [\n", "utf-8")
        stand.look(frozenset({"chalkfold.yml"}))
        for address in ("index.html", "posts/apron.html", "about.html", "404.html"):
            assert boxes(shown(stand, address))[0].startswith("chalkfold.yml:2:1: ")
            assert ">Tidewater Mending Room</a>" in shown(stand, address), "what it said last still holds"
        (site / "chalkfold.yml").write_text("title: Mended\n", "utf-8")
        stand.look(frozenset({"chalkfold.yml"}))
        assert boxes(shown(stand, "index.html")) == []
        assert ">Mended</a>" in shown(stand, "index.html")

    def test_a_post_with_broken_front_matter_stays_where_it_was(self, site: Path) -> None:
        stand = stand_of(site)
        text = APRON_WITH_NUMBERS.replace("date: 2026", "date: summer").replace("title:", "address: my-apron\ntitle:")
        (site / "posts/apron.md").write_text(text, "utf-8")
        stand.look(frozenset({"posts/apron.md"}))
        html = shown(stand, "posts/apron.html")
        assert "<h1>Fringed apron</h1>" in html
        assert "20\N{NO-BREAK SPACE}cm" in html
        assert [box.split(" ")[0] for box in boxes(html)] == ["posts/apron.md:4:7:"]

    def test_a_post_that_was_never_sound_has_its_address_of_its_file(self, site: Path) -> None:
        write(site, {"posts/New idea.md": "no front matter\n"})
        assert boxes(shown(stand_of(site), "posts/new-idea.html")) == ["posts/New idea.md:1:1: no front matter"]

    def test_pages_lead_to_others_that_have_something_to_mend(self, site: Path) -> None:
        write(site, {"posts/bag.md": BAG})
        stand = stand_of(site)
        sign = stand.sign("about.html")
        assert list(stand.rest())
        assert stand.sign("about.html") != sign
        assert '<li><a href="posts/bag.html">posts/bag.md</a>: 2 faults</li>' in shown(stand, "about.html")
        assert "To mend on other pages" not in shown(stand, "posts/bag.html")

    def test_a_template_that_fails_is_told_and_the_shipped_one_is_used(self, site: Path) -> None:
        write(site, {"themes/calico/templates/post.html": "{{ nobody.knows }}\n"})
        stand = stand_of(site)
        html = shown(stand, "posts/apron.html")
        assert boxes(html)[0].startswith("themes/calico/templates/post.html:1:1: ")
        assert "<h1>Fringed apron</h1>" in html
        (site / "themes/calico/templates/post.html").write_text("<p>{{ page.title }}</p>\n", "utf-8")
        stand.look(frozenset({"themes/calico/templates/post.html"}))
        assert bare(shown(stand, "posts/apron.html")) == "<p>Fringed apron</p>\n"

    def test_where_the_program_itself_fails_the_other_pages_are_shown(
        self, site: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        from chalkfold.preview import bodies

        def failing(*_: object, **__: object) -> None:
            raise ZeroDivisionError("no way")

        stand = stand_of(site)
        shown(stand, "posts/second.html")
        monkeypatch.setattr(bodies, "build_post", failing)
        assert boxes(shown(stand, "posts/apron.html")) == [
            "posts/apron.md:1:1: chalkfold itself fails on this page (ZeroDivisionError: no way)"
        ]
        assert boxes(shown(stand, "posts/second.html")) == []
        assert list(stand.rest())
        assert {fault.code for fault in stand.faults()} == {Code.PREVIEW_FAILED}


class TestChanges:
    def test_only_what_owes_to_a_change_is_made_again(self, site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        from chalkfold.preview import bodies

        made: list[str] = []
        build_post = bodies.build_post

        def counted(source: object, *rest: object, **more: object) -> object:
            made.append(source.path)  # type: ignore[attr-defined]
            return build_post(source, *rest, **more)  # type: ignore[arg-type]

        monkeypatch.setattr(bodies, "build_post", counted)
        using = "```project\nsizes: none\nbooks: [room]\n```\n\n{= ease }"
        write(site, {"posts/top.md": post("Top", using), "books/room.yml": "numbers:\n  ease: 4 cm\n"})
        stand = stand_of(site)

        def after(*changed: str) -> list[str]:
            made.clear()
            stand.look(frozenset(changed))
            assert list(stand.rest())
            return sorted(made)

        assert len(after()) == 5
        assert after("posts/apron.md") == [], "it was saved as it was"
        (site / "posts/apron.md").write_text(APRON_WITH_NUMBERS.replace("80", "84"), "utf-8")
        assert after("posts/apron.md") == ["posts/apron.md"]
        (site / "books/room.yml").write_text("numbers:\n  ease: 5 cm\n", "utf-8")
        assert after("books/room.yml") == ["posts/top.md"]
        assert "5\N{NO-BREAK SPACE}cm" in shown(stand, "posts/top.html")
        (site / "photos/hem.svg").unlink()
        assert after("photos/hem.svg") == []
        assert boxes(shown(stand, "posts/second.html")) == [
            "posts/second.md:7:34: there is no picture ../photos/hem.svg"
        ]

    def test_a_browser_is_told_when_its_page_changes_and_only_then(self, site: Path) -> None:
        stand = stand_of(site)
        before = {address: stand.sign(address) for address in ("posts/apron.html", "about.html", "posts/new.html")}
        (site / "posts/apron.md").write_text(APRON_WITH_NUMBERS.replace("80", "84"), "utf-8")
        write(
            site, {"pages/new.md": page("New", "Text.").replace("title", "menu: no\ntitle"), "posts/new.md": post("N")}
        )
        stand.look(frozenset({"posts/apron.md", "posts/new.md", "pages/new.md"}))
        after = {address: stand.sign(address) for address in before}
        assert [address for address in before if before[address] != after[address]] == [
            "posts/apron.html",
            "posts/new.html",
        ]
        client = TestClient(app_of(stand, News()), base_url="http://127.0.0.1")
        told = client.get("/-preview/changes", params={"page": "posts/apron.html", "sign": before["posts/apron.html"]})
        assert told.text.endswith("data: changed\n\n")
        assert told.headers["content-type"].startswith("text/event-stream")

    def test_another_picture_makes_a_browser_load_all_anew(self, site: Path) -> None:
        stand = stand_of(site)
        before = stand.sign("posts/second.html")
        write(site, {"photos/hem.svg": SOUND["photos/hem.svg"].replace("h8", "h7")})
        stand.look(frozenset({"photos/hem.svg"}))
        after = stand.sign("posts/second.html")
        assert before.split("-")[0] != after.split("-")[0]
        assert before.split("-")[1] == after.split("-")[1]

    @pytest.mark.parametrize("gone", ["posts", "pages", "photos", "", "chalkfold.yml"])
    def test_what_is_deleted_and_put_back_is_shown_again(self, site: Path, gone: str) -> None:
        stand = stand_of(site)
        before = {name: shown(stand, name) for name in ("index.html", "posts/apron.html", "posts/second.html")}
        aside = (site / gone).rename(site.with_name("aside"))
        stand.look(None)
        assert list(stand.rest()) or gone == ""
        assert shown(stand, "index.html")
        aside.rename(site / gone)
        stand.look(None)
        assert list(stand.rest())
        assert {name: bare(shown(stand, name)) for name in before} == {
            name: bare(each) for name, each in before.items()
        }

    @pytest.mark.timeout(120)
    @pytest.mark.parametrize("seed", range(2))
    def test_after_any_edit_pages_and_faults_are_those_of_a_build(self, tmp_path: Path, seed: int) -> None:
        site = small_demo(tmp_path / "site", seed)
        stand, random_ = Stand(site, lambda: edits_help.TODAY), random.Random(seed)
        edits: list[Callable[[Path, random.Random], str]] = [
            each for each in edits_help.EDITS if each.__name__ not in ("output_touched", "records_touched")
        ]
        for _ in range(10):
            edit = random_.choice(edits)
            said = edit(site, random_)
            stand.look(None)
            assert list(stand.rest())
            report = build_site(
                site, tmp_path / "out", today=edits_help.TODAY, unpublished=True, cached=False, workers=1
            )
            assert told(stand.faults()) == told(report.faults), said
            for name, data in tree(tmp_path / "out").items() if not len(report.faults) else ():
                if name.endswith(".html") and name != "404.html":
                    without_sizes_of_files = re.sub(r"\d+ kB, ", "", data.decode())
                    assert bare(shown(stand, name)) == without_sizes_of_files, (said, name)


def small_demo(site: Path, seed: int) -> Path:
    """A part of the demo."""
    shutil.copytree(shipped("content_example"), site, ignore=shutil.ignore_patterns("public", ".*"))
    for number, path in enumerate([*sorted(site.glob("pages/guide-*.md")), *sorted(site.glob("posts/*.md"))]):
        if path.parent.name == "pages" or number % 4 != seed:
            path.unlink()
    write(site, {"chalkfold.yml": (site / "chalkfold.yml").read_text("utf-8"), "pages/index.md": page("Room")})
    write(site, {"pages/workshop.md": page("Workshop"), "chalkfold.yml": "title: Room\nunits: cm first\n"})
    return site


@pytest.mark.timeout(120)
@pytest.mark.parametrize("name", ["half-circle-skirt", "fringed-apron", "childs-gathered-top", "pleated-skirt"])
def test_whatever_is_lost_of_a_post_the_rest_is_shown(name: str) -> None:
    demo, random_ = shipped("content_example"), random.Random(name)
    shelf = Shelf.open(demo, Faults())
    lines = (demo / f"posts/{name}.md").read_text("utf-8").split("\n")
    for _ in range(25):
        left = lines.copy()
        for _ in range(random_.randint(1, 3)):
            number = random_.randrange(len(left))
            left[number] = random_.choice(["", left[number][:-1], left[number].replace("e", "", 1)])
        built = build_post(Source("posts/a.md", "\n".join(left)), shelf, despite=True)
        html = put_boxes(built.html, "posts/a.md", [each for each in built.faults if not is_boxed(each, built.worked)])
        assert "<!--line" not in html
        assert all(escape(fault.message) in html for fault in built.faults), "each fault stands on the page"


class TestRequests:
    def test_the_front_page_and_its_parts(self, client: TestClient) -> None:
        front = client.get("/")
        assert front.status_code == 200
        assert front.headers["content-type"] == "text/html; charset=utf-8"
        assert front.text == client.get("/index.html").text
        for path in re.findall(r'(?:href|src)="(/-preview/[^"]*|static/[^"]*)"', front.text):
            part = client.get(f"/{path.lstrip('/')}")
            assert part.status_code == 200
            assert part.headers["content-type"].split(";")[0] in ("text/css", "text/javascript")
        assert client.get("/photos/hem.svg").headers["content-type"].startswith("image/svg+xml")

    def test_what_has_not_changed_is_not_sent_again(self, client: TestClient) -> None:
        first = client.get("/static/calico.css")
        again = client.get("/static/calico.css", headers={"If-None-Match": first.headers["etag"]})
        assert (again.status_code, again.content) == (304, b"")

    def test_an_unknown_address_gets_the_page_for_that(self, client: TestClient) -> None:
        answer = client.get("/posts/no-such-page.html")
        assert answer.status_code == 404
        assert "There is no page here" in answer.text
        assert 'data-page="posts/no-such-page.html"' in answer.text, "it waits for one to come to stand there"

    def test_what_an_address_says_is_escaped(self, client: TestClient) -> None:
        assert "<b>" not in client.get('/"><b>x</b>').text

    @pytest.mark.parametrize("host", ["localhost", "127.0.0.1", "localhost:8000", "127.0.0.1:9999"])
    def test_this_computer_is_answered(self, client: TestClient, host: str) -> None:
        assert client.get("/", headers={"Host": host}).status_code == 200

    @pytest.mark.parametrize(
        "host",
        ["evil.example", "evil.example:8000", "localhost.evil.example", "192.168.0.7", "127.0.0.1.evil.example", ""],
    )
    @pytest.mark.parametrize("path", ["/", "/-preview/changes?page=index.html&sign=", "/photos/hem.svg"])
    def test_any_other_name_is_refused(self, client: TestClient, host: str, path: str) -> None:
        answer = client.get(path, headers={"Host": host})
        assert answer.status_code == 400
        assert "Welcome" not in answer.text

    @pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS"])
    @pytest.mark.parametrize("path", ["/", "/posts/apron.html", "/-preview/changes", "/-preview/preview.js"])
    def test_nothing_but_reading(self, client: TestClient, method: str, path: str) -> None:
        assert client.request(method, path).status_code == 405

    def test_head_answers_without_a_body(self, client: TestClient) -> None:
        head, whole = client.head("/posts/apron.html"), client.get("/posts/apron.html")
        assert (head.status_code, head.content) == (200, b"")
        assert head.headers["content-length"] == whole.headers["content-length"]

    def test_no_page_from_elsewhere_may_read_it(self, client: TestClient) -> None:
        answer = client.get("/", headers={"Origin": "https://evil.example"})
        assert not [name for name in answer.headers if name.startswith("access-control")]
        assert answer.headers["cross-origin-resource-policy"] == "same-origin"
        assert answer.headers["content-security-policy"] == "frame-ancestors 'self'"

    @pytest.mark.parametrize(
        "path",
        [
            "/chalkfold.yml",
            "/../diary.txt",
            "/%2e%2e/diary.txt",
            "/photos/../chalkfold.yml",
            "/photos/%2e%2e/chalkfold.yml",
            "/photos/..%2fchalkfold.yml",
            "/photos/..%5cchalkfold.yml",
            "//etc/passwd",
            "/photos//etc/passwd",
            "/static/../templates/base.html",
            "/static/%2e%2e/templates/base.html",
            "/-preview/../stand.py",
            "/-preview/stand.py",
            "/-preview/..%2fstand.py",
            "/posts/apron.md",
            "/photos/.hidden.svg",
            "/photos/leads-out.svg",
            "/photos/hem.svg%00.html",
            "/public/index.html",
            "/.chalkfold/pages.json",
        ],
    )
    def test_no_way_leads_out(self, site: Path, path: str) -> None:
        (site.parent / "diary.txt").write_text("mine", "utf-8")
        (site / "photos/.hidden.svg").write_text("mine", "utf-8")
        (site / "photos/leads-out.svg").symlink_to(site.parent / "diary.txt")
        build_site(site, site / "public", today=TODAY)
        client = TestClient(app_of(stand_of(site), News()), base_url="http://127.0.0.1")
        answer = client.get(path)
        assert answer.status_code == 404
        assert "There is no page here" in answer.text
        assert "mine" not in answer.text

    def test_a_picture_that_became_a_way_out_is_not_followed(self, site: Path, client: TestClient) -> None:
        (site.parent / "diary.txt").write_text("mine", "utf-8")
        (site / "photos/hem.svg").unlink()
        (site / "photos/hem.svg").symlink_to(site.parent / "diary.txt")
        assert client.get("/photos/hem.svg").status_code == 404


def test_the_day_may_change_while_a_preview_runs(site: Path) -> None:
    write(site, {"posts/later.md": post("Later", day="2026-07-01")})
    today = [TODAY]
    stand = Stand(site, lambda: today[0])
    assert "Not published" in shown(stand, "posts/later.html")
    today[0] = date(2026, 7, 1)
    stand.look(frozenset({"posts/apron.md"}))
    assert "Not published" not in shown(stand, "posts/later.html")
