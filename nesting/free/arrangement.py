"""Free arrangement of different pieces, improved until the time is up.

The general solver searches in child processes that can be killed (``general_solver``), on coarse outlines;
each layout it finds is pulled apart and squeezed on the true ones (``compaction``) before it is
passed on.

What is found is shortened as a whole (``shortening``), in little time the first layout at once. The solver
knows neither pinned pieces nor flaws: where there are any, only that is done, round them, and the lay says
so.
"""

from __future__ import annotations

import math
import threading
import time
from collections.abc import Sequence
from concurrent.futures import Future, ThreadPoolExecutor

from nesting.compaction.lays import PoseContacts, compact
from nesting.free import first_layout, orders, sampling, shortening
from nesting.free.general_solver import Layout, Search, pays, placements_of, suits
from nesting.free.turns import granted_turns, turns_of
from nesting.lay import Lay, Placement
from nesting.listen import Listener, Phase, PhaseCode, Silent
from nesting.problem import LayProblem
from nesting.stop import Never, Share, Stop

WORTH_SQUEEZING = 1.015
"""Layouts wider than the best by more than this share cannot win by squeezing."""

CLOSING = 2.0
"""The closing squeeze takes up to this many times as long as one on the way: on a busy machine the
search ends earlier for it."""

FIRST_STEPS = 20
"""Steps of the squeeze of a bottom-left layout: more bring a tenth of a point (measured)."""

SCREEN_STEPS, SCREENED = 8, 1.03
"""Layouts of other orders that this many steps leave longer than the shortest by this factor are given up."""

WORTH_GOING_ON = 0.002
"""A squeeze that shortened the lay by this share is gone on with: on 450 pieces of the court sample 20 steps
bring 1 point of yield, 60 bring 3.5 (measured)."""

SQUEEZED = "first layout, squeezed"

FIRST_SHARE, MOST_FIRST_SHARE, BESIDE_SHARE, BEFORE_SHARE = 0.3, 0.9, 0.25, 0.12
"""Share of the time in which other first layouts are squeezed too: of a hundred pieces, in proportion of more
at most (squeezing on takes longer there and pays more than another order), while a search runs beside, and
where the lay is shortened as a whole next."""

LEAST_SHORTENING_S = 1.0
"""With less time than this shortening as a whole is not begun."""

MOST_FIRST_S_PER_PIECE = 0.02
"""While a search runs, or sections are searched, no more time than this goes into other first layouts (on 288
pieces 13 s of them brought nothing, measured, and the search missed the processor)."""

ORDERS = 4
"""Orders tried where there is no clock."""

TRIES, MOST_TRIES = 40, 100_000
"""Tries to shorten a lay as a whole, or round fixed pieces: without a clock, and at most."""


def solve(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 2,
    start: Lay | None = None,
    others: Sequence[Lay] | None = None,
    search: Search | None = None,
    work: int | None = None,
) -> Lay:
    """Return the shortest lay found.

    ``start`` is a lay to begin with (the first layout if None), ``others`` layouts that may squeeze better,
    ``search`` a search begun before.
    With ``work`` nothing is searched by the clock: this many times ``TRIES`` are made instead.
    """
    stop, listener = stop or Never(), listener or Silent()
    going_on = sampling.goes_on(problem, start, stop.left_s)
    if search is None and work is None and workers and not going_on and pays(problem, stop.left_s):
        search = Search(problem, seed=seed, stop=stop, workers=workers)
        search.use_clusters()
    timed = math.isfinite(stop.left_s)
    whole = not suits(problem) or sampling.suits(problem)
    try:
        best = start or first_layout.solve(problem, seed=seed, stop=stop, listener=listener)
        contacts = contacts_of(problem)
        squeeze = _Squeeze(problem, contacts, stop, listener, seed, best)
        sampled = None
        if whole and timed and search is None and stop.left_s > LEAST_SHORTENING_S:
            sampled = _sampled_beside(problem, best, contacts)
        listener.phase(Phase(PhaseCode.SQUEEZE))
        begun = time.monotonic()
        squeeze.take(best.placements, engine=_squeezed_name(best), steps=FIRST_STEPS)
        took_s = time.monotonic() - begun
        if suits(problem) and not stop():
            if search is not None or whole:
                share = BEFORE_SHARE if search is None else BESIDE_SHARE
                seconds = min(share * stop.left_s, MOST_FIRST_S_PER_PIECE * problem.pieces)
            else:
                share = min(MOST_FIRST_SHARE, FIRST_SHARE * max(1.0, problem.pieces / 100.0))
                seconds = share * stop.left_s
            squeeze.several(
                [squeeze.best, *(others or [])[: None if timed else ORDERS]],
                Share(stop, seconds) if timed else stop,
                threads=workers if search is None else 1,
            )
        if search is not None:
            search.leave(CLOSING * took_s, stop)
            listener.phase(Phase(PhaseCode.SEARCH))
            _follow(problem, search, squeeze, stop)
        if suits(problem) and not (whole and timed) and not stop():
            listener.phase(Phase(PhaseCode.ORDERS))
            orders.improve(
                problem,
                seed=seed,
                stop=stop,
                tries=MOST_TRIES if timed else ORDERS * (work or 1),
                workers=workers,
                found=lambda laid: squeeze.on(
                    laid, stop, engine="orders, squeezed", screened=math.isfinite(stop.left_s)
                ),
            )
        if sampled is None and suits(problem) and stop.left_s <= LEAST_SHORTENING_S:
            whole = False  # sampling alone takes a good part of that
        if (whole if timed else search is None) and not stop():
            listener.phase(Phase(PhaseCode.SHORTEN if suits(problem) else PhaseCode.AROUND_FIXED))
            shortening.shorten(
                problem,
                squeeze.best,
                contacts,
                seed=seed,
                stop=stop,
                better=squeeze.keep,
                tries=MOST_TRIES if timed else TRIES * (work or 1),
                workers=workers if timed else 1,
                sampled=None if sampled is None else sampled.result(),
            )
    finally:
        if search is not None:
            search.close()
    return squeeze.best


