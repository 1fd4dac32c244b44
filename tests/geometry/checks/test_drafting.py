"""Every mistake that can be seen on the drawing board is told, with its remedy."""

from dataclasses import replace

import numpy as np
import pytest

from geometry.backing.derive import derive_backing
from geometry.checks.drafting import check
from geometry.edge_kinds import EdgeKind
from geometry.piece import Edge, Edging, Keep, PullAxis, Shaping, UpperPiece
from tests.geometry.small_pieces import RULES, circle, codes, rectangle, upper


def sound() -> UpperPiece:
    """A confirmed piece by the house rules: lasted below, folded above, two underlays."""
    kinds = (EdgeKind.LASTING, EdgeKind.UNDERLAY, EdgeKind.FOLDED, EdgeKind.OVERLAY)
    piece = upper(rectangle(160, 80), [0] * 4)
    return replace(piece, edging=Edging(((0, 1, 2, 3),), (tuple(Edge(k, confirmed=True) for k in kinds),)))


def told(piece, keep=None) -> set[str]:
    shaping = Shaping(keeps=() if keep is None else (keep,))
    found = check(piece, derive_backing(piece, RULES, shaping=shaping), RULES)
    assert all(f.advice and f.piece == "piece" and f.size == "37" for f in found)
    return codes(found)


def with_edge(k: int, edge: Edge) -> UpperPiece:
    piece = sound()
    edges = list(piece.edging.edges[0])
    edges[k] = edge
    return replace(piece, edging=Edging(piece.edging.breaks, (tuple(edges),)))


def test_a_piece_by_the_house_rules_has_nothing_to_tell():
    assert told(sound()) == set()


@pytest.mark.parametrize(
    ("edge", "code"),
    [
        (Edge(EdgeKind.RAW, 0.0, 0.0, True), "BACKING_TO_CUT_EDGE"),
        (Edge(EdgeKind.FOLDED, 0.0, 5.0, True), "BACKING_TO_CUT_EDGE"),
        (Edge(EdgeKind.SEAM, -2.0, 1.5, True), "BACKING_PAST_EDGE"),
        (Edge(EdgeKind.FOLDED, 3.0, 5.0, True), "ENDS_IN_FOLD"),
        (Edge(EdgeKind.LASTING, 15.0, 15.0, True), "ON_FEATHER_LINE"),
        (Edge(EdgeKind.LASTING, 14.2, 15.0, True), "ON_FEATHER_LINE"),
        (Edge(EdgeKind.LASTING, 16.0, 15.0, True), "ON_FEATHER_LINE"),
        (Edge(EdgeKind.LASTING, 10.0, 0.0, True), "FEATHER_UNKNOWN"),
        (Edge(EdgeKind.OVERLAY, 3.0, 0.0, True), "NOT_CAUGHT_BY_STITCH"),
        (Edge(EdgeKind.SEAM, None, None, False), "KIND_UNCONFIRMED"),
    ],
)
def test_each_mistake_is_told(edge, code):
    assert code in told(with_edge(0, edge))


@pytest.mark.parametrize(
    "edge",
    [
        Edge(EdgeKind.SKIVED, 0.0, 0.0, True),
        Edge(EdgeKind.CENTRE, 0.0, 0.0, True),
        Edge(EdgeKind.LASTING, 20.0, 15.0, True),
        Edge(EdgeKind.LASTING, 8.0, 15.0, True),
        Edge(EdgeKind.FOLDED, 6.0, 5.0, True),
    ],
)
def test_what_is_right_is_not_told(edge):
    assert told(with_edge(0, edge)) == set()


def test_a_proposed_axis_waits_for_a_person():
    piece = replace(sound(), pull_axis=PullAxis(0.0, "longest direction"))
    assert told(piece) == {"AXIS_UNCONFIRMED"}


def test_a_cut_line_on_the_feather_line_is_told_too():
    """The lasting edge is set back far enough, but the region ends on the feather line."""
    region = Keep(np.array([(20.0, 15.0), (140.0, 15.0), (140.0, 60.0), (20.0, 60.0)]), True)
    assert "ON_FEATHER_LINE" in told(sound(), region)


def test_a_cut_line_across_the_piece_may_show():
    line = Keep(np.array([(80.0, 0.0), (80.0, 80.0)]), False, (20.0, 40.0))
    wide = replace(sound(), outline=upper(rectangle(400, 300), [0] * 4).outline)
    assert "HARD_EDGE" in told(wide, replace(line, points_mm=np.array([(200.0, 0.0), (200.0, 300.0)])))
    assert "HARD_EDGE" not in told(wide)


def test_a_punched_hole_may_be_flush():
    piece = upper(rectangle(160, 80), [4] * 4, holes=[circle(2.5, 24, (80, 40))], hole_setbacks=[0])
    assert told(piece) == set()


def test_a_backing_of_an_upper_since_changed_is_an_error():
    piece = sound()
    old = derive_backing(piece, RULES)
    moved = replace(piece, outline=upper(rectangle(161, 80), [0] * 4).outline)
    assert "BACKING_STALE" in codes(check(moved, old, RULES))


def test_a_backing_larger_than_its_upper_is_told():
    piece = upper(rectangle(160, 80), [-1, -1, -1, -1])
    assert {"BACKING_LARGER", "BACKING_PAST_EDGE"} <= told(piece)
