"""A half pattern that is unfolded is laid, carded and backed as the whole piece that it stands for."""

from __future__ import annotations

import pytest

from app.errors import HalfPatternError
from app.lay.job import LayJob, problem_of
from app.style import edits
from app.style.edits import EditError
from app.style.file import load_style
from app.style.halves import is_half
from app.style.model import KeepData, LayerData
from app.style.pieces import findings, piece_backings
from app.style.whole import folding
from geometry.edge_kinds import EdgeKind
from geometry.errors import OutlineError
from tests.app.style.whole.samples import SAMPLES


@pytest.fixture
def derby():
    return load_style(SAMPLES["derby"])


def symmetric_difference(a, b) -> float:
    return float(a.polygon.symmetric_difference(b.polygon).area)


@pytest.mark.parametrize(
    ("sample", "piece"), [("derby", "Counter"), ("sandal", "Heel piece"), ("boot", "COUNTER")]
)
def test_folded_and_unfolded_the_backing_is_the_same_in_every_size(sample, piece):
    style = load_style(SAMPLES[sample])
    half = folding.fold(style, piece)
    assert is_half(half.piece(piece))
    whole = folding.unfold(half, piece)
    assert not is_half(whole.piece(piece))
    assert len(whole.piece(piece).edges) == len(style.piece(piece).edges)
    for size in style.size_run.sizes:
        (before,), (after,) = (piece_backings(s, piece, size, "left") for s in (style, whole))
        assert after.area_mm2 == pytest.approx(before.area_mm2, rel=1e-4)
        assert symmetric_difference(after.outlines[0], before.outlines[0]) < 1e-3 * before.area_mm2


def test_a_half_stops_the_lay_and_unfolding_lets_it_go_on(derby):
    half = folding.fold(derby, "Counter")
    with pytest.raises(HalfPatternError, match="unfold"):
        problem_of(LayJob(half, {"42": 1}))
    whole = folding.unfold(half, "Counter")
    problem_of(LayJob(whole, {"42": 1}))
    assert "HALF_PATTERN" not in {f.code for f in findings(whole, ["42"])}


def test_an_edge_chosen_is_marked_and_unfolded_over_in_one(derby):
    half = folding.fold(derby, "Counter")
    centre = next(e for e in half.piece("Counter").edges if e.kind is EdgeKind.CENTRE)
    seam = edits.set_edge_kind(half, "Counter", [(0, centre.start)], EdgeKind.SEAM)
    assert folding.unfold(seam, "Counter", (0, centre.start)) == folding.unfold(half, "Counter")


def test_setbacks_and_confirmations_stand_on_both_sides(derby):
    half = folding.fold(derby, "Counter")
    overlay = next(e for e in half.piece("Counter").edges if e.kind is EdgeKind.OVERLAY)
    half = edits.set_setback(half, "Counter", [(0, overlay.start)], 3.25)
    whole = folding.unfold(half, "Counter").piece("Counter")
    assert [e.setback_mm for e in whole.edges if e.kind is EdgeKind.OVERLAY] == [3.25, 3.25]
    assert all(e.confirmed for e in whole.edges)


def test_an_oblique_axis_cannot_hold_for_both_halves_and_is_asked_about(derby):
    half = edits.set_axis(folding.fold(derby, "Counter"), "Counter", 31.0)
    axis = folding.unfold(half, "Counter").piece("Counter").pull_axis
    assert not axis.confirmed and axis.source == "symmetry"
    straight = edits.set_axis(folding.fold(derby, "Counter"), "Counter", 0.0)
    assert folding.unfold(straight, "Counter").piece("Counter").pull_axis.confirmed


def test_a_cut_line_to_the_fold_goes_on_to_the_other_side(derby):
    half = folding.fold(derby, "Counter")
    ring = half.piece("Counter").drawings["42"].outline_mm
    centre = next(e for e in half.piece("Counter").edges if e.kind is EdgeKind.CENTRE)
    (x0, y0), (x1, y1) = ring[centre.start], ring[(centre.start + 1) % len(ring)]
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    far = max(ring, key=lambda p: (p[0] - middle[0]) ** 2 + (p[1] - middle[1]) ** 2)
    beyond = (2 * far[0] - middle[0], middle[1])
    keep = KeepData(points_mm=(beyond, middle), closed=False, side_mm=(middle[0], max(y0, y1) + 500.0))
    half = edits.set_layers(half, "Counter", [LayerData(keep=keep)])
    line = folding.unfold(half, "Counter").piece("Counter").layers[0].keep
    assert len(line.points_mm) == 3
    assert line.points_mm[0][0] + line.points_mm[-1][0] == pytest.approx(2 * middle[0], abs=1e-3)


def test_what_cannot_be_unfolded_says_why(derby):
    with pytest.raises(EditError, match="no centre edge"):
        folding.unfold(derby, "Vamp")
    lasting = next(e for e in derby.piece("Vamp").edges if e.kind is EdgeKind.LASTING)
    with pytest.raises(OutlineError, match="not straight"):
        folding.unfold(derby, "Vamp", (0, lasting.start))
    with pytest.raises(EditError, match="no axis of symmetry"):
        folding.fold(derby, "Quarter outer")
    with pytest.raises(EditError, match="no piece called"):
        folding.unfold(derby, "Tounge")
