"""Lays found before go in, a lay for another problem comes out: repeated, thinned, moved to a wider roll.

A lay serves a problem of the same shapes with a narrower gap, on a wider roll, with fewer pieces, or with
several times as many. Every lay that comes out has been judged on the problem it is for.
"""

from nesting.known.pool import KnownLays, Pool
from nesting.known.record import KnownLay, exact_key, family_key, from_data, record_of, to_data

__all__ = [
    "KnownLay",
    "KnownLays",
    "Pool",
    "exact_key",
    "family_key",
    "from_data",
    "record_of",
    "to_data",
]
