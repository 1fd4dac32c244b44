"""A page of the papers painted with Qt, in mm: on a printer at true size, or small on the screen."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path

import font_source_sans_pro
import numpy as np
from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontDatabase,
    QPageLayout,
    QPageSize,
    QPainter,
    QPainterPath,
    QPen,
)
from PySide6.QtPrintSupport import QPrinter

from app.papers.formats.drawing import Circle, Colour, Drawing, Fill, Line, Page, Pen, Place, Points, Text
from app.papers.formats.lettering import shown, width_mm
from geometry.inch import MM_PER_INCH

GLYPH_PX = 200
"""Letters are outlined once at this size and scaled: no hinting, the same shape at every size."""


def print_pages(printer: QPrinter, pages: Sequence[Page]) -> bool:
    """Print pages at 1:1, each on a sheet of its own size; returns whether the printer took them.

    The printer is told to use the whole sheet, so that (0, 0) is the paper's own corner.
    """
    printer.setFullPage(True)
    painter = QPainter()
    for number, page in enumerate(pages):
        _set_sheet(printer, page)
        if number == 0:
            if not painter.begin(printer):
                return False
        elif not printer.newPage():
            painter.end()
            return False
        painter.save()
        painter.scale(printer.logicalDpiX() / MM_PER_INCH, printer.logicalDpiY() / MM_PER_INCH)
        paint_page(painter, page)
        painter.restore()
    return painter.end() if painter.isActive() else False


def _set_sheet(printer: QPrinter, page: Page) -> None:
    short, long = sorted((page.width_mm, page.height_mm))
    lying = page.width_mm > page.height_mm
    # told only where it differs: a sheet chosen in the printer's own dialog keeps its name there
    now = printer.pageLayout().pageSize().size(QPageSize.Unit.Millimeter)
    if max(abs(min(now.width(), now.height()) - short), abs(max(now.width(), now.height()) - long)) > 0.5:
        printer.setPageSize(QPageSize(QSizeF(short, long), QPageSize.Unit.Millimeter))
    printer.setPageOrientation(
        QPageLayout.Orientation.Landscape if lying else QPageLayout.Orientation.Portrait
    )


def paint_page(painter: QPainter, page: Page) -> None:
    """Paint a page; the painter counts in mm, y down, (0, 0) the sheet's upper left corner."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(0.0, page.height_mm)
    painter.scale(1.0, -1.0)
    _draw(painter, page.drawing, 1.0)


def _draw(painter: QPainter, drawing: Drawing, scale: float) -> None:
    """Draw marks; ``scale`` is how much the page shrinks them, so that pens stay as wide."""
    for mark in drawing.marks:
        if isinstance(mark, Line):
            painter.strokePath(_path([mark.points_mm], closed=mark.closed), _pen(mark.pen, scale))
        elif isinstance(mark, Fill):
            painter.fillPath(_path(mark.rings_mm, closed=True), _colour(mark.colour))
        elif isinstance(mark, Circle):
            ring = QPainterPath()
            ring.addEllipse(QPointF(mark.x_mm, mark.y_mm), mark.radius_mm, mark.radius_mm)
            painter.strokePath(ring, _pen(mark.pen, scale))
        elif isinstance(mark, Place):
            _place(painter, mark, scale)
        else:
            _letter(painter, mark)


def _place(painter: QPainter, mark: Place, scale: float) -> None:
    painter.save()
    if mark.clip_mm is not None:
        x0, y0, x1, y1 = mark.clip_mm
        painter.setClipRect(QRectF(x0, y0, x1 - x0, y1 - y0), Qt.ClipOperation.IntersectClip)
    painter.translate(mark.x_mm, mark.y_mm)
    painter.scale(mark.scale, mark.scale)
    _draw(painter, mark.drawing, scale * mark.scale)
    painter.restore()


def _letter(painter: QPainter, mark: Text) -> None:
    text = shown(mark.text)
    wide = width_mm(mark.text, mark.size_mm, bold=mark.bold)
    start = {"left": 0.0, "middle": -wide / 2, "right": -wide}[mark.anchor]
    glyphs = QPainterPath()
    glyphs.addText(0.0, 0.0, _font(mark.bold), text)
    painter.save()
    painter.translate(mark.x_mm, mark.y_mm)
    painter.rotate(mark.angle_deg)
    painter.translate(start, 0.0)
    size = mark.size_mm / GLYPH_PX
    painter.scale(size, -size)
    painter.fillPath(glyphs, _colour(mark.colour))
    painter.restore()


def _path(rings: Sequence[Points], *, closed: bool) -> QPainterPath:
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.OddEvenFill)
    for ring in rings:
        points = np.asarray(ring).tolist()
        path.moveTo(*points[0])
        for x, y in points[1:]:
            path.lineTo(x, y)
        if closed:
            path.closeSubpath()
    return path


def _pen(pen: Pen, scale: float) -> QPen:
    made = QPen(_colour(pen.colour), pen.width_mm / scale)
    made.setCapStyle(Qt.PenCapStyle.FlatCap)
    made.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if pen.dash_mm:
        dashes = [dash / pen.width_mm for dash in pen.dash_mm]  # Qt counts dashes in widths of the pen
        made.setDashPattern(dashes if len(dashes) % 2 == 0 else dashes * 2)
    return made


def _colour(colour: Colour) -> QColor:
    return QColor.fromRgbF(*colour)


@cache
def _family(bold: bool) -> str:
    name = "SourceSansPro-Bold.ttf" if bold else "SourceSansPro-Regular.ttf"
    number = QFontDatabase.addApplicationFont(str(Path(font_source_sans_pro.font_directory) / name))
    families = QFontDatabase.applicationFontFamilies(number)
    return families[0] if families else QFont().family()


def _font(bold: bool) -> QFont:
    font = QFont(_family(bold))
    font.setPixelSize(GLYPH_PX)
    font.setBold(bold)
    font.setKerning(False)  # the papers measure without it
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return font
