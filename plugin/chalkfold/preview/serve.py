"""Runs a preview on this computer until somebody stops it."""

from __future__ import annotations

import asyncio
import errno
import socket
from collections.abc import Callable, Iterator
from contextlib import suppress
from datetime import date
from pathlib import Path
from time import monotonic
from types import FrameType

import uvicorn
from starlette.applications import Starlette

from chalkfold.preview import words
from chalkfold.preview.app import News, app_of
from chalkfold.preview.stand import Stand
from chalkfold.preview.watch import changes
from chalkfold.site.build import no_site
from chalkfold.site.swap import real
from chalkfold.trade.settings import SITE_FILE

HERE = "127.0.0.1"
LET_BROWSERS_LOAD = 0.3
"""Seconds after a change, or after a browser asked for anything, before the rest of the site is looked through."""
FURTHER = 20
"""So many ports after one that is taken are tried, to name one that is free."""

Say = Callable[[str], None]


def preview(site: Path, port: int, today: Callable[[], date], say: Say) -> None:
    """Show the site in the folder ``site`` at a port of this computer, until Ctrl-C.

    Raises RefusedError where the folder is no site, NoPort, and OSError where the folder cannot be read.
    """
    if not (site / SITE_FILE).is_file():
        raise no_site(site)
    with _listening(site, port) as at:
        stand = Stand(real(site), today)
        say(words.started(f"{site.as_posix().rstrip('/')}/", f"http://{HERE}:{at.getsockname()[1]}/"))
        with suppress(KeyboardInterrupt):
            asyncio.run(_run(stand, at, say))


async def _run(stand: Stand, at: socket.socket, say: Say) -> None:
    news = News()
    server = _Server(_quiet(app_of(stand, news)), news)
    watching = asyncio.create_task(_watch(stand, news, say))
    try:
        await server.serve(sockets=[at])
    finally:
        watching.cancel()
        with suppress(asyncio.CancelledError):
            await watching


def _quiet(app: Starlette) -> uvicorn.Config:
    """The server says nothing of its own; what it holds open when it is stopped is cut off after a second."""
    return uvicorn.Config(
        app,
        log_level="critical",
        access_log=False,
        lifespan="off",
        ws="none",
        server_header=False,
        timeout_graceful_shutdown=1,
    )


class _Server(uvicorn.Server):
    """Ends the lines that are held open before it waits for all answers to end."""

    def __init__(self, config: uvicorn.Config, news: News) -> None:
        super().__init__(config)
        self._news, self._loop = news, asyncio.get_running_loop()

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        self._loop.call_soon_threadsafe(self._news.close)
        super().handle_exit(sig, frame)


async def _watch(stand: Stand, news: News, say: Say) -> None:
    """Look whenever something changes; the pages that are open come first, then all others."""
    rest, told = asyncio.create_task(asyncio.sleep(0)), [""]
    try:
        async for changed in changes(stand.site):
            rest.cancel()
            try:
                stand.look(changed)
            except Exception as error:  # a preview outlives what would end a build
                say(words.failed(error))
            news.tell()
            rest = asyncio.create_task(_look_through(stand, news, say, told))
    finally:
        rest.cancel()


async def _look_through(stand: Stand, news: News, say: Say, told: list[str]) -> None:
    """Make all that is left, and say what is wrong if that is something else than was ``told`` last."""
    await asyncio.sleep(LET_BROWSERS_LOAD)
    try:
        for _ in stand.rest():
            await asyncio.sleep(0)
            while (busy := news.asked + LET_BROWSERS_LOAD - monotonic()) > 0:
                await asyncio.sleep(busy)
        now = words.looked(stand.pages(), stand.faults())
    except Exception as error:
        now = words.failed(error)
    news.tell()
    if now != told[0]:
        told[0] = now
        say(now)


class NoPort(Exception):
    """The port cannot be had; ``hint`` says what to type instead."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


def _listening(site: Path, port: int) -> socket.socket:
    try:
        return socket.create_server((HERE, port))
    except OSError as error:
        if error.errno == errno.EADDRINUSE:
            other = next(_free(port), 0)
            hint = f"stop the other, or type: chalkfold preview {_typed(site)}--port {other}"
            raise NoPort(f"port {port} is taken, perhaps by a preview in another window", hint) from None
        why = (error.strerror or str(error)).lower()
        raise NoPort(
            f"port {port} cannot be had: {why}", f"type: chalkfold preview {_typed(site)}--port 8000"
        ) from None


def _typed(site: Path) -> str:
    """A folder as it is typed in a command; nothing for the one somebody stands in."""
    name = site.as_posix()
    if name == ".":
        return ""
    return f'"{name}" ' if " " in name else f"{name} "


def _free(port: int) -> Iterator[int]:
    for other in range(port + 1, min(port + FURTHER, 65535) + 1):
        with suppress(OSError), socket.create_server((HERE, other)):
            yield other
