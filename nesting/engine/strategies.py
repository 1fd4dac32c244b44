"""Which engines lay which problem, and how they share the processors.

``STRATEGIES`` is the list: the first whose condition holds is taken. A first layout stands within seconds
in each of them, since whoever asks must have something to look at; then bands of rows (``rows``) are laid
where pieces repeat, and sections are searched (``free``) where they do not.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from nesting.engine.task import Task
from nesting.free.sampling import WHOLE
from nesting.lay import Lay
from nesting.problem import LayProblem
from nesting.rows.names import BANDS, WINDOWS
from nesting.stop import Stop

LEAST_BANDS_S = 4.0
"""With less time than this no rows of one die are begun."""

REPEATS = 6
"""Pieces per item on average, from which bands of rows are laid."""

BANDS_FIRST = 450
"""From this many pieces on bands of rows get every processor, and a search begins only if they come to
little (measured at 6 and 12 s on four orders of 470 to 784 pieces: the search has 3 to 8 points less)."""

FEW_PIECES = 200
"""Of fewer pieces of several items the bands never were the better lay within a minute (measured on the
five open instances that repeat), while the search missed the processor."""

BANDS_S, BANDS_S_PER_PAIR, BANDS_S_PER_PIECE = 1.35, 0.15e-3, 0.3e-3
"""Bands of several items are the better lay after about so long, each item being fitted to each (measured:
their first lay takes 1.0 to 1.4 s on 42 to 50 items and 312 to 1,116 pieces, 2.3 on 96 and 1,152, 2.9 on 50
and 2,440, 0.4 more to read code and to lay what is there at once; 6.7 on 96 and 5,760, where bands in haste
may be ahead as well, 74.2 % beside 71.8). With less none are begun. Given 3 s by a command, of which they
have 2.3, seven such orders came to 67.1 % in the mean of three seeds, the whole squeezed to 63.1; given
2.5 s, of which they have 1.8, to 63.2 and 62.8."""

SEARCHED_BEFORE = 0.8
"""A lay that was searched for this share of the time given now, or longer, is shortened in windows (seven
presses of 3 s bring the bands of 1,380 pieces from 75.7 to 76.4 %; 30 s 0.8 to 1.5 points to 376 and 400
pieces, measured)."""

SEARCH_S = 25.0
"""Of fewer than BANDS_FIRST pieces with more time than this the search of sections is the better lay (on
three orders of 312 to 400 pieces 0.5 to 2.3 points ahead at 60 s, 0.6 behind to 0.8 ahead at 30)."""


@dataclass(frozen=True)
class Strategy:
    """A way to lay a problem: ``suits`` says whether it is the one, ``run`` takes it.

    It is asked with the lay to go on from, None where there is none.
    """

    name: str
    suits: Callable[[LayProblem, Stop, Lay | None], bool]
    run: Callable[[Task], None]


def kinds(problem: LayProblem) -> int:
    """Return how many different items are asked for."""
    return sum(item.demand > 0 for item in problem.items)


def repeats(problem: LayProblem) -> bool:
    """Whether each item is asked for often enough for bands of rows to pay."""
    return problem.pieces >= REPEATS * kinds(problem)


def bands_take_s(problem: LayProblem) -> float:
    """Return about how long bands of several items take to their first lay."""
    return BANDS_S + BANDS_S_PER_PAIR * kinds(problem) ** 2 + BANDS_S_PER_PIECE * problem.pieces


def one_die(problem: LayProblem, stop: Stop, start: Lay | None) -> bool:
    """One item many times over: rows of it leave a search nothing to find."""
    return kinds(problem) == 1 and repeats(problem) and stop.left_s >= LEAST_BANDS_S


def run(problem: LayProblem, stop: Stop, start: Lay | None) -> bool:
    """So many pieces of several items that bands of rows are the better lay."""
    if not repeats(problem) or problem.pieces < FEW_PIECES:
        return False
    if problem.pieces < BANDS_FIRST and (stop.left_s > SEARCH_S or _came_to_little(start, stop)):
        return False
    return stop.left_s >= bands_take_s(problem)


def _came_to_little(start: Lay | None, stop: Stop) -> bool:
    """Whether bands were tried in about this time, and the whole shortened was the better lay."""
    if start is None or not start.engine.endswith(WHOLE):
        return False
    return start.searched_s >= SEARCHED_BEFORE * stop.left_s


def laid_before(problem: LayProblem, stop: Stop, start: Lay | None) -> bool:
    """A lay that was searched for about as long: what laid it would come to much the same.

    So are bands that there is no time to lay again. What has been through windows is laid once more, with
    another seed, where there is time for better bands, or where a search laid it. What was shortened as a
    whole is gone on with so. A lay that nobody searched for (it came of another problem's lay) is none of
    these.
    """
    if start is None or start.searched_s <= 0.0 or problem.pinned or problem.roll.flaws:
        return False
    if problem.pieces < FEW_PIECES:
        return False
    long_enough = start.searched_s >= SEARCHED_BEFORE * stop.left_s
    shortened = start.engine.endswith(WINDOWS)
    if run(problem, stop, start):
        return BANDS in start.engine and long_enough and not (shortened and stop.left_s > SEARCH_S)
    if repeats(problem) and problem.pieces >= BANDS_FIRST:
        return True
    return long_enough and not shortened and not start.engine.endswith(WHOLE)


def bands_in_parts(problem: LayProblem, stop: Stop, start: Lay | None) -> bool:
    """A lay found before, of so many pieces that bands would be the better one, without the time for them: a
    part of them each time, whatever laid the other."""
    if start is None or start.searched_s <= 0.0 or BANDS in start.engine or math.isinf(stop.left_s):
        return False
    if problem.pinned or problem.roll.flaws or problem.pieces < BANDS_FIRST or not repeats(problem):
        return False
    return not run(problem, stop, start)


def without_a_clock(problem: LayProblem, stop: Stop, start: Lay | None) -> bool:
    """Several items that repeat, and time for everything."""
    return repeats(problem) and math.isinf(stop.left_s)


def anything(problem: LayProblem, stop: Stop, start: Lay | None) -> bool:
    """Whatever is left: the last of the list."""
    return True


def _rows_of_one_die(task: Task) -> None:
    with task.search_of(0) as search, task.beside("bands", task.workers) as bands:
        task.first_layout()
        bands.wait(task.stop)
        if not bands.laid:
            task.go_on(search, task.workers)
            bands.wait(task.stop)


def _bands_before_the_search(task: Task) -> None:
    if not task.layout_at_once() or not task.bands():
        _search(task)


def _bands_beside_the_search(task: Task) -> None:
    searching = 0 if task.work else max(1, task.workers - 1)
    with (
        task.search_of(searching) as search,
        task.beside("bands", max(1, task.workers - searching)) as bands,
    ):
        task.first_layout(search)
        task.go_on(search, searching or task.workers)
        bands.wait(task.stop)


def _bands_in_parts(task: Task) -> None:
    lay = task.goes_on_from
    assert lay is not None  # ``bands_in_parts`` chose this
    if not task.bands_in_parts(lay):
        task.shorten(lay)


def _shorten_on(task: Task) -> None:
    assert task.goes_on_from is not None  # ``laid_before`` chose this
    task.shorten(task.goes_on_from)


def _search(task: Task) -> None:
    searching = 0 if task.work or task.shortens_on else task.workers
    with task.search_of(searching) as search:
        task.first_layout(search)
        task.go_on(search, task.workers)


STRATEGIES = (
    Strategy("rows of one die", one_die, _rows_of_one_die),
    Strategy("bands a part at a time", bands_in_parts, _bands_in_parts),
    Strategy("shortening of the lay found before", laid_before, _shorten_on),
    Strategy("bands, and a search only if they come to little", run, _bands_before_the_search),
    Strategy("bands beside the search", without_a_clock, _bands_beside_the_search),
    Strategy("search", anything, _search),
)


def strategy_for(problem: LayProblem, stop: Stop, start: Lay | None = None) -> Strategy:
    """Return the first strategy of the list that suits; ``start`` is the lay to go on from."""
    return next(each for each in STRATEGIES if each.suits(problem, stop, start))
