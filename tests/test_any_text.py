"""Whatever is typed, there is a page or there are faults, each well told, and never a traceback."""

from __future__ import annotations

import re
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from chalkfold.diagnostics import Code, Faults, Source
from chalkfold.post import build_post
from chalkfold.reading import read_text
from chalkfold.trade import Shelf
from faults_help import assert_well_told, faults_of, shelf_of

DEMO = Path(__file__).parent.parent / "content_example"
DEMO_POSTS = [path.read_text("utf-8") for path in sorted(DEMO.glob("posts/*.md"))]
DEMO_SHELF = shelf_of(DEMO)

SNIPPETS = """
2 cm|1/2|3|0|90°|10 %|hem|skirt|top of skirt|total hem of skirt|count of skirt|zebra|é⅜|-|- |> |* |1. |[|]|{|}|(|)
+|-|*|/|^|=|>=|±|,|:|#|&|!|"|'|\\|min(|sqrt(|round(|if|then|else|and|not|of|half of|nearest|at least|at most
sizes: [S, M]|sizes: none|numbers:|  hem: |  depth: |along: |every: |count: |ends: |width: |land on: |name: skirt
pleats: {kind: box, takes: |keep off seams: |in the round: yes|pieces:|  - piece: skirt|    cut: 1 on fold in main
    rectangle: {across: |    down: |    circle: {radius: |    allowances: {all: |    on fold: left|items:|  - item: tape
    length: |    each: |    sold in: |    from: pieces cut in main|must hold:|not needed:|S: |step: |{= | }|\\{=
---|<div>|</div>|<!--|-->|`|# |![|](|)|note: |caption: |
"""
PARTS = st.sampled_from([each for line in SNIPPETS.split("\n") for each in line.split("|")])
LINES = st.lists(st.one_of(PARTS, PARTS, st.text(max_size=2)), max_size=4).map("".join)
FENCES = st.sampled_from(["project", "cut-list", "spacing", "materials", "checks", "sizes", "example", "faulty"])
BLOCKS = st.builds(
    "{}```{}\n{}\n{}```\n".format,
    st.sampled_from(["", "", "> ", "  ", "- "]),
    FENCES,
    st.lists(LINES, max_size=8).map("\n".join),
    st.sampled_from(["", "", "> ", "  ", "x"]),
)
TYPED = st.lists(st.one_of(BLOCKS, BLOCKS, LINES), max_size=5).map("\n".join)


def changed(text: str, cuts: list[tuple[int, int, int]]) -> str:
    """A post with lines taken out and characters changed about, as after a slip of the hand."""
    for sort, one, other in cuts:
        lines = text.split("\n")
        if sort == 0:
            del lines[one % len(lines)]
        elif sort == 1:
            lines[one % len(lines)], lines[other % len(lines)] = lines[other % len(lines)], lines[one % len(lines)]
        else:
            line = list(lines[one % len(lines)])
            if line:
                at = other % len(line)
                line[at : at + 2] = reversed(line[at : at + 2])
            lines[one % len(lines)] = "".join(line)
        text = "\n".join(lines)
    return text


class TestAnything:
    @settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(TYPED)
    def test_any_text(self, text: str) -> None:
        for fault in faults_of(text):
            assert_well_told(fault)

    @settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(
        st.sampled_from(DEMO_POSTS),
        st.lists(st.tuples(st.integers(0, 2), st.integers(0, 400), st.integers(0, 400)), min_size=1, max_size=4),
    )
    def test_a_post_of_the_demo_with_slips(self, text: str, cuts: list[tuple[int, int, int]]) -> None:
        built = build_post(Source("post.md", changed(text, cuts)), DEMO_SHELF)
        for fault in built.faults:
            assert_well_told(fault)
        if not len(built.faults):
            assert "{= " not in re.sub(r"(?s)<code>.*?</code>", "", built.html)

    @given(st.text(st.sampled_from("`project{= }\r\n\u2028\x0c\x85:>-"), max_size=60))
    def test_any_ends_of_lines(self, text: str) -> None:
        assert build_post(Source("post.md", f"```project\n{text}\n```\n"), Shelf()).html is not None

    def test_a_strange_end_of_line_ends_no_line(self) -> None:
        (fault,) = faults_of("```project\nnumbers:\n  hem: 2 cm\nnote: a\u2028b\n```\n")
        assert fault.message == "a character that cannot be seen (U+2028)"
        assert fault.span.place == "post.md:4:8"

    @given(st.binary(max_size=200))
    def test_any_bytes_are_text_or_a_fault(self, data: bytes) -> None:
        faults = Faults()
        with TemporaryDirectory() as folder:
            file = Path(folder) / "post.md"
            file.write_bytes(data)
            source = read_text(file, "post.md", faults)
        assert (source is None) == bool(len(faults))
        for fault in faults if source is None else faults_of(source.text):
            assert_well_told(fault)

    def test_examples_inside_one_another_come_to_an_end(self) -> None:
        text = "Text.\n"
        for marks in range(3, 120):
            text = f"{'`' * marks}example\n{text}{'`' * marks}\n"
        (fault,) = faults_of(text)
        assert fault.code is Code.EXAMPLE
