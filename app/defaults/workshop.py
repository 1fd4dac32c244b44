"""What a style and the house rules hold until the workshop enters its own figures."""

from __future__ import annotations

from geometry.defaults import NOTHING_ADDED, PRACTICE, Default
from nesting.defaults import SPREADING_PAGES

GAP_MM = Default(
    2.0,
    "mm",
    "Gap between pieces",
    "hand knife 2 to 3 mm, press die 2 to 4 mm, oscillating knife 0 to 2 mm: the least that "
    "serves the first two; set it to the tool",
    PRACTICE,
)

EDGE_MARGIN_MM = Default(
    5.0,
    "mm",
    "Margin at the selvedges, inside the usable width",
    "keeps pieces off cloth that is thick, uncoated or out of line beside the selvedge; 5 to 10 mm is usual",
    PRACTICE,
)

END_MARGIN_MM = Default(
    0.0,
    "mm",
    "Margin at the ends of a lay",
    "the end loss is counted by itself; a margin as well would count it twice",
    NOTHING_ADDED,
)

TURN_TOLERANCE_DEG = Default(
    0.0,
    "degrees",
    "Permitted tilt of a piece off the tight direction",
    "a piece laid off the tight direction gives more under the pull: nobody but the workshop permits it",
    NOTHING_ADDED,
)

ROLL_END_PERCENT = Default(
    1.0,
    "% of the cloth",
    "Ends of rolls",
    "too short for another ply; the upper end of what is told, so that the cost is not made to look low",
    SPREADING_PAGES,
)

SPLICE_PERCENT = Default(
    0.0, "% of the cloth", "Splices", "no figure was found to take instead", NOTHING_ADDED
)

REJECT_PERCENT = Default(
    0.0, "% of the cloth", "Rejects", "they are the workshop's own; no figure was found", NOTHING_ADDED
)

BASE_GIRTH_MM = Default(
    220.0,
    "mm",
    "Ball girth of the base size, for grading across",
    "women's lasts of size 37 measure some 215 to 225 mm; enter the girth of the last that is used",
    PRACTICE,
)

PULL_N_PER_MM = Default(
    1.0,
    "N per mm of width",
    "Working pull of lasting, at which hold and strips are read",
    "about what lasting takes over the width of a vamp; enter the workshop's own where the machine shows it",
    PRACTICE,
)

UNNAMED_WIDTH_MM = Default(
    1420.0,
    "mm",
    "Width of a cloth that a new style does not name",
    "stands until the cloth is entered; the card says 'placeholder' and the style is warned about",
    PRACTICE,
)

UNNAMED_USABLE_MM = Default(
    1400.0,
    "mm",
    "Usable width of a cloth that a new style does not name",
    "1.40 m is a usual width of rolls; the card says 'placeholder' and the style is warned about",
    PRACTICE,
)
