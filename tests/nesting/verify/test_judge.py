"""The judge of a lay finds what would be cut wrong, and nothing else."""

import copy
import json

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from geometry.outline import Outline
from nesting.errors import LayFileError
from nesting.files import lay_file
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll
from nesting.verify import verify, verify_document, words
from nesting.verify.fault import FaultKind
from nesting.verify.spacing import overlap_depth_mm

QUARTER = Outline.make([(0, 0), (120, 0), (150, 40), (90, 70), (20, 60)])
COLLAR = Outline.make(
    [(0, 0), (200, 0), (200, 200), (0, 200)], [[(50, 50), (150, 50), (150, 150), (50, 150)]]
)
DISC = Outline.make([(20 * np.cos(t), 20 * np.sin(t)) for t in np.linspace(0, 2 * np.pi, 24, endpoint=False)])


def style_items(demand=2):
    left = Item("q36L", QUARTER, demand, piece="quarter", size="36", hand="left")
    right = Item("q36R", QUARTER.mirrored(), demand, piece="quarter", size="36", hand="right")
    return left, right


def good_lay(gap_mm=2.0):
    """Four quarters in a column, bounding boxes exactly the gap apart."""
    problem = LayProblem(Roll(400.0), style_items(), gap_mm=gap_mm, edge_margin_mm=5.0, end_margin_mm=10.0)
    step = 70.0 + gap_mm
    placements = (
        Placement("q36L", 0.0, 10.0, 5.0),
        Placement("q36L", 0.0, 10.0, 5.0 + step),
        Placement("q36R", 0.0, 10.0, 5.0 + 3 * step - gap_mm),
        Placement("q36R", 0.0, 10.0, 5.0 + 4 * step - gap_mm),
    )
    return problem, Lay(placements, problem.length_of_mm(placements))


def kinds(verdict):
    return {fault.kind for fault in verdict.faults}


def document():
    problem, lay = good_lay()
    return json.loads(json.dumps(lay_file.to_document(problem, lay)))


def with_outline(doc, i, ring):
    changed = copy.deepcopy(doc)
    changed["placements"][i]["outline_mm"] = np.asarray(ring).tolist()
    return changed


def outline_of(doc, i):
    return Outline.make(doc["placements"][i]["outline_mm"])


def test_a_lay_at_exactly_the_gap_passes():
    problem, lay = good_lay()
    assert verify(problem, lay).ok
    assert verify_document(lay_file.to_document(problem, lay)).ok


def test_touching_pieces_without_a_gap_pass():
    problem, lay = good_lay(gap_mm=0.0)
    assert verify(problem, lay).ok


def moved(lay, i, dx, dy, problem):
    at = lay.placements[i]
    placements = list(lay.placements)
    placements[i] = Placement(at.item_id, at.turn_deg, at.x_mm + dx, at.y_mm + dy)
    return Lay(tuple(placements), problem.length_of_mm(placements))


def test_an_overlap_of_a_hundredth_of_a_millimetre_is_found():
    problem, lay = good_lay(gap_mm=0.0)
    verdict = verify(problem, moved(lay, 1, 0.0, -0.01, problem))
    assert kinds(verdict) == {FaultKind.OVERLAP}
    assert verdict.faults[0].amount_mm == pytest.approx(0.01, rel=0.05)
    assert set(verdict.faults[0].placements) == {0, 1}


def test_a_gap_short_by_a_hundredth_of_a_millimetre_is_found():
    problem, lay = good_lay()
    verdict = verify(problem, moved(lay, 1, 0.0, -0.01, problem))
    assert kinds(verdict) == {FaultKind.GAP}
    assert verdict.faults[0].amount_mm == pytest.approx(0.01, abs=1e-9)


def test_less_than_the_tolerance_is_rounding():
    problem, lay = good_lay()
    assert verify(problem, moved(lay, 1, 0.0, -0.0009, problem)).ok


@pytest.mark.parametrize("dx, dy", [(-0.01, 0.0), (0.0, -0.01)])
def test_a_piece_over_a_margin_is_found(dx, dy):
    problem, lay = good_lay()
    verdict = verify(problem, moved(lay, 0, dx, dy, problem))
    assert FaultKind.OUTSIDE in kinds(verdict)


def test_a_piece_over_the_far_edge_is_found():
    problem, lay = good_lay()
    assert FaultKind.OUTSIDE in kinds(verify(problem, moved(lay, 3, 0.0, 120.0, problem)))


def test_a_lay_longer_than_allowed_is_found():
    problem, lay = good_lay()
    short = LayProblem(Roll(400.0, length_mm=150.0), problem.items, 2.0, 5.0, 10.0)
    assert kinds(verify(short, lay)) == {FaultKind.OUTSIDE}


@pytest.mark.parametrize("error_mm, kind", [(-0.01, FaultKind.OUTSIDE), (0.01, FaultKind.LENGTH)])
def test_a_length_misstated_is_found(error_mm, kind):
    problem, lay = good_lay()
    assert kinds(verify(problem, Lay(lay.placements, lay.length_mm + error_mm))) == {kind}


