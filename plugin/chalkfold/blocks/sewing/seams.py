"""One seam laid down: both edges walked, what must hold, and the rows of stitching that it takes.

Where all edges of a seam are there equally often, one is walked and sewn that many times; where they are not, or where
it is sewn in the round, the totals of all copies are. Source: counting. No row is longer than the second edge,
up to which the first is brought, but those on the first edge itself.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from chalkfold.amounts import read_amount
from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk, times
from chalkfold.blocks.sewing.seam_edges import Side
from chalkfold.blocks.sewing.seam_sentences import NEARNESS, Option, Sentence
from chalkfold.diagnostics import Code
from chalkfold.formula import Expression, Literal, Name, apply, length, plain
from chalkfold.plan import Limit, Line, Style
from chalkfold.reading import Text
from chalkfold.trade.seams import Way, seam_words


@dataclass(frozen=True, slots=True)
class Seam:
    """A seam as laid down. ``first`` and ``second`` are the lengths of its edges, the same for a single one.

    ``amount`` is what stands behind its way, ``length`` all of its stitching line: ``often`` times the second edge.
    ``rows`` holds each stitch with how long its rows are together, ``binding`` the length of that.
    """

    name: str
    sentence: Sentence
    sides: tuple[Side, ...]
    all_copies: bool
    often: int
    first: Name
    second: Name
    length: Name
    amount: Name | None = None
    rows: tuple[tuple[str, Expression], ...] = ()
    binding: Expression | None = None

    def label(self, side: int) -> str:
        return self.sides[side].label(self.all_copies)


def lay_seam(name: str, sentence: Sentence, sides: tuple[Side, ...], desk: Desk) -> Seam | None:
    """Lay down the lengths of a seam and demand that it walks; None after a fault."""
    place = sentence.said.span()
    found = _to_itself(sides[0], desk) if sentence.itself else _often(sides, sentence.has("in the round"))
    if found is None:
        return None
    all_copies, often, halves = found
    lengths = [side.length(all_copies) for side in sides]
    if halves:
        lengths = [_one_layer(sides[0])]
    names = ("first edge", "second edge") if len(sides) == 2 else ("edge",)
    steps = [
        desk.step(f"{words} of {name}", expression, place, style=Style.FINE, limit=Limit.POSITIVE, kind=Kind.LENGTH)
        for words, expression in zip(names, lengths, strict=True)
    ]
    whole = desk.step(f"length of {name}", times(steps[-1], often), place)
    desk.want(whole)
    seam = Seam(name, sentence, sides, all_copies, often, steps[0], steps[-1], whole)
    return seam if len(sides) == 1 else _walk(seam, desk)


def _often(sides: tuple[Side, ...], in_the_round: bool) -> tuple[bool, int, bool]:
    """Whether all copies count, how often the seam is sewn; the last is for an edge sewn to itself."""
    counts = {term.times for side in sides for term in side.edges}
    if in_the_round or len(counts) > 1:
        return True, 1, False
    return False, counts.pop(), False


def _to_itself(side: Side, desk: Desk) -> tuple[bool, int, bool] | None:
    """An edge sewn to itself: the copies or layers of it are sewn to each other by twos."""
    for term in side.terms:
        if term.piece is None or term.partly or (term.times * term.whole) % 2:
            message = f"`{term.said.value}` is there only once, and cannot be sewn to itself"
            if term.piece is None or term.partly:
                message = "only a whole edge can be sewn to itself"
            hint = "write the edge that it is sewn to, as in `left of band to right of band`"
            desk.faults.add(Code.SEW, message, term.said.span(), hint)
            return None
    counts = {term.times * term.whole // 2 for term in side.terms}
    if len(counts) > 1:
        message, hint = "these edges are not there equally often", "write a line for each of them"
        desk.faults.add(Code.SEW, message, side.said.span(), hint)
        return None
    return False, counts.pop(), True


def _one_layer(side: Side) -> Expression:
    """Edges laid end to end: half of one that goes on across a fold."""
    return added([term.length if term.whole == 1 else term.length / term.whole for term in side.edges])


def added(parts: Sequence[Expression]) -> Expression:
    total = parts[0]
    for part in parts[1:]:
        total = total + part
    return total


def _walk(seam: Seam, desk: Desk) -> Seam | None:
    """Lay down ``ratio of`` and demand that the two edges come out; None after a fault in the words."""
    desk.step(f"ratio of {seam.name}", seam.first / seam.second, seam.sentence.said.span())
    option = seam.sentence.way
    near = _nearness(seam, desk)
    if near is None:
        return None
    if option is None:
        _plain(seam, near, desk)
        return seam
    way = seam_words().ways[option.word]
    said = None if option.rest is None else _amount(option.rest, way, desk)
    if option.rest is not None and said is None:
        return None
    _right_way_round(seam, way, desk)
    _BY_WAY[option.word](seam, option, said, near, desk)
    return replace(seam, amount=said)


def _nearness(seam: Seam, desk: Desk) -> Expression | None:
    """How near is near enough, as a length; that of the trade where nothing is said."""
    option = seam.sentence.option(NEARNESS)
    words = seam_words()
    way = seam.sentence.way
    if option is None or option.rest is None:
        exact = way is not None and way.word == "gathered"
        return plain(words.ratio) * seam.first if exact else length(words.plain)
    found = read_amount(option.rest, desk.faults, (Kind.LENGTH, Kind.PLAIN))
    if found is None:
        return None
    literal = Literal(found.value, found.kind, found.text, option.rest.span())
    return literal * seam.second if found.kind is Kind.PLAIN else literal


def _amount(rest: Text, way: Way, desk: Desk) -> Name | None:
    """What stands behind the word: a length, a share of the second edge, or a ratio."""
    value = rest.value.casefold()
    start = next((len(each) for each in ("at most ", "by ") if value.startswith(each)), 0)
    end = next((len(value) - len(each) for each in (" times", " to 1") if value.endswith(each)), len(rest.value))
    said = rest.part(start, end)
    expression = desk.formula(said)
    if expression is None:
        return None
    kinds = {"length": Kind.LENGTH, "share": Kind.PLAIN, "ratio": Kind.PLAIN}
    kind = kinds[way.takes[0]]
    if isinstance(expression, Literal) and "share" in way.takes and expression.kind is Kind.PLAIN:
        kind = Kind.PLAIN
    style = Style.PERCENT if kind is Kind.PLAIN and "share" in way.takes else Style.USUAL
    name = f"= said {len(desk.steps)}"
    return desk.step(name, expression, said.span(), style=style, limit=Limit.POSITIVE, kind=kind)


def _apart(seam: Seam) -> Expression:
    return apply("max", seam.first - seam.second, seam.second - seam.first)


def _both(seam: Seam, desk: Desk) -> Line:
    first, second = desk.shown(seam.first), desk.shown(seam.second)
    return (f"{seam.label(0)} is ", first, f", {seam.label(1)} is ", second)


def _plain(seam: Seam, near: Expression, desk: Desk) -> None:
    counts = Counter(term.times for side in seam.sides for term in side.edges)
    often = next((term for side in seam.sides for term in side.edges if term.times > 1), None)
    one = f"; to count one copy only write `one {often.said.value}`" if often and len(counts) > 1 else ""
    hint = (
        "mend the edge that is wrong, or say behind a comma how the difference is taken up: `eased`, `gathered`, "
        f"`pleated`, `stretched`, or `± 5 mm`{one}"
    )
    message: Line = ("these edges do not match: ", *_both(seam, desk))
    _demand(seam, apply("<=", _apart(seam), near), message, hint, desk)


def _demand(seam: Seam, condition: Expression, message: Line, hint: str, desk: Desk) -> None:
    place = seam.sentence.said.span()
    desk.demand(condition, message, place, hint, about=seam.name, apart=_apart(seam))


def _right_way_round(seam: Seam, way: Way, desk: Desk) -> None:
    """The first edge is the one that is eased, gathered, pleated or stretched."""
    slack = length(seam_words().plain)
    gathered = way.name in ("gathered", "pleated")
    if way.longer:
        holds = apply(">" if gathered else ">=", seam.first, seam.second if gathered else seam.second - slack)
    else:
        holds = apply("<", seam.first, seam.second)
    word = "longer" if way.longer else "shorter"
    message: Line = (f"the first edge should be the {word} one, to be {way.name}: ", *_both(seam, desk))
    first, second = (" ".join(side.said.value.split()) for side in seam.sides)
    _demand(seam, holds, message, f"write `{second} to {first}, {way.name}`, or mend the edge that is wrong", desk)


def _eased(seam: Seam, option: Option, said: Name | None, near: Expression, desk: Desk) -> None:
    limit = _share(seam, option, said, seam.second, desk)
    shown = desk.hidden(limit, seam.sentence.said.span())
    message: Line = (*_both(seam, desk), ", and at most ", desk.shown(shown), " is to be eased in")
    hint = f"mend the edge that is wrong, or write how much it may be, as in `{option.word} 2 cm`"
    _demand(seam, apply("<=", seam.first - seam.second, limit), message, hint, desk)


def _stretched(seam: Seam, option: Option, said: Name | None, near: Expression, desk: Desk) -> None:
    limit = _share(seam, option, said, seam.first, desk)
    part = desk.hidden((seam.second - seam.first) / seam.first, seam.sentence.said.span(), Style.PERCENT)
    most = desk.hidden(limit / seam.first, seam.sentence.said.span(), Style.PERCENT)
    message: Line = (
        *_both(seam, desk), ": it is stretched by ", desk.shown(part), ", and should be by at most ", desk.shown(most)
    )  # fmt: skip
    hint = f"make the first edge longer, or write how much it may be, as in `{option.word} 40 %`"
    _demand(seam, apply("<=", seam.second - seam.first, limit), message, hint, desk)


def _share(seam: Seam, option: Option, said: Name | None, of: Name, desk: Desk) -> Expression:
    """The most by which two edges may differ, as a length: as said, or the share that is usual."""
    if said is None:
        most = seam_words().ways[option.word].most
        assert most is not None
        return Literal(most, Kind.PLAIN, f"{most * 100:g} %") * of
    return said if desk.steps[said.key].kind is Kind.LENGTH else said * of


def _gathered(seam: Seam, option: Option, said: Name | None, near: Expression, desk: Desk) -> None:
    if said is None:
        return
    due = said * seam.second
    apart = apply("max", seam.first - due, due - seam.first)
    ratio = Name(f"ratio of {seam.name}", seam.sentence.said.span())
    message: Line = (*_both(seam, desk), ": gathered ", desk.shown(ratio), " times, and not ", desk.shown(said))
    hint = "mend the edge that is wrong, or write the ratio that it is; how near is near enough: `± 10 %`"
    desk.demand(apply("<=", apart, near), message, seam.sentence.said.span(), hint, about=seam.name)


def _pleated(seam: Seam, option: Option, said: Name | None, near: Expression, desk: Desk) -> None:
    if said is None:
        return
    taken = desk.hidden(seam.first - seam.second, seam.sentence.said.span())
    apart = apply("max", taken - said, said - taken)
    message: Line = (*_both(seam, desk), ": the pleats take up ", desk.shown(taken), ", and not ", desk.shown(said))
    hint = "mend the edge that is wrong, or write what the pleats take up in all"
    desk.demand(apply("<=", apart, near), message, seam.sentence.said.span(), hint, about=seam.name)


_BY_WAY: dict[str, Callable[[Seam, Option, Name | None, Expression, Desk], None]] = {
    "eased": _eased,
    "gathered": _gathered,
    "pleated": _pleated,
    "stretched": _stretched,
}
