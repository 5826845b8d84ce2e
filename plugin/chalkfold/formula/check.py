"""One line of a ``checks`` block: two values, a comparison, perhaps a tolerance."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.formula import advice
from chalkfold.formula.expression import Apply, Expression, Literal, Name, apply
from chalkfold.formula.kind_rules import fits, shown
from chalkfold.formula.kinds import kind_of
from chalkfold.formula.lexer import Sort, Trouble
from chalkfold.formula.parser import Parser
from chalkfold.formula.printing import COMPARISONS, Level
from chalkfold.reading import Text


@dataclass(frozen=True, slots=True)
class Check:
    """``left op right``, perhaps within ``tolerance``; ``op`` is the comparison's name in the table."""

    left: Expression
    op: str
    right: Expression
    tolerance: Literal | None
    text: str
    span: Span

    @property
    def comparison(self) -> Apply:
        """Without the tolerance."""
        return apply(self.op, self.left, self.right, span=self.span)

    @property
    def within_share(self) -> bool:
        """Whether the tolerance is a share of the right-hand value (``± 10 %``)."""
        return self.tolerance is not None and self.tolerance.text.endswith("%")


def parse_check(text: Text, faults: Faults) -> Check | None:
    """Read ``left op right [± tolerance]``; None, with one fault, where it cannot be read."""
    try:
        return _read(Parser(text))
    except Trouble as trouble:
        trouble.report(text, faults)
        return None


def _read(parser: Parser) -> Check:
    left = parser.expression(Level.SUM)
    if not (parser.token.sort is Sort.SIGN and parser.token.text in COMPARISONS):
        if parser.token.sort is not Sort.END and not parser.at(Sort.SIGN, "±"):
            parser.expect_end()
        raise parser.trouble(parser.token, advice.NOT_A_CHECK)
    op = parser.advance().text
    right = parser.expression(Level.SUM)
    tolerance = _tolerance(parser, op) if parser.at(Sort.SIGN, "±") else None
    if parser.token.sort is Sort.SIGN and parser.token.text in COMPARISONS:
        raise parser.trouble(parser.token, advice.CHECKED_TWICE)
    parser.expect_end()
    text = parser.text
    return Check(left.node, op, right.node, tolerance, " ".join(text.value.split()), text.span())


def _tolerance(parser: Parser, op: str) -> Literal:
    sign = parser.advance()
    if op != "=":
        raise parser.trouble(sign, advice.TOLERANCE_WITHOUT_EQUALS)
    if parser.token.sort is not Sort.AMOUNT:
        raise parser.trouble(sign, advice.TOLERANCE_UNREAD)
    node = parser.expression(Level.ATOM).node
    assert isinstance(node, Literal)
    return node


def check_kinds(check: Check, kind_of_name: Callable[[Name], Kind | None], faults: Faults) -> Kind | None:
    """The kind of the two values; None, with a fault, where they or the tolerance don't fit."""
    if kind_of(check.comparison, kind_of_name, faults) is None:
        return None
    kinds = (kind_of(side, kind_of_name, Faults()) for side in (check.left, check.right))
    kind = next((each for each in kinds if each is not Kind.ZERO), Kind.ZERO)
    within = check.tolerance
    if kind is None or within is None or check.within_share or fits(within.kind, kind):
        return kind
    hint = "write a tolerance of the same kind, such as `± 2 mm` between lengths, or a share: `± 10 %`"
    message = f"the values are {shown(kind)} each, and the tolerance {shown(within.kind)}"
    faults.add(Code.FORMULA_KIND, message, within.span or check.span, hint)
    return None
