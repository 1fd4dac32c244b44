"""lay.json holds what anyone needs to check the lay, and is never half written."""

import json
import math

import numpy as np
import pytest

from geometry.outline import Outline
from nesting.errors import LayFileError
from nesting.files import instance as instance_file
from nesting.files import lay_file
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll
from nesting.verify import verify

STRAP = Outline.make([(0, 0), (90, 0), (90, 12), (0, 12)])
RING = Outline.make([(0, 0), (60, 0), (60, 60), (0, 60)], [[(20, 20), (40, 20), (40, 40), (20, 40)]])


@pytest.fixture
def lay():
    flaw = Flaw(np.array([(500.0, 0.0), (510.0, 0.0), (510.0, 9.0)]), "oil")
    problem = LayProblem(
        Roll(300.0, tight_direction_deg=90.0, width_mm=320.0, length_mm=1000.0, flaws=(flaw,)),
        (
            Item("s", STRAP, 1, turns_deg=(90.0, 270.0), piece="strap", size="38", hand="left"),
            Item("r", RING, 1, turns_deg=(90.0, 270.0), piece="ring", size="38", turn_tolerance_deg=1.0),
        ),
        gap_mm=2.0,
        edge_margin_mm=3.0,
        end_margin_mm=4.0,
        pinned=(Placement("s", 90.0, 20.0, 100.0),),
        name="two pieces",
    )
    placements = (Placement("s", 90.0, 20.0, 100.0, pinned=True), Placement("r", 270.0, 30.0, 100.0))
    return problem, Lay(placements, problem.length_of_mm(placements), engine="by hand", seed=3, budget="none")


def test_a_lay_file_gives_back_the_problem_and_the_lay(lay, tmp_path):
    problem, made = lay
    lay_file.write(tmp_path / "lay.json", lay_file.to_document(problem, made, plies=4))
    back, again = lay_file.read_lay(tmp_path / "lay.json")
    assert [(i.id, i.outline, i.demand, i.turns_deg, i.piece, i.size, i.hand) for i in back.items] == [
        (i.id, i.outline, i.demand, i.turns_deg, i.piece, i.size, i.hand) for i in problem.items
    ]
    assert again == made
    assert back.pinned == (Placement("s", 90.0, 20.0, 100.0, pinned=True),)
    assert (back.gap_mm, back.edge_margin_mm, back.end_margin_mm) == (2.0, 3.0, 4.0)
    assert np.array_equal(back.roll.flaws[0].ring_mm, problem.roll.flaws[0].ring_mm)
    assert verify(back, again).ok


def test_a_lay_file_states_true_outlines_axis_length_and_yield(lay):
    problem, made = lay
    doc = lay_file.to_document(problem, made, plies=4, extra={"cloth": "canvas 210"})
    assert (doc["format"], doc["version"], doc["plies"], doc["cloth"]) == ("stayply-lay", 1, 4, "canvas 210")
    strap, ring = doc["placements"]
    assert strap["pull_axis_deg"] == 90.0
    assert strap["outline_mm"][1] == [20.0, 190.0]
    assert ring["pull_axis_deg"] == 90.0 and len(ring["holes_mm"]) == 1
    assert doc["length_mm"] == pytest.approx(94.0)
    assert doc["net_area_mm2"] == pytest.approx(90 * 12 + 60 * 60 - 20 * 20)
    assert doc["yield"] == pytest.approx(doc["net_area_mm2"] / (300.0 * 94.0))
    assert doc["verification"]["ok"]


def test_extra_keys_never_replace_the_formats_own(lay):
    with pytest.raises(ValueError):
        lay_file.to_document(*lay, extra={"length_mm": 1})


def test_every_number_is_written_as_it_is(lay, tmp_path):
    doc = lay_file.to_document(*lay, extra={"shares": [0.1, 1 / 3, 1e-9, 1.5e300, -0.0, 2**60]})
    lay_file.write(tmp_path / "lay.json", doc)
    assert json.loads((tmp_path / "lay.json").read_text(encoding="utf-8")) == doc


