"""Drawing on pieces and backings: edits from style to style, and lists of them (``script``).

Window and command call the same functions. ``where`` makes places that grading carries of points.
"""
