"""Sheets of known give, cut to a shape and pulled, go in; where every point goes comes out.

``mesh`` divides the shape, ``membrane`` solves it for small strain, ``finite`` for large, ``wrinkles`` for a
sheet that cannot be pushed, ``upper`` asks for a whole upper: alone, backed, turned.
"""
