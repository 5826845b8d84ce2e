"""Pure functions on points, lines, arcs and sectors: lengths in mm, angles in degrees.

No names, no sizes, no sewing: only geometry, each function with the source of its formula.
"""
