"""The whole job in one call, on a machine without a display library."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import ezdxf
import numpy as np
import openpyxl
import pypdfium2
import pytest

from app.papers.registry import PAPERS
from app.style.file import load_style
from app.style.samples import NAMES
from nesting.files import lay_file
from nesting.verify import verify_document
from tests.without_qt import NO_QT

ROOT = Path(__file__).parents[3]
PAPERS_MADE = {file for paper in PAPERS if "demo" in paper.by for file in paper.files}
MADE = {"backing.dxf", "lay.json", "order.csv"} | PAPERS_MADE
WITHOUT_QT = (
    NO_QT
    + """
from app.__main__ import main
sys.exit(main(sys.argv[1:]))
"""
)


def _demo(style: str, out: Path) -> dict[str, object]:
    words = ["demo", "--style", style, "--out", str(out), "--seconds", "1", "--json"]
    result = subprocess.run(
        [sys.executable, "-c", WITHOUT_QT, *words], capture_output=True, text=True, cwd=ROOT, check=False
    )
    assert result.returncode == 0, result.stderr
    told: dict[str, object] = json.loads(result.stdout)
    return told


@pytest.mark.parametrize("style", [NAMES[0], pytest.param("derby", marks=pytest.mark.slow)])
def test_the_whole_job_on_a_sample(style: str, tmp_path: Path) -> None:
    """The sample of the README, and one with two cloths."""
    told = _demo(style, tmp_path / "out")
    written = {path.name for path in (tmp_path / "out").iterdir()}
    assert written >= MADE | {f"{style}.style.json", f"{style}.dxf"}
    assert isinstance(told["files"], list)
    assert {Path(name).name for name in told["files"]} == written
    assert all(path.stat().st_size > 20 for path in (tmp_path / "out").iterdir())
    assert told["ok"] is True
    assert verify_document(lay_file.read(tmp_path / "out" / "lay.json")).ok
    load_style(tmp_path / "out" / f"{style}.style.json")
    for name in ("backing.dxf", "boards.dxf", "lay.dxf"):
        assert not ezdxf.readfile(tmp_path / "out" / name).audit().has_errors
    for name in ("cut-ticket.xlsx", "fabric-per-pair.xlsx"):
        assert openpyxl.load_workbook(tmp_path / "out" / name).worksheets
    if style == NAMES[0]:
        _check_square(tmp_path / "out" / "boards.pdf")


def _check_square(path: Path) -> None:
    """Rasterise the boards and measure the 100 mm square that every sheet bears."""
    dpi = 254.0
    page = pypdfium2.PdfDocument(path)[0]
    dark = np.asarray(page.render(scale=dpi / 72.0, grayscale=True).to_numpy()).squeeze() < 160
    side = round(100.0 / 25.4 * dpi)
    found = [
        (x, y, length)
        for y in np.flatnonzero(dark.sum(axis=1) >= side)
        for x, length in _runs(dark[y])
        if abs(length - side) <= 4
    ]
    assert found, "no line of 100 mm on the sheet"
    errors = [abs(length * 25.4 / dpi - 100.0) for _, _, length in found]
    assert min(errors) < 0.3, "the square is 100 mm to within its line's width"
    tops = sorted(y for _, y, _ in found)
    spans = (np.array(tops)[:, None] - tops) * 25.4 / dpi
    assert np.abs(spans - 100.0).min() < 0.2, "its upper and lower side lie 100 mm apart"


def _runs(row: np.ndarray) -> list[tuple[int, int]]:
    edges = np.flatnonzero(np.diff(np.concatenate([[0], row.astype(np.int8), [0]])))
    return [(int(a), int(b - a)) for a, b in zip(edges[::2], edges[1::2], strict=True)]
