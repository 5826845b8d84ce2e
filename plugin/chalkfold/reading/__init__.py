"""Turns bytes into text with places: YAML that types nothing, front matter, excerpts of a Markdown file.

Every key and value stays text; the field that takes it reads it. Nothing here knows sewing.
"""

from chalkfold.reading.nodes import Entry, Excerpt, Mapping, Node, Sequence, Text

__all__ = ["Entry", "Excerpt", "Mapping", "Node", "Sequence", "Text"]
