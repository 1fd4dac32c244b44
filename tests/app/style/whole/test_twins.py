"""Twins: what is marked on one stands on the other, once or from now on."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.style import edits
from app.style.checks import first_problem
from app.style.document import Document
from app.style.edits import EditError
from app.style.file import load_style
from app.style.model import LayerData
from app.style.pieces import piece_backings
from app.style.whole import adding, twins
from geometry.edge_kinds import EdgeKind
from tests.app.style.whole.samples import SAMPLES

COURT = load_style(SAMPLES["court"])
DERBY = load_style(SAMPLES["derby"])


def kinds(style, piece) -> list[tuple[EdgeKind, float | None]]:
    return sorted(((e.kind, e.setback_mm) for e in style.piece(piece).edges), key=str)


def test_the_mirrored_piece_is_backed_as_its_twin_the_other_way_round():
    style = twins.mirror_piece(COURT, "Quarter outer", "Quarter inner 2", linked=False)
    for size in ("35", "37", "41"):
        (a,), (b,) = (
            piece_backings(style, name, size, "left") for name in ("Quarter outer", "Quarter inner 2")
        )
        assert b.area_mm2 == pytest.approx(a.area_mm2, rel=1e-5)
    assert style.piece("Quarter inner 2").twin == "" and first_problem(style) == ""
    boxes = [p.drawings["37"].outline_mm for p in style.pieces]
    right = max(x for x, _ in style.piece("Vamp").drawings["37"].outline_mm)
    assert min(x for x, _ in style.piece("Quarter inner 2").drawings["37"].outline_mm) > right and boxes


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 3), st.floats(0.5, 9.0), st.sampled_from(list(EdgeKind)[:-1]), st.floats(-80, 80))
def test_linked_twins_follow_every_edit_and_undo_takes_both_back(edge, setback, kind, axis):
    style = twins.mirror_piece(COURT, "Quarter outer", "Twin", linked=True)
    document = Document(style)
    start = style.piece("Quarter outer").edges[edge].start
    changed = edits.set_edge_kind(style, "Quarter outer", [(0, start)], kind)
    changed = edits.set_setback(changed, "Quarter outer", [(0, start)], setback)
    changed = edits.set_axis(changed, "Quarter outer", axis)
    document.apply("edit", changed)
    after = document.style
    assert kinds(after, "Twin") == kinds(after, "Quarter outer")
    turned = after.piece("Twin").pull_axis.axis_deg + after.piece("Quarter outer").pull_axis.axis_deg
    assert turned == pytest.approx(0.0, abs=1e-4)
    document.undo()
    assert document.style == style


def test_the_link_holds_both_ways_and_a_break_point_added_comes_too():
    style = twins.mirror_piece(COURT, "Quarter outer", "Twin", linked=True)
    start = style.piece("Twin").edges[0].start
    document = Document(style)
    document.apply("break", edits.add_break(style, "Twin", 0, start + 3))
    assert len(document.style.piece("Quarter outer").edges) == len(style.piece("Quarter outer").edges) + 1
    assert kinds(document.style, "Twin") == kinds(document.style, "Quarter outer")


def test_a_preview_shows_the_twin_following():
    style = twins.mirror_piece(COURT, "Quarter outer", "Twin", linked=True)
    document = Document(style)
    document.preview(edits.set_axis(style, "Quarter outer", 12.0))
    assert document.shown.piece("Twin").pull_axis.axis_deg == -12.0
    document.preview(None)
    assert document.shown is style


def test_names_and_links_stay_true_when_a_twin_is_renamed_or_deleted():
    style = twins.mirror_piece(COURT, "Quarter outer", "Twin", linked=True)
    renamed = twins.follow(style, edits.rename_piece(style, "Quarter outer", "Outer"))
    assert renamed.piece("Twin").twin == "Outer" and first_problem(renamed) == ""
    alone = twins.follow(style, adding.delete(style, "Twin"))
    assert alone.piece("Quarter outer").twin == "" and first_problem(alone) == ""
    apart = twins.unlink(style, "Twin")
    start = apart.piece("Twin").edges[0].start
    moved = twins.follow(apart, edits.set_setback(apart, "Twin", [(0, start)], 7.0))
    assert moved.piece("Quarter outer") == apart.piece("Quarter outer")


def test_copying_to_a_twin_takes_breaks_kinds_setbacks_axis_and_hold_line():
    style = edits.set_hold_line(DERBY, "Quarter outer", (20.0, 20.0), (90.0, 25.0))
    seam = next(e for e in style.piece("Quarter outer").edges if e.kind is EdgeKind.SEAM)
    style = edits.set_setback(style, "Quarter outer", [(0, seam.start)], 6.75)
    style = edits.set_axis(style, "Quarter outer", 4.0)
    style = edits.add_break(style, "Quarter outer", 0, seam.start + 9)
    assert twins.likely_twin(style, "Quarter outer") == "Quarter inner"
    copied = twins.copy_to_twin(style, "Quarter outer", "Quarter inner")
    inner = copied.style.piece("Quarter inner")
    assert kinds(copied.style, "Quarter inner") == kinds(style, "Quarter outer")
    assert abs(inner.pull_axis.axis_deg) == pytest.approx(4.0, abs=3.0)
    assert inner.hold_line is not None
    (ax, ay), (bx, by) = inner.hold_line.from_mm, inner.hold_line.to_mm
    assert ((ax - bx) ** 2 + (ay - by) ** 2) ** 0.5 == pytest.approx(70.178, abs=0.01)
    assert first_problem(copied.style) == ""


def test_a_piece_that_is_no_mirror_image_is_refused():
    with pytest.raises(EditError, match="not the mirror image"):
        twins.copy_to_twin(DERBY, "Vamp", "Counter")
    linked = twins.link(DERBY, "Quarter outer", "Quarter inner")
    with pytest.raises(EditError, match="linked to Quarter inner"):
        twins.link(linked, "Quarter outer", "Vamp")
    with pytest.raises(EditError, match="own twin"):
        twins.link(DERBY, "Vamp", "Vamp")


def test_what_cannot_be_mirrored_is_never_left_in_the_wrong_place():
    """A field of a newer program, say a glue line on a layer, is not silently copied unmirrored."""
    quarter = COURT.piece("Quarter outer")
    layer = LayerData.model_validate({"glue_line": [[1, 2]]})
    drawn = quarter.model_copy(update={"layers": (layer,)})
    style = COURT.model_copy(update={"pieces": tuple(drawn if p is quarter else p for p in COURT.pieces)})
    assert adding.beyond_mirroring(quarter) == ""
    with pytest.raises(EditError, match="glue line"):
        twins.mirror_piece(style, "Quarter outer", "Twin", linked=True)
    with pytest.raises(EditError, match="glue line"):
        adding.duplicate(style, "Quarter outer")


def test_a_piece_backed_in_one_with_another_is_not_mirrored_away_from_it():
    layer = LayerData(joins=("Vamp",))
    quarter = COURT.piece("Quarter outer").model_copy(update={"layers": (layer,)})
    style = adding.with_piece(COURT, "Quarter outer", quarter)
    with pytest.raises(EditError, match="shares one backing with Vamp"):
        twins.mirror_piece(style, "Quarter outer", "Twin", linked=False)
