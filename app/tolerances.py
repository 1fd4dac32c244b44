"""Every tolerance of this package outside the window, with its unit and its reason."""

AXIS_LIMIT_DEG = 10.0
"""Pieces drawn assembled whose pull axes differ by more are flagged: from about 10 degrees off
the tight direction the give along the pull grows quickly (docs/maths.md, off-axis stiffness)."""

MOST_GAP_MM = 100.0
"""A wider gap between pieces is a slip of the finger (common practice, no source)."""

MOST_PER_SHOE = 99
"""More of one piece in a shoe is a slip of the finger (common practice, no source): no lay could hold it."""

STORED_DECIMALS = 4
"""Decimals of a millimetre that a style keeps of a drawing: a hundredth of the finest line."""
