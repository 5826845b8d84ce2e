"""YAML that types nothing, and where each character of it stands."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.diagnostics import Code, Faults, Source
from chalkfold.reading import (
    Mapping,
    Text,
    excerpt_of_lines,
    load,
)
from reading_help import plain, read, texts, well
from spec_cases import Case, cases, told


@pytest.mark.parametrize("case", cases("slips.md"), ids=str)
def test_a_slip_is_told_with_its_place_and_what_to_write(case: Case) -> None:
    node, faults = read(case.given.replace("→", "\t"))
    assert told(faults) == case.expected
    assert (node is None) == bool(case.expected)


# ---- what is read


def test_nothing_is_typed() -> None:
    body = "size: 00\nwashed: no\nstart: 12:30\nempty:\nquoted: '7 1/2\"'\nlist: [1e3, ~, 2 in main]\n"
    assert plain(well(body)) == {
        "size": "00",
        "washed": "no",
        "start": "12:30",
        "empty": "",
        "quoted": '7 1/2"',
        "list": ["1e3", "~", "2 in main"],
    }


def test_the_body_of_a_draft() -> None:
    draft = well(
        "points:\n"
        "  hem at fold: {from: centre, across: waist radius + skirt length}\n"
        '  note: {kind: plain, note: "part of a circle: 1, 3/4"}\n'
        "cut: [2 in main, 1 in interfacing]\n"
        "marks:\n"
        "- notch on back at 20 cm from waist at back\n"
    )
    assert plain(draft.get("points")) == {
        "hem at fold": {"from": "centre", "across": "waist radius + skirt length"},
        "note": {"kind": "plain", "note": "part of a circle: 1, 3/4"},
    }
    assert plain(draft.get("CUT")) == ["2 in main", "1 in interfacing"]
    assert plain(draft.get("marks")) == ["notch on back at 20 cm from waist at back"]


@pytest.mark.parametrize("body", ["", "\n\n", "# only a remark\n", "   "])
def test_an_empty_body_is_nothing_and_no_fault(body: str) -> None:
    node, faults = read(body)
    assert node is None and not len(faults)


# ---- where it stands


@pytest.mark.parametrize(
    ("body", "word", "place"),
    [
        ("note: press the hem\n", "hem", "post.md:1:17"),
        ("note: 'press the hem'\n", "hem", "post.md:1:18"),
        ("note: 'it''s the hem'\n", "hem", "post.md:1:18"),
        ('note: "7\\" \\u00bd hem"\n', "hem", "post.md:1:19"),
        ("note: press\n  the hem\n", "hem", "post.md:2:7"),
        ("note: |\n  press\n\n    the hem\n", "hem", "post.md:4:9"),
        ("größe: {ä: [ü, hem]}\n", "hem", "post.md:1:16"),
        ("note: 'press\n\n  the hem'\n", "hem", "post.md:3:7"),
        ('note: "press \\\n  the hem"\n', "hem", "post.md:2:7"),
        ("note: press\r\n  the hem\r\n", "hem", "post.md:2:7"),
    ],
)
def test_a_word_is_found_where_it_was_typed(body: str, word: str, place: str) -> None:
    text = next(t for t in texts(well(body)) if word in t.value)
    at = text.value.index(word)
    span = text.span(at, at + len(word))
    assert (span.place, span.text) == (place, word)


def test_a_block_in_a_quoted_list_keeps_its_places() -> None:
    source = Source("post.md", "Text\n\n> - ```draft\n>   cut: 2 in main\n>   note: press\n>     the hem\n>   ```\n")
    faults = Faults()
    node = load(excerpt_of_lines(source, 3, ["cut: 2 in main", "note: press", "  the hem"]), faults)
    assert isinstance(node, Mapping) and not len(faults)
    cut, note = node.get("cut"), node.get("note")
    assert isinstance(cut, Text) and isinstance(note, Text)
    assert (cut.where.place, cut.where.text) == ("post.md:4:10", "2 in main")
    assert note.value == "press the hem"
    assert note.span(10, 13).place == "post.md:6:11"


def test_a_line_the_parser_rewrote_falls_back_to_its_start() -> None:
    source = Source("post.md", "\tcut: 2\n")
    assert excerpt_of_lines(source, 0, ["    cut: 2"]).origins == (0,)
    assert excerpt_of_lines(source, 0, ["cut: 2"]).origins == (1,)
    assert excerpt_of_lines(source, 0, []).span(0, 0).start == 0
    assert excerpt_of_lines(source, 7, ["gone"]).origins == (len(source.text),)


WORDS = st.text(
    st.one_of(
        st.sampled_from("abz 09.,:;#{}[]=*&!%@|>-?'\"\\\n½é😀\u2028\x07\t"),
        st.characters(exclude_categories=["Cs"]),
    ),
    max_size=30,
)
KEYS = st.text(st.sampled_from("abc é#:{'\""), min_size=1, max_size=6)
TREES = st.recursive(
    WORDS,
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(KEYS, inner, max_size=4).filter(lambda d: len({k.casefold() for k in d}) == len(d))
    ),
    max_leaves=12,
)
STYLES = st.fixed_dictionaries(
    {
        "default_flow_style": st.sampled_from([True, False, None]),
        "default_style": st.sampled_from([None, None, "'", '"', "|"]),
        "width": st.sampled_from([8, 20, 1000]),
        "allow_unicode": st.booleans(),
    }
)


@given(tree=TREES, style=STYLES)
def test_valid_writing_reads_as_plain_yaml_does(tree: Any, style: dict[str, Any]) -> None:
    body = yaml.safe_dump({"key": tree}, **style)
    node, faults = read(body)
    if len(faults):  # what the dumper writes and our rules refuse: long keys, end marks, signs nobody sees
        assert {fault.code for fault in faults} <= {Code.DATA_QUOTE, Code.DATA_ANCHOR, Code.DATA_SYNTAX}
        assert any(sign in body for sign in ("? ", "!!", "...", "\u2028", "\x85", "\ufeff")), body
        return
    assert plain(node) == yaml.load(body, Loader=yaml.BaseLoader)
    for text in texts(node):
        for i, char in enumerate(text.value):
            written = text.span(i, i + 1).text
            assert written == char or (char in " \n" and written in " \n") or written in ("\\", "'"), (
                body,
                text,
            )


@given(tree=TREES, style=STYLES, prefix=st.sampled_from(["  ", "> ", ">   - "]))
def test_an_indented_or_quoted_body_reads_the_same(tree: Any, style: dict[str, Any], prefix: str) -> None:
    body = yaml.safe_dump({"key": tree}, **style)
    straight, told_straight = read(body)
    lines = body.split("\n")[:-1]
    source = Source("post.md", "Text\n" + "".join(f"{prefix}{line}\n" for line in lines))
    faults = Faults()
    node = load(excerpt_of_lines(source, 1, lines), faults)
    assert plain(node) == plain(straight)
    assert [f.message for f in faults] == [f.message for f in told_straight]
    for one, other in zip(texts(node), texts(straight), strict=True):
        for i in range(len(one.value)):
            assert one.span(i, i + 1).text == other.span(i, i + 1).text


@given(st.one_of(WORDS, st.text(st.sampled_from("a: -#{}[],'\"\n\\|>*&!%?=\t"), max_size=80)))
def test_any_text_gives_a_node_or_faults_inside_it(body: str) -> None:
    node, faults = read(body)
    assert not (node is not None and len(faults))
    for fault in faults:
        assert 0 <= fault.span.start <= fault.span.end <= len(body)
        assert fault.hint and fault.message


# ---- hostile bodies


@pytest.mark.parametrize(
    ("body", "code"),
    [
        ("a" * 1_000_000, Code.FILE_TOO_LONG),
        ("[" * 10_000, Code.DATA_DEEP),
        ("{a: " * 10_000, Code.DATA_DEEP),
        ("- " * 10_000, Code.DATA_DEEP),
        ("".join(" " * i + "a:\n" for i in range(500)), Code.DATA_DEEP),
        ("\t\n" * 50_000, Code.DATA_TAB),
        ("a: b: c\n" * 20_000, Code.DATA_COLON),
        ("a: b # c\n" * 20_000, Code.DATA_HASH),
        ("#'" * 90_000 + "\n]", Code.DATA_SYNTAX),
        ("a: b\0\n", Code.DATA_SYNTAX),
        ("a: \ud800\n", Code.DATA_SYNTAX),
        ("\ufeffa: b\n", Code.DATA_SYNTAX),
        ("a: b\rc: d\n", Code.DATA_SYNTAX),
        ("a: b\u2028c: d\n", Code.DATA_SYNTAX),
        ('a: "\n' + "#\n" * 90_000, Code.DATA_SYNTAX),
        ("- " + "a#" * 90_000 + ": @", Code.DATA_SYNTAX),
    ],
)
def test_hostile_bodies_end_soon_in_a_fault(body: str, code: Code) -> None:
    node, faults = read(body)
    assert node is None
    assert next(iter(faults)).code == code


def test_many_keys_are_only_many() -> None:
    body = "".join(f"k{i}: {i}\n" for i in range(15_000))
    assert len(well(body).entries) == 15_000


def test_twenty_levels_are_allowed_and_one_more_is_not() -> None:
    assert read("[" * 20 + "]" * 20)[0] is not None
    node, faults = read("[" * 21 + "]" * 21)
    assert node is None
    assert told(faults).startswith("post.md:1:21: nested deeper than 20 levels [data.too-deep]\n")
