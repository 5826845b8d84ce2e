"""Running text with values in it, as HTML, as plain text and in words."""

from __future__ import annotations

from chalkfold.amounts import Printer
from chalkfold.formula import key_of
from chalkfold.plan import Frame, Line, Product, Shown, Values
from chalkfold.show.by_size import BySize
from chalkfold.show.markup import element, escape
from chalkfold.show.quantities import Amount, Quantities


class Lines:
    """Prints the lines of one post. ``prefix`` stands before every id made here."""

    def __init__(self, values: Values, printer: Printer, *, reader_chooses: bool, prefix: str = "") -> None:
        self.sizes = values.sizes
        self.quantities = Quantities(values, printer)
        self.by_size = BySize(values.sizes, reader_chooses)
        self.reader_chooses = reader_chooses
        self.prefix = prefix
        self.how: dict[str, str] = {}
        """Where the list of sums tells a number (see ``sums``): the id of its entry."""
        self._led: set[str] = set()
        self._values: dict[Shown | Product, str] = {}
        self._ids = 0

    def value(self, part: Shown | Product) -> str:
        """A value as HTML, in every size the reader can choose, else in the sample size."""
        found = self._values.get(part)
        if found is None:
            versions = [amount.html(self.reader_chooses) for amount in self.quantities.row(part)]
            found = self._values[part] = self.by_size(versions, "q")
        return found

    def leading(self, line: Line) -> str:
        """A line as HTML in which each number leads to its sum, once a page."""
        return "".join([escape(part) if isinstance(part, str) else self.led(part) for part in line])

    def led(self, part: Shown | Product) -> str:
        """A value as HTML; the first time on a page it leads to how it comes about, where that is told."""
        entry = self.how.get(part.key, "") if isinstance(part, Shown) else ""
        if not entry or entry in self._led:
            return self.value(part)
        self._led.add(entry)
        return f'<a class="how" href="#{entry}">{self.value(part)}</a>'

    def line(self, line: Line) -> str:
        """A line as HTML."""
        return "".join([escape(part) if isinstance(part, str) else self.value(part) for part in line])

    def line_in(self, line: Line, size: int) -> str:
        """A line as HTML in one size."""
        return "".join(
            [escape(part) if isinstance(part, str) else self.amount(self.quantities.row(part)[size]) for part in line]
        )

    def amount(self, amount: Amount) -> str:
        """One amount as HTML, both units."""
        return f'<span class="q">{amount.html(self.reader_chooses)}</span>'

    def plain(self, line: Line, size: int) -> str:
        """A line in one size as plain text, both units: for alt texts, messages, other formats."""
        return "".join(part if isinstance(part, str) else self.quantities.row(part)[size].plain for part in line)

    def spoken(self, line: Line, size: int) -> str:
        """A line in one size in words that a voice reads right, in the site's main unit."""
        return "".join(part if isinstance(part, str) else self.quantities.row(part)[size].spoken for part in line)

    def varies(self, *lines: Line) -> bool:
        """Whether any value in the lines is printed differently in some sizes."""
        parts = {part for line in lines for part in line if not isinstance(part, str)}
        return any(len(set(self.quantities.row(part))) > 1 for part in parts)

    def title(self, frame: Frame, varies: bool) -> str:
        """The title of a view, with the size it is shown for where its values differ by size.

        A view without a title gets one only where no size bar says which size is shown.
        """
        title = self.line(frame.title)
        if not (varies and self.sizes.many) or (self.reader_chooses and not title):
            return title
        return f"{title}, size {self.by_size.size_name}" if title else f"Size {self.by_size.size_name}"

    def below(self, frame: Frame, tag: str = "p") -> list[str]:
        """The caption and the note of a view."""
        return [
            element(tag, self.line(frame.caption), class_="caption"),
            element("p", self.line(frame.note), class_="note"),
        ]

    def anchor(self, frame: Frame) -> str:
        """The id of a drawing: the one its writer gave, else one made of its title; no heading gets an underscore."""
        title = "".join(part for part in frame.title if isinstance(part, str))
        return frame.id or f"{self.prefix}drawing_{key_of(title).replace(' ', '_')}"

    def new_id(self) -> str:
        """An id that no other view of this post has."""
        self._ids += 1
        return f"{self.prefix}view-{self._ids}"
