"""Draw all sample styles into the folder above: drawing, style file and order of each."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.style.file import save_style
from app.style.model import SizeRun
from sample_styles.draw import boot, court, derby, sandal
from sample_styles.draw.dxf import write_drawing, write_interchange, write_remnant
from sample_styles.draw.style import build_style
from sample_styles.draw.workshop import CALF, NAPPA, PLAIN, TWILL

BOOT_BASE = 37
BOOT_SIZES = tuple(range(36, 42))
GIRTH_MM, GIRTH_STEP_MM = 220.0, 5.0  # ball girth of the base size, example; step of the Paris system

REMNANT = ((0, 0), (520, 30), (760, -40), (900, 200), (640, 330), (600, 480), (250, 520), (40, 400))
HOLE = (560.0, 230.0, 25.0)
"""What is left of a roll after a run, example: an outline that nobody would draw by rule, and a burn."""


def draw_all(out: Path) -> None:
    """Write every sample into its folder below ``out``."""
    for name in ("court", "derby", "boot", "sandal"):
        (out / name).mkdir(parents=True, exist_ok=True)
    write_drawing(out / "court/court.dxf", court.PIECES, outlines="bulges")
    write_drawing(out / "derby/derby.dxf", derby.PIECES, outlines="loose")
    write_drawing(out / "sandal/sandal.dxf", sandal.PIECES, outlines="bulges", unit="in")
    write_remnant(out / "court/remnant.dxf", REMNANT, HOLE)
    write_interchange(
        out / "boot/boot.dxf",
        "ANKLE BOOT B7",
        str(BOOT_BASE),
        [
            (
                str(size),
                [
                    p.graded(size / BOOT_BASE, (GIRTH_MM + GIRTH_STEP_MM * (size - BOOT_BASE)) / GIRTH_MM)
                    for p in boot.PIECES
                ],
            )
            for size in BOOT_SIZES
        ],
    )
    women = {"system": "paris", "base": "37", "base_girth_mm": GIRTH_MM}
    samples = {
        "court": (
            court.PIECES,
            "Court C12",
            "Court shoe, women's: one-piece vamp and two quarters",
            SizeRun(**women, sizes=("35", "36", "37", "38", "39", "40", "41")),
            (TWILL, PLAIN),
            NAPPA,
            {"35": 8, "36": 24, "37": 48, "38": 60, "39": 48, "40": 24, "41": 12},
        ),
        "derby": (
            derby.PIECES,
            "Derby D4",
            "Derby, men's: vamp, quarters, tongue, heel counter",
            SizeRun(base="42", sizes=("40", "41", "42", "43", "44", "45"), base_girth_mm=245.0),
            (TWILL, PLAIN),
            CALF,
            {"40": 12, "41": 36, "42": 60, "43": 54, "44": 30, "45": 12},
        ),
        "boot": (
            boot.PIECES,
            "Ankle boot B7",
            "Ankle boot, women's: shaft halves, vamp, toe cap, tongue, counter; six drawn sizes",
            SizeRun(**women, sizes=tuple(map(str, BOOT_SIZES)), graded=False),
            (TWILL, PLAIN),
            CALF,
            {"36": 20, "37": 40, "38": 60, "39": 60, "40": 40, "41": 20},
        ),
        "sandal": (
            sandal.PIECES,
            "Sandal S3",
            "Sandal, women's: front and instep straps, heel piece, ankle strap, buckle tab",
            SizeRun(**women, sizes=("36", "37", "38", "39", "40")),
            (PLAIN, TWILL),
            NAPPA,
            {"36": 18, "37": 30, "38": 42, "39": 30, "40": 18},
        ),
    }
    for key, (shapes, name, description, run, cloths, upper, order) in samples.items():
        style = build_style(
            out / key / f"{key}.dxf",
            shapes,
            name=name,
            description=description,
            size_run=run,
            cloths=cloths,
            upper_material=upper,
            hold_chains=court.CHAINS if key == "court" else (),
        )
        save_style(style, out / key / f"{key}.style.json")
        rows = "".join(f"{size},{pairs}\n" for size, pairs in order.items())
        (out / key / "order.csv").write_text("size,pairs\n" + rows, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m sample_styles.draw", description=__doc__)
    parser.add_argument("--out", type=Path, default=Path(__file__).parents[1])
    draw_all(parser.parse_args().out)
