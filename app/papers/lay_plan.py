"""Lay plan: where every piece lies on the roll, for the cutter and for the machine."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any

from app.papers.formats.drawing import Page
from app.papers.formats.dxf import write_dxf
from app.papers.formats.hpgl import FRAME_MM, write_hpgl
from app.papers.formats.pdf import write_pdf
from app.papers.formats.svg import write_svg
from app.papers.lay_facts import lay_title, require_verified
from app.papers.lay_full_size import full_size_pages
from app.papers.lay_overview import overview_pages
from app.papers.pictures.lays import BackingsOf, lay_art
from app.style.model import Style
from app.style.pieces import piece_backings
from nesting.verify.fault import Verdict

CUTTER_LAYERS = ("cut", "notch", "drill", "axis", "text", "roll-edge", "flaw")


def write_lay(
    document: dict[str, Any],
    verdict: Verdict,
    out_dir: Path,
    style: Style | None = None,
    *,
    stem: str = "lay",
) -> list[Path]:
    """Write lay.pdf, lay-1to1.pdf, lay.dxf, lay.plt and lay.svg (``stem`` = "lay") into ``out_dir``.

    ``document`` is the object of lay.json; ``verdict`` is nesting.verify's judgement of it. A lay
    too large for one HP-GL frame is also written in one piece as lay-unsplit.plt, for controllers
    that count beyond 16 bits. Raises UnverifiedError, and writes nothing, when the verdict is not ok.
    """
    out_dir = Path(out_dir)
    require_verified(verdict, str(out_dir / f"{stem}.json"))
    backings: BackingsOf | None = None if style is None else partial(piece_backings, style)
    art = lay_art(document, backings=backings)
    drawing = art.drawing()
    box = (0.0, 0.0, art.length_mm, art.width_mm)
    name = lay_title(document, style) or stem
    overview, full_size = lay_pages(document, verdict, style)
    paths = [
        write_pdf(overview, out_dir / f"{stem}.pdf", title=f"Lay plan {name}"),
        write_pdf(full_size, out_dir / f"{stem}-1to1.pdf", title=f"Lay {name}, full size"),
        write_dxf(drawing, out_dir / f"{stem}.dxf", layers=CUTTER_LAYERS),
        write_hpgl([(drawing, box)], out_dir / f"{stem}.plt"),
        write_svg(drawing, box, out_dir / f"{stem}.svg", title=name),
    ]
    if max(art.length_mm, art.width_mm) > FRAME_MM:
        paths.append(write_hpgl([(drawing, box)], out_dir / f"{stem}-unsplit.plt", split=False))
    return paths


def lay_pages(
    document: dict[str, Any], verdict: Verdict, style: Style | None = None
) -> tuple[list[Page], list[Page]]:
    """Return the sheets of lay.pdf and of lay-1to1.pdf; raises UnverifiedError as ``write_lay``."""
    require_verified(verdict, str(document.get("name") or "lay"))
    backings: BackingsOf | None = None if style is None else partial(piece_backings, style)
    overview = overview_pages(document, verdict, style, backings)
    return overview, full_size_pages(document, verdict, lay_art(document, backings=backings), style)
