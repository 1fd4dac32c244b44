"""Which engines lay which problem, and how they share the processors.

``STRATEGIES`` is the list: the first whose condition holds is taken. A first layout stands within seconds
in each of them, since whoever asks must have something to look at; then bands of rows (``rows``) work in a
process of their own where pieces repeat, and the search of sections (``free``) where they do not.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from nesting.engine.task import Task
from nesting.problem import LayProblem
from nesting.stop import Share, Stop

LEAST_BANDS_S = 4.0
"""With less time than this no bands of rows are begun, ..."""

FEW_LEAST_BANDS_S = 20.0
"""... and with less than this none below BANDS_FIRST pieces of several items: on 400 pieces of the sandal
their first lay stands after 13 s of a processor, at 62 %, where the whole squeezed has 68.7 (measured)."""

FEW_PIECES = 200
"""Of fewer pieces of several items the bands never were the better lay within a minute (measured on the
five open instances that repeat), while the search missed the processor."""

REPEATS = 6
"""Pieces per item on average, from which bands of rows are laid."""

BANDS_FIRST = 600
"""From this many pieces on bands of rows beat the search of a section (measured, 60 s: 76.3 against 75.5 % on
672 pieces): they get every processor, and a search begins only if they come to nothing ..."""

BANDS_SHARE = 0.95
"""... in this share of the time."""


MANY_LEAST_BANDS_S, MANY_LEAST_BANDS_S_PER_PIECE = 10.0, 2e-3
"""From BANDS_FIRST pieces of several items bands take about so long to their first whole lay; with less time
sections of a first layout, squeezed against their own copies, are the better lay (measured: 73.6 % at 6 s on
1,152 pieces, where bands had come to nothing at 12)."""


@dataclass(frozen=True)
class Strategy:
    """A way to lay a problem: ``suits`` says whether it is the one, ``run`` takes it."""

    name: str
    suits: Callable[[LayProblem, Stop], bool]
    run: Callable[[Task], None]


def kinds(problem: LayProblem) -> int:
    """Return how many different items are asked for."""
    return sum(item.demand > 0 for item in problem.items)


def repeats(problem: LayProblem) -> bool:
    """Whether each item is asked for often enough for bands of rows to pay."""
    return problem.pieces >= REPEATS * kinds(problem)


def one_die(problem: LayProblem, stop: Stop) -> bool:
    """One item many times over: rows of it leave a search nothing to find."""
    return kinds(problem) == 1 and repeats(problem) and stop.left_s >= LEAST_BANDS_S


def long_run(problem: LayProblem, stop: Stop) -> bool:
    """So many pieces of several items that bands of rows are the better lay."""
    return (
        kinds(problem) > 1
        and repeats(problem)
        and problem.pieces >= BANDS_FIRST
        and stop.left_s >= MANY_LEAST_BANDS_S + MANY_LEAST_BANDS_S_PER_PIECE * problem.pieces
    )


def short_run(problem: LayProblem, stop: Stop) -> bool:
    """Several items that repeat, where bands or the search may find the better lay."""
    few = problem.pieces < FEW_PIECES and math.isfinite(stop.left_s)
    return (
        kinds(problem) > 1
        and repeats(problem)
        and problem.pieces < BANDS_FIRST
        and not few
        and stop.left_s >= FEW_LEAST_BANDS_S
    )


def anything(problem: LayProblem, stop: Stop) -> bool:
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
    with task.search_of(0) as search, task.beside("bands", task.workers) as bands:
        task.first_layout()
        stop = task.stop
        bands.wait_for_a_lay(Share(stop, BANDS_SHARE * stop.left_s) if math.isfinite(stop.left_s) else stop)
        if not bands.laid:
            search.begin_with(0 if task.work else task.workers, stop)
            task.go_on(search, task.workers)
        bands.wait(stop)


def _bands_beside_the_search(task: Task) -> None:
    searching = 0 if task.work else max(1, task.workers - 1)
    with (
        task.search_of(searching) as search,
        task.beside("bands", max(1, task.workers - searching)) as bands,
    ):
        task.first_layout(search)
        task.go_on(search, searching or task.workers)
        bands.wait(task.stop)


def _search(task: Task) -> None:
    searching = 0 if task.work else task.workers
    with task.search_of(searching) as search:
        task.first_layout(search)
        task.go_on(search, task.workers)


STRATEGIES = (
    Strategy("rows of one die", one_die, _rows_of_one_die),
    Strategy("bands, and a search only if they come to nothing", long_run, _bands_before_the_search),
    Strategy("bands beside the search", short_run, _bands_beside_the_search),
    Strategy("search", anything, _search),
)


def strategy_for(problem: LayProblem, stop: Stop) -> Strategy:
    """Return the first strategy of the list that suits."""
    return next(each for each in STRATEGIES if each.suits(problem, stop))
