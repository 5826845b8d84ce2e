"""What is said of a measure that is typed by hand, and what to write instead."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.plan import Values
from chalkfold.stale.measures import Measure, Typed
from chalkfold.stale.passages import Passage
from chalkfold.stale.tracing import PARTIAL, Likeness, Traced

MOST_NAMES = 3
BETWEEN = {"product": " × ", "range": " to ", "one": ""}


@dataclass(frozen=True, slots=True)
class Teller:
    """Tells of measures in one post; ``show`` prints a number by its key in a size."""

    values: Values
    show: Callable[[str, int], str]
    faults: Faults

    def tell(self, typed: Typed, traced: Traced, passage: Passage) -> None:
        said = " ".join(passage.text.value[typed.start : typed.end].split())
        span = passage.text.span(typed.start, typed.end)
        if not traced.found:
            message = f"`{said}` is typed by hand, and no number of this post is near it"
            self._add(Code.MISLEADS_NOWHERE, message, span, self._name_it(said, passage))
            return
        message = f"`{said}` is typed by hand and {self._what(typed, traced)}"
        self._add(Code.MISLEADS_TYPED, message, span, self._instead(said, typed, traced, passage))

    def _add(self, code: Code, message: str, span: Span, hint: str) -> None:
        self.faults.add(code, message, span, hint)

    def _what(self, typed: Typed, traced: Traced) -> str:
        if traced.whole:
            labels = self.values.sizes.labels
            return f"repeats {traced.whole[0].name} from {labels[0]} to {labels[-1]}"
        if len(traced.parts) == 1:
            return self._one(traced.parts[0])
        told = (
            f"{_amount(part)} {self._one(found) if found else 'is no number of this post'}"
            for part, found in zip(typed.parts, traced.parts, strict=True)
        )
        return f"holds numbers of this post: {', '.join(told)}"

    def _one(self, found: tuple[Likeness, ...]) -> str:
        best = found[0]
        alike = _like_the_first(found)
        size = self.values.sizes.sample if best.in_sample else best.sizes[0]
        named = [f"{each.name}{self._in_size(each)}" for each in alike[:MOST_NAMES]]
        more = len(alike) - len(named)
        listed = _listed(named, more)
        if best.equal:
            return f"repeats {listed}"
        return f"is nearly {listed}, {self.show(best.key, size)}" if len(alike) == 1 else f"is nearly {listed}"

    def _in_size(self, found: Likeness) -> str:
        sizes, row = self.values.sizes, self.values.row(found.key)
        if not sizes.many or all(value == row[0] for value in row):
            return ""
        return f" in {sizes.labels[sizes.sample if found.in_sample else found.sizes[0]]}"

    def _instead(self, said: str, typed: Typed, traced: Traced, passage: Passage) -> str:
        if not passage.takes_values:
            return "leave the measure out, as no value can be filled in here"
        parts = (traced.whole,) if traced.whole else traced.parts
        if len(parts) > 1:
            values = BETWEEN[typed.form].join(_value(part[0].name if part else "…") for part in parts)
            return f"write `{values}`{self._or_allow(said, passage)}"
        best, *others = parts[0][:1] if traced.whole else _like_the_first(parts[0])
        choice = f" or `{_value(others[0].name)}`, whichever is meant" if others else ""
        follows = "" if others or best.in_sample else ", which follows the size that the reader chooses"
        return f"write `{_value(best.name)}`{choice}{follows}{self._or_allow(said, passage)}"

    def _name_it(self, said: str, passage: Passage) -> str:
        if not passage.takes_values:
            return "leave the measure out, or list its words in chalkfold.yml under `numbers allowed in text:`"
        return f"give it a name under `numbers:` and write `{{= its name }}`{self._or_allow(said, passage)}"

    def _or_allow(self, said: str, passage: Passage) -> str:
        comment = f"# as it stands: {said}" if passage.in_block else f"<!-- as it stands: {said} -->"
        behind = "two spaces behind it" if passage.in_block else "behind it"
        return f"; if it is to stay as it is, write `{comment}` {behind}"


def _like_the_first(found: tuple[Likeness, ...]) -> list[Likeness]:
    """Those as likely as the first; beside the post's own numbers no measures of pieces, beside lengths no parts."""
    best = found[0]
    alike = [each for each in found if (each.equal, each.in_sample, each.own) == (best.equal, best.in_sample, best.own)]
    return [each for each in alike if each is best or not each.key.startswith(PARTIAL)]


def _value(name: str) -> str:
    return f"{{= {name} }}"


def _amount(part: Measure) -> str:
    return part.unit.after(f"{part.value / float(part.unit.size):.4g}")


def _listed(named: list[str], more: int) -> str:
    if more:
        return f"{', '.join(named)} and {more} more"
    return " and ".join(filter(None, (", ".join(named[:-1]), named[-1])))
