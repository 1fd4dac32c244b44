"""Lays of a plan worked on by hand: opened, changed, refused when they lack something, locked, kept."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from app.__main__ import main
from app.errors import UnverifiedError, UsageError
from app.plan.job import LayStore, PlanJob, plan_cloth
from app.plan.kept_lays import KeptLay, with_locked
from app.plan.locked_lays import given_back, let_go, locked_kept, locked_lay, opened
from app.style.file import load_style, save_style
from app.style.whole.adding import stale_lays
from nesting.files import lay_file
from nesting.free import first_layout
from nesting.lay import Lay
from nesting.planning.run_plan import CuttingTable, Rates, RunLay
from nesting.stop import Never
from nesting.verify import verify

COURT = Path(__file__).parents[3] / "sample_styles" / "court" / "court.style.json"
ORDER = {"36": 2, "37": 4}
ROOM_MM = 660.0


def quick(problem, seconds, label):
    return first_layout.solve(problem)


@pytest.fixture(scope="module")
def court():
    return load_style(COURT)


@pytest.fixture(scope="module")
def plan(court, tmp_path_factory):
    job = PlanJob((court,), (ORDER,), CuttingTable(700.0, 2, 20.0), Rates(0))
    store = LayStore(tmp_path_factory.mktemp("work"))
    return plan_cloth(
        job, court.cloths[0].id, quick, store, seconds=1.0, stop=Never(), tell=lambda text: None
    )


@pytest.fixture
def held(court, plan):
    """The style with the plan's first lay opened, and that lay."""
    lay = plan.plan.lays[0]
    entry = {
        "name": plan.names[0],
        "cloth": plan.cloth.id,
        "sets": lay.sets,
        "plies": lay.plies,
        "mode": "face-up",
    }
    style, index = opened(court, entry, lay.nested, plan.table.room_mm, "run A")
    again, same = opened(style, entry, lay.nested, plan.table.room_mm, "run A")
    assert again is style and same == index, "opened twice, it is the same lay"
    return style, style.lays[index]


def test_a_lay_given_back_as_it_was_is_kept_as_it_lies(held, plan):
    style, lay = held
    locked = given_back(style, lay)
    (kept,) = locked_kept(locked, ORDER)[plan.cloth.id]
    assert kept.locked and kept.name == plan.names[0]
    assert kept.lay.length_mm == pytest.approx(plan.plan.lays[0].length_mm)
    assert [at[:4] for at in lay.placements] == [
        (at.item_id, at.turn_deg, at.x_mm, at.y_mm) for at in kept.lay.nested.placements
    ]


def test_a_lay_without_one_piece_is_refused_and_the_piece_is_named(held):
    style, lay = held
    item = lay.placements[0][0]
    with pytest.raises(UsageError, match=f"needs: 1 × {item} missing"):
        given_back(style, lay.model_copy(update={"placements": lay.placements[1:]}))


def test_a_lay_of_fewer_pairs_than_the_plan_needs_is_refused(held):
    style, lay = held
    size = next(iter(lay.pairs))
    fewer = {other: count for other, count in lay.pairs.items() if other != size}
    laid = tuple(at for at in lay.placements if f" {size} " not in at[0])
    with pytest.raises(UsageError, match=rf"{size} (left|right).* missing"):
        given_back(style, lay.model_copy(update={"pairs": fewer, "placements": laid}))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"mode": "face-to-face"}, "spreads"),
        ({"cloth": "another"}, "is on another"),
        ({"stale": "older"}, "older than its pieces"),
        ({"planned": None}, "does not belong to a run plan"),
    ],
)
def test_a_lay_of_another_kind_than_the_plans_is_refused(held, change, says):
    style, lay = held
    with pytest.raises(UsageError, match=says):
        given_back(style, lay.model_copy(update=change))