@pytest.mark.parametrize("none", [math.nan, math.inf, -math.inf])
def test_a_number_that_is_none_is_never_written(none, lay, tmp_path):
    with pytest.raises(ValueError):
        lay_file.write(tmp_path / "lay.json", lay_file.to_document(*lay, extra={"share": none}))
    assert list(tmp_path.iterdir()) == []


def test_a_name_may_look_like_such_a_number(lay, tmp_path):
    doc = lay_file.to_document(*lay, extra={"cloth": "NaNking Infinity, née à Łódź"})
    lay_file.write(tmp_path / "lay.json", doc)
    assert lay_file.read(tmp_path / "lay.json") == doc


def test_a_file_that_cannot_be_written_leaves_nothing_behind(lay, tmp_path):
    (tmp_path / "lay.json").mkdir()
    with pytest.raises(LayFileError):
        lay_file.write(tmp_path / "lay.json", lay_file.to_document(*lay))
    assert [path.name for path in tmp_path.iterdir()] == ["lay.json"]
    with pytest.raises(LayFileError):
        lay_file.write(tmp_path / "no folder" / "lay.json", {})


@pytest.mark.parametrize("text", ["", "{", "[1, 2]", '{"format": "other"}', "\x00", "[" * 100_000])
def test_what_is_no_lay_file_is_refused_in_one_line(text, tmp_path):
    path = tmp_path / "lay.json"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(LayFileError) as error:
        lay_file.read(path)
    assert "lay.json" in str(error.value) and "\n" not in str(error.value)


def instance(**change):
    item = {"id": 7, "demand": 2, "allowed_orientations": [0, 180], "shape": {"type": "simple_polygon"}}
    item["shape"]["data"] = [[0, 0], [10, 0], [10, 5], [0, 5], [0, 0]]
    return {"name": "n", "strip_height": 100, "items": [{**item, **change}]}


def test_an_open_instance_is_read_as_it_stands(tmp_path):
    path = tmp_path / "i.json"
    path.write_text(json.dumps(instance()))
    problem, names = instance_file.read(path, 2.0)
    (item,) = problem.items
    assert (item.id, item.demand, item.turns_deg) == ("7", 2, (0.0, 180.0))
    assert names == {"7": 7}
    assert (problem.gap_mm, problem.roll.usable_width_mm) == (2.0, 100.0)
    assert len(item.outline.ring_mm) == 4
    free = instance()
    del free["items"][0]["allowed_orientations"]
    path.write_text(json.dumps(free))
    assert instance_file.read(path)[0].items[0].turns_deg is None


@pytest.mark.parametrize(
    "change",
    [
        {"demand": -1},
        {"demand": 1.5},
        {"demand": 0},
        {"demand": "two"},
        {"allowed_orientations": []},
        {"allowed_orientations": ["up"]},
        {"shape": None},
        {"shape": {"type": "circle"}},
        {"shape": {"type": "simple_polygon", "data": [[0, 0], [1, 1]]}},
        {"shape": {"type": "simple_polygon", "data": [[0, 0], [1, "x"], [2, 2]]}},
        {"shape": {"type": "simple_polygon", "data": [[0, 0], [10, 10], [10, 0], [0, 10]]}},
        {"shape": {"type": "simple_polygon", "data": "ring"}},
    ],
)
def test_a_damaged_instance_is_refused_in_one_line_that_names_it(change, tmp_path):
    path = tmp_path / "bad.json"
    path.write_text(json.dumps(instance(**change)))
    with pytest.raises(LayFileError) as error:
        instance_file.read(path)
    assert "bad.json" in str(error.value) and "\n" not in str(error.value)


def test_two_items_of_one_id_are_refused(tmp_path):
    doc = instance()
    doc["items"] *= 2
    path = tmp_path / "twice.json"
    path.write_text(json.dumps(doc))
    with pytest.raises(LayFileError, match="two items"):
        instance_file.read(path)
