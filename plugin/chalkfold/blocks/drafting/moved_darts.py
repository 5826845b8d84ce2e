"""A dart that is closed, so that the piece opens elsewhere: as flare, or as a dart of another edge.

Pivoting about the tip is common practice in pattern cutting, no source.
"""

from __future__ import annotations

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.drafting.darts import Dart
from chalkfold.blocks.drafting.slashes import Slashes
from chalkfold.formula import Apply, Name, key_of, plain
from chalkfold.plan import Limit
from chalkfold.plan import Shaping as Shaped
from chalkfold.reading import Fields


def move_dart(
    name: str, fields: Fields, dart: Dart, opens: Name, edge: str | None, slashes: Slashes
) -> tuple[Shaped, ...] | None:
    """Close ``dart`` and open the piece at a point of the edge with this key; what a drawing says of it."""
    piece, span = slashes.piece, fields.whole.where
    as_dart = fields.choice("as", ("flare", "dart")) == "dart"
    for key in ("tip back", "pressed towards"):
        if not as_dart and (said := fields.text(key)) is not None:
            hint = "add `as: dart`, or leave it out"
            piece.fault(f"`{key}:` belongs to a dart, and {name} opens as flare", said.span(), hint)
            return None
    moved_last = _moved_last(dart, edge, slashes) if as_dart else True
    if edge is None or moved_last is None:
        hint = f"open at another edge than {dart.drawn.name}, as in `side at 8 cm from P`"
        piece.fault(f"{name} cannot become a dart here", span, hint)
        return None
    here = slashes.point(opens)
    slash = slashes.close(dart, opens, {edge}, span)
    there = piece.step(f"opened at {name}", Apply("along", (slash.cut, plain(0)), span), span, Kind.POINT)
    wide = piece.step(f"opening at {name}", Apply("distance", (here, there), span), span, Kind.LENGTH)
    if as_dart:
        return _dart(name, fields, dart, edge, (here, there) if moved_last else (there, here), slashes)
    line = (f"{dart.name} closed, {piece.edges.names[edge]} opened ", piece.desk.shown(wide))
    return (Shaped(name, (line,), wide.key, ()),)


def _dart(
    name: str, fields: Fields, closed: Dart, edge: str, legs: tuple[Name, Name], slashes: Slashes
) -> tuple[Shaped, ...] | None:
    """The dart that the closed one has become, its tip drawn back from where it turned if that is asked for."""
    piece, span = slashes.piece, fields.whole.where
    if any(key_of(each.name) == key_of(name) for each in (*slashes.closed, *slashes.darts)):
        piece.fault(f"there is already a dart called `{name}`", span, "give the new dart a name of its own")
        return None
    tip = slashes.point(closed.tip, closed.after)
    middle = piece.step(f"middle of {name}", Apply("between", (*legs, plain(0.5)), span), span, Kind.POINT)
    why = f"the tip of {name} is drawn back by {{}}"
    back = piece.amount(f"tip back of {name}", fields.text("tip back"), why, Limit.NOT_NEGATIVE)
    if back is not None:
        tip = piece.step(f"tip of {name}", Apply("towards", (tip, middle, back), span), span, Kind.POINT)
    drawn = piece.edges.drawn[edge]
    pressed = piece.towards("pressed towards", fields, drawn, legs)
    where = f"piece {piece.name}"
    wide, long = (
        piece.desk.step(f"{words} of {name} of {piece.name}", Apply("distance", ends, span), span, where=where)
        for words, ends in (("takes", legs), ("length", (middle, tip)))
    )
    if pressed is None:
        return None
    after = len(slashes.made)
    slashes.darts.append(Dart(name, span, drawn, wide, legs, tip, long, pressed, after=after, made_from=closed.name))
    return ()


def _moved_last(dart: Dart, edge: str | None, slashes: Slashes) -> bool | None:
    """Whether what moves lies behind the opening, as the edges run; None where one edge is closed and opened.

    The part with the fold, or else with the start of the outline, stays.
    """
    order = list(slashes.edges)
    if edge is None or edge == dart.edge:
        return None
    here, there = order.index(edge), order.index(dart.edge)
    stays = next((number for number, key in enumerate(order) if key in slashes.piece.folds), -0.5)
    return (stays - here) % len(order) > (there - here) % len(order)
