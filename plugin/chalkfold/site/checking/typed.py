"""Measures typed by hand, in every page that has numbers of its own."""

from __future__ import annotations

from chalkfold.site.checking.look import Look
from chalkfold.stale.finder import find_typed, tell_typed
from chalkfold.stale.passages import passages_of
from chalkfold.work import work_all


def check(look: Look) -> None:
    """A page without numbers has nothing a measure could repeat; a faulty one has not all of its numbers."""
    worked, settings = look.worked, look.shelf.settings
    project = worked.reading.desk.project
    if not look.sound or not (project.numbers or worked.reading.desk.pieces):
        return
    fences = [fence for fence, _ in worked.views]
    goods = (name for each, _ in project.roles.values() for name in (each.name, each.title))
    sizes = (size for _, size in project.roles.values() if size)
    names = [*goods, *sizes, *(label for label in project.sizes.labels if label)]
    passages = passages_of(look.source, look.prose, fences)
    typed = find_typed(passages, names, settings, look.found)
    if typed:
        own = [step.name for step in project.numbers.values()]
        tell_typed(typed, work_all(worked, look.shelf), own, settings, look.found)
