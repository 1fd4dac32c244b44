"""Every tolerance of this package, with its unit and its reason."""

CHORD_MM = 0.05
"""Largest distance between a curve and the polyline that stands for it. Half of what a hand
knife can follow (common practice, no source); the user may set another."""

CORNER_DEG = 25.0
"""An outline breaks where it turns by more than this within one vertex. Above any step that
flattening a curve of shoe size at CHORD_MM makes (a 3 mm radius turns 21 deg a chord)."""

SAME_POINT_MM = 1e-6
"""Two points closer than this are one: far below any drawing's precision, far above the
rounding of doubles at drawing size."""

JOIN_MM = 0.5
"""Largest gap between loose segments that import closes (and reports)."""

MITRE_LIMIT = 4.0
"""A reflex or acute corner's mitre may run this many setbacks out before it is bevelled."""

SLIVER_MM = 1.0
"""Parts of a backing narrower than this cannot be cut and are removed (and reported)."""

FEATHER_CLEAR_MM = 1.0
"""A backing that ends this close to the feather line shows as a ridge on the last
(common practice, no source)."""
