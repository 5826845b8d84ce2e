"""Pure functions on points, lines, arcs, outlines and sectors: lengths in mm, angles in degrees.

No names, no sizes, no faults: only geometry, each function with the source of its formula. What cannot be constructed
raises ``GeometryTrouble``; ``shapes.py`` says how points, edges and outlines are written as plain tuples.
"""
