"""Asking the engine from a command: progress in words, and Ctrl-C keeps the best lay so far."""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Callable, Iterator

from app.commands import say
from app.errors import DatabaseError
from app.lay import live
from app.lay.improving import rounds_s
from app.lay.kept import KeptLays
from app.lay.searching import search_for
from geometry.said import percent, said
from nesting.engine.child import Progress, solve_in_child
from nesting.lay import Lay
from nesting.listen import Phase
from nesting.problem import LayProblem
from nesting.system.processes import on_interrupt

EVERY_S = 2.0  # a line at most this often, and one whenever the engine does something else
WORTH = 0.001  # a gain smaller than this share of the length is not worth a line


def solve(
    problem: LayProblem,
    *,
    seconds: float,
    seed: int,
    workers: int,
    label: str = "",
    store: KeptLays | None,
    fresh: bool = False,
    improve: bool = False,
) -> Lay:
    """Return the engine's best lay, never a longer one than is known; raises as ``solve_in_child``.

    The search goes on from the best lay that the workshop's ``store`` has for the problem, with another seed
    each time; ``fresh`` begins again and looks at no kept lay. What is found is kept; without a store nothing
    is. ``improve`` searches in rounds that leave the processors to everything else and keep what they found
    (``app.lay.improving``).
    """
    search = search_for(problem, None if fresh else store)
    lay = search.start
    if lay is not None:
        say(_at(label, said("going on from the {0}", lay.began_from)))
    with interruptible() as cancelled:
        for number, each_s in enumerate(rounds_s(seconds) if improve else (seconds,)):
            if number and cancelled():
                break
            lay = solve_in_child(
                problem,
                seconds=each_s,
                seed=seed + search.searched + number,
                workers=workers,
                start=lay,
                polite=improve,
                kept_in=search.kept_in,
                on_progress=_Teller(label, problem),
                cancelled=cancelled,
            )
            _keep(store, problem, lay)
    assert lay is not None
    return search.best_of(lay)


def _keep(store: KeptLays | None, problem: LayProblem, lay: Lay) -> None:
    if store is None:
        return
    try:
        store.keep(problem, lay)
    except DatabaseError as error:
        say(said("the lay is not kept for the next time: {0}", error))


def _at(label: str, text: str) -> str:
    return said("{0}: {1}", label, text) if label else text


class _Teller:
    """Turns reports of the engine into lines, not too many."""

    def __init__(self, label: str, problem: LayProblem) -> None:
        self._name, self._problem = label, problem
        self._label = f"{label}: " if label else ""
        self._phase: Phase | None = None
        self._told_s = -EVERY_S
        self._length_mm = 0.0

    def __call__(self, progress: Progress) -> None:
        if progress.lay is None:
            return
        if live.watched():  # it draws the lay and its figures; lines would say them twice
            live.tell_lay(self._problem, progress, self._name)
            return
        gain = 1.0 if not self._length_mm else 1.0 - progress.length_mm / self._length_mm
        due = progress.elapsed_s - self._told_s >= EVERY_S and gain >= WORTH
        if progress.phase == self._phase and not due:
            return
        self._phase, self._told_s, self._length_mm = progress.phase, progress.elapsed_s, progress.length_mm
        found = f"{progress.length_mm / 1000:.3f} m, yield {percent(progress.yield_)}"
        line = f"{self._label}{progress.elapsed_s:.1f} s, {progress.phase.words}: {found}"
        say(line)  # read at a terminal only


@contextlib.contextmanager
def interruptible(
    stopping: str = "stopping; the best lay so far is kept (Ctrl-C again gives up)",
) -> Iterator[Callable[[], bool]]:
    """Let the first Ctrl-C, or a watcher's word, stop the work, not the program, and say ``stopping``."""
    stop = threading.Event()

    def stopped() -> bool:
        return stop.is_set() or live.stop_asked()

    def interrupt() -> None:
        if stop.is_set():
            raise KeyboardInterrupt
        stop.set()
        say(stopping)

    with on_interrupt(interrupt):
        yield stopped
