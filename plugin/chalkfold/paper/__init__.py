"""Patterns at full size: pieces laid on a large sheet, cut into pages, as PDF; and as DXF.

``arrange`` gives each piece a place, ``sheet`` inks it with its signs and texts, ``tiles`` cuts the sheet into pages,
``pages`` paints them. A millimetre of cloth is ``UNITS`` units of drawing, so that lines and texts have the size they
have in any other drawing.
"""
