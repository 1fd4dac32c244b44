"""The map of strain: bands cover the piece once, steps at a backing stay steps, figures are lettered."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import shapely

from app.hold.field import pull_upper
from app.papers.formats.drawing import Fill, Line, Text
from app.papers.pictures.strain_bands import SCALE, bands_of
from app.papers.pictures.strain_map import StrainMap, steps_of, steps_over
from app.style.file import load_style
from geometry.stretch.field.mesh import mesh_of

COURT = Path(__file__).parents[3] / "sample_styles" / "court" / "court.style.json"


@pytest.fixture(scope="module")
def pulled():
    return pull_upper(load_style(COURT))


def drawn(pulled, case: str, times: float = 1.0):
    field = pulled.field
    bounds = steps_over(field.cases)
    return list(StrainMap(pulled.question.upper, field, field.case(case), bounds).draw(times).walk())


def area(rings) -> float:
    outer, *holes = (shapely.Polygon(ring) for ring in rings)
    return outer.area - sum(hole.area for hole in holes)


def test_bands_cover_the_piece_once(pulled) -> None:
    fills = [mark for mark in drawn(pulled, "backed", 0.0) if isinstance(mark, Fill) and mark.colour in SCALE]
    whole = pulled.field.mesh.areas_mm2.sum()
    assert sum(area(mark.rings_mm) for mark in fills) == pytest.approx(whole, rel=1e-3)
    assert len({mark.colour for mark in fills}) >= 4


def test_what_lies_below_the_first_bound_is_filled_too() -> None:
    """A piece pushed together all over has negative largest strains; it is no hole in the map."""
    mesh = mesh_of(shapely.box(0, 0, 40, 20), [], 5.0)
    count = len(mesh.triangles)
    bands = list(bands_of(mesh, np.zeros(count, dtype=int), np.full(count, -0.01), steps_of(0.1)))
    assert {band.colour for band in bands} == {SCALE[0]}
    assert sum(area(band.rings) for band in bands) == pytest.approx(800.0, rel=1e-3)


def test_a_step_between_zones_is_drawn_as_one_line() -> None:
    mesh = mesh_of(shapely.box(0, 0, 40, 20), [shapely.box(0, 0, 20, 20)], 5.0)
    zones = (mesh.middles_mm[:, 0] > 20.0).astype(int)
    bands = bands_of(mesh, zones, np.where(zones == 1, 0.055, 0.005), steps_of(0.07))
    lines = [line for band in bands for line in band.lower_lines]
    assert lines and all(np.abs(line[:, 0] - 20.0).max() < 0.01 for line in lines)


def test_contours_and_peel_prone_places_bear_their_figures(pulled) -> None:
    words = [mark.text for mark in drawn(pulled, "backed") if isinstance(mark, Text)]
    assert {"(1)", "(2)"} <= set(words)
    per_cents = [word for word in words if word.isdigit()]
    assert per_cents and all(int(word) % 5 == 0 for word in per_cents)
    assert "(1)" not in [mark.text for mark in drawn(pulled, "alone") if isinstance(mark, Text)]


def test_the_scale_keeps_its_order_in_grey() -> None:
    """Relative luminance (ITU-R BT.709) rises from colour to colour: a print in grey reads the same."""
    grey = [0.2126 * r + 0.7152 * g + 0.0722 * b for r, g, b in SCALE]
    assert all(after - before > 0.05 for before, after in pairwise(grey))


def test_twice_the_deformation_moves_every_point_twice_as_far(pulled) -> None:
    rest, once, twice = (
        [mark.points_mm for mark in drawn(pulled, "alone", times) if isinstance(mark, Line)]
        for times in (0.0, 1.0, 2.0)
    )
    for a, b, c in zip(rest, once, twice, strict=True):
        assert c - a == pytest.approx(2.0 * (b - a), abs=1e-9)
