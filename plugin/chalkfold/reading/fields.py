"""The fields of a mapping, each taken by what it should be; a block module reads like its own manual."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable

from chalkfold.diagnostics import Code, Fault, Faults, Span, near
from chalkfold.reading.nodes import Mapping, Node, Sequence, Text

LENGTH_OF_A_SLIP = 2
"""Letters by which a key may be longer or shorter and still be taken for another: `publish`, but not `subtitle`."""

_SHAPES = {Text: "a single value", Mapping: "a mapping", Sequence: "a list"}


class Fields:
    """Reads the fields of ``mapping``; ``what`` names it in faults, as in "a spacing".

    Every reader returns nothing (None, an empty list, the default) for a key that is not there, and for
    one of the wrong shape after a fault. Call ``finish`` last: keys nobody asked for are faults, and so are
    keys that are missing and not just misspelled. ``also`` names keys that are read elsewhere; ``otherwise``
    ends the hint where a mapping stands for a single value.
    """

    def __init__(
        self, mapping: Mapping, faults: Faults, what: str, also: Iterable[str] = (), otherwise: str = ""
    ) -> None:
        self.whole, self.what, self.otherwise = mapping, what, otherwise
        self._faults = faults
        self._missing: list[tuple[tuple[str, ...], Fault]] = []
        self._known = {name.casefold(): name for name in also}
        self._nodes = {entry.key.value.casefold(): entry.value for entry in mapping}

    def node(self, key: str) -> Node | None:
        """The value as it stands, whatever its shape. A key with nothing behind its colon is a fault."""
        self._known[key.casefold()] = key
        node = self._nodes.get(key.casefold())
        return None if node is None or self._is_nothing(node, f"`{key}`") else node

    def text(self, key: str) -> Text | None:
        node = self.node(key)
        return None if node is None else self._text(node, key)

    def required_text(self, key: str) -> Text | None:
        """Like ``text``, but a key that is not there is a fault."""
        return self.text(key) if self.required(key) else None

    def required(self, key: str) -> bool:
        """Say whether the key is there, after a fault if it is not."""
        self._known[key.casefold()] = key
        if key.casefold() in self._nodes:
            return True
        add = "add" if self.whole.where.text.startswith("{") else "add a line"
        self.missing(key, code=Code.DATA_MISSING_KEY, message=f"{self.what} without `{key}`", hint=f"{add} `{key}: …`")
        return False

    def missing(self, *keys: str, code: Code, message: str, hint: str) -> None:
        """Report, once all is read, that one of ``keys`` is needed; one of them misspelled is fault enough."""
        self._missing.append((keys, Fault(code, message, self.whole.where, hint)))

    def has(self, key: str) -> bool:
        """Whether the key is there, with whatever behind it."""
        self._known[key.casefold()] = key
        return key.casefold() in self._nodes

    def mapping(self, key: str, example: str = "") -> Mapping | None:
        node = self.node(key)
        if node is None or isinstance(node, Mapping):
            return node
        hint = f"write `{key}: {{name: value}}`, or one `name: value` to a line, indented below `{key}:`"
        if example:
            hint = f"write `{key}: {example}`"
        self._wrong(node, f"`{key}` takes a mapping", hint)
        return None

    def items(self, key: str) -> list[Node]:
        """The items of a list; anything else counts as a list of one."""
        node = self.node(key)
        if node is None:
            return []
        if isinstance(node, Sequence):
            return [item for item in node if not self._is_nothing(item, f"an item of `{key}`")]
        return [node]

    def texts(self, key: str) -> list[Text]:
        """The items of a list of texts; a single text counts as a list of one."""
        texts = (self._text(item, key, "; for several write a list, `- …` on a line each") for item in self.items(key))
        return [text for text in texts if text is not None]

    def yes_no(self, key: str, default: bool = False) -> bool:
        chosen = self.choice(key, ("yes", "no"))
        return default if chosen is None else chosen == "yes"

    def choice(self, key: str, choices: Iterable[str]) -> str | None:
        """One of ``choices``, in the spelling given there; capital letters make no difference."""
        text = self.text(key)
        if text is None:
            return None
        spelled = {each.casefold(): each for each in choices}
        found = spelled.get(text.value.casefold())
        if found is None:
            close = near(text.value, spelled.values())
            meant = f"did you mean `{close}`? " if close else ""
            hint = f"{meant}choose one of: {_listed(spelled.values())}"
            self._add(Code.DATA_CHOICE, f"`{key}` cannot be `{text.value}`", text.span(), hint)
        return found

    def date(self, key: str) -> datetime.date | None:
        text = self.text(key)
        if text is None:
            return None
        try:
            if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text.value):
                return datetime.date.fromisoformat(text.value)
        except ValueError:
            pass
        hint = "write year, month and day as in 2026-04-11"
        self._add(Code.DATA_SHAPE, f"`{key}` is not a date", text.span(), hint)
        return None

    def also(self, *keys: str) -> None:
        """Name keys that are allowed but not read here."""
        self._known.update((key.casefold(), key) for key in keys)

    def finish(self, *, others: bool = False, stray: str = "") -> None:
        """Report every key that nobody asked for, and those missing.

        With ``others``, keys may belong to someone else, and only those are faults that look like a slip. ``stray``
        ends the hint at a key like no other.
        """
        unknown = [entry for entry in self.whole if entry.key.value.casefold() not in self._known]
        for keys, fault in self._missing:
            if not any(near(key, (entry.key.value for entry in unknown)) for key in keys):
                self._faults.take(fault)
        for entry in unknown:
            key = entry.key.value
            close = near(key, self._known.values())
            if others and (close is None or abs(len(close) - len(key)) > LENGTH_OF_A_SLIP):
                continue
            meant = f"did you mean `{close}`? " if close else ""
            allowed = _listed(sorted(self._known.values()))
            hint = (
                f"{meant}{self.what} takes {allowed}{'' if close else stray}"
                if allowed
                else f"{self.what} takes no keys"
            )
            self._add(Code.DATA_UNKNOWN_KEY, f"{self.what} has no key `{key}`", entry.key.where, hint)

    def _text(self, node: Node, key: str, several: str = "") -> Text | None:
        if isinstance(node, Text):
            return node
        hint = f"write `{key}: …` with one value{several or (self.otherwise if isinstance(node, Mapping) else '')}"
        if isinstance(node, Mapping) and ":" in node.where.text and not node.where.text.startswith("{"):
            hint = "put quotes around text that holds a colon"
        self._wrong(node, f"`{key}` takes text", hint)
        return None

    def _wrong(self, node: Node, takes: str, hint: str) -> None:
        self._add(Code.DATA_SHAPE, f"{takes}, and this is {_SHAPES[type(node)]}", node.where, hint)

    def _is_nothing(self, node: Node, what: str) -> bool:
        """Whether no character was written: ``key:`` alone. A pair of quotes with nothing in it is a text."""
        if not isinstance(node, Text) or node.value or node.where.end > node.where.start:
            return False
        self._add(Code.DATA_EMPTY, f"{what} is empty", node.where, "write a value, or take the line out")
        return True

    def _add(self, code: Code, message: str, where: Span, hint: str) -> None:
        self._faults.add(code, message, where, hint)


def _listed(names: Iterable[str]) -> str:
    return ", ".join(f"`{name}`" for name in names)
