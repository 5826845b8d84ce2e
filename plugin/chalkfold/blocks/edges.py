"""The edges of a draft, in sentences: ``line to P``, ``arc to P around C``, ``arc to P with radius R bulging left``."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.named_parts import NamedParts
from chalkfold.blocks.points import Points
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, key_of, parse_name
from chalkfold.reading import Entry, Mapping, Text

MEASURES = frozenset(f"{cut}{measure}" for cut in ("", "cut ") for measure in ("width", "height", "area", "radius")) | {
    "count",
    "outline",
    "cutting line",
    "grain",
    "diagonal",
}
BEFORE_AN_EDGE = ("drawn", "total", "edge", "point", "allowance")
MOST_STRETCHES = 40
SIDES = ("left", "right", "up", "down")
_LINE = re.compile(r"line\s+to\s+(?P<to>.+)", re.I)
_ROUND = re.compile(r"arc\s+to\s+(?P<to>.+?)\s+around\s+(?P<centre>.+?)(?P<long>\s+the\s+long\s+way)?", re.I)
_BULGING = re.compile(r"arc\s+to\s+(?P<to>.+?)\s+with\s+radius\s+(?P<radius>.+?)\s+bulging\s+(?P<side>\S+)", re.I)
_FROM = re.compile(r"from\s+(?P<to>.+)", re.I)
HOW = "write `line to P`, `arc to P around C` or `arc to P with radius 30 cm bulging left`; join several with `;`"


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


@dataclass
class Edges(NamedParts):
    """The named edges of one piece, in order round the outline."""

    what = "edge"
    drawn: dict[str, Drawn] = field(default_factory=dict)

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
        drawn = _edge(entry, here, edges, points)
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


def read_lines(body: Mapping | None, edges: Edges, points: Points) -> dict[str, Drawn]:
    """Read ``lines:``, level and style lines: ``hip line: from A; line to B``."""
    lines: dict[str, Drawn] = {}
    for entry in body or ():
        name, key = parse_name(entry.key, edges.desk.faults), key_of(entry.key.value)
        drawn = None
        if name is not None and not is_measure(entry.key, edges.desk) and not _taken(entry.key, edges):
            drawn = _line(name, entry, edges, points)
        if drawn is not None:
            lines[key] = drawn
        elif key not in edges.names:
            edges.broken.add(key)
            measures = (f"{which}{key} of {edges.piece}" for which in ("", "drawn ", "total "))
            edges.desk.broken.update(map(key_of, measures))
    return lines


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
    return None if points.find(here) is None else _joined(name, entry, sentences[1:], here, edges, points)


def _edge(entry: Entry, here: Text, edges: Edges, points: Points) -> Drawn | None:
    sentences = _sentences(entry)
    if not sentences:
        edges.desk.faults.add(Code.DRAFT, f"edge `{entry.key.value}` is not drawn", entry.value.where, HOW)
        return None
    return _joined(entry.key.value, entry, sentences, here, edges, points)


def _joined(name: str, entry: Entry, sentences: list[Text], here: Text, edges: Edges, points: Points) -> Drawn | None:
    parts: list[Expression] = []
    start, centre = here, None
    if len(sentences) > MOST_STRETCHES:
        hint = f"join at most {MOST_STRETCHES} lines and arcs to one edge"
        message = f"{name} is joined from {len(sentences)} lines and arcs"
        edges.desk.faults.add(Code.DRAFT, message, entry.key.span(), hint)
        return None
    for sentence in sentences:
        found = _sentence(sentence, here, edges, points)
        if found is None:
            return None
        part, here, centre = found
        parts.append(part)
    whole = parts[0] if len(parts) == 1 else Apply("join", tuple(parts), entry.value.where)
    where = f"piece {edges.piece}"
    step = edges.desk.step(f"edge {name} of {edges.piece}", whole, entry.key.span(), where=where, kind=Kind.EDGE)
    word = sentences[0].value[:4].casefold() if len(sentences) == 1 else ""
    is_arc = word.startswith("arc")
    ends = key_of(start.value), key_of(here.value)
    return Drawn(name, step, *ends, is_arc, word == "line", centre if is_arc else None, entry.key.span())


def _sentence(said: Text, here: Text, edges: Edges, points: Points) -> tuple[Expression, Text, Name | None] | None:
    """One sentence: the edge it draws, the point where it ends, and the centre of an arc round one."""
    desk = edges.desk
    start = points.find(here)
    for pattern in (_LINE, _BULGING, _ROUND):
        match = pattern.fullmatch(said.value)
        if match:
            break
    else:
        desk.faults.add(Code.DRAFT, f"`{said.value}` draws nothing", said.span(), HOW)
        return None
    to = said.part(match.start("to"), match.end("to"))
    end = points.find(to)
    if start is None or end is None:
        return None
    if pattern is _LINE:
        return Apply("line", (start, end), said.span()), to, None
    if pattern is _ROUND:
        centre = points.find(said.part(match.start("centre"), match.end("centre")))
        op = "long arc around" if match["long"] else "arc around"
        return None if centre is None else (Apply(op, (start, end, centre), said.span()), to, centre)
    radius = desk.formula(said.part(match.start("radius"), match.end("radius")))
    side = match["side"].casefold()
    if side not in SIDES:
        place = said.span(match.start("side"), match.end("side"))
        desk.faults.add(Code.DRAFT, f"an arc cannot bulge `{side}`", place, f"write one of {', '.join(SIDES)}")
        return None
    return None if radius is None else (Apply(f"arc bulging {side}", (start, end, radius), said.span()), to, None)


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
    match = (
        re.match(r"(?:line|arc|curve)\s+to\s+(.+?)(?=\s+around\s|\s+with\s|\s+leaving\s|$)", sentences[-1].value, re.I)
        if sentences
        else None
    )
    return sentences[-1].part(match.start(1), match.end(1)) if match else None
