"""How a piece is drawn: points, edges and marks; darts, pleats and slashes; pieces made from pieces.

``draft.py`` beside this folder reads the block. What is written becomes points and edges, these a contour, the contour
a piece with folds and allowances (``enclosed.py``); what shapes it on the way stands in ``shaping.py``.
"""
