"""The size run: what each size measures, how its pieces come about, sizes added and removed."""

from __future__ import annotations

import pytest

from app.style.checks import first_problem
from app.style.edits import EditError
from app.style.file import load_style
from app.style.model import LayData
from app.style.pieces import piece_backings, upper_piece
from app.style.whole import sizes
from geometry.errors import SizeError
from tests.app.style.whole.samples import SAMPLES

DERBY = load_style(SAMPLES["derby"])
BOOT = load_style(SAMPLES["boot"])


def one_size(style):
    """A style as the window makes it of a drawing without sizes."""
    run = style.size_run.model_copy(update={"sizes": (style.size_run.base,), "graded": False})
    return style.model_copy(update={"size_run": run})


def test_the_steps_of_a_paris_run_are_two_thirds_of_a_centimetre_and_five_mm_of_girth():
    rows = sizes.size_rows(DERBY)
    assert [row.size for row in rows] == ["40", "41", "42", "43", "44", "45"]
    assert [row.last_step_mm for row in rows[1:]] == pytest.approx([20 / 3] * 5)
    assert [row.girth_step_mm for row in rows[1:]] == pytest.approx([5.0] * 5)
    assert [row.size for row in rows if row.base] == ["42"]
    assert {row.drawn for row in rows if row.base} == {5} and rows[0].graded == 5
    assert sizes.size_rows(BOOT)[0].drawn == len(BOOT.pieces)


def test_sizes_added_to_a_single_drawn_one_are_graded_from_it():
    style = sizes.add_sizes(one_size(DERBY), "41-43")
    assert style.size_run.sizes == ("41", "42", "43") and style.size_run.graded
    areas = [piece_backings(style, "Vamp", size, "left")[0].area_mm2 for size in ("41", "42", "43")]
    assert areas == sorted(areas) and len(set(areas)) == 3
    assert sizes.add_sizes(style, "42.5").size_run.sizes == ("41", "42", "42.5", "43")
    with pytest.raises(EditError, match="already"):
        sizes.add_sizes(style, "42,43")
    with pytest.raises(SizeError, match="not a number"):
        sizes.add_sizes(style, "large")


def test_a_removed_size_takes_its_drawings_and_its_order_along():
    style = BOOT.model_copy(update={"order": {"36": 4, "37": 6}})
    style = sizes.remove_size(style, "36")
    assert "36" not in style.size_run.sizes and style.order == {"37": 6}
    assert all("36" not in piece.drawings for piece in style.pieces) and first_problem(style) == ""
    with pytest.raises(EditError, match="base size"):
        sizes.remove_size(style, "37")
    held = BOOT.model_copy(update={"lays": (LayData(name="A", pairs={"38": 2}),)})
    with pytest.raises(EditError, match="lay A"):
        sizes.remove_size(held, "38")


def test_a_graded_size_is_kept_as_a_drawing_and_graded_again():
    drawn = sizes.draw_size(DERBY, "44")
    assert sizes.how_made(drawn, drawn.piece("Vamp"), "44") == "drawn"
    before, after = (upper_piece(s, "Vamp", "44", "left").outline for s in (DERBY, drawn))
    assert before.polygon.symmetric_difference(after.polygon).area < 0.1
    back = sizes.grade_size(drawn, "44")
    assert sizes.how_made(back, back.piece("Vamp"), "44") == "graded"
    one = sizes.draw_size(DERBY, "44", ["Vamp"])
    assert sizes.size_rows(one)[4].drawn == 1


def test_the_base_size_goes_to_another_that_is_drawn_with_all_that_is_marked():
    style = sizes.set_base(BOOT, "39")
    assert style.size_run.base == "39" and first_problem(style) == ""
    for piece in BOOT.pieces:
        assert [e.kind for e in style.piece(piece.name).edges] == [e.kind for e in piece.edges]
    if BOOT.piece("VAMP").layers:
        a, b = (piece_backings(s, "VAMP", "38", "left")[0].area_mm2 for s in (BOOT, style))
        assert b == pytest.approx(a, rel=1e-3)


def test_a_drawing_entered_under_a_wrong_size_is_put_right():
    style = sizes.set_base(DERBY, "43")
    assert style.piece("Vamp").drawings.keys() == {"43"} and style.size_run.base == "43"
    assert style.size_run.sizes == DERBY.size_run.sizes
    a, b = upper_piece(DERBY, "Vamp", "42", "left"), upper_piece(style, "Vamp", "43", "left")
    assert a.outline == b.outline
    assert sizes.set_base(one_size(DERBY), "38").size_run.sizes == ("38",)
    half_drawn = sizes.draw_size(DERBY, "44", ["Vamp"])
    with pytest.raises(EditError, match="not every piece"):
        sizes.set_base(half_drawn, "44")


def test_restricted_grading_keeps_a_width_and_shares_a_shape_between_sizes():
    style = sizes.set_grading(DERBY, "Counter", "length")
    wide = {s: upper_piece(style, "Counter", s, "left").outline.bbox_mm for s in ("42", "45")}
    axis = style.piece("Counter").pull_axis.axis_deg
    assert axis in (0.0, 90.0)
    at = (1, 3) if axis == 0.0 else (0, 2)
    assert wide["45"][at[1]] - wide["45"][at[0]] == pytest.approx(
        wide["42"][at[1]] - wide["42"][at[0]], abs=0.02
    )
    same = sizes.set_cut_as(DERBY, "Counter", {"43": "44", "40": "41"})
    a, b = (piece_backings(same, "Counter", s, "left")[0] for s in ("43", "44"))
    assert a.outlines == b.outlines and a.upper.size == "43" and b.upper.size == "44"
    assert sizes.size_rows(same)[3].cut_as == 1
    with pytest.raises(EditError, match="itself cut as"):
        sizes.set_cut_as(DERBY, "Counter", {"43": "44", "44": "45"})
    with pytest.raises(EditError, match="base size"):
        sizes.set_cut_as(DERBY, "Counter", {"42": "43"})
    with pytest.raises(EditError, match="in the shape of"):
        sizes.remove_size(same, "44")


def test_sizes_of_an_order_that_the_run_lacks_are_named():
    assert sizes.missing_sizes(DERBY, ["39", "42", "46.5", "total"]) == ("39", "46.5")


@pytest.mark.parametrize("girth", [0.0, -3.0, 5000.0])
def test_a_girth_out_of_reason_is_refused(girth):
    with pytest.raises(EditError, match="ball girth"):
        sizes.set_girth(DERBY, girth)
