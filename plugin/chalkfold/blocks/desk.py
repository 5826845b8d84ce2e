"""The desk a block is read at: where it lays down steps, what they show, and what must hold."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.formula import Apply, Expression, Literal, Name, key_of, parse, parse_prose
from chalkfold.plan import (
    Demand,
    Facts,
    Frame,
    Limit,
    Line,
    Manner,
    Origin,
    Part,
    Plan,
    Product,
    Shown,
    Step,
    Style,
    View,
)
from chalkfold.reading import Fields, Text
from chalkfold.trade import Goods, Shelf
from chalkfold.trade.numbers import style_of

if TYPE_CHECKING:
    from chalkfold.blocks.drafting.contour import Draft
    from chalkfold.blocks.drafting.drawn import Side
    from chalkfold.blocks.drafting.like import Like
    from chalkfold.blocks.drafting.notches import Marked
    from chalkfold.blocks.pieces import Piece
    from chalkfold.blocks.project import Project
    from chalkfold.blocks.purposes import Purpose
    from chalkfold.blocks.safety.children import ForChild
    from chalkfold.blocks.sewing.seams import Seam

MakeView = Callable[[Plan], View]
"""A block's view is made once the plan is laid out (before any value is known)."""


@dataclass
class Desk:
    """Shared by the blocks of one post, which are read in the order of the registry."""

    shelf: Shelf
    faults: Faults
    project: Project
    steps: dict[str, Step] = field(default_factory=dict)
    wanted: dict[tuple[str, Span | None], Name] = field(default_factory=dict)
    demands: list[Demand] = field(default_factory=list)
    pieces: dict[str, Piece] = field(default_factory=dict)
    patterns: dict[str, Draft] = field(default_factory=dict)
    """Drafts without a fault, also those that are cut only as panels."""
    likes: dict[str, Like] = field(default_factory=dict)
    """By the key of a piece: which other piece it is like."""
    drafts: dict[str, Marked] = field(default_factory=dict)
    seams: list[Seam] = field(default_factory=list)
    seams_lost: bool = False
    """A seam was faulty, so that there may seem to be none."""
    spacings: list[str] = field(default_factory=list)
    purposes: dict[str, Purpose] = field(default_factory=dict)
    not_needed: dict[str, str] = field(default_factory=dict)
    child: ForChild | None = None
    """Set by the project where it is for a child."""
    cautions: Facts | None = None
    at_folds: list[tuple[Piece, Side, Side]] = field(default_factory=list)
    """Edges that meet a fold of their piece, and the fold."""
    broken: set[str] = field(default_factory=set)
    """Keys of pieces and spacings that were faulty and are reported already."""
    pieces_lost: bool = False
    """A piece was faulty, so that a role may seem to have none."""
    nameless: bool = False
    """A piece or spacing whose name is not known was faulty."""

    @property
    def roles(self) -> Mapping[str, tuple[Goods, str | None]]:
        return self.project.roles

    def step(
        self,
        name: str,
        expression: Expression,
        span: Span,
        *,
        where: str = "the post",
        style: Style = Style.USUAL,
        limit: Limit = Limit.ANY,
        kind: Kind | None = None,
        note: str = "",
        why: tuple[str, str] | None = None,
        quiet: bool = False,
        parts: tuple[Part, ...] = (),
    ) -> Name:
        """Lay down a step and return its name, to build further formulas on."""
        step = Step(name, expression, span, Origin(where, note), Manner(style=style), limit, kind, why, parts, quiet)
        self.steps[step.key] = step
        return Name(name, span)

    def want(self, *names: Name) -> None:
        """Say that a view shows these; only what a post reaches is worked out."""
        for name in names:
            self.wanted.setdefault((name.key, name.span), name)

    def shown(self, name: Name, manner: Manner | None = None) -> Shown:
        self.want(name)
        return Shown(name.key, manner)

    def product(self, *names: Name) -> Product:
        self.want(*names)
        return Product(tuple(name.key for name in names))

    def demand(
        self,
        condition: Expression,
        message: Line,
        span: Span,
        hint: str | Line,
        about: str = "",
        apart: Expression | None = None,
        code: Code = Code.WORK_CHECK,
    ) -> None:
        """Demand that ``condition`` holds in every size; ``message`` says what is wrong where it does not.

        Of demands ``about`` the same thing the first that is not met is told. ``apart`` is by how much it fails.
        """
        key = self.hidden(condition, span, quiet=True).key
        distance = None if apart is None else self.hidden(apart, span, Style.FINE, quiet=True).key
        self.demands.append(Demand(key, message, span, hint, key_of(about), distance, code))

    def hidden(self, expression: Expression, span: Span, style: Style = Style.USUAL, quiet: bool = False) -> Name:
        """A step without a name of its own (no writer can type one that starts with ``=``)."""
        name = self.step(f"= {len(self.steps) + 1}", expression, span, style=style, quiet=quiet)
        self.want(name)
        return name

    def formula(self, text: Text | None) -> Expression | None:
        return None if text is None else parse(text, self.faults)

    def line(self, text: Text | None) -> Line:
        """A text of the writer with its ``{= … }`` values; nothing for None."""
        if text is None:
            return ()
        parts = parse_prose(text, self.faults).parts
        return tuple(part if isinstance(part, str) else self.value(part.expression, part.span) for part in parts)

    def value(self, expression: Expression, span: Span) -> Shown:
        """A value shown in a text: a bare name keeps the manner of its number."""
        if isinstance(expression, Name):
            return self.shown(expression)
        return Shown(self.hidden(expression, span, style_of(expression)).key)

    def frame(self, fields: Fields, title: Line = ()) -> Frame:
        """Read ``caption``, ``note`` and ``id``, which every block takes."""
        said = fields.text("id")
        anchor = ""
        if said is not None:
            anchor = said.value
            if not anchor.replace("-", "").replace("_", "").isalnum() or not anchor[0].isalpha():
                self.faults.add(
                    Code.DATA_CHOICE,
                    f"`{anchor}` cannot be an anchor",
                    said.span(),
                    "write letters, figures and hyphens, beginning with a letter, as in `id: skirt-pieces`",
                )
                anchor = ""
        return Frame(anchor, title, self.line(fields.text("caption")), self.line(fields.text("note")))

    def taken(self, what: str, name: Text, others: Iterable[str], instead: str = "") -> bool:
        """Report a name that something else in the post has already; ``instead`` is one that is likely free."""
        if key_of(name.value) not in {key_of(other) for other in others}:
            return False
        self.faults.add(
            Code.BLOCK_TWICE,
            f"there is already a {what} called `{name.value}`",
            name.span(),
            f"call this one `{instead}`, or by another name of its own" if instead else "give each a name of its own",
        )
        return True


BY_SIZE = "; where it differs by size, give it a name under `numbers:` and write the name here"


def zero() -> Literal:
    """Nothing, as a length."""
    return Literal(0.0, Kind.LENGTH, "0 cm")


def times(expression: Expression, factor: int) -> Expression:
    """``expression`` itself for a factor of 1, so that explanations stay short."""
    return expression if factor == 1 else Apply("*", (Literal(float(factor), Kind.PLAIN, str(factor)), expression))
