"""The ``chalkfold`` command. Rooms are imported inside the commands, so that ``--help`` answers at once."""

from __future__ import annotations

import json
import sys
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from chalkfold.preview.command import command as preview
from chalkfold.running import collect_seldom, today
from chalkfold.starting import begin, new
from chalkfold.stopping import shown_folder, stop

if TYPE_CHECKING:
    from chalkfold.diagnostics import Source
    from chalkfold.site.build import BuildReport
    from chalkfold.trade.shelf import Shelf

SITE = click.argument("site", type=click.Path(path_type=Path), default=Path())
POST = click.argument("post", type=click.Path(path_type=Path))


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="chalkfold")
def main() -> None:
    """Build a site of sewing tutorials whose numbers are worked out from the posts themselves."""
    for stream in (sys.stdout, sys.stderr):
        if callable(change := getattr(stream, "reconfigure", None)):
            change(errors="backslashreplace")  # a terminal that cannot show ⅜ must not stop the work


main.add_command(new)
main.add_command(begin)


@main.command()
@SITE
@click.option("--out", type=click.Path(path_type=Path), help="Folder for the pages; SITE/public by default.")
@click.option("--unpublished", is_flag=True, help="Show posts that are held back or dated later, too.")
@click.option("--date", "day", type=click.DateTime(["%Y-%m-%d"]), help="Build as on this day.")
@click.option("--no-cache", is_flag=True, help="Make everything anew, and keep nothing for the next build.")
def build(site: Path, out: Path | None, unpublished: bool, day: datetime | None, no_cache: bool) -> None:
    """Build the site in the folder SITE; the one you stand in by default."""
    collect_seldom()
    from chalkfold.site.build import build_site

    target = out or site / "public"
    now = day.date() if day else today()
    report = build_site(site, target, today=now, unpublished=unpublished, cached=not no_cache)
    if len(report.faults):
        stop(report.faults)
    _left_out(report)
    click.echo(_built(report, target))


main.add_command(preview)


@main.command()
@SITE
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", help="For people or programs.")
@click.option("--unpublished", is_flag=True, help="Check posts that are held back or dated later, too.")
@click.option("--date", "day", type=click.DateTime(["%Y-%m-%d"]), help="Check as on this day.")
@click.option("--no-cache", is_flag=True, help="Look at every page, also those in which nothing was found before.")
def check(site: Path, form: str, unpublished: bool, day: datetime | None, no_cache: bool) -> None:
    """Tell all that would fail or mislead in the site in the folder SITE, without writing a page."""
    collect_seldom()
    from chalkfold.diagnostics import as_data, as_text
    from chalkfold.site.check import check_site

    now = day.date() if day else today()
    checked = check_site(site, today=now, unpublished=unpublished, cached=not no_cache)
    listed = list(checked.found)
    if form == "json":
        click.echo(json.dumps([as_data(each) for each in listed], ensure_ascii=False, indent=2))
    else:
        for each in listed:
            click.echo(as_text(each) + "\n")
        counted = _things(len(listed)) if listed else "nothing"
        click.echo(f"Checked {_pages(checked.pages)} in {shown_folder(site)}: {counted} to mend.")
    if listed:
        sys.exit(1)


@main.command()
@POST
@click.argument("name")
@click.option("--size", help="A size of the post; its sample size by default.")
def explain(post: Path, name: str, size: str | None) -> None:
    """Show how the number NAME of the post POST comes about."""
    from chalkfold.post import NoSuchNumber
    from chalkfold.post import explain as explained

    source, shelf = _open(post)
    try:
        lines = explained(source, shelf, name, size)
    except NoSuchNumber as error:
        click.echo(f"{source.path}: {error}\n  hint: {error.hint}", err=True)  # a slip of the command's, not the post's
        sys.exit(1)
    for line in lines:
        click.echo(line)


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--out", type=click.Path(path_type=Path), help="File to write; the terminal by default.")
def convert(file: Path, out: Path | None) -> None:
    """Fill in the blocks of the Markdown FILE, for use with any other generator."""
    from chalkfold.post import convert as converted
    from chalkfold.site.swap import RefusedError, disk_fault, write_file

    source, shelf = _open(file)
    text, faults = converted(source, shelf)
    if len(faults):
        stop(faults)
    if out is None:
        click.echo(text, nl=False)
        return
    try:
        write_file(out, text, file)
    except RefusedError as error:
        stop([error.fault])
    except OSError as error:
        stop([disk_fault(out, error)])
    click.echo(f"Wrote {out.as_posix()}.")


