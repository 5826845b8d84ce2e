"""Laying out the plan: from the names a post shows to the steps it needs, in an order that works."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from graphlib import CycleError, TopologicalSorter

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import MOST_PLACES, Code, Faults, Span
from chalkfold.formula import Apply, BySize, Expression, Name, key_of, kind_of
from chalkfold.formula.kind_rules import NUMBERS
from chalkfold.plan.advice import unknown
from chalkfold.plan.grading import graded
from chalkfold.plan.parts_of_edges import with_lengths
from chalkfold.plan.steps import Scope, Step
from chalkfold.plan.worked import Sizes
from chalkfold.plan.wrong_kinds import WrongKinds

MOST_STEPS = 5_000
MOST_GUESSES = 100
"""Names of one post for which the nearest spelling is looked for; more is no tutorial."""
FITS: dict[Kind, frozenset[Kind]] = {
    kind: frozenset((kind, Kind.ZERO) if kind in NUMBERS else (kind,)) for kind in Kind
}


@dataclass(frozen=True, slots=True)
class Plan:
    """The steps that a post reaches, in working order, with the kind of each.

    ``varies`` holds the keys whose value can differ from size to size.
    """

    sizes: Sizes
    steps: dict[str, Step]
    kinds: dict[str, Kind]
    varies: frozenset[str]


def lay_out(scopes: Sequence[Scope], wanted: Iterable[Name], sizes: Sizes, faults: Faults) -> Plan:
    """Find every step that the names ``wanted`` lead to, order them, and check their kinds.

    Reports unknown names, circles, sizes missing from a graded number, and wrong kinds.
    """
    reached = _Reach(scopes, sizes, faults)
    for name in wanted:
        reached.follow(name)
    reached.tell_absent()
    order = _ordered(reached, faults)
    kinds = _kinds(order, reached, faults)
    steps = {key: reached.steps[key] for key in order if key in kinds}
    varies: set[str] = set()
    for key in order:
        if isinstance(reached.steps[key].expression, BySize) or varies.intersection(reached.needs[key]):
            varies.add(key)
    return Plan(sizes, steps, kinds, frozenset(varies))


class _Reach:
    """Follows names from step to step, looking each up once."""

    def __init__(self, scopes: Sequence[Scope], sizes: Sizes, faults: Faults) -> None:
        self.scopes = scopes
        self.sizes = sizes
        self.faults = faults
        self.steps: dict[str, Step] = {}
        self.needs: dict[str, tuple[str, ...]] = {}
        self.absent: dict[str, list[Name]] = {}
        self.circling: set[str] = set()
        self.expected: set[str] = set()
        """Keys whose kind a book demands."""
        self.full = False

    def _too_big(self, step: Step) -> None:
        """Told once, where the first number is that goes too far."""
        if not self.full:
            message = f"this post needs more than {MOST_STEPS} numbers"
            self.faults.add(Code.PLAN_TOO_BIG, message, step.span, "split the post in two")
        self.full = True

    def follow(self, wanted: Name) -> None:
        waiting: list[tuple[str, Name]] = [(wanted.key, wanted)]
        while waiting:
            key, said = waiting.pop()
            if key in self.steps:
                continue
            step = self._find(key, said)
            if step is None:
                continue
            if len(self.steps) >= MOST_STEPS:
                self._too_big(step)
                return
            self.steps[key] = step
            names = list(names_in(step.expression))
            self.needs[key] = tuple(dict.fromkeys(name.key for name in names))
            waiting += [(name.key, name) for name in reversed(names)]

    def _find(self, key: str, said: Name) -> Step | None:
        for scope in self.scopes:
            step = scope.find(key)
            if step is not None:
                expression = graded(step, self.sizes, self.faults)
                if expression is None:
                    return None
                demanded = self._demanded(key)
                if demanded and not step.kind:
                    self.expected.add(key)
                return replace(step, expression=expression, kind=step.kind or demanded)
        self.absent.setdefault(key, []).append(said)
        return None

    def tell_absent(self) -> None:
        """Report each name that was not found, once, with the other places that ask for it."""
        for number, said in enumerate(self.absent.values()):
            places = {name.span: name for name in said if name.span is not None}
            if places:
                spans = sorted(places, key=lambda span: (span.source.path, span.start))
                self._unknown(places[spans[0]], spans[0], spans[1:], guess=number < MOST_GUESSES)

    def _demanded(self, key: str) -> Kind | None:
        return next((kind for scope in self.scopes if (kind := scope.demanded_kind(key))), None)

    def _unknown(self, said: Name, span: Span, others: Sequence[Span], guess: bool) -> None:
        if any(scope.is_broken(said.key) for scope in self.scopes):
            return
        related = tuple(("also here", other) for other in others[:MOST_PLACES])
        for scope in self.scopes:
            better = scope.why_missing(said.key, span)
            if better is not None:
                self.faults.add(*better, related=related)
                return
        scopes = self.scopes if guess else ()
        known = [name for scope in scopes for name in scope.names() if not name.startswith("=")]
        message, hint = unknown(said.name, known)
        self.faults.add(Code.PLAN_UNKNOWN, message, span, hint, related=related)


def names_in(expression: Expression) -> Iterator[Name]:
    """Every name in an expression, from left to right."""
    waiting = [expression]
    while waiting:
        node = waiting.pop()
        if isinstance(node, Name):
            yield node
        elif isinstance(node, Apply):
            waiting.extend(reversed(node.args))
        elif isinstance(node, BySize):
            waiting.extend(case for _, case in reversed(node.cases))


def _ordered(reached: _Reach, faults: Faults) -> list[str]:
    """Working order; a circle is reported as the path it takes, and cut open at its first step."""
    needs = {key: set(reached.needs[key]) & reached.steps.keys() for key in sorted(reached.steps)}
    while True:
        sorter: TopologicalSorter[str] = TopologicalSorter()
        for key, before in needs.items():
            sorter.add(key, *sorted(before))
        try:
            return list(sorter.static_order())
        except CycleError as error:
            circle: list[str] = error.args[1]
            _report_circle(circle, reached, faults)
            for key in set(circle):
                needs.pop(key, None)
                reached.circling.add(key)
            for before in needs.values():
                before.difference_update(circle)


def _report_circle(circle: list[str], reached: _Reach, faults: Faults) -> None:
    keys = list(reversed(circle[:-1]))  # graphlib gives predecessors first
    first = keys.index(min(keys, key=lambda key: reached.steps[key].span.start))
    path = [*keys[first:], *keys[:first], keys[first]]
    shown = " → ".join(reached.steps[key].name for key in path)
    what, hint = "these numbers go", "give one of them a formula that does not need the others"
    if any(reached.steps[key].kind is Kind.OUTLINE for key in path):
        what, hint = (
            "these points and edges go",
            ("construct one of them without the others; `side: inwards` and a parallel line need the whole outline"),
        )
    faults.add(Code.PLAN_CIRCLE, f"{what} round in a circle: {shown}", reached.steps[path[0]].span, hint)


def _kinds(order: list[str], reached: _Reach, faults: Faults) -> dict[str, Kind]:
    kinds: dict[str, Kind] = {}
    wrong = WrongKinds(reached.steps, reached.expected)

    def kind_of_name(name: Name) -> Kind | None:
        return kinds.get(key_of(name.name))

    for key in order:
        step = reached.steps.get(key)
        if step is None or key in reached.absent or key in reached.circling:
            continue
        kind = kind_of(step.expression, kind_of_name, Faults() if step.quiet else faults, step.span)
        if kind is None:
            continue
        if step.kind is not None and kind not in FITS[step.kind]:
            wrong.add(step, kind, step.kind, faults)
            continue
        if step.kind is not None:
            wrong.fits(step)
        if kind is Kind.POINT:
            reached.steps[key] = replace(step, expression=with_lengths(step.expression, kind_of_name))
        kinds[key] = step.kind if step.kind is not None and kind is Kind.ZERO else kind
    wrong.tell(faults)
    return kinds
