"""A small style of two pieces, by hand calculation easy to follow."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from app.style.file import save_style
from app.style.model import (
    ClothData,
    EdgeData,
    NotchData,
    PieceData,
    PullAxisData,
    SizeDrawing,
    SizeRun,
    Style,
)
from geometry.edge_kinds import EdgeKind

STRAP = ((0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0))
TONGUE = ((0.0, 0.0), (70.0, 0.0), (80.0, 90.0), (35.0, 120.0), (-10.0, 90.0))


def rectangle_edges(kind: EdgeKind, setback_mm: float) -> tuple[EdgeData, ...]:
    return tuple(EdgeData(start=i, kind=kind, setback_mm=setback_mm, confirmed=True) for i in range(4))


@pytest.fixture
def plain_style() -> Style:
    """Base size 37; a strap 100 x 60 with setback 4 all round, and a tongue with raw edges."""
    return Style(
        name="Plain",
        size_run=SizeRun(base="37", sizes=("36", "37", "38")),
        pieces=(
            PieceData(
                name="strap",
                drawings={"37": SizeDrawing(outline_mm=STRAP, notches=(NotchData(x_mm=50.0, y_mm=0.0),))},
                edges=rectangle_edges(EdgeKind.RAW, 4.0),
                pull_axis=PullAxisData(axis_deg=0.0, source="person", confirmed=True),
            ),
            PieceData(
                name="tongue",
                drawings={"37": SizeDrawing(outline_mm=TONGUE)},
                edges=(EdgeData(start=0, kind=EdgeKind.RAW, confirmed=True),),
                pull_axis=PullAxisData(axis_deg=90.0, source="symmetry", confirmed=True),
            ),
        ),
        cloths=(
            ClothData(
                id="twill-140",
                name="Cotton twill 140 g",
                width_mm=1420.0,
                usable_width_mm=1400.0,
                price_per_m=Decimal("2.50"),
            ),
        ),
    )


@pytest.fixture
def plain_file(plain_style: Style, tmp_path: Path) -> Path:
    """The same, saved."""
    path = tmp_path / "plain.style.json"
    save_style(plain_style, path)
    return path
