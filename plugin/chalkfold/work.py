"""One post worked out: read → plan → work → what each place shows. No markup, no files; every host builds on it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from markdown_it.token import Token

from chalkfold.blocks.between_points import DeskScope
from chalkfold.blocks.reader import Read, read_blocks
from chalkfold.blocks.registry import BLOCKS
from chalkfold.diagnostics import Faults, Source
from chalkfold.formula import Name
from chalkfold.plan import Plan, Scope, Shown, Values, View, lay_out, rough, work_out
from chalkfold.reading import Fence, InlineValue, Scan, scan
from chalkfold.show import Shower
from chalkfold.trade import Shelf
from chalkfold.trade.scopes import BookScope, ChartScope, RoleScope

EXAMPLE = "example"
FAULT_LIST = "faults"
SHELF = "shelf"
NAMES = frozenset({*BLOCKS, EXAMPLE, FAULT_LIST, SHELF})


@dataclass
class Worked:
    """A post worked out: every value in every size, and which view stands where.

    ``needs`` are the definitions it used besides its own text: what and name, and a hash of the content.
    """

    plan: Plan
    values: Values
    views: list[tuple[Fence, View]]
    shown: list[tuple[InlineValue, Shown]]
    scan: Scan
    faults: Faults
    reading: Read
    needs: tuple[tuple[str, str], ...] = ()
    examples: list[Fence] = field(default_factory=list)


def read(tokens: Sequence[Token], source: Source, skipped: int, faults: Faults) -> Scan:
    """Find the blocks and values in the tokens of a post; ``skipped`` lines of front matter come before."""
    return scan(tokens, source, skipped, NAMES, faults)


def work(found: Scan, shelf: Shelf, faults: Faults, also: Iterable[Name] = ()) -> Worked:
    """Plan and work out everything a post shows. All its faults are in ``faults`` afterwards.

    ``also`` names more numbers to work out, of which the post need not say a word.
    """
    ours = [fence for fence in found.fences if fence.name in BLOCKS]
    others = [fence for fence in found.fences if fence.name not in BLOCKS]
    reading = read_blocks(ours, found.values, shelf, faults)
    reading.incomplete |= found.lost
    reading.desk.want(*also)
    plan = _laid_out(reading, faults)
    values = work_out(plan, shelf.settings.mark, faults)
    _meet_demands(reading, values, shelf, faults)
    return Worked(
        plan,
        values,
        [(fence, make(plan)) for fence, make in reading.views],
        [(value, shown) for value, shown in reading.shown if shown is not None],
        found,
        faults,
        reading,
        _needs(reading),
        others,
    )


def work_all(worked: Worked, shelf: Shelf) -> Values:
    """Every number that a sound post could show, also those it does not; what cannot be worked out is left out."""
    quiet = Faults()
    scopes = _scopes(worked.reading, quiet)
    names = dict.fromkeys(name for scope in scopes for name in scope.names() if not name.startswith("="))
    plan = lay_out(scopes, map(Name, names), worked.reading.desk.project.sizes, quiet)
    return work_out(plan, shelf.settings.mark, quiet)


def _laid_out(reading: Read, faults: Faults) -> Plan:
    desk, project = reading.desk, reading.desk.project
    if reading.no_project:  # every number would be missing; one message is enough
        return Plan(project.sizes, {}, {}, frozenset())
    numbers = [Name(step.name, step.span) for step in project.numbers.values()]
    return lay_out(_scopes(reading, faults), [*numbers, *desk.wanted.values()], project.sizes, faults)


def _scopes(reading: Read, faults: Faults) -> list[Scope]:
    """Where names are looked up, the post's own first."""
    desk, project = reading.desk, reading.desk.project
    return [
        Scope(project.numbers, project.broken, all_broken=reading.incomplete),
        DeskScope(desk.steps, desk.broken, all_measures_broken=reading.broken, laps_lost=desk.seams_lost),
        BookScope(project.books, faults),
        RoleScope(project.roles),
        ChartScope(project.chart),
    ]


def _meet_demands(reading: Read, values: Values, shelf: Shelf, faults: Faults) -> None:
    labels = values.sizes.labels
    writer = Shower(values, shelf.settings.printer, reader_chooses=False)
    told = _faulty_sizes(values)
    for demand in reading.desk.demands:
        before = told[demand.about] if demand.about else set()
        faulty = told.get(demand.about.rpartition(": ")[2], set()) if demand.about else set()
        failing = [i for i, met in enumerate(values.row(demand.key)) if met is False and i not in before | faulty]
        if failing:
            before.update(failing)
            everywhere = len(failing) == len(labels)
            sizes = () if everywhere and not values.sizes.many else tuple(labels[i] for i in failing)
            message = writer.plain(demand.message, failing[0])
            if demand.apart is not None:
                message += f": {_distance(demand.apart, failing[0], values, writer)} apart"
            hint = demand.hint if isinstance(demand.hint, str) else writer.plain(demand.hint, failing[0])
            faults.add(demand.code, message, demand.span, hint, sizes=sizes)


def _distance(key: str, size: int, values: Values, writer: Shower) -> str:
    """By how much two values differ, also where no tape shows it."""
    printed, exact = writer.plain((Shown(key),), size), values.row(key)[size]
    rounded_away = not any(each.isnumeric() and each != "0" for each in printed.partition("(")[0])
    return rough(exact, values.kinds[key]) if rounded_away and isinstance(exact, float) else printed


def _faulty_sizes(values: Values) -> defaultdict[str, set[int]]:
    """For each thing measured, the sizes in which one of its numbers could not be worked out."""
    found: defaultdict[str, set[int]] = defaultdict(set)
    for key, row in values.by_key.items():
        found[key.rpartition(" of ")[2]].update(i for i, value in enumerate(row) if value is None)
    return found


def _needs(reading: Read) -> tuple[tuple[str, str], ...]:
    """What the post read from the shelf, by kind and name, with the hash of each file."""
    project = reading.desk.project
    needs = {f"book:{book.name}": book.digest for book, _ in project.books}
    if project.chart is not None:
        needs[f"chart:{project.chart.name}"] = project.chart.digest
    for goods, _ in project.roles.values():
        needs[f"{goods.kind}:{goods.name}"] = goods.digest
    return tuple(sorted(needs.items()))
