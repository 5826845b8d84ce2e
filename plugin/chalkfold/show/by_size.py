"""What differs by size stands in the page once for each version; the style sheet shows the chosen one.

Each version says in a ``<b>`` which sizes it is true for, and the style sheet hides that. So a page shown
without its style sheet, or by a browser that has no ``:has()``, tells every size or the sample size, and
never the wrong one; ``hidden`` would leave a size bar that does nothing. A screen reader gets what is shown.
"""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.plan import Sizes
from chalkfold.show.markup import escape


class BySize:
    """Chooses among one version a size, or leaves the choice to the reader."""

    def __init__(self, sizes: Sizes, reader_chooses: bool) -> None:
        self.sizes = sizes
        self.switched = reader_chooses and sizes.many
        self._openings: dict[tuple[str, str, tuple[int, ...]], str] = {}

    def __call__(self, versions: Sequence[str], name: str = "", tag: str = "span") -> str:
        """One version a size as markup; ``name`` is a class for each, without it one alone stands bare."""
        sample = versions[self.sizes.sample]
        if not self.switched or versions.count(sample) == len(versions):
            return f'<{tag} class="{name}">{sample}</{tag}>' if name else sample
        groups = self.groups(versions)
        return "".join([f"{self._open(tag, name, numbers)}{text}</{tag}>" for text, numbers in groups])

    @property
    def size_name(self) -> str:
        """The label of the size that is shown; empty where the post has no sizes."""
        labels = [escape(label) for label in self.sizes.labels]
        if not self.switched:
            return labels[self.sizes.sample] if self.sizes.many else ""
        return "".join(
            f'<span class="{self._classes("", (number,))}">{"<b>, </b>" if number else ""}{label}</span>'
            for number, label in enumerate(labels)
        )

    def groups(self, versions: Sequence[str]) -> list[tuple[str, tuple[int, ...]]]:
        """The distinct versions, in order of their first size, with the sizes each is true for."""
        found: dict[str, list[int]] = {}
        for number, version in enumerate(versions):
            found.setdefault(version, []).append(number)
        return [(version, tuple(numbers)) for version, numbers in found.items()]

    def names(self, numbers: Sequence[int]) -> str:
        """``XS to M, XL``: the labels of some sizes, runs of three or more drawn together."""
        runs: list[list[int]] = []
        for number in numbers:
            if runs and runs[-1][-1] == number - 1:
                runs[-1].append(number)
            else:
                runs.append([number])
        label = self.sizes.labels
        return ", ".join(
            f"{label[run[0]]} to {label[run[-1]]}" if len(run) > 2 else ", ".join(label[each] for each in run)
            for run in runs
        )

    def label(self, numbers: Sequence[int]) -> str:
        """The same as markup."""
        return escape(self.names(numbers))

    def _open(self, tag: str, name: str, numbers: tuple[int, ...]) -> str:
        key = (tag, name, numbers)
        if key not in self._openings:
            label = f"{'; ' if numbers[0] else ''}{self.label(numbers)}: "
            self._openings[key] = f'<{tag} class="{self._classes(name, numbers)}"><b>{label}</b>'
        return self._openings[key]

    def _classes(self, name: str, numbers: tuple[int, ...]) -> str:
        sample = ["s"] if self.sizes.sample in numbers else []
        return " ".join([*([name] if name else []), "z", *(f"z{number}" for number in numbers), *sample])
