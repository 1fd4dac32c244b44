"""Field sheet: the upper alone, backed, and with the cloth turned, side by side as three lasted uppers."""

from __future__ import annotations

from pathlib import Path

from app.cautions import cautions
from app.papers.formats.drawing import Drawing, Page
from app.papers.formats.lettering import wrapped
from app.papers.formats.pdf import write_pdf
from app.papers.layout import pens
from app.papers.layout.sheets import ISO_216_MM, MARGIN_MM
from app.papers.layout.tables import draw_table, fitting_columns
from app.papers.pictures.strain_map import draw_legend, steps_of, strain_map
from app.papers.shown import Pulled
from geometry.stretch.field.upper import Field

TITLES = {"alone": "upper alone", "backed": "backed as drafted", "turned": "backed, cloth turned by 90 deg"}
LIMITS = (
    "A flat model: no last, no friction, no relaxation; sheets glued together without slip. The heel end is "
    "held, the toe lasting edge pulled along the pull axis. Figures are ranges, from shear blocked or the "
    "stiff end of what the strips leave open to shear free and the soft end. The strip test and the lasting "
    "trial decide."
)


def write(shown: Pulled, out_dir: Path) -> list[Path]:
    """Write field-sheet.pdf (A3, lying) and return its path."""
    title = f"{shown.style.name}: the pull over the upper"
    return [write_pdf(pages(shown), out_dir / "field-sheet.pdf", title=title)]


def pages(shown: Pulled) -> list[Page]:
    """Return the one sheet."""
    style, upper, field, sweep = shown.style, shown.upper, shown.field, shown.sweep
    high, wide = ISO_216_MM["A3"]
    drawing = Drawing()
    y = high - MARGIN_MM - pens.TITLE
    drawing.text(
        MARGIN_MM, y, f"{style.name}: the pull over the upper", pens.TITLE, bold=True, colour=pens.INK
    )
    pieces = ", ".join(piece.name for piece in upper.pieces)
    y -= pens.LABEL * 1.7
    told = f"{pieces}; {upper.pull_n_per_mm:g} N per mm of toe edge along the pull axis; "
    told += f"{len(field.mesh.triangles)} elements"
    drawing.text(MARGIN_MM, y, told, pens.LABEL, colour=pens.INK)
    bounds = steps_of(max(case.peak_strain for case in field.cases))
    room = (wide - 2 * MARGIN_MM - 2 * 8.0) / 3.0
    x0, y0, x1, y1 = _bounds(field)
    scale = min(room / (x1 - x0), 130.0 / (y1 - y0), 1.0)
    top = y - 12.0
    for k, case in enumerate(field.cases):
        left = MARGIN_MM + k * (room + 8.0)
        picture = strain_map(upper, field.mesh, field.rim, case, bounds)
        drawing.text(left, top, TITLES[case.case], pens.HEADING, bold=True, colour=pens.INK)
        drawing.place(picture, left - x0 * scale, top - 5.0 - y1 * scale, scale=scale)
    foot = top - 5.0 - (y1 - y0) * scale - 12.0
    draw_legend(drawing, MARGIN_MM, foot, bounds)
    drawing.text(
        MARGIN_MM + 130.0,
        foot + 0.8,
        f"dashed: the throat's mark; red: where it goes. 1 : {1 / scale:.2g}, pull to the right",
        pens.SMALL,
        colour=pens.INK,
    )
    foot -= 14.0
    heads = [
        "case",
        "throat moves",
        "toe end moves",
        "side edge moves",
        "strain, median",
        "largest",
        "pushed area",
    ]
    rows = [
        [
            TITLES[case.case],
            _mm(case.throat_mm),
            _mm(case.vamp_mm),
            _mm(case.side_mm),
            f"{100 * case.median_strain:.1f} %",
            f"{100 * case.peak_strain:.0f} %",
            f"{100 * case.compressed_share:.0f} %",
        ]
        for case in field.cases
    ]
    columns = fitting_columns(heads, rows, ["left", *["right"] * 6], 250.0)  # type: ignore[list-item]
    draw_table(drawing, MARGIN_MM, foot, columns, rows)
    low = foot - pens.SMALL * 1.75 * (len(rows) + 1) - 8.0
    if sweep:
        told = "; ".join(f"{turn:g} deg: {_mm(case.throat_mm)}" for turn, case in sweep)
        low = _words(drawing, f"Cloth turned off its place, the throat moves: {told}.", low, 250.0)
    low = _words(drawing, LIMITS, low - 2.0, 250.0)
    _words(drawing, " ".join(cautions("field sheet")), low - 2.0, 250.0)
    return [Page(wide, high, drawing)]


def _words(drawing: Drawing, text: str, y: float, room: float) -> float:
    for line in wrapped(text, pens.SMALL, room):
        drawing.text(MARGIN_MM, y, line, pens.SMALL, colour=pens.INK)
        y -= pens.SMALL * 1.35
    return y


def _mm(span: tuple[float, float] | None) -> str:
    if span is None:
        return "–"
    low, high = f"{span[0]:.1f}", f"{span[1]:.1f}"
    return f"{low} mm" if low == high else f"{low} to {high} mm"


def _bounds(field: Field) -> tuple[float, float, float, float]:
    xs = [field.mesh.points_mm[:, 0] + case.moved_mm[:, 0] for case in field.cases]
    ys = [field.mesh.points_mm[:, 1] + case.moved_mm[:, 1] for case in field.cases]
    return (
        float(min(x.min() for x in xs)),
        float(min(y.min() for y in ys)),
        float(max(x.max() for x in xs)),
        float(max(y.max() for y in ys)),
    )
