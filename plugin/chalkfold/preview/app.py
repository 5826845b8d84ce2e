"""What a browser may ask a preview for: pages and files of the site by their addresses, by GET or HEAD, from here.

Every address is looked up among those the site has, so none leads out of it. A name in the address bar other than this
computer's own is refused, so that no page from elsewhere can read the site by a name of its making.
"""

from __future__ import annotations

import asyncio
import hashlib
import mimetypes
from collections.abc import AsyncIterator
from pathlib import Path
from time import monotonic

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse
from starlette.routing import Route

from chalkfold.preview.frame import CHANGES, SCRIPT, STYLE
from chalkfold.preview.stand import Stand
from chalkfold.raster import NoCairo
from chalkfold.site.pages import FRONT, LOST

HOSTS = ["localhost", "127.0.0.1"]
BREATH = 15.0
"""Seconds after which a quiet line says that it is still there."""

HEADERS = {
    "Cache-Control": "no-cache",
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Content-Security-Policy": "frame-ancestors 'self'",
}
TYPES = {".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml"}
"""Of what a page is made of; what else there is the system knows."""


class News:
    """Wakes all who wait for a change; ``close`` for the last time. ``asked``: when a browser last wanted anything."""

    def __init__(self) -> None:
        self._waiting: set[asyncio.Event] = set()
        self.closed = False
        self.asked = 0.0

    def tell(self) -> None:
        for event in self._waiting:
            event.set()

    def close(self) -> None:
        self.closed = True
        self.tell()

    async def wait(self, seconds: float) -> None:
        """Wait for the next change, at most so long."""
        event = asyncio.Event()
        self._waiting.add(event)
        try:
            async with asyncio.timeout(seconds):
                await event.wait()
        except TimeoutError:
            pass
        finally:
            self._waiting.discard(event)


def app_of(stand: Stand, news: News) -> Starlette:
    """The application that shows what is on the stand."""

    async def changes(request: Request) -> Response:
        page, sign = (request.query_params.get(each, "") for each in ("page", "sign"))
        return StreamingResponse(_line(stand, news, page, sign), headers=HEADERS, media_type="text/event-stream")

    async def own(request: Request) -> Response:
        return _reply(request, Path(__file__).with_name(request.url.path.rpartition("/")[2]).read_bytes())

    async def any_address(request: Request) -> Response:
        answer = _at(stand, request, request.path_params["address"] or FRONT)
        news.asked = monotonic()
        return answer

    routes = [
        Route(CHANGES, changes, methods=["GET"]),
        *(Route(path, own, methods=["GET"]) for path in (SCRIPT, STYLE)),
        Route("/{address:path}", any_address, methods=["GET"]),
    ]
    hosts = Middleware(TrustedHostMiddleware, allowed_hosts=HOSTS, www_redirect=False)
    return Starlette(routes=routes, middleware=[hosts])


async def _line(stand: Stand, news: News, page: str, sign: str) -> AsyncIterator[str]:
    """Tell a browser that what it shows is no longer so. The browser then loads the page again and asks anew."""
    yield "retry: 1000\n\n"
    while not news.closed:
        if stand.sign(page) != sign:
            yield "data: changed\n\n"
            return
        await news.wait(BREATH)
        yield ":\n\n"


def _at(stand: Stand, request: Request, address: str) -> Response:
    html = stand.page(address)
    if html is not None:
        return _reply(request, html.encode("utf-8", "replace"), ".html", 404 if address == LOST else 200)
    try:
        data = stand.file(address)
    except NoCairo as missing:
        return Response(f"This pattern cannot be drawn here: {missing}\n", 503, HEADERS, "text/plain")
    if data is not None:
        return _reply(request, data)
    return _reply(request, stand.lost(address).encode("utf-8", "replace"), ".html", 404)


def _reply(request: Request, data: bytes, ending: str = "", status: int = 200) -> Response:
    tag = f'"{hashlib.sha256(data).hexdigest()[:32]}"'
    headers = {**HEADERS, "ETag": tag}
    if status == 200 and request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    path = request.url.path
    ending = ending or Path(path).suffix.lower()
    kind = TYPES.get(ending) or mimetypes.guess_type(path)[0] or "application/octet-stream"
    return Response(data, status, headers, kind)
