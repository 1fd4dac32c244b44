"""Every tolerance of this package, with its unit and its reason."""

VERIFY_MM = 1e-3
"""Overlap depth or gap shortfall up to this is rounding, not a fault: a hundredth of the 0.1 mm
that a cutting head resolves, and ten times finer than the 0.01 mm faults that must be caught."""

VERIFY_DEG = 1e-6
"""A pull axis closer than this to the tight direction is on it."""

SPARE_MM = 2e-4
"""Engines keep this much more than the gap asked for, so that rounding never makes a fault."""
