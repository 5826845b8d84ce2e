"""Turns bytes into text with places: YAML that types nothing, front matter, excerpts of a Markdown file.

Every key and value stays text; the field that takes it reads it. Nothing here knows sewing.
Word a fault better in ``slips`` and ``explain``; ``nesting`` and ``scalars`` hold the places and want care.
"""

from chalkfold.reading.excerpts import excerpt_of_lines
from chalkfold.reading.fields import Fields
from chalkfold.reading.files import inside, leads_out, read_text, with_line_feeds
from chalkfold.reading.front import split_front_matter
from chalkfold.reading.nodes import Entry, Excerpt, Mapping, Node, Sequence, Text
from chalkfold.reading.scanner import Fence, InlineValue, Scan, add_value_rule, scan
from chalkfold.reading.yaml_text import load

__all__ = [
    "Entry",
    "Excerpt",
    "Fence",
    "Fields",
    "InlineValue",
    "Mapping",
    "Node",
    "Scan",
    "Sequence",
    "Text",
    "add_value_rule",
    "excerpt_of_lines",
    "inside",
    "leads_out",
    "load",
    "read_text",
    "scan",
    "split_front_matter",
    "with_line_feeds",
]
