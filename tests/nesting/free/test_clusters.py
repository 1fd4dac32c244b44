"""Clusters: nothing lost, every gap kept, every piece turned only as it may be."""

from collections import Counter
from dataclasses import replace

import pytest

from geometry.outline import Outline
from nesting.free import first_layout
from nesting.free.clusters import FROM_PIECES, FULL, clustered
from nesting.free.ways import Ways
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.verify import verify, words
from tests.nesting.shoes import shoe

U = Outline.make([(0, 0), (150, 0), (150, 45), (60, 45), (60, 100), (150, 100), (150, 145), (0, 145)])
"""Half turned, an arm of one goes into the throat of another: the pair fills its hull better than one."""

SQUARE = Outline.make([(0, 0), (80, 0), (80, 80), (0, 80)])
TONGUE = Outline.make([(0, 0), (55, 0), (55, 40), (0, 40)])
CHEVRON = Outline.make([(0, 0), (100, 0), (160, 65), (100, 130), (0, 130), (60, 65)])
"""Two of these lying the same way nest."""


def problem_of(*items: Item, width_mm: float = 1000.0, gap_mm: float = 2.0, **more) -> LayProblem:
    return LayProblem(Roll(width_mm), items, gap_mm=gap_mm, **more)


def pieces(problem: LayProblem) -> Counter:
    return Counter({item.id: item.demand for item in problem.items if item.demand})


def taken_apart(problem: LayProblem, clusters) -> Lay:
    lay = first_layout.solve(clusters.problem)
    placements = clusters.apart(lay.placements)
    return Lay(placements, problem.length_of_mm(placements))


ORDER = problem_of(Item("u", U, 60), Item("tongue", TONGUE, 40), Item("square", SQUARE, 30))


def test_clusters_and_what_is_left_are_all_that_was_asked_for():
    for clusters in (clustered(ORDER).laid, clustered(ORDER).searched):
        counted = Counter()
        for item in clusters.problem.items:
            for at in clusters.members.get(item.id, ()):
                counted[at.item_id] += item.demand
            if item.id not in clusters.members and item.demand:
                counted[item.id] += item.demand
        assert counted == pieces(ORDER)


@pytest.mark.parametrize("gap_mm", [0.0, 2.0, 5.0])
@pytest.mark.parametrize("turns_deg", [(0.0, 180.0), (0.0,), (90.0, 270.0)])
def test_a_lay_of_clusters_taken_apart_breaks_no_rule(gap_mm, turns_deg):
    chevron = Item("chevron", CHEVRON, 40)
    items = (replace(item, turns_deg=turns_deg) for item in (*ORDER.items, chevron))
    problem = problem_of(*items, gap_mm=gap_mm, edge_margin_mm=4.0, end_margin_mm=10.0)
    found = clustered(problem)
    assert found is not None
    for clusters in (found.laid, found.searched):
        lay = taken_apart(problem, clusters)
        assert Counter(at.item_id for at in lay.placements) == pieces(problem)
        verdict = verify(problem, lay)
        assert verdict.ok, words(verdict)


def test_a_cluster_turns_no_piece_as_it_must_not_lie():
    """The U lies both ways, the tongue only as drawn (a nap, say): so does a cluster that holds one."""
    u, tongue, square = ORDER.items
    problem = problem_of(u, replace(tongue, turns_deg=(0.0,)), square)
    found = clustered(problem).laid
    for item in found.problem.items:
        members = found.members.get(item.id, ())
        if any(at.item_id == "tongue" for at in members):
            assert len(item.turns_deg) == 1
    assert {at.turn_deg for at in taken_apart(problem, found).placements if at.item_id == "tongue"} == {0.0}


def test_a_tolerance_is_what_every_member_grants():
    u, tongue, square = ORDER.items
    problem = problem_of(replace(u, turn_tolerance_deg=3.0), replace(tongue, turn_tolerance_deg=1.0), square)
    found = clustered(problem).laid
    for item in found.problem.items:
        for at in found.members.get(item.id, ()):
            assert item.turn_tolerance_deg <= problem.by_id[at.item_id].turn_tolerance_deg


def test_pieces_that_fit_nothing_are_left_alone():
    """Squares fill their hull as they are."""
    assert clustered(problem_of(Item("square", SQUARE, 200))) is None


def test_few_pieces_and_pieces_free_to_turn_are_left_alone():
    assert clustered(problem_of(Item("u", U, FROM_PIECES - 1))) is None
    assert clustered(problem_of(Item("u", U, 90, turns_deg=None))) is None


def test_pinned_pieces_stay_out_of_clusters():
    pins = tuple(Placement("u", 0.0, 160.0 * k, 0.0, pinned=True) for k in range(3))
    problem = replace(ORDER, pinned=pins)
    found = clustered(problem).laid
    assert found.problem.by_id["u"].demand >= len(pins)
    lay = taken_apart(problem, found)
    assert [at for at in lay.placements if at.pinned] == list(pins)
    verdict = verify(problem, lay)
    assert verdict.ok, words(verdict)


def test_no_cluster_is_wider_than_the_roll():
    narrow = problem_of(*ORDER.items, width_mm=150.0)
    found = clustered(narrow)
    for item in () if found is None else found.laid.problem.items:
        for turn in item.turns_deg:
            box = item.outline.turned(turn).bbox_mm
            assert box[3] - box[1] <= 150.0


def test_names_of_clusters_are_no_names_of_items():
    u, tongue, square = ORDER.items
    named = problem_of(replace(u, id="cluster 1"), tongue, square)
    found = clustered(named).laid
    assert not set(found.members) & {item.id for item in named.items}
    assert len(found.problem.by_id) == len(found.problem.items)


def test_a_cluster_fills_its_hull_better_than_its_piece_does():
    found = clustered(ORDER).laid
    for item in found.problem.items:
        if item.id in found.members:
            area = sum(ORDER.by_id[at.item_id].outline.area_mm2 for at in found.members[item.id])
            assert area / item.outline.polygon.convex_hull.area > FULL - 0.02


def test_the_first_layout_is_of_clusters_where_those_are_shorter():
    assert first_layout.worthwhile_clusters(ORDER) is not None
    together = first_layout.layouts(ORDER)[0]
    assert together.length_mm < min(ORDER.length_of_mm(placements) for placements in Ways(ORDER).coarse(1))
    verdict = verify(ORDER, together)
    assert verdict.ok, words(verdict)


def test_clusters_that_make_nothing_shorter_are_not_used(monkeypatch):
    monkeypatch.setattr(first_layout, "WORTH_CLUSTERING", 0.9)
    assert first_layout.worthwhile_clusters(replace(ORDER)) is None


def test_the_same_order_gives_the_same_clusters():
    shoes = problem_of(*shoe(20))
    for problem in (ORDER, shoes):
        one, other = clustered(problem), clustered(replace(problem))
        assert (one is None) == (other is None)
        assert one is None or one.laid.members == other.laid.members
