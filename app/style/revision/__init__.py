"""A style and a revised drawing go in; the style with the new outlines, and what must be asked, come out.

``match`` finds which new piece is which old one, ``carry`` brings edges, axes and drawn things over,
``revise`` does both for a whole style.
"""
