"""From a described drawing to a drawn one: line types, dimensions, labels with room round them, SVG.

``sheet`` says what a drawing shows, ``layout`` gives all of it a place, a ``Surface`` is what it is played on. No
amounts are worked out here: texts come ready to print.
"""
