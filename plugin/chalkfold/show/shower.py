"""The one way from views to a page."""

from __future__ import annotations

from itertools import groupby

from chalkfold.plan import Choice, Drawing, Facts, Group, Listing, Ruler, Table, View
from chalkfold.show.choice import choice
from chalkfold.show.drawing import drawing
from chalkfold.show.lines import Lines
from chalkfold.show.markup import attributes, element, lines
from chalkfold.show.places import listing
from chalkfold.show.ruler import ruler
from chalkfold.show.tables import facts, table

HEADING = 3
"""The level of a view's title below a heading of the usual level."""

DEEPEST_HEADING = 6


class Shower(Lines):
    """Shows the views of one post as HTML, and its lines as HTML, plain text and words."""

    def view(self, view: View, level: int = HEADING) -> str:
        """A view as HTML: no blank line, no indented line, every text escaped; ``level`` is that of its title."""
        level = min(level, DEEPEST_HEADING)
        match view:
            case Table():
                return table(self, view)
            case Facts():
                return facts(self, view, level)
            case Ruler():
                return ruler(self, view, level)
            case Listing():
                return listing(self, view, level)
            case Drawing():
                return drawing(self, view, level)
            case Choice():
                return choice(self, view)
            case Group():
                return self._group(view, level)

    def _group(self, group: Group, level: int) -> str:
        """Boxes that follow each other stand side by side.

        A group with the size bar gets no element of its own: the bar stays in sight only within its parent.
        """
        has_bar = any(isinstance(view, Choice) for view in group.views)
        named = group.frame.id if has_bar else ""
        inner = lines(
            element(f"h{level}", self.line(group.frame.title), class_="title", id=named),
            *(
                self._boxes(list(views), level) if boxes else lines(*(self.view(view, level) for view in views))
                for boxes, views in groupby(group.views, lambda view: isinstance(view, Facts))
            ),
            *self.below(group.frame),
        )
        if has_bar or not (group.frame.id or group.frame.title):
            return inner
        return lines(f'<div class="group"{attributes(id=group.frame.id)}>', inner, "</div>")

    def _boxes(self, views: list[View], level: int) -> str:
        shown = lines(*(self.view(view, level) for view in views))
        return lines('<div class="boxes">', shown, "</div>") if len(views) > 1 else shown
