"""Draws the sample styles from curves: ``python -m sample_styles.draw`` writes all of them.

Everything is computed from the control points in this package, so a second run writes the same
bytes. The pieces are our own; the workshop they belong to is invented (docs/scenario.md).
"""