@main.command("print")
@POST
@click.option("--size", default="", help="A size of the post, or `all` for a file each; its sample size by default.")
@click.option("--paper", default="", help="a4, letter, a3, a0, or width x height; the site's paper by default.")
@click.option("--seam-lines", is_flag=True, help="The seam lines alone, without allowances.")
@click.option("--nested", is_flag=True, help="All sizes over each other in one file.")
@click.option("--dxf", is_flag=True, help="Lines in millimetres for a cutter, instead of pages.")
@click.option("--out", type=click.Path(path_type=Path), help="File to write, .pdf or .dxf; named after the post else.")
def print_pattern(
    post: Path, size: str, paper: str, seam_lines: bool, nested: bool, dxf: bool, out: Path | None
) -> None:
    """Write the pieces of the post POST at full size, to print, tape and cut."""
    from chalkfold.diagnostics import Faults
    from chalkfold.site.printing import Asked, print_post
    from chalkfold.site.swap import RefusedError, disk_fault, write_file

    if nested and size:
        raise click.UsageError("--nested has every size in it, so leave --size out")
    if dxf and paper:
        raise click.UsageError("--dxf has no pages, so leave --paper out")
    source, shelf = _open(post)
    faults, place = Faults(), out or Path()
    try:
        files = print_post(source, shelf, Asked(size, paper, seam_lines, nested, dxf, out), faults)
        if len(faults):
            stop(faults)
        for file in files:
            place = file.path
            write_file(file.path, file.data, post)
            click.echo(f"Wrote {file.path.as_posix()}.")
    except RefusedError as error:
        stop([error.fault])
    except OSError as error:
        stop([disk_fault(place, error)])


@main.command()
@SITE
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", help="text by default.")
@click.option("--date", "day", type=click.DateTime(["%Y-%m-%d"]), help="Look at the posts published on this day.")
def changes(site: Path, form: str, day: datetime | None) -> None:
    """Tell what differs from the last release, and end with status 1 if anything does."""
    from chalkfold.diagnostics import Faults
    from chalkfold.site.changes import as_data, as_lines, changes_of
    from chalkfold.site.swap import RefusedError

    faults = Faults()
    try:
        found = changes_of(site, day.date() if day else today(), faults)
    except RefusedError as error:
        stop([error.fault])
    if len(faults):
        stop(faults)
    if form == "json":
        click.echo(json.dumps(as_data(found), ensure_ascii=False, indent=2))
    else:
        for line in as_lines(found):
            click.echo(line)
    sys.exit(1 if found.posts else 0)


@main.command()
@SITE
@click.option("--note", required=True, help="What was wrong, for the readers of every page that changes.")
@click.option("--date", "day", type=click.DateTime(["%Y-%m-%d"]), help="The day of the release; today by default.")
@click.option(
    "--renamed", multiple=True, metavar="OLD=NEW", help="A number has another name now; `size A=B`, `post A=B`."
)
@click.option("--out", type=click.Path(path_type=Path), help="Folder for the pages; SITE/public by default.")
def release(site: Path, note: str, day: datetime | None, renamed: tuple[str, ...], out: Path | None) -> None:
    """Build the site, note every number in its ledger, and correct the pages whose numbers have changed."""
    from chalkfold.site.ledger.renames import Told
    from chalkfold.site.release import release as released

    try:
        told = Told.of(renamed)
    except ValueError as error:
        raise click.UsageError(f"--renamed takes OLD=NEW, and not `{error}`") from None
    if not note.strip():
        raise click.UsageError("--note says nothing; write what was wrong, in a sentence")
    date_of_it, target = day.date() if day else today(), out or site / "public"
    done = released(site, target, note, date_of_it, told)
    if len(done.faults) or done.build is None:
        stop(done.faults)
    for line in done.said:
        click.echo(line)
    _left_out(done.build)
    if done.to_mend:
        click.echo(f"`chalkfold check` finds {_things(done.to_mend)} to mend besides.", err=True)
    what = f"Released on {date_of_it.isoformat()}." if done.said else "Nothing differs, so nothing was released."
    click.echo(f"{what} {_built(done.build, target)}")


def _open(file: Path) -> tuple[Source, Shelf]:
    """Read a Markdown file and open the shelf of its site; outside a site, that of its folder."""
    from chalkfold.diagnostics import Faults
    from chalkfold.reading import read_text
    from chalkfold.site.swap import real
    from chalkfold.trade.settings import SITE_FILE
    from chalkfold.trade.shelf import Shelf

    faults = Faults()
    whole = real(file)
    site = next((each for each in whole.parents if (each / SITE_FILE).is_file()), None)
    shown = whole.relative_to(site).as_posix() if site else file.as_posix()
    source = read_text(whole, shown, faults)
    shelf = Shelf.open(site, faults) if site else Shelf(folder=whole.parent)
    if source is None or len(faults):
        stop(faults)
    return source, shelf


def _pages(count: int) -> str:
    return "1 page" if count == 1 else f"{count} pages"


def _things(count: int) -> str:
    return "1 thing" if count == 1 else f"{count} things"


def _left_out(report: BuildReport) -> None:
    from chalkfold.diagnostics import as_text

    for fault in report.left_out:
        click.echo(as_text(fault) + "\n  so the pages have no pictures for previews, feeds or patterns\n", err=True)


def _built(report: BuildReport, target: Path) -> str:
    return f"Built {_pages(report.pages)} in {shown_folder(target)} ({report.seconds:.1f} s)."
