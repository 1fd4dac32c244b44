"""An upper piece with marked edges goes in, its backing piece and findings come out (``derive``).

``edges`` breaks the outline and names kinds, ``house_rules`` gives their setbacks, ``offset`` takes them off,
``partial`` and ``knife`` take off what the drafter and the knife ask.
"""
