"""From pairs to the pieces that must lie on the roll."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.errors import UsageError
from app.lay.job import LayJob, document_of, other_cloths, problem_of
from app.style.model import ClothData, FlawData, KeepData, LayerData, Style
from geometry.pull import undirected_deg
from nesting.engine import solve as engine
from nesting.stop import Deadline
from nesting.verify import verify, verify_document


def _with_piece(style: Style, name: str, **fields: object) -> Style:
    pieces = tuple(p.model_copy(update=fields) if p.name == name else p for p in style.pieces)
    return style.model_copy(update={"pieces": pieces})


def _with_cloth(style: Style, **fields: object) -> Style:
    return style.model_copy(update={"cloths": (style.cloths[0].model_copy(update=fields), *style.cloths[1:])})


def test_a_pair_is_a_left_and_a_mirrored_right_of_every_piece(plain_style: Style) -> None:
    style = _with_piece(plain_style, "strap", per_shoe=2)
    problem = problem_of(LayJob(style, {"36": 3, "37": 1}))
    demand = {(item.piece, item.size, item.hand): item.demand for item in problem.items}
    assert demand == {
        ("strap", "36", "left"): 6,
        ("strap", "36", "right"): 6,
        ("strap", "37", "left"): 2,
        ("strap", "37", "right"): 2,
        ("tongue", "36", "left"): 3,
        ("tongue", "36", "right"): 3,
        ("tongue", "37", "left"): 1,
        ("tongue", "37", "right"): 1,
    }
    left, right = problem.by_id["tongue 37 left"], problem.by_id["tongue 37 right"]
    assert right.outline.area_mm2 == pytest.approx(left.outline.area_mm2)
    assert right.outline == left.outline.mirrored()


@pytest.mark.parametrize("tight_deg", [0.0, 90.0, 12.5])
def test_every_turn_brings_the_pull_axis_onto_the_tight_direction(
    plain_style: Style, tight_deg: float
) -> None:
    problem = problem_of(LayJob(_with_cloth(plain_style, tight_direction_deg=tight_deg), {"37": 1}))
    for item in problem.items:
        assert item.turns_deg is not None and len(item.turns_deg) == 2
        for turn in item.turns_deg:
            assert undirected_deg(item.pull_axis_deg + turn - tight_deg) == pytest.approx(0.0, abs=1e-9)


def test_a_one_way_cloth_allows_one_turn(plain_style: Style) -> None:
    problem = problem_of(LayJob(_with_cloth(plain_style, one_way=True), {"37": 1}))
    assert all(len(item.turns_deg or ()) == 1 for item in problem.items)


def test_face_to_face_the_lay_holds_one_hand_and_plies_are_even(plain_style: Style) -> None:
    job = LayJob(plain_style, {"37": 2}, mode="face-to-face", plies=6)
    assert {item.hand for item in problem_of(job).items} == {"left"}
    assert job.pairs_cut == {"37": 6}
    with pytest.raises(UsageError, match="even number"):
        problem_of(replace(job, plies=5))
    slanted = _with_cloth(plain_style, tight_direction_deg=10.0)
    with pytest.raises(UsageError, match="turned over"):
        problem_of(LayJob(slanted, {"37": 2}, mode="face-to-face", plies=6))


def test_face_up_every_ply_gives_whole_pairs(plain_style: Style) -> None:
    assert LayJob(plain_style, {"37": 2}, plies=5).pairs_cut == {"37": 10}


def test_a_layer_of_another_cloth_lies_in_another_lay(plain_style: Style) -> None:
    region = KeepData(points_mm=((10.0, 10.0), (90.0, 10.0), (90.0, 50.0), (10.0, 50.0)), closed=True)
    felt = ClothData(id="plain-90", name="Plain 90", width_mm=1000.0, usable_width_mm=980.0)
    style = plain_style.model_copy(update={"cloths": (*plain_style.cloths, felt)})
    style = _with_piece(style, "strap", layers=(LayerData(), LayerData(cloth="plain-90", keep=region)))
    first = LayJob(style, {"37": 1})
    assert {item.piece for item in problem_of(first).items} == {"strap", "tongue"}
    assert other_cloths(first) == ("Plain 90",)
    second = problem_of(LayJob(style, {"37": 1}, "plain-90"))
    assert {item.piece for item in second.items} == {"strap, layer 2"}
    assert second.roll.usable_width_mm == 980.0


def test_a_piece_without_backing_is_not_laid(plain_style: Style) -> None:
    style = _with_piece(plain_style, "tongue", layers=())
    assert {item.piece for item in problem_of(LayJob(style, {"37": 1})).items} == {"strap"}
    with pytest.raises(UsageError, match="nothing of Plain"):
        problem_of(LayJob(_with_piece(style, "strap", layers=()), {"37": 1}))


def test_an_order_is_not_laid_without_a_backing_that_vanished(plain_style: Style) -> None:
    edges = tuple(e.model_copy(update={"setback_mm": 40.0}) for e in plain_style.piece("strap").edges)
    with pytest.raises(UsageError, match="strap in size 37 vanishes"):
        problem_of(LayJob(_with_piece(plain_style, "strap", edges=edges), {"37": 1}))


def test_a_lay_verifies_in_memory_and_as_written(plain_style: Style) -> None:
    flaw = FlawData(ring_mm=((50.0, 0.0), (90.0, 0.0), (90.0, 300.0), (50.0, 300.0)))
    job = LayJob(_with_cloth(plain_style, flaws=(flaw,)), {"36": 1, "37": 2}, width_mm=400.0, gap_mm=3.0)
    problem = problem_of(job)
    assert len(problem.roll.flaws) == 1
    lay = engine.solve(problem, stop=Deadline(1.0), workers=1)
    assert verify(problem, lay).ok
    document = document_of(job, problem, lay)
    assert verify_document(document).ok
    assert len(document["placements"]) == 12
    assert document["mode"] == "face-up" and document["pairs_cut"] == {"36": 1, "37": 2}
    assert all(abs(at["pull_axis_deg"]) < 1e-9 for at in document["placements"])


def test_one_lay_of_more_than_can_be_spread_is_refused_with_the_way_out(plain_style: Style) -> None:
    with pytest.raises(UsageError, match="more than can be spread") as caught:
        problem_of(LayJob(plain_style, {"37": 100_000}))
    assert "plan" in caught.value.remedy
