"""How long the papers of a production lay take, beside writing the same lay as JSON in the same run.

    PYTHONPATH=. .venv/bin/python tests/benchmarks/papers.py

The lay is one verified first layout of a sample style repeated along the roll until it holds about
6,000 pieces. Prints processor seconds, megabytes, and the ratio to ``json.dumps`` of lay.json.
"""

from __future__ import annotations

import json
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from app.lay.job import LayJob, document_of, judged, problem_of
from app.papers.formats.dxf import write_dxf
from app.papers.formats.hpgl import write_hpgl
from app.papers.formats.pdf import write_pdf
from app.papers.formats.svg import write_svg
from app.papers.lay_full_size import full_size_pages
from app.papers.lay_overview import overview_pages
from app.papers.pictures.lays import lay_art
from app.style.file import load_style
from nesting.free import first_layout
from nesting.verify.fault import Verdict

PIECES = 6000
STYLE = Path(__file__).parents[2] / "sample_styles" / "boot" / "boot.style.json"


def long_lay() -> tuple[dict[str, Any], Verdict]:
    """A lay of about PIECES pieces, section after section, each a verified layout."""
    style = load_style(STYLE)
    job = LayJob(style, dict.fromkeys(style.size_run.sizes, 2))
    problem = problem_of(job)
    lay = first_layout.solve(problem)
    verdict = judged(problem, lay)
    assert verdict.ok
    document = document_of(job, problem, lay)
    section, placed = document["length_mm"] + document["gap_mm"], document["placements"]
    count = -(-PIECES // len(placed))
    document["placements"] = [
        {
            **at,
            "outline_mm": [[x + k * section, y] for x, y in at["outline_mm"]],
            "holes_mm": [[[x + k * section, y] for x, y in hole] for hole in at["holes_mm"]],
        }
        for k in range(count)
        for at in placed
    ]
    document["length_mm"] = count * section
    return document, verdict


def measured(name: str, work: Callable[[], Any], unit: float | None, path: Path | None = None) -> float:
    """Print what a piece of work takes; return its processor seconds."""
    start = time.process_time()
    work()
    seconds = time.process_time() - start
    size = f"{path.stat().st_size / 1e6:8.1f}" if path else f"{'':8}"
    print(f"{name:22} {seconds:8.2f} {size} {seconds / unit if unit else 1.0:8.1f}")
    return seconds


def main() -> None:
    """Print the table."""
    document, verdict = long_lay()
    points = sum(len(at["outline_mm"]) for at in document["placements"])
    length = document["length_mm"] / 1000
    print(f"{len(document['placements'])} pieces, {points} vertices, {length:.0f} m of roll")
    print(f"{'':22} {'cpu s':>8} {'MB':>8} {'ratio':>8}")
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder)
        unit = measured("lay.json (json.dumps)", lambda: json.dumps(document), None)
        measured("shapes found, drawn", lambda: lay_art(document), unit)
        art = lay_art(document)
        drawing, box = art.drawing(), (0.0, 0.0, art.length_mm, art.width_mm)
        plan, full = out / "lay.pdf", out / "lay-1to1.pdf"
        pages = overview_pages(document, verdict, None, None)
        measured("lay.pdf", lambda: write_pdf(pages, plan, title="lay"), unit, plan)
        large = full_size_pages(document, verdict, art, None)
        measured("lay-1to1.pdf", lambda: write_pdf(large, full, title="lay"), unit, full)
        path = out / "lay.dxf"
        measured("lay.dxf", lambda: write_dxf(drawing, path), unit, path)
        plot = out / "lay.plt"
        measured("lay.plt, in frames", lambda: write_hpgl([(drawing, box)], plot), unit, plot)
        whole = out / "whole.plt"
        measured("lay.plt, unsplit", lambda: write_hpgl([(drawing, box)], whole, split=False), unit, whole)
        svg = out / "lay.svg"
        measured("lay.svg", lambda: write_svg(drawing, box, svg, title="lay"), unit, svg)


if __name__ == "__main__":
    main()
