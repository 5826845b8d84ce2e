"""The ``preview`` command. The rest of the room is imported inside it, so that ``--help`` answers at once."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from chalkfold.running import collect_seldom, today


@click.command("preview")
@click.argument("site", type=click.Path(path_type=Path), default=Path())
@click.option(
    "--port", type=click.IntRange(0, 65535), default=8000, show_default=True, help="0 takes any that is free."
)
def command(site: Path, port: int) -> None:
    """Show the site in the folder SITE while you write: each save shows in the browser by itself. Ctrl-C ends it."""
    from chalkfold.diagnostics import as_text
    from chalkfold.preview import words
    from chalkfold.preview.serve import NoPort, preview
    from chalkfold.site.swap import RefusedError, disk_fault

    collect_seldom()
    try:
        preview(site, port, today, lambda text: click.echo(f"{text}\n"))
    except RefusedError as error:
        click.echo(as_text(error.fault), err=True)
        sys.exit(1)
    except NoPort as error:
        click.echo(f"{error}\n  hint: {error.hint}", err=True)
        sys.exit(1)
    except OSError as error:
        click.echo(as_text(disk_fault(site, error)), err=True)
        sys.exit(1)
    except KeyboardInterrupt:
        pass
    click.echo(words.ENDED)
