"""The mirror image of a piece is found on its twin, wherever it was drawn."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.outline import Outline
from geometry.piece import DrawnPiece, Notch
from geometry.symmetry.reflection import Reflection
from geometry.symmetry.twins import fit_twin

QUARTER = Outline.make(
    [(0, 0), (80, 5), (130, 30), (125, 60), (90, 55), (60, 70), (40, 110), (0, 100), (-10, 50)],
    [[(30, 40), (30, 48), (38, 48), (38, 40)]],
)


@given(st.floats(-180, 180), st.floats(-900, 900), st.floats(-900, 900), st.integers(0, 8))
def test_the_mirror_image_is_found_exactly_whatever_vertex_it_starts_at(turn, dx, dy, first):
    image = QUARTER.mirrored().turned(turn).moved(dx, dy)
    ring = np.roll(image.ring_mm, -first, axis=0)
    fit = fit_twin(QUARTER, Outline.make(ring, image.holes_mm))
    assert fit.exact and fit.away_mm < 1e-6
    found = fit.mirror.points(QUARTER.ring_mm)
    assert fit.vertices is not None
    assert np.abs(found - ring[list(fit.vertices[0])]).max() < 1e-6


@given(st.floats(0.5, 4.0), st.floats(-180, 180))
def test_a_twin_that_differs_is_laid_over_as_well_as_it_goes(wider, turn):
    image = QUARTER.mirrored()
    ring = image.ring_mm.copy()
    ring[2] += (wider, -wider)
    fit = fit_twin(QUARTER, Outline.make(ring, image.holes_mm).turned(turn))
    assert not fit.exact
    assert fit.away_mm <= 2.5 * wider + 1.5


def test_the_piece_itself_turned_is_no_mirror_image():
    fit = fit_twin(QUARTER, QUARTER.turned(30.0))
    assert not fit.exact and fit.away_mm > 10.0


@given(st.floats(-180, 180), st.floats(-180, 180))
def test_mirroring_twice_is_nothing(line_deg, notch_deg):
    way = np.array([np.cos(np.radians(line_deg)), np.sin(np.radians(line_deg))])
    mirror = Reflection.across((3.0, 4.0), (3.0, 4.0) + way)
    drawn = DrawnPiece(name="A", outline=QUARTER, notches=(Notch(80, 5, notch_deg),))
    back = mirror.drawn(mirror.drawn(drawn))
    for a, b in zip(back.outline.rings_mm, QUARTER.rings_mm, strict=True):
        assert np.abs(a - b).max() < 1e-9
    assert (back.notches[0].angle_deg - notch_deg) % 360.0 == pytest.approx(0.0, abs=1e-6) or (
        back.notches[0].angle_deg - notch_deg
    ) % 360.0 == pytest.approx(360.0, abs=1e-6)
