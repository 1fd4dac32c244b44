"""Spreading arithmetic: spreads, plies from a roll, what is left.

C4: table 4.1 of I. Vilumsone-Nemes, Industrial Cutting of Textile Materials (seen in excerpts): 114
pieces and at most 30 plies. C5: onlineclothingstudy (web), a roll of 61 m and a lay of 5 m, without end loss;
with 2 cm lost at each end of a ply the figures are derived. C6 stands in test_consumption.
"""

from __future__ import annotations

import pytest

from nesting.errors import PlanError
from nesting.planning.cut_order import plan_cut
from nesting.planning.cut_sets import CutCosts, CutLimits
from nesting.planning.roll_allocation import Spread, StockRoll, allocate

FEWEST_SPREADS = CutCosts(per_lay=1000.0, per_layer=1.0)


@pytest.mark.parametrize(("pieces", "spreads"), [(114, 4), (25, 1), (30, 1), (31, 2)])
def test_c4_spreads_that_a_number_of_pieces_takes(pieces: int, spreads: int) -> None:
    """One piece a ply, 30 plies at the most: 30 + 30 + 30 + 24, or any other four of 114."""
    plan = plan_cut({"37": pieces}, {"37": 1.0}, CutLimits(30, 1.0, 1), FEWEST_SPREADS)
    assert len(plan.lays) == spreads
    assert sum(lay.layers for lay in plan.lays) == pieces
    assert max(lay.layers for lay in plan.lays) <= 30


@pytest.mark.parametrize(("end_m", "left_m"), [(0.0, 1.00), (0.02, 0.52)])
def test_c5_plies_from_a_roll_and_the_bit_left(end_m: float, left_m: float) -> None:
    ply_m = 5.0 + 2 * end_m
    twelve = allocate((Spread("A", ply_m, 12),), (StockRoll("R1", 61.0),), keep_m=2.0)
    (use,) = twelve.uses
    assert use.plies == {"A": 12}
    assert use.left_m == pytest.approx(left_m, abs=1e-9)
    assert twelve.waste_m == pytest.approx(left_m, abs=1e-9)
    with pytest.raises(PlanError, match="short"):
        allocate((Spread("A", ply_m, 13),), (StockRoll("R1", 61.0),))
