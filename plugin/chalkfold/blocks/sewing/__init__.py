"""How edges are sewn: sentences of seams taken apart, edges walked, marks that match, rows of stitching and thread.

``sew.py`` beside this folder reads the block.
"""
