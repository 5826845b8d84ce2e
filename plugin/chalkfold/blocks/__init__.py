"""One module for each fenced block: how it is read, and which steps and views it yields.

No block computes: amounts are steps of the plan, and views name the steps they show. To add a block, write a
module with a ``BLOCK`` and list it in ``registry.py``.
"""
