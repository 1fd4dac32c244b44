"""Half patterns and twins: a piece over its mirror line, and a piece over its mirror image.

``reflection`` is the mirror itself, ``halves`` unfolds a half pattern and folds a whole piece, ``twins`` lays
the mirror image of one piece over another.
"""
