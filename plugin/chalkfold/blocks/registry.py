"""The blocks, in the order in which a post's are read: what later ones build on comes first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from chalkfold.blocks import checks, cut_list, draft, materials, project, sew, sizes, spacing
from chalkfold.blocks.desk import Desk, MakeView
from chalkfold.reading import Fields


@dataclass(frozen=True, slots=True)
class Block:
    """``name`` is the first word behind the fence, ``what`` names it in faults; ``once`` allows one a post."""

    name: str
    what: str
    read: Callable[[Fields, Desk], MakeView]
    once: bool = False
    may_be_empty: bool = False


BLOCKS: dict[str, Block] = {
    block.name: block
    for block in (
        Block("project", "the project", project.show_project, once=True),
        Block("draft", "a draft", draft.read),
        Block("cut-list", "a cut list", cut_list.read, once=True, may_be_empty=True),
        Block("spacing", "a spacing", spacing.read),
        Block("sew", "the order of sewing", sew.read, once=True),
        Block("materials", "the materials", materials.read),
        Block("checks", "the checks", checks.read),
        Block("sizes", "the sizes", sizes.read, may_be_empty=True),
    )
}
