"""chalkfold expands sewing blocks in Markdown posts into computed tables, lists and drawings.

``md.use(chalkfold_plugin, site="…")`` is all that a program of its own needs.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from chalkfold.markdown import FaultsFound, chalkfold_plugin

__all__ = ["FaultsFound", "chalkfold_plugin"]


def __getattr__(name: str) -> object:
    """Load the plugin when it is asked for, so that ``import chalkfold`` costs nothing."""
    if name in __all__:
        from chalkfold import markdown

        return getattr(markdown, name)
    raise AttributeError(f"module 'chalkfold' has no attribute {name!r}")
