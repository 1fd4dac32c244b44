"""Bands of a family in its sizes: every piece is laid, whichever sizes will not share a lattice."""

from types import SimpleNamespace

from nesting.dies.die import dies_of
from nesting.dies.family import families_of
from nesting.rows.columns import Columns
from nesting.stop import Never
from tests.nesting.runs import order


def test_a_few_pieces_of_several_sizes_that_share_no_lattice_are_laid_size_by_size(monkeypatch):
    """Asked for together again and again, they were never laid, and nothing after them was."""
    problem = order()
    dies = dies_of(problem)
    columns = Columns(dies, families_of(dies), problem.gap_mm, (3.0, 497.0), Never())
    laid: list[int] = []

    def band(number, group, queue, last):
        if len(set(queue)) > 1:
            return 0
        laid.extend(queue)
        return len(queue)

    monkeypatch.setattr(columns, "_band", band)
    wide = SimpleNamespace(plain=False, main=0, lattice=SimpleNamespace(cell_mm2=1.0), count=lambda family: 1)
    columns.lay_group(0, wide, [(0, 3), (1, 2), (2, 4)])
    assert sorted(laid) == [0] * 3 + [1] * 2 + [2] * 4
