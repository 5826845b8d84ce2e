"""A sentence of ``sew:`` taken apart: which edges, and the words behind the commas. Only the words are looked up."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from chalkfold.blocks.desk import Desk
from chalkfold.diagnostics import Code, near
from chalkfold.formula import key_of
from chalkfold.reading import Text
from chalkfold.trade.seams import seam_words

HOW = "write `EDGE of PIECE to EDGE of PIECE`, and behind a comma how it is sewn"
ALONE = "write what it is sewn to, `… to EDGE of PIECE` or `… to itself`, or what is done to it: `turned up 2 cm twice`"
MATCHED, NEARNESS, TURNED_UP = "matched", "±", "turned up"
_ITSELF = re.compile(r"(?P<side>.+?)\s+to\s+itself", re.I)
_FROM_OR_TO = re.compile(r"(?<=\s)(?:from|to)(?=\s)", re.I)
_MATCHED = re.compile(r"matched\s+in\s+(?P<rest>\d{1,3})", re.I)
_TURNED = re.compile(r"\s+(?=turned\s+(?:up|down|under|in)\b)", re.I)
_TURN = re.compile(r"turned\s+(?:up|down|under|in)\b", re.I)
"""All the same to the trade, and all `turned up` among the words."""
_LAPS = re.compile(r"(?P<upper>.+?)\s+laps\s+(?P<under>.+?)\s+at\s+(?P<edge>.+)", re.I)


@dataclass(frozen=True, slots=True)
class Option:
    """One of the words behind a seam, and what stands behind it: ``eased`` and ``2 cm``."""

    word: str
    said: Text
    rest: Text | None = None


@dataclass(frozen=True, slots=True)
class Sentence:
    """The two sides of a seam; one, where an edge is sewn to itself or is worked alone."""

    said: Text
    sides: tuple[Text, ...]
    itself: bool
    options: tuple[Option, ...]

    def option(self, word: str) -> Option | None:
        return next((option for option in self.options if option.word == word), None)

    def has(self, word: str) -> bool:
        return self.option(word) is not None

    @property
    def way(self) -> Option | None:
        """How the first edge comes to the second, if it is not plain."""
        return next((option for option in self.options if option.word in seam_words().ways), None)


@dataclass(frozen=True, slots=True)
class Lap:
    """``right front laps left front 14 cm at waist``; ``under`` holds the second piece and the amount."""

    said: Text
    upper: Text
    under: Text
    edge: Text


def read_sentence(said: Text, desk: Desk) -> Sentence | Lap | None:
    """Take a sentence apart; None after a fault."""
    parts = list(_between(said, ","))
    lap = _LAPS.fullmatch(parts[0].value)
    if lap is not None:
        if len(parts) == 1:
            upper, under, edge = (parts[0].part(lap.start(name), lap.end(name)) for name in ("upper", "under", "edge"))
            return Lap(said, upper, under, edge)
        message, hint = (
            "a lap is not sewn, and takes no words behind a comma",
            "leave them out, or sew the edge in a line below",
        )
        desk.faults.add(Code.SEW, message, parts[1].span(), hint)
        return None
    turned = _TURNED.search(parts[0].value)
    if turned is not None:
        parts[:1] = [parts[0].part(0, turned.start()), parts[0].part(turned.end(), len(parts[0].value))]
    options = [_option(part, desk) for part in parts[1:]]
    itself = _ITSELF.fullmatch(parts[0].value)
    sides = (parts[0].part(0, itself.end("side")),) if itself else tuple(_sides(parts[0]))
    if len(sides) > 2:
        message = "this joins more than two edges at once"
        hint = (
            "write a line for each seam; edges that are joined already are added up: `waist of front + waist of back`"
        )
        desk.faults.add(Code.SEW, message, parts[0].span(), hint)
        return None
    found = tuple(option for option in options if option is not None)
    sentence = Sentence(said, sides, itself is not None, found)
    return sentence if len(found) == len(options) and _fits_together(sentence, desk) else None


def _between(text: Text, mark: str) -> Iterator[Text]:
    """The parts between marks that stand in no bracket, without white space round them."""
    depth, start = 0, 0
    for at, character in enumerate(f"{text.value}{mark}"):
        depth += (character == "(") - (character == ")")
        if character == mark and (depth <= 0 or at == len(text.value)):
            yield trimmed(text, start, at)
            start = at + 1


def trimmed(text: Text, start: int, end: int) -> Text:
    inner = text.value[start:end]
    begin = start + len(inner) - len(inner.lstrip())
    return text.part(begin, max(begin, start + len(inner.rstrip())))


def _sides(text: Text) -> Iterator[Text]:
    """The edges on both sides of ``to``; one that follows ``from`` belongs to a part of an edge."""
    start = waiting = 0
    for found in _FROM_OR_TO.finditer(text.value):
        if found[0].casefold() == "from":
            waiting += 1
        elif waiting:
            waiting -= 1
        else:
            yield trimmed(text, start, found.start())
            start = found.end()
    yield trimmed(text, start, len(text.value))


def _option(said: Text, desk: Desk) -> Option | None:
    matched = _MATCHED.fullmatch(said.value)
    if matched is not None:
        return Option(MATCHED, said, said.part(matched.start("rest"), len(said.value)))
    if said.value.startswith(NEARNESS):
        return Option(NEARNESS, said, trimmed(said, 1, len(said.value)))
    turn = _TURN.match(said.value)
    if turn is not None:
        rest = trimmed(said, turn.end(), len(said.value))
        return _with_rest(Option(TURNED_UP, said, rest if rest.value else None), desk)
    words = seam_words()
    known = sorted([*words.ways, *words.words], key=len, reverse=True)
    lower = " ".join(said.value.casefold().split())
    word = next((each for each in known if lower == each.casefold() or lower.startswith(f"{each.casefold()} ")), None)
    if word is None:
        _unknown(said, desk)
        return None
    rest = trimmed(said, _end_of(word, said), len(said.value))
    return _with_rest(Option(word, said, rest if rest.value else None), desk)


def _end_of(word: str, said: Text) -> int:
    """Where a word of several ends in the text, however many spaces stand between."""
    found = re.match(r"\s+".join(map(re.escape, word.split())), said.value, re.I)
    return 0 if found is None else found.end()


def _with_rest(option: Option, desk: Desk) -> Option | None:
    """An option with what it takes behind it, and nothing else."""
    words = seam_words()
    word = words.words.get(option.word)
    if option.rest is not None and word is not None and not word.takes and not word.open:
        message = f"`{option.word}` takes nothing behind it"
        desk.faults.add(Code.SEW, message, option.rest.span(), f"write `{option.word}`, and a comma before the next")
        return None
    if option.rest is None and word is not None and word.takes:
        amount = "2 cm twice" if "turnings" in word.takes else "2 cm"
        message = f"it is not said how much is {option.word}"
        desk.faults.add(Code.SEW, message, option.said.span(), f"write `{option.word} {amount}`")
        return None
    return option


def _unknown(said: Text, desk: Desk) -> None:
    words = seam_words()
    known = [*words.ways, *words.words, "matched in 4"]
    likely = near(said.value, known)
    hint = (
        f"did you mean `{likely}`?"
        if likely
        else f"the words are: {', '.join(sorted(known, key=str.casefold))}, ± 3 mm"
    )
    message = f"`{said.value}` does not say how it is sewn" if said.value else "nothing stands behind this comma"
    desk.faults.add(Code.SEW, message, said.span(), hint if said.value else "leave the comma out")


def _fits_together(sentence: Sentence, desk: Desk) -> bool:
    """Whether the words go with each other, and with one edge or two."""
    ways = [option for option in sentence.options if option.word in seam_words().ways]
    seen: set[str] = set()
    for option in sentence.options:
        if option.word in seen or (option in ways and option is not ways[0]):
            message = (
                f"`{option.word}` stands here twice"
                if option.word in seen
                else f"the edge is {ways[0].word} and {option.word}"
            )
            desk.faults.add(Code.SEW, message, option.said.span(), "leave one of the two out")
            return False
        seen.add(option.word)
    return _with_two(sentence, desk) if len(sentence.sides) == 2 or sentence.itself else _by_itself(sentence, desk)


def _with_two(sentence: Sentence, desk: Desk) -> bool:
    words = seam_words()
    for option in sentence.options:
        word = words.words.get(option.word)
        if word is not None and "turnings" in word.takes:
            hint = "give the hem a line of its own, as in `hem of skirt turned up 2 cm twice`"
            desk.faults.add(Code.SEW, "an edge is sewn to another or turned up, not both", option.said.span(), hint)
            return False
        if sentence.itself and (option.word in words.ways or option.word == NEARNESS):
            message = f"an edge sewn to itself is as long as itself, and cannot be {option.word}"
            if option.word == NEARNESS:
                message = "an edge sewn to itself is as long as itself, and needs no `±`"
            desk.faults.add(Code.SEW, message, option.said.span(), "leave this out")
            return False
    return True


def _by_itself(sentence: Sentence, desk: Desk) -> bool:
    words = seam_words().words
    alone = [option for option in sentence.options if option.word in words and words[option.word].alone]
    if not alone:
        desk.faults.add(
            Code.SEW, f"it is not said what `{key_of(sentence.sides[0].value)}` is sewn to", sentence.said.span(), ALONE
        )
        return False
    both = next((each for each in sentence.options if each.word not in words or each.word in ("lapped", "again")), None)
    if both is not None:
        message = f"`{both.said.value}` takes two edges"
        desk.faults.add(Code.SEW, message, both.said.span(), "write `EDGE of PIECE to EDGE of PIECE`, or leave it out")
    return both is None
