"""The commands by which one begins: a new site, and a new post in it."""

from __future__ import annotations

import shlex
from pathlib import Path

import click

from chalkfold.running import today
from chalkfold.stopping import shown_folder, stop


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
def new(folder: Path) -> None:
    """Start a small site in FOLDER, with one worked post to change."""
    from chalkfold.site.new import new_site
    from chalkfold.site.swap import RefusedError, disk_fault

    try:
        written = new_site(folder)
    except RefusedError as error:
        stop([error.fault])
    except OSError as error:
        stop([disk_fault(folder, error)])
    for name in written:
        click.echo(f"  {name}")
    click.echo(f"Started a site in {shown_folder(folder)}. Build it with: chalkfold build {_typed(folder)}")
    click.echo(f'Begin a post of your own with: chalkfold begin "Its title" --site {_typed(folder)}')


@click.command()
@click.argument("title", nargs=-1)
@click.option("--like", metavar="NAME", default="", help="The worked post to begin from, or a book that it uses.")
@click.option("--list", "listed", is_flag=True, help="Show the worked posts and the books they use.")
@click.option("--site", type=click.Path(path_type=Path), default=Path(), help="The site; where you stand by default.")
def begin(title: tuple[str, ...], like: str, listed: bool, site: Path) -> None:
    """Write a whole worked post called TITLE, held back until you publish it, to be changed into your own."""
    from chalkfold.site.begin import USUAL, NotBegunError, as_lines
    from chalkfold.site.begin import begin as begun
    from chalkfold.site.swap import RefusedError, disk_fault

    if listed:
        for line in as_lines():
            click.echo(line)
        return
    if not title:
        raise click.UsageError('a post needs a title, as in: chalkfold begin "An apron from a tablecloth"')
    try:
        made = begun(" ".join(title), site, today(), like or USUAL)
    except NotBegunError as error:
        raise click.UsageError(str(error)) from None
    except RefusedError as error:
        stop([error.fault])
    except OSError as error:
        stop([disk_fault(site / "posts", error)])
    click.echo(f"Wrote {made.path.as_posix()}, like the worked post {made.like.name}: {made.like.title}.")
    if not like:
        click.echo("There are others; see `chalkfold begin --list`, and choose one with --like.")
    where = "" if site == Path() else f" {_typed(site)}"
    click.echo(f"Change it, then look at it with: chalkfold build{where} --unpublished")


def _typed(path: Path) -> str:
    """A folder as it is typed in a shell, in quotes where it has spaces."""
    return shlex.quote(path.as_posix())
