"""``checks``: what must be true in every size. A check that fails, fails the build."""

from __future__ import annotations

from chalkfold.blocks.desk import Desk, MakeView
from chalkfold.blocks.drafting.square_corners import is_square_check, square_check
from chalkfold.blocks.safety.cord_limits import CHECK as CORDS
from chalkfold.diagnostics import Code, near
from chalkfold.formula import Apply, Check, Expression, Literal, apply, check_kinds, parse_check, to_readers, to_text
from chalkfold.plan import Fact, Facts, Line, Plan, Shown, View
from chalkfold.reading import Fields, Text
from chalkfold.trade.built_in import built_in_checks

MADE_BY_ITSELF: dict[str, str] = {
    "usable width": "every piece fits across the cloth it is cut from",
    "square at the fold": "every edge meets its fold square, so that it opens out without a point",
    **{name: check.says for name, check in built_in_checks().items()},
    CORDS: "cords, belts and straps are within the limits for children's clothing",
}
"""Checks that are always made; ``not needed`` may switch one off, with a reason."""


def read(fields: Fields, desk: Desk) -> MakeView:
    """Lay down each check as a step that must come out as yes."""
    frame = desk.frame(fields, ("Checked in every size",))
    rows = [row for text in fields.texts("must hold") if (row := _check(text, desk))]
    reasons = _not_needed(fields, desk)
    if not fields.has("not needed"):
        fields.required("must hold")
    fields.finish()

    def view(plan: Plan) -> View:
        for check, _ in rows:
            if check is not None:
                check_kinds(check, lambda name: plan.kinds.get(name.key), desk.faults)
        return Facts(frame, (*(fact for _, fact in rows), *reasons), "checks")

    return view


def _check(text: Text, desk: Desk) -> tuple[Check | None, Fact] | None:
    if is_square_check(text):
        square = square_check(text, desk)
        return None if square is None else (None, square)
    check = parse_check(text, desk.faults)
    if check is None:
        return None
    left, right = desk.value(check.left, check.span), desk.value(check.right, check.span)
    message = ("this does not hold: ", *_side(check.left, left), ", ", *_side(check.right, right))
    desk.demand(_condition(check), message, check.span, _hint(check), apart=_apart(check))
    within = f" ± {check.tolerance.text}" if check.tolerance else ""
    value: Line = (left,) if left == right else (left, f" {_sign(check.op)} ", right, *([within] if within else []))
    said = f"{to_readers(check.left)} {_sign(check.op)} {to_readers(check.right)}{within}"
    return check, Fact((said,), value)


def _side(expression: Expression, value: Shown) -> Line:
    """A side with its value; an amount is its own value."""
    return ("the other side is ", value) if isinstance(expression, Literal) else (f"{to_text(expression)} is ", value)


def _hint(check: Check) -> str:
    if check.op != "=":
        return "mend the formula that is wrong"
    allow = "allow a difference: `± 2 mm` or `± 1 %`" if check.tolerance is None else "allow a larger difference"
    return f"mend the formula that is wrong, or {allow}"


def _sign(op: str) -> str:
    return {"<=": "≤", ">=": "≥", "!=": "≠"}.get(op, op)


def _condition(check: Check) -> Expression:
    if check.tolerance is None:
        return check.comparison
    allowed: Expression = check.tolerance
    if check.within_share:
        allowed = _size(check.right) * Literal(check.tolerance.value, check.tolerance.kind, check.tolerance.text)
    return Apply("<=", (_apart(check), allowed), check.span)


def _apart(check: Check) -> Expression:
    return apply("max", check.left - check.right, check.right - check.left, span=check.span)


def _size(expression: Expression) -> Expression:
    """Without its sign."""
    return apply("max", expression, 0 - expression)


def _not_needed(fields: Fields, desk: Desk) -> list[Fact]:
    """Checks made by itself that the writer switches off; the reason stands on the page."""
    facts = []
    for entry in fields.mapping("not needed") or ():
        name = entry.key.value.casefold()
        if name not in MADE_BY_ITSELF:
            likely = near(name, MADE_BY_ITSELF)
            listed = ", ".join(MADE_BY_ITSELF)
            desk.faults.add(
                Code.CHECKS,
                f"there is no check called `{entry.key.value}` that could be switched off",
                entry.key.span(),
                f"did you mean `{likely}`?" if likely else f"those made by themselves are: {listed}",
            )
        elif not isinstance(entry.value, Text) or len(entry.value.value.split()) < 2:
            desk.faults.add(
                Code.CHECKS,
                f"it is not said why `{name}` is not needed",
                entry.key.span(),
                "give the reason in a few words; readers see it",
            )
        else:
            desk.not_needed[name] = entry.value.value
            facts.append(Fact((f"Not checked: {MADE_BY_ITSELF[name]}",), desk.line(entry.value)))
    return facts
