"""Edits of whole pieces and of the size run, each a function from style to style.

``adding`` says which pieces a style has, ``drawn_shapes`` draws new ones, ``folding`` unfolds and folds half
patterns, ``twins`` keeps mirror images alike, ``sizes`` the size run, ``measures`` takes lengths and areas,
``seams`` the edges that are sewn together.
"""
