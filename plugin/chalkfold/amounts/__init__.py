"""Amounts: what a number with a unit means, and how it is printed for a tape in either system.

A length is a float in millimetres, an area in mm², an angle in degrees. Both unit systems are printed
from the unrounded value. The one rounding rule of the project lives here.
"""
