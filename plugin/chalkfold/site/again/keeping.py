"""A bench that keeps a record of every page it makes without a fault."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING

from markupsafe import Markup

from chalkfold.site.again.records import Beside, Record, front_data
from chalkfold.site.again.stamps import beside_stamp, body_stamp, theme_stamp, view_stamp
from chalkfold.site.bench import Bench, Body, Plan, Yield
from chalkfold.site.contents import View
from chalkfold.site.links import Target
from chalkfold.site.pages import Draft, Page
from chalkfold.site.store import Store
from chalkfold.trade.drawers import hashed
from chalkfold.trade.shelf import Shelf

if TYPE_CHECKING:
    from chalkfold.work import Worked


@dataclass
class Made(Yield):
    """What comes of some drafts, with the record of each by its path and the key of each file by its address.

    ``made`` are the paths of those that had to be made.
    """

    records: dict[str, Record] = field(default_factory=dict)
    keys: dict[str, str] = field(default_factory=dict)
    made: set[str] = field(default_factory=set)

    def add(self, other: Yield) -> None:
        super().add(other)
        if isinstance(other, Made):
            self.records |= other.records
            self.keys |= other.keys
            self.made |= other.made


class KeepingBench(Bench):
    """Makes pages like any bench, and a record of each."""

    yielded: Made

    def __init__(self, plan: Plan, shelf: Shelf) -> None:
        super().__init__(plan, shelf)
        self.yielded = Made()
        self.store = Store(plan.site, used=plan.cached)

    @cached_property
    def stamp(self) -> str:
        return body_stamp(self.shelf.settings)

    def beside_stamp(self, page: Page) -> str:
        """Of what goes with a post; one without pictures or patterns has nothing beside it."""
        return self._rendered if self.shelf.settings.address or page.patterns else self.stamp

    @cached_property
    def _rendered(self) -> str:
        return beside_stamp(self.shelf.settings)

    @cached_property
    def frame_stamp(self) -> str:
        """Of what every page shows around its own part."""
        return hashed(theme_stamp(self.plan.theme), view_stamp(self.plan.frame))

    def body(self, draft: Draft) -> Body:
        self.shelf.asked.clear()
        body = super().body(draft)
        self.yielded.made.add(draft.source.path)
        if not len(body.faults):
            self.yielded.records[draft.source.path] = self._record(draft, body)
        return body

    def _record(self, draft: Draft, body: Body) -> Record:
        return Record(
            hashed(draft.source.text),
            self.stamp,
            tuple((kind, name, self.shelf.digest(kind, name)) for kind, name in sorted(self.shelf.asked)),
            _told(body.links),
            _told(body.pictures),
            dict(body.found),
            front_data(draft.page, draft.place) if draft.page else None,
            self.store.put(body.html.encode()),
        )

    def _beside(self, draft: Draft, page: Page, worked: Worked) -> View:
        before = len(self._files)
        view = super()._beside(draft, page, worked)
        record = self.yielded.records.get(draft.source.path)
        if record is not None and page.kind == "post" and not len(self.faults) and not self._lacks_cairo:
            drawings = tuple((each.address, each.said) for each in self.yielded.pictures.get(page.address, ()))
            made = tuple(self._files[before:])
            beside = Beside(self.beside_stamp(page), view, drawings, made, self.cover_hash(draft, page))
            self.yielded.records[draft.source.path] = replace(record, beside=beside)
            self.yielded.keys |= dict(made)
        return view

    @property
    def _files(self) -> list[tuple[str, str]]:
        return self.pictures.files if "pictures" in vars(self) else []

    @property
    def _lacks_cairo(self) -> bool:
        return "pictures" in vars(self) and len(self.pictures.left_out) > 0

    def _write(self, template: str, address: str, **values: object) -> None:
        page = values.get("page")
        html = str(page.get("html", "")) if isinstance(page, dict) else ""
        self.write_or_take(template, address, values, Store.body_name(html.encode()))

    def write_or_take(self, template: str, address: str, values: dict[str, object], body: str) -> bool:
        """Write a page, unless the last output has it just so. The ``body`` is its name in the store.

        Returns False where the body is to be had from the store and is not there.
        """
        key = self._key(template, values, body)
        if not self.takes(address, key):
            page = values["page"]
            assert isinstance(page, dict)
            if "html" not in page:
                data = self.store.read(body)
                if data is None:
                    return False
                page = {**page, "html": Markup(data.decode())}  # as it was made, and escaped, before
            super()._write(template, address, **{**values, "page": page})
        self.yielded.keys[address] = key
        return True

    def takes(self, address: str, key: str) -> bool:
        """Whether the file at ``address`` need not be written again; the first bench alone may know."""
        return False

    def _key(self, template: str, values: dict[str, object], body: str) -> str:
        page = values["page"]
        bare = {key: value for key, value in page.items() if key != "html"} if isinstance(page, dict) else page
        return hashed(template, self.frame_stamp, body, view_stamp({**values, "page": bare}))


def _told(targets: tuple[Target, ...]) -> tuple[tuple[str, int, int], ...]:
    return tuple((target, span.start, span.end) for target, span in targets)
