"""The sewing knowledge and where it is kept: settings, charts, books, donors, cloths and notions.

Knowledge is YAML with its sources; this room reads it and hands out steps and scopes. A site's own files are
found before those that ship with the package.
"""

from chalkfold.trade.records import Book, Chart, Goods
from chalkfold.trade.settings import Settings
from chalkfold.trade.shelf import Shelf

__all__ = ["Book", "Chart", "Goods", "Settings", "Shelf"]