def test_a_turn_off_by_a_tenth_of_a_degree_is_found():
    problem, lay = good_lay()
    placements = (*lay.placements[:3], Placement("q36R", 0.1, 10.3, lay.placements[3].y_mm))
    verdict = verify(problem, Lay(placements, problem.length_of_mm(placements)))
    assert FaultKind.AXIS in kinds(verdict)
    assert [f.amount_deg for f in verdict.faults if f.kind is FaultKind.AXIS] == [pytest.approx(0.1)]


def test_a_granted_tolerance_is_granted_and_no_more():
    left, right = style_items(1)
    items = tuple(
        Item(i.id, i.outline, 1, turn_tolerance_deg=2.0, piece=i.piece, size=i.size, hand=i.hand)
        for i in (left, right)
    )
    problem = LayProblem(Roll(400.0), items)
    for turn, ok in ((2.0, True), (181.9, True), (2.1, False), (90.0, False)):
        placements = (Placement("q36L", turn, 200.0, 100.0), Placement("q36R", 0.0, 200.0, 390.0))
        left_edge = min(at.place(problem.item(at.item_id).outline).bbox_mm[0] for at in placements)
        assert left_edge > 0
        assert verify(problem, Lay(placements, problem.length_of_mm(placements))).ok is ok


def test_a_style_piece_laid_across_the_tight_direction_is_found_even_if_its_turn_was_allowed():
    item = Item("q", QUARTER, 1, turns_deg=(0.0, 90.0), piece="quarter")
    problem = LayProblem(Roll(400.0), (item,))
    placements = (Placement("q", 90.0, 100.0, 10.0),)
    assert kinds(verify(problem, Lay(placements, problem.length_of_mm(placements)))) == {FaultKind.AXIS}


def test_a_missing_and_a_surplus_piece_are_found():
    problem, lay = good_lay()
    fewer = lay.placements[:3]
    assert kinds(verify(problem, Lay(fewer, problem.length_of_mm(fewer)))) == {FaultKind.MISSING}
    swapped = (*fewer, Placement("q36L", 0.0, 200.0, 200.0))
    assert kinds(verify(problem, Lay(swapped, problem.length_of_mm(swapped)))) == {
        FaultKind.MISSING,
        FaultKind.SURPLUS,
    }


def test_a_piece_of_another_problem_is_surplus():
    problem, lay = good_lay()
    strange = (*lay.placements, Placement("toecap", 0.0, 0.0, 0.0))
    verdict = verify(problem, Lay(strange, lay.length_mm))
    assert kinds(verdict) == {FaultKind.SURPLUS}
    assert all(fault.placements == (4,) for fault in verdict.faults)


def test_a_right_piece_that_copies_the_left_is_found():
    left, _ = style_items(1)
    wrong = Item("q36R", QUARTER, 1, piece="quarter", size="36", hand="right")
    placements = (Placement("q36L", 0.0, 0.0, 0.0), Placement("q36R", 0.0, 0.0, 100.0))
    problem = LayProblem(Roll(400.0), (left, wrong))
    assert FaultKind.HAND in kinds(verify(problem, Lay(placements, problem.length_of_mm(placements))))


def test_a_piece_on_a_flaw_is_found():
    problem, lay = good_lay()
    ring = np.array([(60.0, 30.0), (63.0, 30.0), (63.0, 33.0), (60.0, 33.0)])
    flawed = LayProblem(Roll(400.0, flaws=(Flaw(ring),)), problem.items, 2.0, 5.0, 10.0)
    verdict = verify(flawed, lay)
    assert kinds(verdict) == {FaultKind.FLAW}
    assert verdict.faults[0].placements == (0,)
    assert verdict.faults[0].amount_mm == pytest.approx(28.0)  # from the flaw's top to the piece's edge


def test_a_piece_moved_from_where_it_was_pinned_is_found():
    problem, lay = good_lay()
    pinned = LayProblem(
        problem.roll, problem.items, 2.0, 5.0, 10.0, pinned=(Placement("q36L", 0.0, 10.0, 5.0),)
    )
    assert verify(pinned, lay).ok
    pinned = LayProblem(
        problem.roll, problem.items, 2.0, 5.0, 10.0, pinned=(Placement("q36L", 0.0, 11.0, 5.0),)
    )
    assert kinds(verify(pinned, lay)) == {FaultKind.PINNED}


def test_a_piece_may_lie_in_a_hole_only_where_that_is_allowed():
    items = (Item("collar", COLLAR, 1), Item("disc", DISC, 1))
    placements = (Placement("collar", 0.0, 0.0, 0.0), Placement("disc", 0.0, 100.0, 100.0))
    for use_holes in (True, False):
        problem = LayProblem(Roll(400.0), items, gap_mm=2.0, use_holes=use_holes)
        assert verify(problem, Lay(placements, 200.0)).ok is use_holes
    nearer = (placements[0], Placement("disc", 0.0, 129.0, 100.0))
    verdict = verify(LayProblem(Roll(400.0), items, gap_mm=2.0), Lay(nearer, 200.0))
    assert kinds(verdict) == {FaultKind.GAP}
    assert verdict.faults[0].amount_mm == pytest.approx(1.0, abs=1e-9)


