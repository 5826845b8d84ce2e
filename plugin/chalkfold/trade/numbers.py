"""Reads ``numbers:`` of a post or a book: each name with its formula, by size or for all."""

from __future__ import annotations

from chalkfold.amounts import Rounding, read_rounding
from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.formula import BySize, Expression, Literal, key_of, parse, parse_name
from chalkfold.plan import Manner, Origin, Step, Style
from chalkfold.reading import Entry, Fields, Mapping, Node, Text


def read_numbers(numbers: Mapping, origin: Origin, faults: Faults, broken: set[str] | None = None) -> dict[str, Step]:
    """Return the steps by key; a faulty number is reported, left out, and its key added to ``broken``."""
    steps: dict[str, Step] = {}
    for entry in numbers:
        name = parse_name(entry.key, faults)
        step = None if name is None else _number(name, entry, origin, faults)
        if step is None:
            if broken is not None:
                broken.add(key_of(entry.key.value))
            continue
        if step.key in steps:
            faults.add(
                Code.DATA_TWICE,
                f"`{name}` stands here twice",
                entry.key.span(),
                "keep one of the two, or give one another name",
                related=(("the first", steps[step.key].span),),
            )
            continue
        steps[step.key] = step
    return steps


def _number(name: str, entry: Entry, origin: Origin, faults: Faults) -> Step | None:
    value, place = entry.value, entry.key.span()
    rounding: Rounding | None = None
    if isinstance(value, Mapping) and value.get("is") is not None:
        fields = Fields(value, faults, f"the number `{name}`")
        note, source = fields.text("note"), fields.text("source")
        said = fields.text("round")
        rounding = read_rounding(said, faults) if said else None
        origin = Origin(origin.where, note.value if note else "", source.value if source else origin.source)
        inner = fields.node("is")
        fields.finish()
        if inner is None:
            return None
        value = inner
    expression = read_expression(value, name, place, faults)
    if expression is None:
        return None
    style = Style.FINE if is_radius(name) else style_of(expression)
    return Step(name, expression, place, origin, Manner(rounding, style))


def is_radius(name: str) -> bool:
    """Whether a number is called a radius; an error in one grows by 2π times the part of the circle."""
    return key_of(name).rpartition(" ")[2] == "radius"


def read_expression(value: Node, name: str, place: Span, faults: Faults) -> Expression | None:
    """A formula, or a mapping from size to formula."""
    if isinstance(value, Text):
        return parse(value, faults)
    if isinstance(value, Mapping) and value.entries:
        return _by_size(value, name, faults)
    faults.add(
        Code.DATA_SHAPE,
        f"{name} needs a formula, or one for each size",
        place,
        f"write `{name}: 12 cm`, or `{name}: {{S: 12 cm, M: 13 cm}}`",
    )
    return None


def _by_size(value: Mapping, name: str, faults: Faults) -> BySize | None:
    cases: list[tuple[str, Expression]] = []
    for case in value:
        if not isinstance(case.value, Text):
            faults.add(
                Code.DATA_SHAPE,
                f"size {case.key.value} of {name} needs a formula",
                case.key.span(),
                f"write `{{{case.key.value}: 12 cm}}`",
            )
            return None
        expression = parse(case.value, faults)
        if expression is None:
            return None
        cases.append((case.key.value, expression))
    return BySize(tuple(cases), value.where, tuple(case.key.span() for case in value))


def style_of(expression: Expression) -> Style:
    """A number typed as a percentage or a fraction is printed as one."""
    if isinstance(expression, BySize):
        styles = {style_of(case) for _, case in expression.cases}
        return styles.pop() if len(styles) == 1 else Style.USUAL
    if isinstance(expression, Literal) and expression.kind is Kind.PLAIN:
        if "%" in expression.text:
            return Style.PERCENT
        if "/" in expression.text:
            return Style.FRACTION
    return Style.USUAL
