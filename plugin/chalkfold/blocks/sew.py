"""``sew``: which edge goes to which, in order. Both are walked in every size, and each edge is sewn once."""

from __future__ import annotations

from dataclasses import dataclass, field

from chalkfold.blocks.desk import Desk, MakeView
from chalkfold.blocks.drafting.notches import Pairs, notches_agree
from chalkfold.blocks.sewing.laps import lay_lap
from chalkfold.blocks.sewing.seam_edges import Side, Term, read_side
from chalkfold.blocks.sewing.seam_marks import match_in_parts
from chalkfold.blocks.sewing.seam_rows import seam_row
from chalkfold.blocks.sewing.seam_sentences import Lap, Sentence, read_sentence
from chalkfold.blocks.sewing.seam_stitching import lay_hem, stitched
from chalkfold.blocks.sewing.seams import Seam, added, lay_seam
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import key_of, parse_name
from chalkfold.plan import Frame, Group, Line, Listing, Table
from chalkfold.reading import Fields, Mapping, Text
from chalkfold.trade.seams import seam_words

MOST_SEAMS = 60
COLUMNS: tuple[Line, ...] = (("In this order",), ("How",), ("Length",))
TOTAL = "total length of seams"


def read(fields: Fields, desk: Desk) -> MakeView:
    """Read the seams, walk them, and show them in their order with their matching marks."""
    frame = desk.frame(fields, ("Seams",))
    reader = _Reader(desk)
    sentences = _sentences(fields, desk)
    for name, said in sentences:
        reader.take(name, said)
    fields.finish()
    pairs = _pairs(desk.seams)
    for seam in desk.seams:
        notches_agree(seam, pairs, desk)
    desk.seams_lost |= not sentences or len(reader.rows) < len(sentences)
    if desk.seams:
        total = desk.step(TOTAL, added([seam.length for seam in desk.seams]), fields.whole.where)
        reader.rows.append((("In all",), ("each line of stitching once",), (desk.shown(total),)))
    view = Group(Frame(), (Table(frame, COLUMNS, tuple(reader.rows), all_sizes=(2,)), *reader.marks))
    return lambda plan: view


def _sentences(fields: Fields, desk: Desk) -> list[tuple[Text | None, Text]]:
    """The sentences of `seams:`, each with its name where they are named."""
    if not fields.required("seams"):
        return []
    node = fields.node("seams")
    found: list[tuple[Text | None, Text]] = []
    if isinstance(node, Mapping):
        named = Fields(node, desk.faults, "`seams`")
        found = [(entry.key, text) for entry in node if (text := named.text(entry.key.value)) is not None]
    else:
        found = [(None, text) for text in fields.texts("seams")]
    if len(found) > MOST_SEAMS:
        message = f"there are {len(found)} seams here"
        desk.faults.add(Code.SEW, message, found[MOST_SEAMS][1].span(), f"sew at most {MOST_SEAMS} in one post")
    return found[:MOST_SEAMS]


def _pairs(seams: list[Seam]) -> Pairs:
    """The edges that are sewn one to one."""
    sides = [[side.edges for side in seam.sides] for seam in seams if len(seam.sides) == 2]
    return frozenset(
        frozenset({first[0].place, second[0].place}) for first, second in sides if len(first) == len(second) == 1
    )


@dataclass
class _Use:
    """What an edge was sewn in: how many of its copies, where first, and whether it is finished since."""

    copies: int
    place: Span
    finished: str


@dataclass
class _Reader:
    """Takes the sentences one after the other; ``used`` tells what was sewn before."""

    desk: Desk
    rows: list[tuple[Line, ...]] = field(default_factory=list)
    marks: list[Listing] = field(default_factory=list)
    used: dict[tuple[str, str], _Use] = field(default_factory=dict)
    number: int = 0

    def take(self, named: Text | None, said: Text) -> None:
        self.number += 1
        name = f"seam {self.number}" if named is None else self._name(named)
        sentence = read_sentence(said, self.desk)
        if isinstance(sentence, Lap):
            self.rows += [] if name is None else lay_lap(sentence, self.number, self.desk)
        elif name is None or sentence is None or not self._sew(name, named is not None, sentence):
            self.desk.broken.update(key_of(each) for each in (name or (named.value if named else ""), "seams") if each)

    def _sew(self, name: str, named: bool, sentence: Sentence) -> bool:
        """Lay down one seam; False after a fault."""
        sides = [read_side(side, self.desk) for side in sentence.sides]
        found = tuple(side for side in sides if side is not None)
        if len(found) < len(sides) or not self._in_order(sentence, found):
            return False
        seam = lay_seam(name, sentence, found, self.desk)
        hem = None if seam is None else lay_hem(seam, self.desk)
        if seam is None or hem is None:
            return False
        seam = stitched(seam)
        self.desk.seams.append(seam)
        self.rows.append(seam_row(seam, self.number, named, hem, self.desk))
        marks = match_in_parts(seam, self.desk)
        self.marks += [] if marks is None else [marks]
        return True

    def _name(self, named: Text) -> str | None:
        desk = self.desk
        name = parse_name(named, desk.faults)
        others = (("piece", desk.pieces), ("spacing", desk.spacings), ("role", desk.roles))
        instead = f"{named.value} seam"
        return None if any(desk.taken(what, named, names, instead) for what, names in others) else name

    def _in_order(self, sentence: Sentence, sides: tuple[Side, ...]) -> bool:
        """Whether no edge was sewn before; keeps in mind that these are sewn now."""
        words = seam_words().words
        finish = next((each.word for each in sentence.options if each.word in words and words[each.word].finishes), "")
        alone = len(sides) == 1 and not sentence.itself
        if alone and not finish:
            return True
        finished = finish if alone else ""
        edges = [term for side in sides for term in side.edges if not term.partly]
        if not self._again(sentence, edges):
            return False
        for term in edges:
            if not self._is_free(term, sentence):
                return False
            use = self.used.setdefault(term.place, _Use(0, term.said.span(), ""))
            use.copies += term.times
            use.finished = finished or use.finished
        return True

    def _again(self, sentence: Sentence, edges: list[Term]) -> bool:
        """Whether an edge that should be sewn again was sewn before."""
        option = sentence.option("again")
        if option is None or any(term.place in self.used for term in edges):
            return True
        message, hint = "none of these edges is sewn yet", "leave `again` out, or move the line down"
        self.desk.faults.add(Code.SEW, message, option.said.span(), hint)
        return False

    def _is_free(self, term: Term, sentence: Sentence) -> bool:
        use, piece = self.used.get(term.place), term.piece
        if use is None or piece is None:
            return True
        there = piece.main.layers * piece.copies // term.whole
        edge = f"{term.edge} of {piece.name}"
        if use.finished:
            message, hint = f"{edge} is {use.finished} already", "write the line that finishes the edge last"
        elif not sentence.has("again") and use.copies + term.times > there:
            message = f"{edge} is sewn already"
            hint = "leave it out; where a second seam goes through the same edge, as for a facing, write `, again`"
            if len({key_of(side.value) for side in sentence.sides}) < len(sentence.sides):
                message, hint = f"{edge} is on both sides of this seam", f"write `{edge} to itself`"
            elif there > 1:
                hint += f"; to sew one of the {there} at a time write `one {edge}` in both lines"
        else:
            return True
        self.desk.faults.add(Code.SEW, message, term.said.span(), hint, related=(("here first", use.place),))
        return False
