"""What the tests of the formula language share: reading a line, kinds of names, any formula at all."""

from hypothesis import strategies as st

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Faults, Source, Span
from chalkfold.formula import Apply, Expression, Name, parse
from chalkfold.reading import Text
from spec_cases import told

KINDS = {
    "fraction": Kind.PLAIN,
    "ease": Kind.PLAIN,
    "stretch of elastic": Kind.PLAIN,
    "count of tassels": Kind.PLAIN,
    "angle of dart": Kind.ANGLE,
    "weight of main": Kind.WEIGHT,
    "not known": None,
}


def text_of(value: str) -> Text:
    return Text(value, Span(Source("formula", value), 0, len(value)))


def lines_of(page: str) -> list[Text]:
    """Each line as a text that knows where it stands on the page."""
    source, texts, at = Source("formula", page), [], 0
    for line in page.splitlines():
        texts.append(Text(line, Span(source, at, at + len(line))))
        at += len(line) + 1
    return texts


def kind_of_name(name: Name) -> Kind | None:
    return KINDS.get(name.key, Kind.LENGTH)


def read(value: str) -> Expression:
    faults = Faults()
    expression = parse(text_of(value), faults)
    assert expression is not None, told(faults)
    return expression


WORDS = st.sampled_from(["waist", "hip", "tier 1", "cross-back", "half", "stretch", "ease x2", "Ärmel"])
NAMES = st.lists(WORDS, min_size=1, max_size=3).map(" of ".join).filter(lambda name: "half" not in name)
AMOUNTS = st.sampled_from(["0", "3", "1/2", "7 1/2 in", "2.5 cm", "15 %", "90°", "pi", "1 m"]).map(read)
LEAVES = AMOUNTS | NAMES.map(Name)


def applied(inner: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    binary = ["+", "-", "*", "/", "^", "of", "and", "or", "=", "!=", "<", "<=", ">", ">="]
    return (
        st.builds(Apply, st.sampled_from(binary), st.tuples(inner, inner))
        | st.builds(Apply, st.sampled_from(["neg", "not", "round up", "sqrt"]), st.tuples(inner))
        | st.builds(Apply, st.just("if"), st.tuples(inner, inner, inner))
        | st.builds(Apply, st.sampled_from(["min", "max"]), st.lists(inner, min_size=1, max_size=3).map(tuple))
    )


TREES = st.recursive(LEAVES, applied, max_leaves=12)
