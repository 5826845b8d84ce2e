"""Commands in processes of their own, stopped at a named point of the program and killed there, or at random."""

from __future__ import annotations

import signal
import subprocess
import sys
import textwrap
from collections.abc import Iterator
from contextlib import contextmanager

Point = tuple[str, str, str]
"""A module, a function or method in it, and whether it is about to run (``before``) or has run (``after``).

``between`` stops where a system that cannot exchange two folders in one step has moved the last one away; the function
is then the name of the folder that is to take its place.
"""

NOWHERE: Point = ("", "", "never")

PROGRAM = """
    import importlib, pathlib, sys
    from chalkfold.cli import main
    import chalkfold.site.release

    def stop():
        print("here", flush=True)
        sys.stdin.read()

    def stopping(run, when):
        def wrapped(*given, **more):
            if when == "before":
                stop()
            found = run(*given, **more)
            if when == "after":
                stop()
            return found
        return wrapped

    def between(here, there, rename=pathlib.Path.rename):
        if here.name == name:
            stop()
        return rename(here, there)

    module, name, when = sys.argv[1:4]
    if when == "between":
        importlib.import_module(module).exchange = lambda one, other: False
        pathlib.Path.rename = between
    elif when != "never":
        *above, name = name.split(".")
        holder = importlib.import_module(module)
        for part in above:
            holder = getattr(holder, part)
        setattr(holder, name, stopping(getattr(holder, name), when))
    else:
        print("here", flush=True)
    main(sys.argv[4:])
"""


@contextmanager
def stopped(point: Point, *arguments: object) -> Iterator[subprocess.Popen[bytes]]:
    """A command that has come to the point; at ``NOWHERE`` it has begun and goes on."""
    command = [sys.executable, "-c", textwrap.dedent(PROGRAM), *point, *map(str, arguments)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == b"here\n"
        yield process


def kill(process: subprocess.Popen[bytes]) -> None:
    process.send_signal(signal.SIGKILL)
    process.wait()
