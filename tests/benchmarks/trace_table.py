"""The error table of docs/trace.md: rendered cards over A3, traced, and how far from the true outline.

    python tests/benchmarks/trace_table.py [PICTURE.jpg]

With a name a picture is kept there: cards with a nick and a pencil line, to be looked at in the window.
Each row takes 10 to 40 seconds and up to 1.5 GB.
"""

from __future__ import annotations

import importlib.util
import sys
import tempfile
import time
from pathlib import Path

import cv2
import numpy as np
import shapely

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))
spec = importlib.util.spec_from_file_location("render", ROOT / "tests/geometry/trace/render.py")
assert spec is not None and spec.loader is not None
render = importlib.util.module_from_spec(spec)
sys.modules["render"] = render
spec.loader.exec_module(render)

from app.style.file import load_style  # noqa: E402
from geometry.trace.read import trace_picture  # noqa: E402
from geometry.trace.sheet import trace_sheet  # noqa: E402

A3 = trace_sheet("A3")
SHOTS = {
    "12 megapixels over A3, tilted 12 degrees": render.Shot(),
    "12 megapixels over A3, tilted 25 degrees, more lens and shadow": render.Shot(
        tilt_deg=25.0, lens=-0.06, shadow=0.4
    ),
    "6 megapixels over A3": render.Shot(2828, 2121),
}


def cards() -> list[shapely.Polygon]:
    """Quarter and counter of the derby sample and a card with a hole, clear of each other on the sheet."""
    style = load_style(ROOT / "sample_styles/derby/derby.style.json")

    def at(name: str, x: float, y: float) -> shapely.Polygon:
        shape = shapely.Polygon(style.piece(name).drawings[style.size_run.base].outline_mm)
        x0, y0, _, _ = shape.bounds
        return shapely.affinity.translate(shape, x - x0, y - y0)

    ring = shapely.Point(320, 190).buffer(38, quad_segs=60)
    return [
        at("Quarter outer", 45, 135),
        at("Counter", 45, 45),
        ring.difference(shapely.Point(320, 190).buffer(9, quad_segs=40)),
    ]


def errors(path: Path, true: list[shapely.Polygon], **how: object) -> np.ndarray:
    """Distances both ways between each card and the traced outline nearest to it."""
    traced = trace_picture(path, notches=False, **how)  # type: ignore[arg-type]
    found = []
    for card in true:
        near = min(traced.pieces, key=lambda p: float(p.outline.polygon.hausdorff_distance(card)))
        found.append(render.errors_mm(near.outline.polygon, card))
    return np.concatenate(found)


def tell(name: str, found: np.ndarray, seconds: float) -> None:
    """Print a row of the table."""
    median, most = np.median(found), np.percentile(found, 95)
    print(f"| {name} | {median:.3f} | {most:.3f} | largest {found.max():.2f}, {seconds:.0f} s", flush=True)


def main(keep: str = "") -> None:
    """Print the table."""
    true = cards()
    with tempfile.TemporaryDirectory() as folder:
        if keep:
            nick = shapely.Polygon([(318.5, 151), (321.5, 151), (320, 156)])
            drawn = [*true[:2], true[2].difference(nick)]
            seen = render.photograph(A3, drawn, render.Shot(), lines=[[(80, 180), (160, 200)]])
            cv2.imwrite(keep, seen, [cv2.IMWRITE_JPEG_QUALITY, 92])
        for name, shot in SHOTS.items():
            path = Path(folder) / "shot.png"
            cv2.imwrite(str(path), render.photograph(A3, true, shot))
            begun = time.process_time()
            tell(name, errors(path, true, sheet="A3"), time.process_time() - begun)
        flat = [shapely.affinity.translate(card, 0, 0) for card in true]
        path = Path(folder) / "scan.png"
        cv2.imwrite(str(path), render.scan((420, 297), flat, 300.0))
        begun = time.process_time()
        tell("flatbed, 300 dpi", errors(path, flat, dpi=300.0), time.process_time() - begun)


if __name__ == "__main__":
    main(*sys.argv[1:])
