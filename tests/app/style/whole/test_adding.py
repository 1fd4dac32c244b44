"""Pieces duplicated, deleted, drawn from nothing, or brought in from another drawing."""

from __future__ import annotations

import pytest

from app.lay.job import LayJob, problem_of
from app.style import edits
from app.style.checks import first_problem
from app.style.edits import EditError
from app.style.file import load_style
from app.style.model import HoldChain, LayData
from app.style.pieces import findings, piece_backings
from app.style.whole import adding, drawn_shapes
from geometry.dxf.read import read_drawing
from tests.app.style.whole.samples import ROOT, SAMPLES

DERBY = load_style(SAMPLES["derby"])


def test_a_duplicate_is_the_same_piece_beside_all_others():
    style = adding.duplicate(DERBY, "Tongue")
    assert [p.name for p in style.pieces][3:5] == ["Tongue", "Tongue 2"]
    a, b = (style.piece(name) for name in ("Tongue", "Tongue 2"))
    assert [(e.start, e.kind) for e in a.edges] == [(e.start, e.kind) for e in b.edges]
    right = max(x for p in DERBY.pieces for x, _ in p.drawings["42"].outline_mm)
    assert min(x for x, _ in b.drawings["42"].outline_mm) > right
    with pytest.raises(EditError, match="already"):
        adding.duplicate(DERBY, "Tongue", "Vamp")


def test_a_deleted_piece_leaves_no_trace_and_lays_are_laid_anew():
    lay = LayData(name="A", pairs={"42": 1}, placements=(("Tongue 42 left", 0.0, 0.0, 0.0, False),))
    style = adding.delete(DERBY.model_copy(update={"lays": (lay,)}), "Tongue")
    assert all(p.name != "Tongue" for p in style.pieces)
    assert style.lays[0].stale and first_problem(style) == ""


def test_a_piece_in_a_chain_and_the_last_piece_stay():
    with_lines = edits.set_hold_line(DERBY, "Tongue", (0.0, 0.0), (0.0, 50.0))
    with_lines = edits.set_hold_line(with_lines, "Counter", (0.0, 0.0), (0.0, 50.0))
    style = edits.put_hold_chain(with_lines, HoldChain(name="throat", pieces=("Tongue", "Counter")))
    with pytest.raises(EditError, match="chain throat"):
        adding.delete(style, "Tongue")
    alone = DERBY.model_copy(update={"pieces": DERBY.pieces[:1]})
    with pytest.raises(EditError, match="needs a piece"):
        adding.delete(alone, "Vamp")


def test_pieces_of_another_drawing_come_in_as_proposals():
    drawing = read_drawing(ROOT / "sample_styles/court/court.dxf")
    style = DERBY.model_copy(update={"size_run": DERBY.size_run})
    sizes = {piece.size for piece in drawing.pieces}
    if "42" not in sizes and "" not in sizes:
        with pytest.raises(EditError, match="base size 42"):
            adding.add_drawn(style, drawing, ["Vamp"])
    court = load_style(SAMPLES["court"])
    again, added = adding.add_drawn(court, drawing, ["Vamp"])
    assert added == ("Vamp 2",) and len(again.pieces) == len(court.pieces) + 1
    assert not any(e.confirmed for e in again.piece("Vamp 2").edges)
    with pytest.raises(EditError, match="no piece Heel"):
        adding.add_drawn(court, drawing, ["Heel"])


def test_a_backing_without_an_upper_is_cut_as_it_is_drawn():
    style = drawn_shapes.add_rectangle(DERBY, "Eyelet stay", 120.0, 18.0, backing_only=True)
    (backing,) = piece_backings(style, "Eyelet stay", "42", "left")
    assert backing.area_mm2 == pytest.approx(120.0 * 18.0)
    shapes = {item.piece for item in problem_of(LayJob(style, {"42": 1})).items}
    assert "Eyelet stay" in shapes
    said = [f.code for f in findings(style, ["42"], ("left",)) if f.piece == "Eyelet stay"]
    assert said == ["AXIS_UNCONFIRMED"], "no word of an upper that it does not have"


def test_a_shape_is_an_upper_whose_edges_are_asked_about():
    style = drawn_shapes.add_shape(DERBY, "Tab", [(0, 0), (40, 0), (40, 25), (0, 25)])
    tab = style.piece("Tab")
    assert len(tab.edges) == 4 and not any(e.confirmed for e in tab.edges)


@pytest.mark.parametrize(
    ("points", "said"),
    [
        ([(0, 0), (10, 0)], "three points"),
        ([(0, 0), (10, 10), (10, 0), (0, 10)], "not clean|no area"),
        ([(0, 0), (10, 0), (float("nan"), 5)], "out of reach"),
    ],
)
def test_points_that_make_no_piece_are_refused(points, said):
    with pytest.raises(EditError, match=said):
        drawn_shapes.add_shape(DERBY, "Tab", points)


@pytest.mark.parametrize("side", [0.0, -5.0, 20000.0])
def test_sides_out_of_reason_are_refused(side):
    with pytest.raises(EditError, match="a side of"):
        drawn_shapes.add_rectangle(DERBY, "Tab", side, 20.0)
