"""The edges of a draft, each of one sentence or several; ``sentences.py`` and ``curved.py`` read them."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.curved import SMOOTH, Around, Neighbour, is_curve
from chalkfold.blocks.drafting.named_parts import NamedParts
from chalkfold.blocks.drafting.points import Points
from chalkfold.blocks.drafting.sentences import HOW, has_radius, is_bent, read_sentence
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, key_of, parse_name
from chalkfold.reading import Entry, Mapping, Text

MEASURES = frozenset(f"{cut}{measure}" for cut in ("", "cut ") for measure in ("width", "height", "area", "radius")) | {
    "count",
    "outline",
    "cutting line",
    "grain",
}
BEFORE_AN_EDGE = ("drawn", "sewn", "total", "edge", "point", "allowance")
MOST_STRETCHES = 40
MOST_CURVES = 40
"""In one piece: each takes a thousand times as long to lay aside as a line."""
_TO = re.compile(r"(?:line|arc|curve)\s+to\s+(.+?)(?=\s+(?:around|with|bowed|through|leaving|arriving)\s|$)", re.I)
_FROM = re.compile(r"from\s+(?P<to>.+)", re.I)


@dataclass(frozen=True, slots=True)
class Drawn:
    """An edge or a line as read: its name, its step (an edge), the points it runs between, whether it is one arc."""

    name: str
    step: Name
    start: str
    end: str
    is_arc: bool
    is_line: bool
    centre: Name | None = None
    span: Span | None = None
    is_curved: bool = False
    """One arc, or with a curve in it: worth a tape along it."""


ReadLine = Callable[[str, Entry], Drawn | None]
"""Reads a line of this name from its entry; None after a fault."""


@dataclass
class Edges(NamedParts):
    """The named edges of one piece, in order round the outline."""

    what = "edge"
    drawn: dict[str, Drawn] = field(default_factory=dict)
    curves: int = 0
    """How many sentences draw a curve."""

    def step_name(self, key: str) -> str:
        """That of the edge as it is drawn, also where it was drawn for another piece."""
        return self.drawn[key].step.name if key in self.drawn else super().step_name(key)


def name_edges(body: Mapping, piece: str, desk: Desk) -> Edges:
    """Collect the names first, so that points may lie along edges that are drawn later."""
    edges = Edges(piece, desk)
    for entry in body:
        key = key_of(entry.key.value)
        if key == "start":
            continue
        if parse_name(entry.key, desk.faults) is None or is_measure(entry.key, desk):
            edges.broken.add(key)
        else:
            edges.names[key] = entry.key.value
    return edges


def is_measure(name: Text, desk: Desk) -> bool:
    """Report an edge or line called as a measure of the piece is, which it would hide."""
    first, _, rest = key_of(name.value).partition(" ")
    if key_of(name.value) not in MEASURES and not (rest and first in BEFORE_AN_EDGE):
        return False
    desk.faults.add(
        Code.DRAFT,
        f"`{name.value}` of a piece is a measure, and no edge or line can be called so",
        name.span(),
        "give it another name, such as `side`",
    )
    return True


def read_outline(body: Mapping, edges: Edges, points: Points) -> str | None:
    """Read each edge after the other; returns the key of the point where the outline starts."""
    said = body.get("start")
    if not isinstance(said, Text):
        edges.desk.faults.add(
            Code.DRAFT, "the outline does not say where it starts", body.where, "write `start: P` as its first line"
        )
        return None
    first = here = said
    if points.find(said) is None:
        edges.broken.update(edges.names)
        return None
    for entry in body:
        key = key_of(entry.key.value)
        if key == "start" or key in edges.broken:
            continue
        drawn = _edge(entry, here, edges, points, _beside(entry, body, edges))
        if drawn is None:
            edges.broken.add(key)
        else:
            edges.drawn[key] = drawn
        here = _last_point(entry) or here
    if not edges.broken and key_of(here.value) != key_of(first.value):
        edges.desk.faults.add(
            Code.DRAFT,
            f"the outline began at `{first.value}` and ends at `{here.value}`, so it is open",
            here.span(),
            f"add an edge that goes back, as in `side: line to {first.value}`",
        )
        return None
    return key_of(first.value)


def _beside(entry: Entry, outline: Mapping, edges: Edges) -> Around:
    """The edges before and after one, all the way round."""
    drawn = [each for each in outline if key_of(each.key.value) in edges.names]
    at = next((place for place, each in enumerate(drawn) if each is entry), 0)

    def neighbour(other: Entry, which: int) -> Neighbour | None:
        sentences = _sentences(other)
        step = Name(edges.step_name(key_of(other.key.value)), other.key.span())
        return Neighbour(step, sentences[which].value) if sentences and other is not entry else None

    return Around(neighbour(drawn[at - 1], -1), neighbour(drawn[(at + 1) % len(drawn)], 0)) if drawn else Around()


def edges_and_lines(edges: Edges, lines: Mapping | None) -> Callable[[Text], Name | None]:
    """Finds an edge, or a line that is read later, by its name; so that points may lie on either."""
    names = {key_of(entry.key.value): entry.key.value for entry in lines or ()}

    def find(said: Text) -> Name | None:
        key = key_of(said.value)
        if key in names and key not in edges.names:
            return Name(f"edge {names[key]} of {edges.piece}", said.span())
        return edges.find(said)

    return find


def read_lines(body: Mapping | None, edges: Edges, points: Points, parallel: ReadLine) -> dict[str, Drawn]:
    """Read ``lines:``, level and style lines: ``hip line: from A; line to B``; ``parallel`` one beside an edge."""
    lines: dict[str, Drawn] = {}
    for entry in body or ():
        name, key = parse_name(entry.key, edges.desk.faults), key_of(entry.key.value)
        drawn = None
        if name is not None and not is_measure(entry.key, edges.desk) and not _taken(entry.key, edges):
            read = parallel if is_parallel(entry) else partial(_line, edges=edges, points=points)
            drawn = read(name, entry)
        if drawn is not None:
            lines[key] = drawn
        elif key not in edges.names:
            edges.broken.add(key)
            measures = (f"{which}{key} of {edges.piece}" for which in ("", "drawn ", "total ", "edge "))
            edges.desk.broken.update(map(key_of, measures))
    return lines


def is_parallel(entry: Entry) -> bool:
    return isinstance(entry.value, Text) and entry.value.value.casefold().startswith("parallel")


def _taken(name: Text, edges: Edges) -> bool:
    if key_of(name.value) not in edges.names:
        return False
    message = f"there is already an edge called `{name.value}`"
    edges.desk.faults.add(Code.BLOCK_TWICE, message, name.span(), "give the line another name")
    return True


def _line(name: str, entry: Entry, edges: Edges, points: Points) -> Drawn | None:
    sentences = _sentences(entry)
    start = _FROM.fullmatch(sentences[0].value) if sentences else None
    if start is None or len(sentences) < 2:
        message, hint = f"`{name}` does not say from where to where", f"write `{name}: from A; line to B`"
        edges.desk.faults.add(Code.DRAFT, message, entry.value.where, hint)
        return None
    here = sentences[0].part(start.start("to"), start.end("to"))
    return None if points.find(here) is None else _joined(name, entry, sentences[1:], here, edges, points, Around())


def _edge(entry: Entry, here: Text, edges: Edges, points: Points, around: Around) -> Drawn | None:
    sentences = _sentences(entry)
    if not sentences:
        edges.desk.faults.add(Code.DRAFT, f"edge `{entry.key.value}` is not drawn", entry.value.where, HOW)
        return None
    return _joined(entry.key.value, entry, sentences, here, edges, points, around)


def _joined(
    name: str, entry: Entry, sentences: list[Text], here: Text, edges: Edges, points: Points, around: Around
) -> Drawn | None:
    parts: list[Expression] = []
    start, centre = here, None
    if len(sentences) > MOST_STRETCHES:
        hint = f"join at most {MOST_STRETCHES} lines and arcs to one edge"
        message = f"{name} is joined from {len(sentences)} lines and arcs"
        edges.desk.faults.add(Code.DRAFT, message, entry.key.span(), hint)
        return None
    if _too_many_curves(sentences, edges):
        return None
    stretches = _stretches(name, sentences, edges)
    places: tuple[Neighbour | None, ...] = (around.before, *(stretches or (None,) * len(sentences)), around.after)
    for number, sentence in enumerate(sentences):
        beside = Around(places[number], places[number + 2])
        found = read_sentence(sentence, here, edges, points, beside)
        if found is None:
            return None
        part, here, centre = found
        if stretches:
            part = edges.desk.step(stretches[number].step.name, part, sentence.span(), kind=Kind.EDGE)
        parts.append(part)
    whole = parts[0] if len(parts) == 1 else Apply("join", tuple(parts), entry.value.where)
    where = f"piece {edges.piece}"
    step = edges.desk.step(f"edge {name} of {edges.piece}", whole, entry.key.span(), where=where, kind=Kind.EDGE)
    word = sentences[0].value[:4].casefold() if len(sentences) == 1 else ""
    is_arc = len(sentences) == 1 and has_radius(sentences[0])
    is_curved = is_arc or any(is_bent(said) for said in sentences)
    ends = key_of(start.value), key_of(here.value)
    return Drawn(name, step, *ends, is_arc, word == "line", centre if is_arc else None, entry.key.span(), is_curved)


def _too_many_curves(sentences: list[Text], edges: Edges) -> bool:
    """Report the first sentence beyond those that are allowed; later ones are left undrawn."""
    before, curves = edges.curves, [said for said in sentences if is_curve(said)]
    edges.curves += len(curves)
    if before <= MOST_CURVES < edges.curves:
        message, hint = (
            f"{edges.piece} has more than {MOST_CURVES} curves",
            f"draw it with at most {MOST_CURVES} curves",
        )
        edges.desk.faults.add(Code.DRAFT, message, curves[MOST_CURVES - before].span(), hint)
    return edges.curves > MOST_CURVES


def _stretches(name: str, sentences: list[Text], edges: Edges) -> list[Neighbour]:
    """A step for every stretch of an edge in which one joins another smoothly; no writer can type its name."""
    if len(sentences) == 1 or not any(how.search(said.value) for said in sentences for how in SMOOTH.values()):
        return []
    called = (Name(f"= stretch {n + 1} of {name} of {edges.piece}", said.span()) for n, said in enumerate(sentences))
    return [Neighbour(step, said.value) for step, said in zip(called, sentences, strict=True)]


def _sentences(entry: Entry) -> list[Text]:
    """The parts of an edge between semicolons, each with its place and without white space round it."""
    if not isinstance(entry.value, Text):
        return []
    found, at = [], 0
    for part in entry.value.value.split(";"):
        start = at + len(part) - len(part.lstrip())
        if part.strip():
            found.append(entry.value.part(start, start + len(part.strip())))
        at += len(part) + 1
    return found


def _last_point(entry: Entry) -> Text | None:
    """Where an edge ends, as far as its last sentence can be read at all; so that one fault gives one message."""
    sentences = _sentences(entry)
    match = _TO.match(sentences[-1].value) if sentences else None
    return sentences[-1].part(match.start(1), match.end(1)) if match else None
