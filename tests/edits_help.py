"""Random edits of a site, as a writer makes them; some break it.

``python tests/edits_help.py`` tries 200 on the whole demo, each kind ten times; two numbers say how many, and which.
"""

from __future__ import annotations

import random
import re
import shutil
import sys
import tempfile
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

from chalkfold.shipped import shipped
from chalkfold.site.build import BuildReport, build_site
from chalkfold.trade.shelf import SHIPPED

TODAY = date(2026, 11, 1)
MADE = shutil.ignore_patterns("public", ".chalkfold", ".public*")
"""What a build leaves in a site: the demo may have been built before the tests run."""

Edit = Callable[[Path, random.Random], str]


def _files(site: Path, *patterns: str) -> list[Path]:
    return sorted(path for pattern in patterns for path in site.glob(pattern))


def _change(path: Path, old: str, new: str, random_: random.Random) -> str:
    """Put ``new`` for one of the places of ``old``, chosen at random."""
    text = path.read_text("utf-8")
    places = list(re.finditer(old, text))
    if places:
        place = random_.choice(places)
        path.write_text(text[: place.start()] + new + text[place.end() :], "utf-8")
    return f"{path.name}: {old} → {new}" if places else f"{path.name} untouched"


def another_number(site: Path, random_: random.Random) -> str:
    return _number(_files(site, "posts/*.md"), random_)


def book_mended(site: Path, random_: random.Random) -> str:
    return _number(_files(site, "books/*.yml"), random_)


def chart_mended(site: Path, random_: random.Random) -> str:
    return _change(random_.choice(_files(site, "sizes/*.yml")), r"\b\d\d\b", str(random_.randint(60, 99)), random_)


def goods_mended(site: Path, random_: random.Random) -> str:
    return _number(_files(site, "donors/*.yml", "notions.yml"), random_)


def _number(files: list[Path], random_: random.Random) -> str:
    return _change(random_.choice(files), r"\b\d+(?= (cm|mm|in)\b)", str(random_.randint(2, 60)), random_)


def another_word(site: Path, random_: random.Random) -> str:
    return _change(random_.choice(_files(site, "posts/*.md", "pages/*.md")), r"\b(the|and|is)\b", "a", random_)


def another_cloth(site: Path, random_: random.Random) -> str:
    """The site's own of a name that ships, or of one that nobody uses."""
    name = random_.choice(["cotton sheeting", "linen", "sailcloth"])
    (site / "fabrics.yml").write_text(f"{name}:\n  usable width: {random_.randint(90, 160)} cm\n", "utf-8")
    return f"own {name}"


def own_book(site: Path, random_: random.Random) -> str:
    """A book of the site takes the place of one that ships."""
    book = random_.choice(sorted((SHIPPED / "books").glob("*.yml")))
    return _change(Path(shutil.copy(book, site / "books")), r"\b\d+(?= (cm|mm)\b)", "7", random_)


def new_post(site: Path, random_: random.Random) -> str:
    number = random_.randint(1, 9)
    text = f"---\ntitle: Patch {number}\ndate: 2026-0{number}-01\ntags: [mending, skirt]\n---\n\nText {{= 3 cm }}.\n"
    (site / f"posts/patch-{number}.md").write_text(text, "utf-8")
    return f"new patch-{number}"


def post_gone(site: Path, random_: random.Random) -> str:
    path = random_.choice(_files(site, "posts/*.md"))
    path.unlink()
    return f"without {path.name}"


def post_renamed(site: Path, random_: random.Random) -> str:
    path = random_.choice(_files(site, "posts/*.md"))
    path.rename(path.with_name(f"my-{path.name}"))
    return f"my-{path.name}"


def post_held_back(site: Path, random_: random.Random) -> str:
    return _change(random_.choice(_files(site, "posts/*.md")), r"\ndate: .*", "\ndate: 2027-01-01", random_)


def another_title(site: Path, random_: random.Random) -> str:
    new = f"\ntitle: Another {random_.randint(1, 9)}"
    return _change(random_.choice(_files(site, "posts/*.md", "pages/*.md")), r"\ntitle: .*", new, random_)


def another_setting(site: Path, random_: random.Random) -> str:
    line = random_.choice(
        ["units: in first", "language: en-US", "paper: letter", "title: The Other Room", "address: ''"]
    )
    return _change(site / "chalkfold.yml", rf"(?m)^{line.partition(':')[0]}: .*$", line, random_)


def another_template(site: Path, random_: random.Random) -> str:
    text = (shipped("themes") / "calico/templates/base.html").read_text("utf-8")
    own = site / "themes/calico/templates/base.html"
    own.parent.mkdir(parents=True, exist_ok=True)
    own.write_text(text.replace("Skip to", f"Go {random_.randint(1, 9)} to"), "utf-8")
    return "own template"


