"""Pages to PDF at true size: 72 points per inch, MediaBox exact, the same input the same bytes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from reportlab.pdfgen.canvas import Canvas

from app.errors import UsageError
from app.papers.formats.drawing import Circle, Drawing, Fill, Line, Page, Pen, Place, Points
from app.papers.formats.lettering import extent_mm, font_name, shown
from app.papers.formats.paper_file import write_paper
from geometry.inch import MM_PER_INCH
from geometry.said import said

POINTS_PER_MM = 72.0 / MM_PER_INCH

PAGE_LIMIT_MM = 5000.0
"""Longest side of a page: viewers stop at 14,400 points = 5,080 mm (ISO 32000-1 annex C, from memory)."""


def write_pdf(pages: Sequence[Page], path: Path, *, title: str) -> Path:
    """Write the pages; raises UsageError when one is longer than a PDF page may be."""
    for page in pages:
        if max(page.width_mm, page.height_mm) > PAGE_LIMIT_MM + 80.0:
            raise UsageError(
                said(
                    "a page of {0} mm is longer than PDF allows", f"{max(page.width_mm, page.height_mm):.0f}"
                ),
                file=str(path),
                remedy=said("keep pages within {0} mm", f"{PAGE_LIMIT_MM:.0f}"),
            )
    return write_paper(path, lambda draft: _Writer(draft, title).write(pages))


class _Writer:
    """One PDF being written; drawings placed more than once become shared forms."""

    def __init__(self, path: Path, title: str) -> None:
        self.canvas = Canvas(str(path), invariant=1, pageCompression=1)
        self.canvas.setTitle(shown(title))
        self.canvas.setAuthor("stayply")
        self.canvas.setViewerPreference("PrintScaling", "None")  # 1:1 must not be fitted to the page
        self.forms: dict[tuple[int, float], str] = {}
        self.uses: Counter[tuple[int, float]] = Counter()

    def write(self, pages: Sequence[Page]) -> None:
        """Render all pages."""
        seen: set[tuple[int, float]] = set()
        for page in pages:
            self._count(page.drawing, 1.0, seen)
        for page in pages:
            self._forms_of(page.drawing, 1.0)
        for page in pages:
            self.canvas.setPageSize((page.width_mm * POINTS_PER_MM, page.height_mm * POINTS_PER_MM))
            self.canvas.saveState()
            self.canvas.scale(POINTS_PER_MM, POINTS_PER_MM)
            self._draw(page.drawing, 1.0)
            self.canvas.restoreState()
            self.canvas.showPage()
        self.canvas.save()

    def _count(self, drawing: Drawing, scale: float, seen: set[tuple[int, float]]) -> None:
        for mark in drawing.marks:
            if isinstance(mark, Place):
                key = (id(mark.drawing), scale * mark.scale)
                self.uses[key] += 1
                if key not in seen:
                    seen.add(key)
                    self._count(mark.drawing, key[1], seen)

    def _forms_of(self, drawing: Drawing, scale: float) -> None:
        """Make the forms that ``drawing`` needs, innermost first."""
        for mark in drawing.marks:
            if not isinstance(mark, Place):
                continue
            key = (id(mark.drawing), scale * mark.scale)
            if key in self.forms:
                continue
            self._forms_of(mark.drawing, key[1])
            if self.uses[key] > 1:
                box = _reach(mark.drawing)
                name = f"shape{len(self.forms)}"
                self.canvas.beginForm(name, *box)
                self._draw(mark.drawing, key[1])
                self.canvas.endForm()
                self.forms[key] = name

    def _draw(self, drawing: Drawing, scale: float) -> None:
        """Draw marks; ``scale`` is how much the page shrinks them, so that pens stay as wide."""
        canvas = self.canvas
        for mark in drawing.marks:
            if isinstance(mark, Line):
                self._pen(mark.pen, scale)
                path = canvas.beginPath()
                _trace(path, mark.points_mm, mark.closed)
                canvas.drawPath(path, stroke=1, fill=0)
            elif isinstance(mark, Fill):
                canvas.setFillColorRGB(*mark.colour)
                path = canvas.beginPath()
                for ring in mark.rings_mm:
                    _trace(path, ring, True)
                canvas.drawPath(path, stroke=0, fill=1, fillMode=0)
            elif isinstance(mark, Circle):
                self._pen(mark.pen, scale)
                canvas.circle(mark.x_mm, mark.y_mm, mark.radius_mm, stroke=1, fill=0)
            elif isinstance(mark, Place):
                self._place(mark, scale)
            else:
                canvas.setFillColorRGB(*mark.colour)
                canvas.setFont(font_name(mark.bold), mark.size_mm)
                canvas.saveState()
                canvas.translate(mark.x_mm, mark.y_mm)
                if mark.angle_deg:
                    canvas.rotate(mark.angle_deg)
                draw = {"left": canvas.drawString, "middle": canvas.drawCentredString}.get(
                    mark.anchor, canvas.drawRightString
                )
                draw(0.0, 0.0, shown(mark.text))
                canvas.restoreState()

    def _place(self, mark: Place, scale: float) -> None:
        canvas = self.canvas
        canvas.saveState()
        if mark.clip_mm is not None:
            x0, y0, x1, y1 = mark.clip_mm
            path = canvas.beginPath()
            path.rect(x0, y0, x1 - x0, y1 - y0)
            canvas.clipPath(path, stroke=0, fill=0)
        canvas.translate(mark.x_mm, mark.y_mm)
        if mark.scale != 1.0:
            canvas.scale(mark.scale, mark.scale)
        form = self.forms.get((id(mark.drawing), scale * mark.scale))
        if form:
            canvas.doForm(form)
        else:
            self._draw(mark.drawing, scale * mark.scale)
        canvas.restoreState()

    def _pen(self, pen: Pen, scale: float) -> None:
        canvas = self.canvas
        canvas.setLineWidth(pen.width_mm / scale)
        canvas.setStrokeColorRGB(*pen.colour)
        canvas.setDash([d / scale for d in pen.dash_mm])
        canvas.setLineCap(0)
        canvas.setLineJoin(1)


def _trace(path, points: Points, closed: bool) -> None:
    (x, y), *rest = points.tolist()
    path.moveTo(x, y)
    for x, y in rest:
        path.lineTo(x, y)
    if closed:
        path.close()


def _reach(drawing: Drawing) -> tuple[float, float, float, float]:
    """A box that surely holds the drawing with its lettering and the width of its pens."""
    x0, y0, x1, y1 = extent_mm(drawing)
    return x0 - 2.0, y0 - 2.0, x1 + 2.0, y1 + 2.0
