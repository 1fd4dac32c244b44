"""Small pieces in what large ones leave open: every one that has room, and no time for what has none."""

import numpy as np
import pytest

from nesting.dies.die import dies_of
from nesting.dies.family import families_of
from nesting.rows import filling
from nesting.rows.columns import Columns
from nesting.stop import Never
from tests.nesting.runs import order


def two_crescents(apart_mm: float) -> Columns:
    """Columns with two large crescents laid so far apart, and everything else still to lay."""
    problem = order()
    dies = dies_of(problem)
    columns = Columns(dies, families_of(dies), problem.gap_mm, (3.0, 497.0), Never())
    large = max(range(len(dies)), key=lambda d: dies[d].area_mm2)
    pose = columns.pose_of[large, 0]
    y = 250.0 - columns.contacts.low[pose, 1]
    x = -columns.contacts.low[pose, 0]
    columns.strip.add(np.array([pose, pose]), np.array([[x, y], [x + apart_mm, y]]))
    columns.left[large] -= 2
    return columns


def wedges(columns: Columns) -> list[int]:
    least = min(die.area_mm2 for die in columns.dies)
    return [d for d, die in enumerate(columns.dies) if die.area_mm2 < 1.5 * least]


def test_what_has_room_is_set_in_and_keeps_the_gap() -> None:
    columns = two_crescents(400.0)
    before = len(columns.strip.pose)
    laid = filling.fill(columns, wedges(columns))
    assert laid == len(columns.strip.pose) - before > 0
    at, pose = columns.strip.at_mm, columns.strip.pose
    for k in range(before, len(pose)):
        for other in range(k):
            offset = at[k] - at[other]
            assert columns.contacts.overlap_mm(int(pose[other]), int(pose[k]), offset) == 0.0


def test_where_the_smallest_size_has_no_room_no_other_is_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    columns = two_crescents(0.0)
    columns.across = (200.0, 300.0)  # nothing lies between such edges but what is there
    small = wedges(columns)
    tried: list[int] = []
    monkeypatch.setattr(filling, "_fill_pose", lambda stretch, d, *rest, **how: tried.append(d))
    assert len({columns.place_of[d][0] for d in small}) < len(small)  # sizes of one family
    assert filling.fill(columns, small) == 0
    assert not tried


def test_one_size_by_itself_is_tried_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    columns = two_crescents(400.0)
    one = wedges(columns)[0]
    tried: list[int] = []
    monkeypatch.setattr(filling, "_fill_pose", lambda stretch, d, *rest, **how: tried.append(d))
    filling.fill(columns, [one])
    assert set(tried) == {one}


def test_places_near_a_smaller_size_are_all_that_there_are() -> None:
    columns = two_crescents(400.0)
    family = columns.families[columns.place_of[wedges(columns)[0]][0]].dies
    small, large = sorted(family, key=lambda d: columns.dies[d].area_mm2)
    stretch = filling._Stretch(columns, 0.0, columns.strip.end_mm)
    for k, pose in enumerate(columns.choices_of(columns.pose_of[large, 0])):
        room = filling._Room(stretch, columns.pose_of[small, k])
        everywhere = stretch.places(pose)
        assert everywhere.any() and (stretch.places(pose, room) == everywhere).all()
