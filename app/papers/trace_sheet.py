"""The sheet that cards are laid on to be photographed: markers at known places, a 100 mm square to check."""

from __future__ import annotations

from pathlib import Path

from app.papers.formats.drawing import Colour, Drawing, Page
from app.papers.formats.pdf import write_pdf
from app.papers.layout import pens
from app.papers.shown import CardSheet
from app.words import say
from geometry.trace.sheet import EDGE_MM, MARKER_MM

BLACK: Colour = (0.0, 0.0, 0.0)
SQUARE_MM = 100.0
WORDS = (
    "Print at 100 %: the square measures 100 mm. Lay it flat, cards inside the ring of markers, none on a "
    "marker. Photograph the whole sheet from above, sharp, in even light."
)


def write(shown: CardSheet, out_dir: Path) -> list[Path]:
    """Write the sheet as a PDF at true size and return its path."""
    title = say("stayply trace sheet {0}", shown.sheet.name)
    return [write_pdf(pages(shown), out_dir / shown.file, title=title)]


def pages(shown: CardSheet) -> list[Page]:
    """Return the one sheet: its markers drawn cell by cell, so that every printer keeps them sharp."""
    sheet = shown.sheet
    drawing = Drawing()
    side = MARKER_MM / 7.0
    for marker in sheet.markers:
        x, y = marker.corners_mm[0]
        for r, row in enumerate(marker_cells(marker.number)):
            for c, dark in enumerate(row):
                if dark:
                    drawing.fill_box(
                        (x + c * side, y - (r + 1) * side, x + (c + 1) * side, y - r * side), BLACK
                    )
    x0, y0, _, _ = sheet.field_mm
    drawing.box((x0 + 4.0, y0 + 4.0, x0 + 4.0 + SQUARE_MM, y0 + 4.0 + SQUARE_MM), pens.HAIR, "frame")
    drawing.text(x0 + 6.0, y0 + 6.0, say("{0}: 100 mm", sheet.name), pens.SMALL, colour=pens.INK)
    drawing.text(EDGE_MM, 4.2, WORDS, pens.SMALL, colour=pens.INK)
    return [Page(sheet.width_mm, sheet.height_mm, drawing)]


def marker_cells(number: int) -> list[list[bool]]:
    """Return the seven rows of seven cells of a marker, True where it is black."""
    import cv2

    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_5X5_100)
    picture = cv2.aruco.generateImageMarker(dictionary, number, 7)
    return [[bool(value == 0) for value in row] for row in picture.tolist()]
