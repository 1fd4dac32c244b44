"""From style to geometry: sizes drawn or graded, both hands, layers, and what stays open."""

from __future__ import annotations

import numpy as np
import pytest

from app.style import pieces
from app.style.model import EdgeRuleData, HouseRules, KeepData, LayerData, PieceData, SizeDrawing, Style
from geometry.edge_kinds import EDGE_RULES, EdgeKind
from geometry.errors import SizeError


def _with(style: Style, piece: PieceData, **fields: object) -> Style:
    changed = piece.model_copy(update=fields)
    others = tuple(changed if p is piece else p for p in style.pieces)
    return style.model_copy(update={"pieces": others})


def test_a_backing_is_the_upper_less_its_setbacks(plain_style: Style) -> None:
    (backing,) = pieces.piece_backings(plain_style, "strap", "37", "left")
    assert backing.area_mm2 == pytest.approx(92 * 52)


def test_the_other_hand_is_the_mirror_image(plain_style: Style) -> None:
    left = pieces.upper_piece(plain_style, "tongue", "37", "left")
    right = pieces.upper_piece(plain_style, "tongue", "37", "right")
    assert right.hand == "right"
    assert right.outline == left.outline.mirrored()


def test_a_size_that_is_drawn_is_used_as_drawn(plain_style: Style) -> None:
    strap = plain_style.piece("strap")
    own = SizeDrawing(outline_mm=((0, 0), (109, 0), (109, 61), (0, 61)))
    style = _with(plain_style, strap, drawings={**strap.drawings, "38": own})
    assert pieces.upper_piece(style, "strap", "38", "left").outline.area_mm2 == pytest.approx(109 * 61)


def test_a_size_that_is_not_drawn_is_graded_from_the_base(plain_style: Style) -> None:
    """Raw edges have no allowance, so the whole piece grows: 38/37 along, 225/220 across."""
    upper = pieces.upper_piece(plain_style, "strap", "38", "left")
    low_x, low_y, high_x, high_y = upper.outline.bbox_mm
    assert high_x - low_x == pytest.approx(100 * 38 / 37)
    assert high_y - low_y == pytest.approx(60 * 225 / 220)


def test_a_style_that_is_not_graded_has_its_drawn_sizes_only(plain_style: Style) -> None:
    run = plain_style.size_run.model_copy(update={"graded": False})
    style = plain_style.model_copy(update={"size_run": run})
    with pytest.raises(SizeError, match="size 38 is not drawn"):
        pieces.upper_piece(style, "strap", "38", "left")


def test_a_partial_backing_grows_with_the_size(plain_style: Style) -> None:
    strap = plain_style.piece("strap")
    keep = KeepData(points_mm=((40.0, -10.0), (40.0, 70.0)), closed=False, side_mm=(80.0, 30.0))
    style = _with(plain_style, strap, layers=(LayerData(keep=keep),))
    areas = {
        size: pieces.piece_backings(style, "strap", size, "left")[0].area_mm2 for size in ("36", "37", "38")
    }
    assert areas["37"] == pytest.approx((96 - 40) * 52)
    # the cut line lies 10 mm left of the middle, and so it does in proportion in other sizes
    along, across = 38 / 37, 225 / 220
    assert areas["38"] == pytest.approx((50 * along - 4 + 10 * along) * (60 * across - 8))
    right = pieces.piece_backings(style, "strap", "38", "right")[0]
    assert right.area_mm2 == pytest.approx(areas["38"])


def test_a_partial_backing_is_carried_to_a_drawn_size_and_that_is_said(plain_style: Style) -> None:
    strap = plain_style.piece("strap")
    keep = KeepData(points_mm=((40.0, -10.0), (40.0, 70.0)), closed=False, side_mm=(80.0, 30.0))
    own = SizeDrawing(outline_mm=((500, 0), (610, 0), (610, 66), (500, 66)))
    style = _with(plain_style, strap, layers=(LayerData(keep=keep),), drawings={**strap.drawings, "38": own})
    (backing,) = pieces.piece_backings(style, "strap", "38", "left")
    assert backing.area_mm2 == pytest.approx((106 - 44) * 58)
    assert "PARTIAL_BACKING_CARRIED" in {f.code for f in pieces.findings(style, ["38"])}


def test_the_rules_of_the_style_stand_over_those_of_the_program(plain_style: Style) -> None:
    rules = HouseRules(edge_rules={EdgeKind.RAW: EdgeRuleData(setback_mm=7.0)}, knife_radius_mm=2.0)
    draft = pieces.draft_rules(plain_style.model_copy(update={"rules": rules}))
    assert draft.edge_rules[EdgeKind.RAW].setback_mm == 7.0
    assert draft.edge_rules[EdgeKind.FOLDED] == EDGE_RULES[EdgeKind.FOLDED]
    assert draft.knife_radius_mm == 2.0


def test_what_nobody_confirmed_is_asked(plain_style: Style) -> None:
    codes = {finding.code for finding in pieces.unconfirmed(plain_style)}
    assert codes == {"TIGHT_DIRECTION_ASSUMED"}
    strap = plain_style.piece("strap")
    open_edge = strap.edges[0].model_copy(update={"confirmed": False})
    style = _with(plain_style, strap, edges=(open_edge, *strap.edges[1:]))
    found = {finding.code: finding for finding in pieces.unconfirmed(style)}
    assert "1 of 4 edge kinds" in found["EDGES_UNCONFIRMED"].message
    axis = strap.pull_axis.model_copy(update={"confirmed": False})
    assert "AXIS_UNCONFIRMED" in {
        f.code for f in pieces.unconfirmed(_with(plain_style, strap, pull_axis=axis))
    }


def test_pieces_drawn_assembled_share_their_pull_axis(plain_style: Style) -> None:
    style = plain_style.model_copy(
        update={"pieces": tuple(p.model_copy(update={"assembled": True}) for p in plain_style.pieces)}
    )
    assert "AXIS_DEVIATES" in {finding.code for finding in pieces.findings(style, ["37"])}
    assert "AXIS_DEVIATES" not in {finding.code for finding in pieces.findings(plain_style, ["37"])}


def test_asking_twice_costs_nothing(plain_style: Style) -> None:
    first = pieces.upper_piece(plain_style, "tongue", "38", "right")
    assert pieces.upper_piece(plain_style, "tongue", "38", "right") is first


def test_a_piece_without_marked_edges_is_broken_at_its_corners(plain_style: Style) -> None:
    style = _with(plain_style, plain_style.piece("strap"), edges=())
    upper = pieces.upper_piece(style, "strap", "37", "left")
    assert upper.edging.breaks == ((0, 1, 2, 3),)
    assert not any(edge.confirmed for edge in upper.edging.edges[0])
    assert np.isfinite(upper.outline.area_mm2)