def test_a_lay_that_grew_beyond_the_table_or_overlaps_is_refused(held):
    style, lay = held
    item, turn, x, y, pinned = lay.placements[0]
    far = ((item, turn, x + 10 * lay.planned.room_mm, y, pinned), *lay.placements[1:])
    with pytest.raises(UsageError, match="the table of the plan has room for"):
        given_back(style, lay.model_copy(update={"placements": far}))
    _, _, x2, y2, _ = lay.placements[1]
    onto = ((item, turn, x2, y2, pinned), *lay.placements[1:])
    with pytest.raises(UsageError, match="faults"):
        given_back(style, lay.model_copy(update={"placements": onto}))


def test_a_lay_given_back_twice_is_locked_once_and_let_go_it_is_free(held, plan):
    style, lay = held
    twice = given_back(given_back(style, lay), lay, "for the trial")
    assert len(twice.locked_lays) == 1 and twice.locked_lays[0].planned.reason == "for the trial"
    free = let_go(twice, plan.cloth.id, plan.names[0])
    assert locked_lay(free, plan.cloth.id, plan.names[0]) is None


def test_a_locked_lay_of_a_size_no_longer_ordered_or_of_changed_pieces_stops_the_plan(held):
    style, lay = held
    locked = given_back(style, lay)
    with pytest.raises(UsageError, match="not ordered"):
        locked_kept(locked, {"41": 2})
    with pytest.raises(UnverifiedError, match="cannot be kept"):
        locked_kept(stale_lays(locked), ORDER)


def test_a_locked_lay_takes_the_place_and_the_plies_of_the_kept_one_of_its_name():
    def kept(name, length_mm, plies, locked=False):
        return KeptLay(name, RunLay({"36": 1}, plies, length_mm, Lay((), length_mm)), locked)

    both = with_locked({"twill": (kept("A", 1, 3), kept("B", 2, 4))}, {"twill": (kept("A", 9, 6, True),)})
    assert [(each.name, each.lay.length_mm, each.lay.plies) for each in both["twill"]] == [
        ("A", 9, 3),
        ("B", 2, 4),
    ]


def test_a_lay_that_stays_keeps_its_name_and_the_rest_takes_other_letters(court, plan, tmp_path):
    lay = plan.plan.lays[-1]
    kept = KeptLay("B", replace(lay, plies=1), locked=True)
    job = PlanJob(
        (court,), ({"36": 4, "37": 4},), CuttingTable(700.0, 2, 20.0), Rates(0), kept={plan.cloth.id: (kept,)}
    )
    again = plan_cloth(
        job,
        plan.cloth.id,
        quick,
        LayStore(tmp_path),
        seconds=1.0,
        stop=Never(),
        tell=lambda text: None,
    )
    assert "B" in again.names and "A" in again.names
    stayed = dict(zip(again.names, again.plan.lays, strict=True))["B"]
    assert stayed.nested is lay.nested


def test_the_command_keeps_a_locked_lay_and_writes_it_as_it_lies(held, plan, tmp_path, capsys):
    style, lay = held
    path = tmp_path / "court.style.json"
    save_style(given_back(style, lay), path)
    words = ["plan", path, "--table", "700", "--plies", "2", "--seconds", "2"]
    words += ["--pairs", ",".join(f"{size}:{n * lay.planned.plies}" for size, n in lay.pairs.items())]
    words += ["--no-history", "--locked", "--json", "-o", tmp_path / "run"]
    assert main([str(word) for word in words]) == 0
    told = json.loads(capsys.readouterr().out)
    (entry,) = (each for each in told["lays"] if each["locked"])
    assert entry["name"] == lay.planned.name and entry["kept"]
    problem, written = lay_file.read_lay(tmp_path / "run" / entry["lay_file"])
    assert verify(problem, written).ok
    assert {(at.item_id, at.x_mm, at.y_mm) for at in written.placements} == {
        (at[0], at[2], at[3]) for at in lay.placements
    }
