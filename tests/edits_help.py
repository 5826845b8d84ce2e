"""Random edits of a site, as a writer makes them; some break it.

``python tests/edits_help.py`` tries 200 on the demo (EDITS and SEED as arguments).
"""

from __future__ import annotations

import random
import re
import shutil
import sys
import tempfile
from collections.abc import Callable
from datetime import date
from pathlib import Path

from chalkfold.shipped import shipped
from chalkfold.site.build import BuildReport, build_site

TODAY = date(2026, 11, 1)
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
    path = random_.choice(_files(site, "posts/*.md", "books/*.yml", "sizes/*.yml", "donors/*.yml", "notions.yml"))
    return _change(path, r"\b\d+(?= (cm|mm|in)\b)", str(random_.randint(2, 60)), random_)


def another_word(site: Path, random_: random.Random) -> str:
    return _change(random_.choice(_files(site, "posts/*.md", "pages/*.md")), r"\b(the|and|is)\b", "a", random_)


def another_cloth(site: Path, random_: random.Random) -> str:
    """The site's own of a name that ships, or of one that nobody uses."""
    name = random_.choice(["cotton sheeting", "linen", "sailcloth"])
    (site / "fabrics.yml").write_text(f"{name}:\n  usable width: {random_.randint(90, 160)} cm\n", "utf-8")
    return f"own {name}"


def own_book(site: Path, random_: random.Random) -> str:
    """A book of the site takes the place of one that ships."""
    books = sorted((shipped("content_example").parent / "plugin/chalkfold/trade/books").glob("*.yml"))
    book = random_.choice(books)
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
    another_number,
    another_word,
    another_cloth,
    own_book,
    new_post,
    post_gone,
    post_held_back,
    another_title,
    another_setting,
    another_template,
    another_picture,
    picture_gone,
    output_touched,
    records_touched,
)


def outcome(report: BuildReport, out: Path) -> tuple[list[str], dict[str, bytes]]:
    """The faults in words, and every file of the output."""
    faults = [f"{fault.span.place} {fault.code} {fault.message} {fault.hint}" for fault in report.faults]
    files = {path.relative_to(out).as_posix(): path.read_bytes() for path in out.rglob("*") if path.is_file()}
    return faults, {} if faults else files


def walk(site: Path, edits: int, seed: int) -> tuple[int, int]:
    """Edit the site again and again; each time what is built on what was there equals what is built from nothing.

    Where an edit breaks the site, both tell the same faults and it is taken back. Returns how many edits were sound,
    and how many pages were made for them.
    """
    random_ = random.Random(seed)
    sound = made = 0
    build_site(site, site / "public", today=TODAY)
    for number in range(edits):
        before = Path(tempfile.mkdtemp()) / "before"
        shutil.copytree(site, before, ignore=shutil.ignore_patterns("public", ".chalkfold", ".public*"))
        said = random_.choice(EDITS)(site, random_)
        report = build_site(site, site / "public", today=TODAY)
        clean = before.with_name("clean")
        fresh = build_site(site, clean, today=TODAY, cached=False)
        assert outcome(report, site / "public") == outcome(fresh, clean), f"edit {number} of {seed}: {said}"
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
    edits, seed = (int(each) for each in (*sys.argv[1:], "200", "1")[:2])
    with tempfile.TemporaryDirectory() as folder:
        site = shutil.copytree(shipped("content_example"), Path(folder) / "site")
        sound, made = walk(site, edits, seed)
    print(f"{edits} edits, of which {sound} left the site sound; {made} pages were made for them. All as built anew.")