def another_style(site: Path, random_: random.Random) -> str:
    own = site / "themes/calico/static/calico.css"
    own.parent.mkdir(parents=True, exist_ok=True)
    own.write_text(f"body {{ margin: {random_.randint(1, 9)}em }}\n", "utf-8")
    return "own style"


def a_correction(site: Path, random_: random.Random) -> str:
    """A correction of a post, as a release writes it, and perhaps the release that puts it among the earlier ones."""
    name = random_.choice(_files(site, "posts/*.md")).stem
    day = f"2026-0{random_.randint(1, 9)}-01"
    path = site / f"ledger/corrections/{name}/{day}.yml"
    path.parent.mkdir(parents=True, exist_ok=True)
    change = f"{random_.randint(1, 9)} cm → 10 cm"
    path.write_text(f"date: {day}\nnote: The seam was counted once.\nchanged:\n  hem: {change}\n", "utf-8")
    latest = random_.choice([day, "2026-10-31"])
    (site / "ledger/releases.yml").write_text(f"releases:\n- date: {latest}\n  note: Mended.\n", "utf-8")
    return f"correction of {name}, {day}, {latest}"


def another_picture(site: Path, random_: random.Random) -> str:
    path = random_.choice(_files(site, "photos/*.svg"))
    return _change(path, r"#[0-9a-f]{6}", f"#{random_.randrange(16**6):06x}", random_)


def picture_gone(site: Path, random_: random.Random) -> str:
    path = random_.choice(_files(site, "photos/*.svg"))
    path.unlink()
    return f"without {path.name}"


def output_touched(site: Path, random_: random.Random) -> str:
    path = random_.choice(_files(site, "public/posts/*.html") or [site / "chalkfold.yml"])
    if path.suffix == ".html":
        random_.choice([path.unlink, lambda: path.write_text("mine", "utf-8")])()
    return f"public/{path.name} touched"


def records_touched(site: Path, random_: random.Random) -> str:
    """A record or what it leads to is cut off, exchanged or gone."""
    path = random_.choice(_files(site, ".chalkfold/*.*"))
    data, other = path.read_bytes(), random_.choice(_files(site, ".chalkfold/*.*")).read_bytes()
    path.write_bytes(random_.choice([b"", data[:-1], other, data + b" "]))
    return f".chalkfold/{path.name} touched"


EDITS: tuple[Edit, ...] = (
    another_number,
    book_mended,
    records_touched,
    another_style,
    new_post,
    chart_mended,
    another_title,
    another_template,
    output_touched,
    post_gone,
    own_book,
    a_correction,
    another_word,
    picture_gone,
    post_held_back,
    goods_mended,
    another_picture,
    another_cloth,
    another_setting,
    post_renamed,
)
"""Each kind of edit."""


def outcome(report: BuildReport, out: Path) -> tuple[list[str], dict[str, bytes]]:
    """The faults in words, and every file of the output."""
    faults = [f"{fault.span.place} {fault.code} {fault.message} {fault.hint}" for fault in report.faults]
    files = {path.relative_to(out).as_posix(): path.read_bytes() for path in out.rglob("*") if path.is_file()}
    return faults, {} if faults else files


def walk(site: Path, edits: Sequence[Edit], start: int) -> tuple[int, int]:
    """Edit the site by one after the other; each time a build on what was there gives what one from nothing gives.

    Where an edit breaks the site, both tell the same faults and it is taken back. Returns how many edits were sound,
    and how many pages were made for them.
    """
    random_ = random.Random(start)
    sound = made = 0
    build_site(site, site / "public", today=TODAY)
    for number, edit in enumerate(edits):
        before = Path(tempfile.mkdtemp()) / "before"
        shutil.copytree(site, before, ignore=MADE)
        said = edit(site, random_)
        report = build_site(site, site / "public", today=TODAY)
        clean = before.with_name("clean")
        fresh = build_site(site, clean, today=TODAY, cached=False)
        assert outcome(report, site / "public") == outcome(fresh, clean), f"{number} of {start}: {said}"
        if len(report.faults):
            for path in site.iterdir():
                if path.name not in ("public", ".chalkfold") and not path.name.startswith(".public"):
                    shutil.rmtree(path) if path.is_dir() else path.unlink()
            shutil.copytree(before, site, dirs_exist_ok=True)
        else:
            sound, made = sound + 1, made + len(report.made)
        shutil.rmtree(before.parent)
    return sound, made


if __name__ == "__main__":
    number, start = (int(each) for each in (*sys.argv[1:], *("200", "1")[len(sys.argv) - 1 :]))
    order = random.Random(start)
    edits = [edit for _ in range(0, number, len(EDITS)) for edit in order.sample(EDITS, len(EDITS))][:number]
    with tempfile.TemporaryDirectory() as folder:
        site = shutil.copytree(shipped("content_example"), Path(folder) / "site", ignore=MADE)
        sound, made = walk(site, edits, start)
    print(f"{number} edits, of which {sound} left the site sound; {made} pages were made for them. All as built anew.")
