"""Bands laid a part at a time: short searches come to the lay of one long one, whatever happens between."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest

from nesting.free import first_layout
from nesting.known import folder
from nesting.lay import Lay
from nesting.listen import Silent
from nesting.rows import in_parts, production
from nesting.rows.in_parts import LaidSoFar
from nesting.verify import verify
from tests.nesting.runs import order

NO_LENGTH_MM = 1e9
LONG = order(24)
"""Enough of each for columns."""


class Flag:
    """A stop with time left until it is raised."""

    def __init__(self) -> None:
        self.raised = False

    @property
    def left_s(self) -> float:
        return 0.0 if self.raised else 20.0

    def __call__(self) -> bool:
        return self.raised


@pytest.fixture(autouse=True)
def kept(tmp_path: Path) -> Iterator[Path]:
    folder.use(tmp_path / "found")
    yield tmp_path / "found"
    folder.use(None)


@pytest.fixture(autouse=True)
def nothing_shortened(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(production, "improved", lambda *given, **how: iter(()))


def searched(monkeypatch: pytest.MonkeyPatch, groups: int = 1, below_mm: float = NO_LENGTH_MM) -> Lay | None:
    """One search that is stopped once so many groups are laid."""
    stop, keep, laid = Flag(), LaidSoFar.keep, []

    most = groups

    def kept_and_stopped(so_far: LaidSoFar, done: int, groups: int) -> None:
        keep(so_far, done, groups)
        laid.append(done)
        stop.raised = len(laid) >= most

    monkeypatch.setattr(LaidSoFar, "keep", kept_and_stopped)
    lay = production.solve_in_parts(LONG, below_mm=below_mm, seed=0, stop=stop, listener=Silent(), workers=1)
    monkeypatch.setattr(LaidSoFar, "keep", keep)
    return lay


def until_laid(search: Callable[[], Lay | None]) -> tuple[Lay, int]:
    for count in range(1, 20):
        lay = search()
        if lay is not None:
            return lay, count
    raise AssertionError("nothing came of nineteen searches")


def test_short_searches_come_to_what_one_long_one_lays(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    lay, searches = until_laid(lambda: searched(monkeypatch))
    assert searches > 2 and verify(LONG, lay).ok
    folder.use(tmp_path / "another")
    at_once = searched(monkeypatch, groups=99)
    assert at_once is not None and at_once.placements == lay.placements


def test_where_nothing_is_kept_there_are_no_parts(monkeypatch: pytest.MonkeyPatch) -> None:
    folder.use(None)
    assert searched(monkeypatch, groups=99) is None


def file_of(kept: Path) -> Path:
    return next(kept.glob("bands-*.json"))


@pytest.mark.parametrize(
    "damage",
    [
        lambda laid: laid | {"at_mm": [[at[0] / 2.0, at[1]] for at in laid["at_mm"]]},  # they overlap
        lambda laid: laid | {"at_mm": [[at[0], at[1] + 900.0] for at in laid["at_mm"]]},  # beside the roll
        lambda laid: laid | {"pose": [999 for _ in laid["pose"]]},
        lambda laid: laid | {"pose": laid["pose"][:-1]},
        lambda laid: laid | {"pose": laid["pose"] * 9, "at_mm": laid["at_mm"] * 9},  # more than are asked for
        lambda laid: laid | {"groups": 77},
        lambda laid: laid | {"done": 99},
        lambda laid: {"done": laid["done"]},
        lambda laid: ["something else"],
    ],
)
def test_what_does_not_hold_is_laid_again(monkeypatch: pytest.MonkeyPatch, kept: Path, damage) -> None:
    assert searched(monkeypatch) is None
    file = file_of(kept)
    file.write_text(json.dumps(damage(json.loads(file.read_text()))))
    lay, _ = until_laid(lambda: searched(monkeypatch, groups=99))
    assert verify(LONG, lay).ok


def test_bands_that_come_out_no_shorter_are_not_laid_again(monkeypatch: pytest.MonkeyPatch) -> None:
    short_mm = first_layout.solve(LONG).length_mm / 2.0
    assert searched(monkeypatch, groups=99, below_mm=short_mm) is None
    begun = []
    monkeypatch.setattr(production, "groups_of", lambda *given, **how: begun.append(given))
    assert searched(monkeypatch, groups=99) is None and not begun


def test_a_search_too_short_for_one_group_is_not_tried_again_with_as_little(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def stopped(columns, groups, stop, **how) -> None:
        stop.raised = True

    with monkeypatch.context() as short:
        short.setattr(production, "_lay_out", stopped)
        assert searched(short, groups=99) is None
    monkeypatch.setattr(in_parts, "LONGER", np.inf)  # whatever time that took: as much again
    assert searched(monkeypatch, groups=99) is None
    monkeypatch.setattr(in_parts, "LONGER", 0.0)
    assert searched(monkeypatch, groups=99) is not None
