"""The plan: names, look-up, order, the primitives, the evaluator, and where each value came from.

Reading yields steps (a name and an expression); the plan orders those that the post reaches and works
them out for every size. Pure: no files, no markup, no sewing words.
"""
