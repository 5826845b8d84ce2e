"""Starting up is cheap: what few posts need is imported when it is needed."""

from __future__ import annotations

import subprocess
import sys

import pytest

HEAVY = ("shapely", "cairosvg", "numpy", "jinja2", "babel", "yaml", "markdown_it", "filelock", "slugify")


@pytest.mark.parametrize("module", ["chalkfold", "chalkfold.cli"])
def test_importing_loads_none_of_the_heavy_libraries(module: str) -> None:
    program = f"import sys, {module}; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    loaded = {name.partition(".")[0] for name in done.stdout.split()}
    assert "chalkfold" in loaded
    assert sorted(loaded & set(HEAVY)) == []
