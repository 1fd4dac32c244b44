"""What is drawn on a piece comes along to its twin, its copy and the whole piece it unfolds to."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from app.style.drafting import draw, where
from app.style.drafting.edges import set_taper
from app.style.edits import EditError
from app.style.file import load_style
from app.style.model import LayerData
from app.style.pieces import drawn_piece, piece_backings, upper_piece
from app.style.saved.drawn import HoleDrawn, MarkDrawn, NotchDrawn, ReliefDrawn, SlitDrawn, WordDrawn
from app.style.whole import adding, folding, twins
from geometry.edge_kinds import EdgeKind
from tests.app.style.whole.samples import SAMPLES

COURT = load_style(SAMPLES["court"])
DERBY = load_style(SAMPLES["derby"])
PIECE = "Quarter outer"
EDGES = [(e.ring, e.start) for e in COURT.piece(PIECE).edges]


def inside(share_x, share_y, style=COURT, piece=PIECE):
    """A place of the open piece: its middle, moved by shares of a box that lies within it."""
    polygon = drawn_piece(style.piece(piece), style.size_run.base).outline.polygon
    spot = polygon.representative_point()
    reach = spot.distance(polygon.boundary) / 2
    return spot.x + (2 * share_x - 1) * reach, spot.y + (2 * share_y - 1) * reach


def with_details(style, piece, edge, share, x, y):
    """One of every kind of detail."""
    spot = where.at_edge(style, piece, edge, share)
    ends = [where.at_edge(style, piece, edge, s) for s in (0.2, 0.9)]
    assume(abs(x - y) + abs(1 - x - y) > 0.05)  # a line of some length
    a, b = (where.in_frame(inside(*at, style, piece)) for at in ((x, y), (y, 1 - x)))
    line = where.course([a, b])
    for detail in (
        NotchDrawn(what="notch", at=spot),
        ReliefDrawn(what="relief", start=ends[0], stop=ends[1], pitch_mm=7.0, depth_mm=2.0),
        HoleDrawn(what="drill", at=a),
        HoleDrawn(what="drill", at=where.at_edge(style, piece, edge, 0.1 + 0.8 * share, 6.0)),
        MarkDrawn(what="mark", line=line),
        SlitDrawn(what="slit", line=line, on="upper"),
        WordDrawn(what="text", at=a, text="L 37", angle_deg=30.0 * x, on="upper"),
    ):
        style = draw.add_detail(style, piece, detail)
    return style


def same_places(one, other):
    """Relief cuts are counted along the edge, which the image is walked the other way."""
    away = np.hypot(*(one[:, None, :] - other[None, :, :]).T)
    return max(away.min(axis=0).max(), away.min(axis=1).max()) < 2e-3


def laid(style, piece, size):
    """All points that are drawn on a piece in a size, from the corner of its box."""
    upper = upper_piece(style, piece, size, "left")
    points = [(n.x_mm, n.y_mm) for n in upper.notches] + [(d.x_mm, d.y_mm) for d in upper.drill_holes]
    points += [tuple(p) for m in upper.marks for p in np.asarray(m.points_mm).tolist()]
    points += [(w.x_mm, w.y_mm) for w in upper.letterings]
    return np.array(points) - upper.outline.bbox_mm[:2], upper


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(EDGES), st.floats(0.0, 1.0), st.floats(0, 1), st.floats(0, 1))
def test_the_twin_of_the_twin_is_the_piece_with_all_that_is_drawn_on_it(edge, share, x, y):
    style = with_details(COURT, PIECE, edge, share, x, y)
    style = set_taper(style, PIECE, edge, 3.0, 7.0)
    style = twins.mirror_piece(style, PIECE, "Twin", linked=False)
    style = twins.mirror_piece(style, "Twin", "Back", linked=False)
    for size in ("35", "37", "41"):
        (here, upper), (back, again) = laid(style, PIECE, size), laid(style, "Back", size)
        assert back == pytest.approx(here, abs=2e-3)
        assert [w.angle_deg for w in again.letterings] == pytest.approx(
            [w.angle_deg for w in upper.letterings], abs=1e-5
        )
    edges = {
        name: [(e.kind, e.setback_mm, e.setback_end_mm) for e in style.piece(name).edges]
        for name in (PIECE, "Back")
    }
    assert edges[PIECE] == edges["Back"]


@settings(max_examples=10, deadline=None)
@given(st.sampled_from(EDGES), st.floats(0.0, 1.0), st.floats(0, 1), st.floats(0, 1))
def test_on_the_twin_everything_lies_mirrored(edge, share, x, y):
    style = with_details(COURT, PIECE, edge, share, x, y)
    style = twins.mirror_piece(style, PIECE, "Twin", linked=False)
    here, upper = laid(style, PIECE, "37")
    there, image = laid(style, "Twin", "37")
    words = len(upper.letterings)
    wide = upper.outline.bbox_mm[2] - upper.outline.bbox_mm[0]
    mirrored = here * (-1, 1) + (wide, 0)
    assert same_places(there[:-words], mirrored[:-words])
    (word,) = image.letterings
    assert -90.0 <= word.angle_deg <= 90.0  # it can be read


def cut_split_and_changed(style, piece):
    box = drawn_piece(style.piece(piece), style.size_run.base).outline.bbox_mm
    x = box[0] + 0.55 * (box[2] - box[0])
    line = where.course([where.in_frame((x, box[1] - 5)), where.in_frame((x + 3, box[3] + 5))])
    style = draw.add_cut(style, piece, 0, line, where.in_frame((box[0] + 1, (box[1] + box[3]) / 2)))
    split = where.course([where.in_frame((x - 40, box[1] - 5)), where.in_frame((x - 44, box[3] + 5))])
    return draw.add_split(style, piece, 0, split, names=("toe", "heel"), overlap_mm=8.0)


def test_cuts_and_splits_of_a_layer_come_to_twin_and_copy():
    style = cut_split_and_changed(COURT, PIECE)
    style = twins.mirror_piece(style, PIECE, "Twin", linked=False)
    style = adding.duplicate(style, PIECE, "Copy")
    for size in ("35", "37", "41"):
        own, twin, copy = (piece_backings(style, name, size, "left")[0] for name in (PIECE, "Twin", "Copy"))
        areas = dict(zip(own.part_names, (o.area_mm2 for o in own.outlines), strict=True))
        for other in (twin, copy):
            found = dict(zip(other.part_names, (o.area_mm2 for o in other.outlines), strict=True))
            assert found == pytest.approx(areas, rel=1e-4)


def test_linked_twins_get_what_is_drawn_on_one_of_them():
    style = twins.mirror_piece(COURT, PIECE, "Twin", linked=True)
    after = twins.follow(style, cut_split_and_changed(style, PIECE))
    own, twin = (piece_backings(after, name, "37", "left")[0] for name in (PIECE, "Twin"))
    assert twin.area_mm2 == pytest.approx(own.area_mm2, rel=1e-5) and len(twin.outlines) == 2


# -- unfolded -------------------------------------------------------------------------------------
HALF = folding.fold(DERBY, "Counter")


def centre_of(style):
    upper = upper_piece(style, "Counter", "42", "left")
    edges = sorted(style.piece("Counter").edges, key=lambda e: e.start)
    k = next(k for k, e in enumerate(edges) if e.kind is EdgeKind.CENTRE)
    return upper.outline.ring_mm[[edges[k].start, edges[(k + 1) % len(edges)].start]]


def backing(style, number=0, size="42"):
    return piece_backings(style, "Counter", size, "left")[number]


def across(share, reach=1.3):
    """A line through the half, square to the centre line and past it."""
    a, b = centre_of(HALF)
    way = (b - a) / np.hypot(*(b - a))
    inward = np.array([-way[1], way[0]])
    foot = a + share * (b - a)
    ends = (foot - 3 * inward, foot + 200 * reach * inward)
    return where.course([where.in_frame(tuple(end)) for end in ends]), foot, way, inward


def test_a_cut_line_up_to_the_centre_goes_on_over_it():
    line, foot, way, inward = across(0.4)
    side = where.in_frame(tuple(foot + 5 * way + 5 * inward))
    half = draw.add_cut(HALF, "Counter", 0, line, side)
    whole = folding.unfold(half, "Counter")
    (cut,) = whole.piece("Counter").layers[0].cuts
    assert len(cut.line.places) == 3
    assert backing(whole).area_mm2 == pytest.approx(2 * backing(half).area_mm2, rel=2e-3)


def test_a_layer_beside_the_centre_becomes_one_a_side():
    _, foot, way, inward = across(0.5)
    corners = [foot + 8 * inward + s * way + t * inward for s, t in ((-4, 0), (4, 0), (4, 9), (-4, 9))]
    area = where.course([where.in_frame(tuple(c)) for c in corners], closed=True)
    half = draw.add_layer(HALF, "Counter", "")
    half = draw.add_region(half, "Counter", 1, area)
    whole = folding.unfold(half, "Counter")
    assert len(whole.piece("Counter").layers) == 3
    sides = [backing(whole, k).area_mm2 for k in (1, 2)]
    assert sides == pytest.approx([backing(half, 1).area_mm2] * 2, rel=1e-3)


def test_notches_and_holes_are_there_twice_and_on_the_fold_once():
    edge = next((e.ring, e.start) for e in HALF.piece("Counter").edges if e.kind is not EdgeKind.CENTRE)
    _, foot, _, inward = across(0.5)
    style = HALF
    for detail in (
        NotchDrawn(what="notch", at=where.at_edge(style, "Counter", edge, 0.5)),
        HoleDrawn(what="drill", at=where.in_frame(tuple(foot + 6 * inward))),
        HoleDrawn(what="drill", at=where.in_frame(tuple(foot))),
        WordDrawn(what="text", at=where.in_frame(tuple(foot + 9 * inward)), text="C"),
    ):
        style = draw.add_detail(style, "Counter", detail)
    before = len(upper_piece(HALF, "Counter", "42", "left").notches)
    whole = folding.unfold(style, "Counter")
    assert [d.what for d in whole.piece("Counter").details] == ["notch"] * 2 + ["drill"] * 3 + ["text"]
    upper = upper_piece(whole, "Counter", "42", "left")
    edge_line = upper.outline.polygon.boundary
    drawn = [shapely.Point(n.x_mm, n.y_mm) for n in upper.notches[-2:]]
    assert all(edge_line.distance(spot) < 1e-3 for spot in drawn) and before >= 0


def test_a_setback_that_changes_along_an_edge_changes_ends_on_the_other_half():
    edge = next((e.ring, e.start) for e in HALF.piece("Counter").edges if e.kind is not EdgeKind.CENTRE)
    half = set_taper(HALF, "Counter", edge, 2.0, 6.0)
    whole = folding.unfold(half, "Counter")
    tapers = [(e.setback_mm, e.setback_end_mm) for e in whole.piece("Counter").edges if e.setback_end_mm]
    assert sorted(tapers) == [(2.0, 6.0), (6.0, 2.0)]
    assert backing(whole).area_mm2 == pytest.approx(2 * backing(half).area_mm2, rel=2e-3)


def beside_centre(mm):
    """A line through the half along the centre line, so far inside it."""
    _, foot, way, inward = across(0.5)
    ends = (foot + s * way + mm * inward for s in (-60, 60))
    return where.course([where.in_frame(tuple(end)) for end in ends])


def parts_of(style):
    made = backing(style)
    return dict(zip(made.part_names, (o.area_mm2 for o in made.outlines), strict=True))


def from_centre(style, name):
    made = backing(style)
    part = made.outlines[made.part_names.index(name)].polygon
    return part.distance(shapely.LineString(centre_of(HALF)))


@pytest.mark.parametrize("overlap_mm", [0.0, 6.0])
def test_a_split_beside_the_centre_is_there_twice_and_what_lies_between_is_one_part(overlap_mm):
    half = draw.add_split(
        HALF, "Counter", 0, beside_centre(14.0), names=("side", "middle"), overlap_mm=overlap_mm
    )
    here, whole = parts_of(half), parts_of(folding.unfold(half, "Counter"))
    middle, side = sorted(here, key=lambda name: from_centre(half, name))
    assert set(whole) == {middle, side, f"{side} 2"}
    assert whole[middle] == pytest.approx(2 * here[middle], rel=2e-3)
    assert whole[side] == pytest.approx(here[side], rel=1e-3)
    assert whole[f"{side} 2"] == pytest.approx(here[side], rel=1e-3)


def test_a_split_of_a_side_part_is_mirrored_with_names_of_its_own():
    half = draw.add_split(HALF, "Counter", 0, beside_centre(14.0), names=("a", "b"))
    far = max(parts_of(half), key=lambda name: from_centre(half, name))
    half = draw.add_split(half, "Counter", 0, across(0.5)[0], names=("c", "d"), part=far)
    here, whole = parts_of(half), parts_of(folding.unfold(half, "Counter"))
    assert sorted(whole) == sorted([*here, "c 2", "d 2"])
    for name in ("c", "d"):
        assert [whole[name], whole[f"{name} 2"]] == pytest.approx([here[name]] * 2, rel=1e-3)


def test_a_split_of_the_middle_that_runs_up_to_the_centre_goes_on_over_it():
    half = draw.add_split(HALF, "Counter", 0, beside_centre(14.0), names=("a", "b"))
    near = min(parts_of(half), key=lambda name: from_centre(half, name))
    half = draw.add_split(half, "Counter", 0, across(0.5)[0], names=("c", "d"), part=near)
    here, whole = parts_of(half), parts_of(folding.unfold(half, "Counter"))
    assert len(whole) == 4
    for name in ("c", "d"):
        assert whole[name] == pytest.approx(2 * here[name], rel=2e-3)


@pytest.mark.parametrize("what", ["cut", "split"])
def test_a_straight_line_that_runs_on_to_the_centre_goes_on_over_it_too(what):
    _, foot, way, inward = across(0.4)
    line = where.course([where.in_frame(tuple(foot + t * inward)) for t in (4.0, 200.0)])
    side = where.in_frame(tuple(foot + 5 * way + 5 * inward))
    half = (
        draw.add_cut(HALF, "Counter", 0, line, side)
        if what == "cut"
        else draw.add_split(HALF, "Counter", 0, line, names=("a", "b"))
    )
    made = folding.unfold(half, "Counter")
    assert backing(made).part_names == backing(half).part_names
    areas = ([outline.area_mm2 for outline in backing(style).outlines] for style in (half, made))
    assert [2 * area for area in next(areas)] == pytest.approx(next(areas), rel=2e-3)


def test_a_curve_that_ends_short_of_the_centre_is_refused_as_it_would_be_guessed_on():
    _, foot, _, inward = across(0.4)
    spots = [tuple(foot + t * inward) for t in (4.0, 20.0, 200.0)]
    line = where.course([where.in_frame(spot) for spot in spots], smooth=True)
    half = draw.add_split(HALF, "Counter", 0, line)
    with pytest.raises(EditError, match="ends short of the centre line"):
        folding.unfold(half, "Counter")


def halves_on_one_line(shift=0.0):
    """Two halves that are sewn at y = 230 and folded over x = 500, the upper one moved by ``shift``."""
    counter = DERBY.piece("Counter")
    kinds = (EdgeKind.OVERLAY, EdgeKind.RAW, EdgeKind.UNDERLAY, EdgeKind.CENTRE)
    pieces = []
    for name, y, dx in (("Low", 190.0, 0.0), ("High", 230.0, shift)):
        x, far = 500.0 + dx, 560.0 - (y - 190.0) / 4
        outline = ((x, y), (far, y), (far - 10.0, y + 40.0), (x, y + 40.0))
        drawing = counter.drawings["42"].model_copy(update={"outline_mm": outline})
        edges = tuple(
            counter.edges[k].model_copy(
                update={
                    "start": k,
                    "kind": kind,
                    "setback_mm": 0.0 if kind is EdgeKind.CENTRE else 4.0,
                    "allowance_mm": 0.0,
                }
            )
            for k, kind in enumerate(kinds)
        )
        pieces.append(counter.model_copy(update={"name": name, "drawings": {"42": drawing}, "edges": edges}))
    style = DERBY.model_copy(update={"pieces": (*DERBY.pieces, *pieces)})
    return draw.join(style, "Low", ["High"])


@pytest.mark.parametrize("asked", ["Low", "High"])
def test_halves_backed_in_one_are_unfolded_and_folded_together(asked):
    half = halves_on_one_line()
    whole = folding.unfold(half, asked)
    for name in ("Low", "High"):
        assert all(edge.kind is not EdgeKind.CENTRE for edge in whole.piece(name).edges)
    for size in ("40", "42", "45"):
        (before,) = piece_backings(half, "Low", size, "left")
        (after,) = piece_backings(whole, "Low", size, "left")
        assert len(after.outlines) == 1 and after.joined == ("High",)
        assert after.area_mm2 == pytest.approx(2 * before.area_mm2, rel=2e-3)
    again = folding.fold(whole, asked)
    (folded,) = piece_backings(again, "Low", "42", "left")
    assert folded.area_mm2 == pytest.approx(piece_backings(half, "Low", "42", "left")[0].area_mm2, rel=2e-3)


def test_halves_backed_in_one_over_two_centre_lines_are_not_one_piece_unfolded():
    with pytest.raises(EditError, match="High, which has no centre edge on the same line"):
        folding.unfold(halves_on_one_line(shift=3.0), "Low")


def test_what_cannot_come_along_is_named():
    drawn = draw.add_detail(DERBY, "Counter", HoleDrawn(what="drill", at=where.in_frame((560.0, 230.0))))
    with pytest.raises(EditError, match="fold it first"):
        folding.fold(drawn, "Counter")
    joined = adding.with_piece(
        HALF, "Counter", HALF.piece("Counter").model_copy(update={"layers": (LayerData(joins=("Vamp",)),)})
    )
    with pytest.raises(EditError, match="Vamp, which has no centre edge on the same line"):
        folding.unfold(joined, "Counter")
