"""The graphic style of the papers: readable in black and white, colour only as a help.

The upper is ink, the backing is teal and the heavier line, what is only told is grey. Each
edge kind has its own dashes, so that a copy without colour still says which edge is which.
"""

from __future__ import annotations

from app.papers.formats.drawing import Colour, Pen
from geometry.edge_kinds import EDGE_KINDS, EdgeKind

INK: Colour = (0.09, 0.11, 0.14)
TEAL: Colour = (0.0, 0.36, 0.42)
GREY: Colour = (0.45, 0.47, 0.50)
PALE: Colour = (0.885, 0.935, 0.935)
MIST: Colour = (0.945, 0.945, 0.94)
WHITE: Colour = (1.0, 1.0, 1.0)

CUT = Pen(0.35, colour=INK)
BACKING = Pen(0.55, colour=TEAL)
HAIR = Pen(0.12, colour=GREY)
THIN = Pen(0.18, colour=INK)
RULE = Pen(0.3, colour=INK)
AXIS = Pen(0.35, (9.0, 1.5, 1.5, 1.5), INK)
HEAD = Pen(0.35, colour=INK)
NOTCH = Pen(0.35, colour=INK)
MARK = Pen(0.18, (3.0, 1.0), GREY)
DIMENSION = Pen(0.18, colour=INK)
CHECK = Pen(0.2, colour=INK)
SPLIT = Pen(0.15, (1.5, 1.5), GREY)
FLAW = Pen(0.35, (1.2, 0.8), INK)
ROLL = Pen(0.5, colour=INK)

EDGE: dict[EdgeKind, Pen] = {
    kind: Pen(entry.paper.width_mm, entry.paper.dash_mm, INK) for kind, entry in EDGE_KINDS.items()
}
"""Dashes of the upper's outline by edge kind, where upper and backing are overlaid."""

TINY, SMALL, BODY, LABEL, HEADING, TITLE = 2.3, 2.8, 3.3, 4.2, 5.6, 8.0
"""Sizes of lettering in mm (em); the smallest is about 6.5 points."""