@settings(deadline=None, max_examples=60)
@given(st.floats(0, 360), st.floats(-0.5, 60.0))
def test_overlap_depth_of_two_half_planes_of_pieces_is_the_distance_pushed(angle, depth):
    a = Outline.make([(-100, -100), (0, -100), (0, 100), (-100, 100)])
    b = Outline.make([(0, -50), (100, -50), (100, 50), (0, 50)]).moved(-depth, 0.0)
    measured = overlap_depth_mm(a.turned(angle).polygon, b.turned(angle).polygon)
    assert measured == pytest.approx(max(depth, 0.0), rel=0.02, abs=1e-3)


# ------------------------------------------------------------------ a file on its own


def test_a_document_passes_as_written():
    assert verify_document(document()).ok


def test_a_document_with_a_mirrored_piece_is_found():
    doc = document()
    ring = outline_of(doc, 0)
    low, high = ring.bbox_mm[1], ring.bbox_mm[3]
    mirrored = ring.mirrored().moved(0.0, low + high)
    assert kinds(verify_document(with_outline(doc, 0, mirrored.ring_mm))) == {FaultKind.HAND}


def test_a_document_with_a_hand_renamed_is_found():
    doc = document()
    doc["placements"][0]["hand"] = "right"
    assert FaultKind.HAND in kinds(verify_document(doc))


def test_a_document_with_a_piece_turned_a_tenth_of_a_degree_is_found():
    doc = document()
    ring = outline_of(doc, 3)
    turned = ring.turned(0.1, about_mm=(80.0, 280.0)).moved(0.5, 0.2)
    assert FaultKind.AXIS in kinds(verify_document(with_outline(doc, 3, turned.ring_mm)))


def test_a_document_with_one_vertex_moved_is_found():
    doc = document()
    ring = np.array(doc["placements"][1]["outline_mm"])
    ring[2] += (-0.05, -0.05)
    assert FaultKind.SHAPE in kinds(verify_document(with_outline(doc, 1, ring)))


def test_a_document_may_start_its_rings_elsewhere():
    doc = document()
    ring = np.array(doc["placements"][1]["outline_mm"])
    assert verify_document(with_outline(doc, 1, np.roll(ring, 2, axis=0)[::-1])).ok


def test_a_document_without_a_piece_is_found():
    doc = document()
    del doc["placements"][2]
    assert kinds(verify_document(doc)) >= {FaultKind.MISSING, FaultKind.LENGTH}


@pytest.mark.parametrize("key, factor", [("yield", 1.0001), ("net_area_mm2", 1.0001), ("length_mm", 1.0001)])
def test_a_document_that_misstates_a_figure_is_found(key, factor):
    doc = document()
    doc[key] *= factor
    assert FaultKind.LENGTH in kinds(verify_document(doc))


def test_a_document_without_items_is_held_against_itself():
    doc = document()
    del doc["items"]
    assert verify_document(doc).ok
    ring = outline_of(doc, 1)
    wrong = with_outline(doc, 1, ring.mirrored().moved(0.0, ring.bbox_mm[1] + ring.bbox_mm[3]).ring_mm)
    assert FaultKind.HAND in kinds(verify_document(wrong))
    doc["placements"][1]["pull_axis_deg"] = 0.1
    assert FaultKind.AXIS in kinds(verify_document(doc))


@pytest.mark.parametrize(
    "change",
    [
        lambda doc: doc.pop("format"),
        lambda doc: doc.update(version=99),
        lambda doc: doc.update(placements="none"),
        lambda doc: doc["placements"][0].update(outline_mm=[[0, 0], [1, 1]]),
        lambda doc: doc["placements"][0].update(outline_mm=[[0, 0], [1, float("nan")], [2, 2]]),
        lambda doc: doc["placements"][0].update(outline_mm=[[0, 0], [1, 1], [2, 2]]),
        lambda doc: doc["roll"].update(usable_width_mm=-1),
    ],
)
def test_what_is_no_lay_is_refused_in_words(change):
    doc = document()
    change(doc)
    with pytest.raises(LayFileError) as error:
        verify_document(doc)
    assert "\n" not in str(error.value)


def test_a_verdict_says_in_words_what_was_checked_or_found():
    problem, lay = good_lay()
    assert words(verify(problem, lay)).startswith("verified: gap 2 mm")
    assert "q36L" in words(verify(problem, moved(lay, 1, 0.0, -1.0, problem)))


def test_area_is_net_of_holes():
    assert COLLAR.area_mm2 == pytest.approx(Polygon(COLLAR.ring_mm, COLLAR.holes_mm).area)
