"""Starting up is cheap: what few posts need is imported when it is needed."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from site_help import post, write

HEAVY = (
    "shapely", "cairosvg", "cairocffi", "PIL", "pypdf", "ezdxf", "numpy", "jinja2", "babel", "yaml", "markdown_it",
    "filelock", "slugify", "starlette", "uvicorn", "watchfiles",
)  # fmt: skip


@pytest.mark.parametrize("module", ["chalkfold", "chalkfold.cli"])
def test_importing_loads_none_of_the_heavy_libraries(module: str) -> None:
    program = f"import sys, {module}; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    loaded = {name.partition(".")[0] for name in done.stdout.split()}
    assert "chalkfold" in loaded
    assert sorted(loaded & set(HEAVY)) == []


def test_a_build_without_pictures_loads_none_of_the_libraries_that_render(tmp_path: Path) -> None:
    write(tmp_path, {"posts/a.md": post("A")})
    program = (
        "import sys, chalkfold.site.build, datetime, pathlib;"
        f"chalkfold.site.build.build_site(pathlib.Path({str(tmp_path)!r}), pathlib.Path({str(tmp_path / 'public')!r}),"
        " today=datetime.date(2026, 6, 1)); print(*sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    loaded = {name.partition(".")[0] for name in done.stdout.split()}
    assert "jinja2" in loaded
    assert sorted(loaded & {"cairosvg", "cairocffi", "PIL", "pypdf", "ezdxf"}) == []
