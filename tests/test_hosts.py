"""The contract that other hosts build on: the same post through three Markdown parsers of other people."""

from pathlib import Path

import markdown
import pytest
from docutils.core import publish_string
from lxml import html
from markdown.preprocessors import Preprocessor
from markdown_it import MarkdownIt

from chalkfold import FaultsFound, chalkfold_plugin
from chalkfold.diagnostics import Faults, Source
from chalkfold.post import convert, placed, work_post
from chalkfold.trade import Shelf

POST = """# A loop of {= hip girth }

```project
sizes: [S, M]
numbers:
  hip girth: {S: 92 cm, M: 100 cm}
```

1. Cut as listed.

   ```cut-list
   pieces:
     - piece: band
       rectangle: {across: hip girth, down: 6 cm}
       allowances: {all: 1 cm}
       cut: 1 in main
   ```

   The band is {= width of band } round.

> ```spacing
> name: tassels
> along: top of band
> in the round: yes
> every: nearest 4 cm
> ```

````
```spacing
a sample, left alone, with {= hip girth } in it
```
````
"""


def the_same_everywhere(page: str) -> None:
    """Size S is the sample: 92 + 2 cm by 6 + 2 cm to cut, and 92 / 4 = 23 tassels."""
    text = " ".join(html.fromstring(page).text_content().split()).replace("\u00a0", " ")
    assert "A loop of 92 cm (36¼ in)" in text
    assert "94 × 8 cm" in text
    assert "The band is 92 cm (36¼ in) round." in text
    assert "23" in text
    assert "a sample, left alone, with {= hip girth } in it" in text
    assert text.count("{=") == 1
    tree = html.fromstring(page)
    assert len(tree.xpath("//li//table")) >= 1, "the cut list stays in its list item"
    assert len(tree.xpath("//blockquote//svg")) >= 1, "the ruler stays in its quote"


def test_five_lines_of_markdown_it() -> None:
    md = MarkdownIt("commonmark")
    md.use(chalkfold_plugin)
    the_same_everywhere(f"<div>{md.render(POST)}</div>")


def test_myst() -> None:
    text, faults = convert(Source("post.md", POST), Shelf())
    assert not len(faults)
    page = publish_string(
        text,
        parser=__import__("myst_parser.docutils_", fromlist=["Parser"]).Parser(),
        writer="html5",
        settings_overrides={"output_encoding": "unicode", "embed_stylesheet": False, "stylesheet_path": ""},
    )
    the_same_everywhere(str(page))


class _Splice(Preprocessor):
    """What an adapter for Python-Markdown will do: splice, and keep the markup out of the parser's way."""

    def run(self, lines: list[str]) -> list[str]:
        source, shelf, faults = Source("post.md", "\n".join(lines)), Shelf(), Faults()
        worked = work_post(source, shelf, faults)
        assert not len(faults)
        text = source.text
        for start, end, shown in reversed(placed(worked, shelf)):
            stashed = self.md.htmlStash.store(shown) if shown.startswith("<") else shown
            text = text[:start] + stashed + text[end:]
        return text.split("\n")


def test_python_markdown() -> None:
    md = markdown.Markdown(extensions=["fenced_code"])
    md.preprocessors.register(_Splice(md), "chalkfold", 28)
    page = md.convert(POST.replace("1. Cut", "1.  Cut").replace("\n   ", "\n    "))
    the_same_everywhere(f"<div>{page}</div>")


def test_a_fault_is_raised_where_nobody_collects_it() -> None:
    md = MarkdownIt("commonmark")
    md.use(chalkfold_plugin)
    with pytest.raises(FaultsFound, match=r"post\.md:1:11: nothing here is called `hip`"):
        md.render("# Loop {= hip }")


def test_a_fault_collected_is_shown_in_its_place() -> None:
    md = MarkdownIt("commonmark")
    md.use(chalkfold_plugin)
    faults = Faults()
    page = md.render("```spacing\nname: <b>\n```\n", {"faults": faults, "path": "bag.md"})
    assert len(faults) >= 1
    assert 'class="fault"' in page
    assert "<b>" not in page


def test_a_site_gives_its_charts(tmp_path: Path) -> None:
    (tmp_path / "sizes").mkdir()
    (tmp_path / "chalkfold.yml").write_text("title: Tidewater Mending Room\nunits: in first\n", encoding="utf-8")
    (tmp_path / "sizes" / "house chart.yml").write_text(
        "sizes: [S, M]\nunit: cm\nmeasures:\n  hip girth: {how: around, values: [92, 100]}\n", encoding="utf-8"
    )
    md = MarkdownIt("commonmark")
    md.use(chalkfold_plugin, site=tmp_path)
    page = md.render("```project\nsizes: house chart\nsample size: M\n```\n\n{= hip girth }\n")
    assert "39⅜" in page
    assert page.index("39⅜") < page.index("100")
