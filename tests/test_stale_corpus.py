"""The finder of typed measures held to the sentences of ``stale/corpus.yml``: precision, recall, and the right name."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
import yaml

from stale_help import typed_in

CORPUS = yaml.safe_load((Path(__file__).parent / "stale/corpus.yml").read_text("utf-8"))
SENTENCES = CORPUS["sentences"]


class Held(NamedTuple):
    """One sentence: what should be found and what is, each as measure → name."""

    text: str
    wanted: dict[str, str]
    found: dict[str, str]


@pytest.fixture(scope="module")
def corpus(tmp_path_factory: pytest.TempPathFactory) -> list[Held]:
    """All sentences in one post, a paragraph each; a finding belongs to the sentence in whose lines it stands."""
    body, owner = CORPUS["post"], dict[int, int]()
    for number, each in enumerate(SENTENCES):
        first = body.count("\n") + 1
        body += f"\n{each['text']}\n"
        owner |= dict.fromkeys(range(first + 1, body.count("\n") + 1), number)
    found: list[dict[str, str]] = [{} for _ in SENTENCES]
    for line, said, name in typed_in(tmp_path_factory.mktemp("corpus"), body):
        found[owner[line]][said] = name
    return [Held(each["text"], each.get("typed", {}), mine) for each, mine in zip(SENTENCES, found, strict=True)]


def _pairs(held: dict[str, str], text: str) -> Iterator[tuple[str, str]]:
    return ((text, said) for said in held)


def test_the_corpus_is_large_and_has_both_sorts() -> None:
    assert len(SENTENCES) >= 80
    assert sum("typed" in each for each in SENTENCES) >= 40
    assert sum("typed" not in each for each in SENTENCES) >= 30


def test_precision_and_recall(corpus: list[Held], record_property: Callable[[str, object], None]) -> None:
    wanted = {pair for each in corpus for pair in _pairs(each.wanted, each.text)}
    found = {pair for each in corpus for pair in _pairs(each.found, each.text)}
    precision, recall = len(wanted & found) / len(found), len(wanted & found) / len(wanted)
    record_property("precision", precision)
    record_property("recall", recall)
    print(f"{len(SENTENCES)} sentences, {len(wanted)} measures: precision {precision:.3f}, recall {recall:.3f}")
    print("missed:", sorted(wanted - found))
    assert found - wanted == set()
    assert recall >= 0.95


def test_what_is_found_is_traced_to_the_right_number(corpus: list[Held]) -> None:
    wrong = [
        (each.text, said, name, each.found[said])
        for each in corpus
        for said, name in each.wanted.items()
        if said in each.found and each.found[said] != name
    ]
    assert wrong == []