def _sampled_beside(
    problem: LayProblem, lay: Lay, contacts: PoseContacts
) -> Future[shortening.SampledPoses] | None:
    """Begin to sample depths while ``lay`` is squeezed; None where other layouts may turn pieces in other
    ways, or something is fixed."""
    if not suits(problem) or any(item.turn_tolerance_deg for item in problem.items):
        return None
    for at in lay.placements:
        contacts.pose(at.item_id, at.turn_deg)  # a lay known before may turn pieces freely; threads add none
    beside = ThreadPoolExecutor(1)
    try:
        return beside.submit(shortening.SampledPoses, problem, lay.placements, contacts, workers=1)
    finally:
        beside.shutdown(wait=False)


def squeezed(
    problem: LayProblem, lays: Sequence[Lay], *, stop: Stop, others: Stop, listener: Listener
) -> Lay:
    """Return the shortest of ``lays`` squeezed, or the first of them.

    The first is squeezed while that pays, until ``stop``; those after it are begun until ``others``.
    """
    squeeze = _Squeeze(problem, contacts_of(problem), stop, listener, lays[0].seed, lays[0])
    for number, lay in enumerate(lays):
        if number and others():
            break
        squeeze.on(lay.placements, stop, engine=SQUEEZED, screened=number > 0)
    return squeeze.best


def contacts_of(problem: LayProblem) -> PoseContacts:
    """Return the contacts of a problem with a pose for each turn that layouts take: threads add none."""
    contacts = PoseContacts(problem)
    for item in problem.items:
        for turn in (granted_turns(item) or turns_of(item)) if item.demand else ():
            contacts.pose(item.id, turn)
    return contacts


def _follow(problem: LayProblem, search: Search, squeeze: _Squeeze, stop: Stop) -> None:
    """Squeeze what the search finds: now and then while it runs, thoroughly when it is over."""
    look_again = 0.0
    seen: Layout | None = None
    while not search.over and not stop():
        search.wait(0.05)
        newest = search.best()
        if newest is not None and newest is not seen and time.monotonic() >= look_again and not search.over:
            begun = time.monotonic()
            squeeze.take(placements_of(problem, newest.placed), engine=_engine(search), steps=4)
            seen = newest
            took = time.monotonic() - begun
            search.leave(CLOSING * took, stop)
            look_again = time.monotonic() + max(1.0, 10.0 * took)
    found = search.bests()
    search.close()
    if found:
        squeeze.listener.phase(Phase(PhaseCode.SQUEEZE))
    for layout in found:
        if stop() or layout.width_mm > found[0].width_mm * WORTH_SQUEEZING:
            break
        squeeze.take(placements_of(problem, layout.placed), engine=_engine(search), steps=60)


def _squeezed_name(lay: Lay) -> str:
    """What a squeezed lay says: one known before keeps the name of what laid it."""
    return SQUEEZED if lay.engine == first_layout.ENGINE else lay.engine


def _engine(search: Search) -> str:
    return f"spyrrow and squeezing ({search.trouble})" if search.trouble else "spyrrow and squeezing"


class _Squeeze:
    """Brings layouts onto the true outlines and keeps the shortest."""

    def __init__(
        self,
        problem: LayProblem,
        contacts: PoseContacts,
        stop: Stop,
        listener: Listener,
        seed: int,
        best: Lay,
    ) -> None:
        self.problem = problem
        self.contacts = contacts
        self.stop = stop
        self.listener = listener
        self.seed = seed
        self.best = best
        self._one_at_a_time = threading.Lock()

    def take(self, placements: Sequence[Placement], *, engine: str, steps: int) -> None:
        """Squeeze a layout; report it when it is the shortest so far."""
        moved = compact(self.problem, placements, contacts=self.contacts, steps=steps, stop=self.stop)
        if moved is None:
            return
        self.keep(Lay(moved, self.problem.length_of_mm(moved), engine=engine, seed=self.seed))

    def several(self, lays: Sequence[Lay], stop: Stop, *, threads: int) -> None:
        """Squeeze layouts one after the other, each on while that pays."""
        with ThreadPoolExecutor(max(1, threads)) as pool:
            list(pool.map(lambda lay: self.on(lay.placements, stop, engine=_squeezed_name(lay)), lays))

    def on(self, laid: tuple[Placement, ...], stop: Stop, *, engine: str, screened: bool = False) -> None:
        """Squeeze a layout on while that pays: the end of a long lay moves only a little in every step.

        ``screened``: only if a few steps bring it near the shortest known.
        """
        before_mm, length_mm = math.inf, self.problem.length_of_mm(laid)
        steps = SCREEN_STEPS if screened else FIRST_STEPS
        while not stop() and length_mm < before_mm * (1.0 - WORTH_GOING_ON):
            moved = compact(self.problem, laid, contacts=self.contacts, steps=steps, stop=stop)
            if moved is None:
                return
            before_mm, laid, length_mm = length_mm, moved, self.problem.length_of_mm(moved)
            self.keep(Lay(laid, length_mm, engine=engine, seed=self.seed))
            if steps == SCREEN_STEPS and length_mm > self.best.length_mm * SCREENED:
                return
            steps = FIRST_STEPS

    def keep(self, lay: Lay) -> None:
        """Keep and report a lay if it is the shortest so far."""
        with self._one_at_a_time:
            if lay.length_mm < self.best.length_mm:
                self.best = lay
                self.listener.better(lay)
