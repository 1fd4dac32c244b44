"""Lay plan: where every piece lies on the roll, for the cutter and for the machine."""

from __future__ import annotations

from pathlib import Path

from app.papers.formats.drawing import Page
from app.papers.formats.dxf import write_dxf
from app.papers.formats.hpgl import FRAME_MM, write_hpgl
from app.papers.formats.pdf import write_pdf
from app.papers.formats.svg import write_svg
from app.papers.lay_facts import lay_title, require_verified
from app.papers.lay_overview import overview_pages
from app.papers.pictures.lays import backings_of, lay_art
from app.papers.shown import Laid
from app.words import say

CUTTER_LAYERS = ("cut", "notch", "drill", "axis", "text", "roll-edge", "flaw")


def pages(shown: Laid) -> list[Page]:
    """Return the sheets of lay.pdf; raises UnverifiedError as ``write``."""
    document, style = shown.document, shown.style
    require_verified(shown.verdict, str(document.get("name") or "lay"))
    return overview_pages(document, shown.verdict, style, backings_of(style))


def write(shown: Laid, out_dir: Path) -> list[Path]:
    """Write lay.pdf, lay.dxf, lay.plt and lay.svg into ``out_dir``.

    A lay too large for one HP-GL frame is also written in one piece as lay-unsplit.plt, for controllers
    that count beyond 16 bits. Raises UnverifiedError, and writes nothing, when the verdict is not ok.
    """
    document = shown.document
    require_verified(shown.verdict, str(out_dir / "lay.json"))
    art = lay_art(document, backings=backings_of(shown.style))
    drawing = art.drawing()
    box = (0.0, 0.0, art.length_mm, art.width_mm)
    name = lay_title(document, shown.style) or "lay"
    paths = [
        write_pdf(pages(shown), out_dir / "lay.pdf", title=say("Lay plan {0}", name)),
        write_dxf(drawing, out_dir / "lay.dxf", layers=CUTTER_LAYERS),
        write_hpgl([(drawing, box)], out_dir / "lay.plt"),
        write_svg(drawing, box, out_dir / "lay.svg", title=name),
    ]
    if max(art.length_mm, art.width_mm) > FRAME_MM:
        paths.append(write_hpgl([(drawing, box)], out_dir / "lay-unsplit.plt", split=False))
    return paths
