"""Test report of a cloth or an upper material: strips, fitted sheet, tight direction, polar plot."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from app.cautions import cautions
from app.hold.verdicts import NO_MEASUREMENT
from app.measures import counted
from app.papers.formats.drawing import Drawing, Page
from app.papers.formats.lettering import wrapped
from app.papers.formats.pdf import write_pdf
from app.papers.layout import pens
from app.papers.layout.sheets import MARGIN_MM
from app.papers.layout.tables import draw_table, fitting_columns
from app.papers.pictures.polar_plot import draw_polar
from app.papers.shown import Tested
from app.words import listed, say
from geometry.paper import PAPER_MM
from geometry.said import percent, said
from geometry.stretch.fit import CONFIDENCE, Interval, StretchFit
from geometry.stretch.strips import PulledStrip, strain_at

METHOD = (
    "Strips cut at angles from the roll's length (uppers: from the pull axis), marked at the gauge length, "
    "loaded, read between the marks. This resembles the strip methods of ISO 13934-1 (fabrics: 50 mm wide, "
    "200 mm between jaws) and ISO 3376 (leather); neither standard was read in full, and this is no test to "
    "either of them. "
    "Bias strips must be long and narrow, or the jaws keep them from shearing."
)
_ROWS = 46
_RADIUS = 33.0


def write(shown: Tested, out_dir: Path) -> list[Path]:
    """Write stretch-report.pdf (A4) and return its path."""
    path = out_dir / "stretch-report.pdf"
    return [write_pdf(pages(shown), path, title=say("{0}: stretch test", shown.name))]


def pages(shown: Tested) -> list[Page]:
    """Return the report: figures and plot on the first sheet, the strips there and on others."""
    name, strips, fit, zero, how = shown.name, shown.strips, shown.fit, shown.zero, shown.how
    wide, high = PAPER_MM["A4"]
    room = wide - 2 * MARGIN_MM
    drawing = Drawing()
    y = high - MARGIN_MM - pens.TITLE
    drawing.text(MARGIN_MM, y, name, pens.TITLE, bold=True, colour=pens.INK)
    y -= pens.BODY * 1.8
    title = "stretch test" if how == "tested" else "EXAMPLE with invented readings, no test"
    count = len({round(s.angle_deg % 180.0, 1) for s in strips})
    drawing.text(
        MARGIN_MM,
        y,
        say(
            "{0}: {1} at {2} angles, read at a pull of {3} N/mm",
            title,
            counted(len(strips), "strip"),
            count,
            f"{fit.pull_n_per_mm:g}",
        ),
        pens.BODY,
    )
    middle = y - _RADIUS - 14.0
    ninety = "across" if zero == "along the roll" else ""
    draw_polar(drawing, MARGIN_MM + 9.0 + _RADIUS, middle, _RADIUS, strips, fit, zero=zero, ninety=ninety)
    right = MARGIN_MM + 2 * _RADIUS + 31.0
    rows = result_rows(fit)
    columns = fitting_columns(
        ["", "value", say("{0} confidence", percent(CONFIDENCE, 0))],
        rows,
        ["left", "right", "right"],
        wide - MARGIN_MM - right,
    )
    foot = draw_table(drawing, right, y - 12.0, columns, rows)
    said = [str(finding) for finding in fit.findings] or ["No remarks."]
    foot -= 4.0
    for text in said:
        for line in wrapped(text, pens.TINY, wide - MARGIN_MM - right):
            foot -= pens.TINY * 1.35
            drawing.text(right, foot, line, pens.TINY, colour=pens.INK)
    y = min(middle - _RADIUS - 12.0, foot - 6.0)
    for text in (METHOD, NO_MEASUREMENT, "", *cautions("stretch")):
        if not text:
            y -= pens.BODY * 2.0
            drawing.text(MARGIN_MM, y, "Cautions", pens.BODY, bold=True, colour=pens.INK)
        for line in wrapped(text, pens.SMALL, room) if text else ():
            y -= pens.SMALL * 1.35
            drawing.text(MARGIN_MM, y, line, pens.SMALL, colour=pens.INK)
    y -= 4.0
    table = strip_rows(strips, fit)
    first = max(5, int((y - MARGIN_MM) / (pens.SMALL * 1.75)) - 2)
    sheets = [Page(wide, high, drawing)]
    _strips(drawing, table[:first], y, room)
    for start in range(first, len(table), _ROWS):
        sheet = Drawing()
        sheet.text(MARGIN_MM, high - MARGIN_MM - pens.LABEL, say("{0}: strips", name), pens.LABEL, bold=True)
        _strips(sheet, table[start : start + _ROWS], high - MARGIN_MM - 10.0, room)
        sheets.append(Page(wide, high, sheet))
    return sheets


def result_rows(fit: StretchFit) -> list[list[str]]:
    """Return the fitted figures as rows: what, value, interval."""
    told = fit.tight_told
    direction = said("{0} deg", f"{fit.tight_deg:.1f}") if told else "not determined"
    between = ""
    if told and fit.tight_low_deg is not None and fit.tight_high_deg is not None:
        between = said("{0} to {1}", f"{fit.tight_low_deg:.1f}", f"{fit.tight_high_deg:.1f}")
    elif told and fit.tight_from == "threads":
        between = "only along or across tested"
    fits = "-" if fit.misfit_p is None else ("yes" if fit.misfit_p >= 0.05 else "NO")
    return [
        ["tight direction", direction, between],
        ["E1, along it", say("{0} N/mm", _three(fit.e1.value)), _between(fit.e1)],
        ["E2, across it", say("{0} N/mm", _three(fit.e2.value)), _between(fit.e2)],
        ["G12, shear", say("{0} N/mm", _three(fit.g12.value)), _between(fit.g12)],
        ["nu12", f"{fit.nu12.value:.2f}", _between(fit.nu12) if fit.nu12_from == "measured" else "assumed"],
        ["scatter of strips", percent(fit.scatter), ""],
        ["one sheet fits all", fits, ""],
        ["curve at half load", "-" if fit.bend is None else f"{fit.bend:.2f}", "1 = straight"],
    ]


def strip_rows(strips: Sequence[PulledStrip], fit: StretchFit) -> list[list[str]]:
    """Return the strips as rows, by angle, with their extension at the pull."""
    return [
        [
            f"{s.angle_deg:g}",
            say("{0} x {1}", f"{s.width_mm:g}", f"{s.gauge_mm:g}"),
            listed(", ")(f"{load:g}" for load in s.loads_n),
            listed(", ")(f"{extension:g}" for extension in s.extensions_mm),
            say("{0} %", f"{100 * strain_at(s, fit.pull_n_per_mm):.2f}"),
        ]
        for s in sorted(strips, key=lambda s: s.angle_deg)
    ]


def _strips(drawing: Drawing, rows: Sequence[Sequence[str]], top_mm: float, room_mm: float) -> None:
    heads = ["angle °", "strip mm", "loads N", "extensions mm", "at the pull"]
    anchors = ["right", "right", "left", "left", "right"]
    columns = fitting_columns(heads, rows, anchors, room_mm)  # type: ignore[arg-type]
    draw_table(drawing, MARGIN_MM, top_mm, columns, rows)


def _between(interval: Interval) -> str:
    if interval.low is None or interval.high is None:
        return "not determined"
    return said("{0} to {1}", _three(interval.low), _three(interval.high))


def _three(value: float) -> str:
    """Return a figure to three digits, a nought at its end too: 20.0, 1.20."""
    return f"{value:#.3g}".rstrip(".")
