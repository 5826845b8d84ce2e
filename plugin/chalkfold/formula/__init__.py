"""The formula language: parse, check kinds, print back, and turn into plain data.

No evaluation here; the plan does that. Nothing in this room knows what a name stands for.
"""
