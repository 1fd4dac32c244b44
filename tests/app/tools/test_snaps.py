"""Drawn points come to lie on crossings of lines, edges, backing and pull axis."""

import numpy as np
import pytest

from app.tools.board import board_piece
from app.tools.pointer import Pointer
from app.tools.snaps import snapped
from geometry.edge_kinds import EDGE_RULES, EdgeKind
from geometry.outline import Outline
from geometry.piece import Edge, Edging, PullAxis, UpperPiece

SETBACKS = {kind: rule.setback_mm for kind, rule in EDGE_RULES.items()}


@pytest.fixture
def piece():
    """A piece of 100 x 60 mm, pulled along x, its backing 5 mm inside, a line drawn at x = 30."""
    outline = Outline.make([(0, 0), (100, 0), (100, 60), (0, 60)])
    edging = Edging(((0, 1, 2, 3),), ((Edge(EdgeKind.LASTING),) * 4,))
    upper = UpperPiece(
        name="P", size="37", hand="left", outline=outline, edging=edging, pull_axis=PullAxis(0.0, "person")
    )
    rim = np.array([(5.0, 5.0), (95.0, 5.0), (95.0, 55.0), (5.0, 55.0)])
    line = np.array([(30.0, -10.0), (30.0, 70.0)])
    return board_piece(upper, SETBACKS, rims_mm=(rim,), lines_mm=(line,))


@pytest.mark.parametrize(
    ("near", "where"),
    [
        ((30.6, 29.5), (30.0, 30.0)),  # drawn line and pull axis
        ((29.5, 0.7), (30.0, 0.0)),  # drawn line and edge
        ((30.5, 54.6), (30.0, 55.0)),  # drawn line and backing
        ((94.6, 30.4), (95.0, 30.0)),  # backing and pull axis
    ],
)
def test_a_point_near_a_crossing_lies_on_it(piece, near, where):
    snap = snapped(piece, Pointer(*near, px_per_mm=4.0), [])
    assert snap.xy_mm == pytest.approx(where) and snap.what == "crossing"


def test_the_line_being_drawn_is_crossed_too(piece):
    sketch = [(60.0, 10.0), (60.0, 50.0), (80.0, 50.0)]
    snap = snapped(piece, Pointer(60.5, 30.4, px_per_mm=4.0), sketch)
    assert snap.xy_mm == pytest.approx((60.0, 30.0)) and snap.what == "crossing"


def test_a_crossing_at_an_edge_is_kept_by_the_edge(piece):
    assert snapped(piece, Pointer(30.2, 0.3, px_per_mm=4.0), []).edge == (0, 0)


def test_alt_draws_beside_a_crossing(piece):
    at = Pointer(30.6, 29.5, px_per_mm=4.0, alt=True)
    assert snapped(piece, at, []).xy_mm == (30.6, 29.5)
