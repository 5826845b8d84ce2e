"""The bench of the process that builds: it knows what builds before have made, and makes only what differs."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from markupsafe import Markup

from chalkfold.diagnostics import Faults, Source, Span
from chalkfold.site.again.keeping import KeepingBench, Made
from chalkfold.site.again.output import Output, is_inside, state
from chalkfold.site.again.records import Beside, Index, Record, Told, draft_of
from chalkfold.site.again.stamps import body_stamp
from chalkfold.site.bench import Plan
from chalkfold.site.contents import Picture
from chalkfold.site.links import follow
from chalkfold.site.pages import Draft, Page
from chalkfold.trade.drawers import hashed
from chalkfold.trade.settings import Settings
from chalkfold.trade.shelf import Shelf


class Memory:
    """What the front matter of each text said when it was last read."""

    def __init__(self, index: Index, settings: Settings) -> None:
        self._index, self._stamp = index, body_stamp(settings)

    def draft(self, source: Source) -> Draft | None:
        record = self._index.records.get(source.path)
        if record is None or record.front is None or record.stamp != self._stamp or record.text != hashed(source.text):
            return None
        return draft_of(source, record.front)


class FirstBench(KeepingBench):
    """Uses what stands in ``index`` and in the last output ``out``, and makes the rest."""

    def __init__(self, plan: Plan, shelf: Shelf, index: Index, out: Path) -> None:
        super().__init__(plan, shelf)
        self._index, self._output = index, Output(out, index.finished)
        self._digests: dict[tuple[str, str], str] = {}

    def use(self, drafts: Iterable[Draft]) -> list[Draft]:
        """Make the pages that were made before and owe nothing to what has changed; return the other drafts."""
        return [draft for draft in drafts if draft.page is None or not self._use(draft, draft.page)]

    def fitting(self, draft: Draft) -> Record | None:
        """The record of a draft, if all that its body read is still the same."""
        record = self._index.records.get(draft.source.path)
        return record if record is not None and self._fits(draft, record) else None

    def front(self, draft: Draft) -> Markup:
        record = self.fitting(draft)
        data = None if record is None else self.store.read(record.body)
        if record is None or data is None:
            return super().front(draft)
        self.yielded.records[draft.source.path] = record
        return Markup(data.decode())  # as it was made, and escaped, before

    def takes(self, address: str, key: str) -> bool:
        return self._output.take(address, key)

    def link(self) -> None:
        """Put what was taken from the last output into the new one. Raises OSError where the disk says no."""
        self._output.link(self.plan.new)

    def keep(self, made: Made, out: Path | None) -> None:
        """Leave a record of all that was made to the next build; ``out`` is the new output, if it became the site."""
        ground, index = self.plan.ground, self._index
        there = {*ground.pages, *ground.waiting, *ground.faulty}
        records = {path: each for path, each in index.records.items() if path in there} | made.records
        finished = index.finished
        if out is not None:
            states = ((address, key, state(out, address)) for address, key in made.keys.items())
            finished = {address: (key, found) for address, key, found in states if found is not None}
        Index(records, finished).save(self.store)

    def _use(self, draft: Draft, page: Page) -> bool:
        record = self.fitting(draft)
        if record is None:
            return False
        view = self._heading(page)
        del view["html"]
        if page.kind == "post":
            beside = record.beside
            if beside is None or not self._use_beside(draft, page, beside):
                return False
            view |= beside.view
        if not self.write_or_take(f"{page.kind}.html", page.address, {"page": view}, record.body):
            return False
        self.yielded.records[draft.source.path] = record
        return True

    def _use_beside(self, draft: Draft, page: Page, beside: Beside) -> bool:
        """Put the pictures and patterns of a post beside its page, if none of them differs."""
        if beside.stamp != self.beside_stamp(page) or beside.cover != self.cover_hash(draft, page):
            return False
        if not all(self._put(address, name) for address, name in beside.files):
            return False
        if self.shelf.settings.address:
            self.yielded.pictures[page.address] = [Picture(*each) for each in beside.drawings]
        return True

    def _put(self, address: str, name: str) -> bool:
        if not self.takes(address, name):
            data = self.store.read(name)
            if data is None or not is_inside(address):
                return False
            path = self.plan.new / address
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        self.yielded.keys[address] = name
        return True

    def _fits(self, draft: Draft, record: Record) -> bool:
        if record.text != hashed(draft.source.text) or record.stamp != self.stamp:
            return False
        if any(self._digest(kind, name) != digest for kind, name, digest in record.asked):
            return False
        links, pictures = _placed(record.links, draft.source), _placed(record.pictures, draft.source)
        faults = Faults()
        found = follow(draft.source.path, links, pictures, self.plan.ground, faults)
        return found == record.found and not len(faults)

    def _digest(self, kind: str, name: str) -> str:
        if (kind, name) not in self._digests:
            self._digests[kind, name] = self.shelf.digest(kind, name)
        return self._digests[kind, name]


def _placed(told: Iterable[Told], source: Source) -> list[tuple[str, Span]]:
    return [(target, Span(source, start, end)) for target, start, end in told]
