"""Node.js works plans through the page's own script, one line of JSON for each question."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

RUNNER = Path(__file__).parent / "vectors" / "run.mjs"


class Node:
    """One running interpreter, asked again and again."""

    def __init__(self, process: subprocess.Popen[str]) -> None:
        self._process = process

    def ask(self, **question: Any) -> Any:
        assert self._process.stdin and self._process.stdout
        self._process.stdin.write(json.dumps(question) + "\n")
        self._process.stdin.flush()
        line = self._process.stdout.readline()
        assert line, "evaluator.js stopped; node says above why"
        return json.loads(line)


@contextmanager
def running_node() -> Iterator[Node]:
    found = shutil.which("node")
    if found is None:
        pytest.fail("these tests need Node.js 20 or later as `node` on the PATH: install it and run them again")
    with subprocess.Popen(
        [found, str(RUNNER)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8"
    ) as process:
        yield Node(process)
