"""Reads the blocks of one post, in the order of the registry, and says what each will show."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from chalkfold.blocks.built_in import make_built_in_checks
from chalkfold.blocks.desk import BY_SIZE, Desk, MakeView
from chalkfold.blocks.drafting.like import settle
from chalkfold.blocks.drafting.square_corners import demand_square_at_folds
from chalkfold.blocks.project import Project, read_project
from chalkfold.blocks.registry import BLOCKS, Block
from chalkfold.blocks.safety.cautions import put_cautions
from chalkfold.blocks.safety.cord_limits import demand_cords
from chalkfold.blocks.usable_width import demand_usable_width
from chalkfold.diagnostics import Code, Faults
from chalkfold.formula import parse
from chalkfold.plan import Shown
from chalkfold.reading import Fence, Fields, InlineValue, Mapping, load
from chalkfold.trade import Shelf


@dataclass
class Read:
    """A post as read: ``views`` belong to ``fences``, ``shown`` to ``values``, in their order.

    ``broken`` says that a block could not be read at all, so that measures it would have given are not missed,
    ``incomplete`` the same of any name.
    """

    desk: Desk
    views: list[tuple[Fence, MakeView]] = field(default_factory=list)
    shown: list[tuple[InlineValue, Shown | None]] = field(default_factory=list)
    broken: bool = False
    no_project: bool = False
    incomplete: bool = False


def read_blocks(fences: Sequence[Fence], values: Iterable[InlineValue], shelf: Shelf, faults: Faults) -> Read:
    """Read every block and value of a post onto one desk."""
    bodies: dict[int, Fields | None] = {id(fence): _body(fence, BLOCKS[fence.name], faults) for fence in fences}
    _in_order(fences, faults)
    project_fence = next((fence for fence in fences if fence.name == "project"), None)
    fields = None if project_fence is None else bodies[id(project_fence)]
    project = Project() if fields is None else read_project(fields, shelf, faults)
    read = Read(Desk(shelf, faults, project))
    doubled = [fence.name for fence in fences if BLOCKS[fence.name].once and _second(fence, fences)]
    read.broken = bool(doubled) or any(body is None for body in bodies.values())
    read.incomplete = project.incomplete or "project" in doubled
    read.desk.pieces_lost = "cut-list" in doubled or any(
        fence.name == "cut-list" and bodies[id(fence)] is None for fence in fences
    )
    read.desk.nameless = read.broken
    read.desk.seams_lost = any(fence.name == "sew" and bodies[id(fence)] is None for fence in fences)
    read.no_project = project_fence is not None and fields is None
    fences = settle(fences, bodies, read.desk)
    read.broken |= any(body is None for body in bodies.values())
    for block in BLOCKS.values():
        for fence in fences:
            body = bodies[id(fence)]
            if fence.name == block.name and body is not None and not (block.once and _second(fence, fences)):
                read.views.append((fence, block.read(body, read.desk)))
    read.broken |= read.desk.nameless
    demand_usable_width(read.desk)
    demand_square_at_folds(read.desk)
    demand_cords(read.desk)
    put_cautions(read.views, read.desk)
    for value in values:
        expression = parse(value.formula, faults)
        read.shown.append((value, None if expression is None else read.desk.value(expression, value.formula.span())))
    make_built_in_checks(read.desk)
    return read


def _body(fence: Fence, block: Block, faults: Faults) -> Fields | None:
    before = len(faults)
    node = load(fence.body, faults)
    if node is None and len(faults) > before:
        return None
    if node is None and block.may_be_empty:
        node = Mapping((), fence.span)
    if not isinstance(node, Mapping):
        found = "empty" if node is None else "not a mapping"
        faults.add(
            Code.BLOCK_SHAPE,
            f"the body of this `{fence.name}` block is {found}",
            fence.span if node is None else node.where,
            "write one `key: value` a line, as the guide shows for this block",
        )
        return None
    return Fields(node, faults, block.what, otherwise=BY_SIZE)


def _in_order(fences: Sequence[Fence], faults: Faults) -> None:
    for fence in fences:
        if BLOCKS[fence.name].once and _second(fence, fences):
            faults.add(
                Code.BLOCK_TWICE,
                f"there is a second `{fence.name}` block",
                fence.span,
                "put everything into the first one",
                related=(("the first", _first(fence.name, fences).span),),
            )
    if any(fence.name == "project" for fence in fences[1:]) and fences[0].name != "project":
        faults.add(
            Code.BLOCK_PROJECT,
            "the `project` block comes after another block",
            _first("project", fences).span,
            "move it to the top of the post",
        )


def _first(name: str, fences: Sequence[Fence]) -> Fence:
    return next(fence for fence in fences if fence.name == name)


def _second(fence: Fence, fences: Sequence[Fence]) -> bool:
    return _first(fence.name, fences) is not fence
