"""A preview as a process of its own, with a browser to look at it where there is one."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from queue import Empty, Queue
from threading import Thread
from time import monotonic
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Page

BROWSERS = ("chromium", "chromium-browser", "google-chrome-stable")
PATIENCE = 20.0
"""Seconds in which a busy computer gets anything done."""


class Running:
    """A preview that runs. ``said`` holds what it has printed so far, line by line."""

    def __init__(self, site: Path, *options: str) -> None:
        command = [sys.executable, "-m", "chalkfold", "preview", str(site), *(options or ("--port", "0"))]
        self._process = subprocess.Popen(
            command,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            encoding="utf-8",
            env={**os.environ, "PYTHONUNBUFFERED": "1", "PYTHONIOENCODING": "utf-8"},
        )
        self.said: list[str] = []
        self._lines: Queue[str] = Queue()
        self._reader = Thread(target=self._read, daemon=True)
        self._reader.start()

    def _read(self) -> None:
        assert self._process.stdout is not None
        with self._process.stdout as out:
            for line in out:
                self._lines.put(line.rstrip("\n"))

    def hears(self, pattern: str, patience: float = PATIENCE) -> re.Match[str]:
        """Wait for a line in which a pattern is found."""
        until = monotonic() + patience
        while monotonic() < until:
            with suppress(Empty):
                self.said.append(self._lines.get(timeout=0.1))
                if found := re.search(pattern, self.said[-1]):
                    return found
        raise AssertionError(f"no line like {pattern!r} in {self.said}")

    def address(self) -> str:
        return self.hears(r"http://127\.0\.0\.1:\d+/")[0]

    def stop(self) -> int:
        """Press Ctrl-C, and return the status with which it ends."""
        if self._process.poll() is None:
            self._process.send_signal(signal.SIGINT)
        status = self._process.wait(PATIENCE)
        self._reader.join(PATIENCE)
        while not self._lines.empty():
            self.said.append(self._lines.get())
        return status


@contextmanager
def previewed(site: Path, *options: str) -> Iterator[Running]:
    running = Running(site, *options)
    try:
        yield running
    finally:
        running.stop()


def chromium() -> str | None:
    """The browser that the system has, or the one that playwright has fetched."""
    from playwright.sync_api import sync_playwright

    if found := next(filter(None, map(shutil.which, BROWSERS)), None):
        return found
    with sync_playwright() as play:
        own = play.chromium.executable_path
    return own if Path(own).is_file() else None


@contextmanager
def browser_page(program: str, width: int = 1280, *, dark: bool = False, scripts: bool = True) -> Iterator[Page]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=program, args=["--no-sandbox", "--disable-dev-shm-usage"])
        page = browser.new_page(
            viewport={"width": width, "height": 800},
            color_scheme="dark" if dark else "light",
            java_script_enabled=scripts,
        )
        page.set_default_timeout(PATIENCE * 1000)
        try:
            yield page
        finally:
            browser.close()
