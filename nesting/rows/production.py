"""Long runs: bands of lattice columns, small pieces in what they leave open, ends moved into openings.

Large pieces first. Each group of pieces (a die in its sizes, or a large die with small ones in its
openings, whichever takes least cloth by a linear program) is laid as bands cut from its densest
lattices; what the bands leave open along the edges and between sizes is filled with smaller
pieces. Then, until the time is up, pieces are moved from the end into openings that their neighbours
make room for, and windows along the roll are shortened one after the other.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from functools import partial

import numpy as np

from nesting.compaction.reinsertion import Sampled
from nesting.dies.die import Die, dealt, dies_of
from nesting.dies.family import families_of
from nesting.lattice.densest import searched, straight
from nesting.lay import Lay
from nesting.listen import Listener, Phase, PhaseCode, Silent
from nesting.problem import LayProblem
from nesting.rows.columns import Columns
from nesting.rows.filling import fill
from nesting.rows.groups import Group, groups_of
from nesting.rows.improving import ground_of, improved
from nesting.rows.in_parts import LaidSoFar
from nesting.rows.names import BANDS
from nesting.rows.one_die import best_strip
from nesting.rows.repair import cleared
from nesting.rows.tilt import leaning
from nesting.stop import Never, Share, Stop

LEAST_REPEATS = 6.0
"""Pieces per die on average, from which columns of one die begin to pay (measured)."""

MOST_FIXED = 0.05
"""Pinned pieces and flaws, as a share of the pieces, up to which bands are laid over them and what meets
them is laid again behind (``repair``)."""

LEAST_COLUMNS = 1.2
"""A group with fewer columns than this is not laid as such: its pieces fill openings and the end."""

SURE_COLUMNS, LEAST_IN_COLUMNS = 1.3, 0.7
"""With a clock nothing is laid where less than this share of the cloth is of groups with so many columns, of
which filling leaves LEAST_COLUMNS: too much would lie behind the bands (measured on the sandal: 400 pieces
have a quarter there and bands are 2 to 3.5 points behind the search, 470 three quarters and are ahead)."""

QUICK_S, QUICK_S_PER_PIECE = 6.0, 1e-3
"""With less time than this the search for lattices is quick: no cells of two families, which take about a
second (measured: at 12 s 1,152 pieces of 96 items have 78.3 % with them, 77.1 without, 960 of 48 items the
same with and without), and no level lattices (0.2 to 0.5 s; the first lays of eight orders come out the same
within 0.3 points)."""

STARTS, STARTS_QUICK = 1000, 400
"""Random cells that a lattice is searched from, and in a quick search (measured: seven orders of 312 to 1,116
pieces come out the same with 400, 0.3 s sooner; cells of two families with 400 cost 1,152 pieces 1 point)."""

BESIDE_S, BESIDE_S_PER_PIECE = 2.0, 1e-3
"""With less time than this for laying bands they have the processors to themselves: what moving pieces into
openings asks for, sampled at the same time, delays them by 0.2 s of 1 (measured on 576 pieces)."""

SAMPLING_S_PER_PAIR = 2.6e-4
"""Then no piece is moved into an opening with less time left than this for each pair of poses and processor:
twice what sampling takes (measured: 0.7 to 1.3e-4 on 80 to 132 poses), which nothing stops."""

IN_TIME = 0.85
"""Bands are laid without tightening when at the pace so far not all would lie within this share of the time
left: so that the lay is complete."""

REST_S_PER_PIECE = 4e-4
"""Time kept for each piece that the bands have not laid, to lay it behind them in plain rows: nearly twice
what that takes (0.9 s for 4,000, measured), since the machine may be busy."""

ORDER_SPREAD = 0.8
"""Standard deviation of the logarithm of how much larger or smaller chance makes pieces for another order of
groups (measured: nine orders of 1,152 pieces come to 77.2 to 78.4 % in 12 s, the usual one to 77.8; eight of
960 to 76.8 to 77.9)."""

ROWS_SEARCH = 0.3
"""Share of the time that the first lattices of one die may take."""


def suits(problem: LayProblem) -> bool:
    """Whether pieces repeat enough for bands to pay, and little lies in their way."""
    fixed = len(problem.pinned) + len(problem.roll.flaws)
    if fixed > MOST_FIXED * problem.pieces or problem.pieces < 30:
        return False
    if any(item.turns_deg is None for item in problem.items if item.demand):
        return False
    return problem.pieces >= LEAST_REPEATS * len(dies_of(problem))


def solve(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 2,
    work: int | None = None,
    another: bool = False,
) -> Lay | None:
    """Return the shortest lay found, None when the time was too short for any or bands do not suit the
    problem; what the bands had no time for lies behind them in plain rows.

    ``another``: in another order of groups than the usual one, by ``seed``. Deterministic by ``seed`` and
    ``work`` (passes of the window work) when no clock stops it. Holes of pieces are not used.
    """
    if not suits(problem):
        return None
    stop, listener = stop or Never(), listener or Silent()
    columns = _columns_of(problem, seed, stop)
    listener.phase(Phase(PhaseCode.ROWS))
    ground: Callable[[], Sampled] | None = partial(ground_of, columns, workers)
    sampling_s = 0.0
    if len(columns.dies) == 1:
        for _ in _one_die(columns, columns.dies[0], problem.gap_mm, seed, stop):
            listener.better(_lay(problem, columns, seed))
    else:
        # searching lattices must leave time to lay them
        search = Share(stop, 0.4 * stop.left_s) if math.isfinite(stop.left_s) else stop
        quick = stop.left_s < QUICK_S + QUICK_S_PER_PIECE * problem.pieces
        groups = _groups_of(columns, seed, search, workers, quick=quick)
        if math.isfinite(stop.left_s):
            if _share_in_columns(columns, groups) < LEAST_IN_COLUMNS:
                return None
            columns.hurry = _Pace(columns, stop)
            columns.stop = _KeepsTime(columns, stop)
        if stop.left_s >= BESIDE_S + BESIDE_S_PER_PIECE * problem.pieces:
            ground = _beside(columns)
        else:
            sampling_s = SAMPLING_S_PER_PAIR * len(columns.asked_poses) ** 2 / workers
        _lay_out(columns, _in_order(columns, groups, seed if another else None), columns.stop)
        columns.stop = stop
    if not len(columns.strip.pose):
        return None
    best = _lay(problem, columns, seed)
    listener.better(best)
    if any(columns.left.values()):
        return best
    if stop.left_s < sampling_s:
        ground = None
    return _shortened(problem, columns, ground, best, seed, work, workers, listener, stop)


def solve_in_parts(
    problem: LayProblem, *, below_mm: float, seed: int, stop: Stop, listener: Listener, workers: int
) -> Lay | None:
    """Lay bands as far as the time goes, from where the search before ended (``in_parts``).

    Returns the shortest lay found once all is laid; None until then, and where bands do not suit the problem
    or come out no shorter than ``below_mm``.
    """
    if not suits(problem):
        return None
    columns = _columns_of(problem, seed, stop)
    so_far = LaidSoFar.of(columns)
    if len(columns.dies) == 1 or so_far is None or so_far.came_to_nothing(stop.left_s):
        return None
    listener.phase(Phase(PhaseCode.ROWS))
    groups = _groups_of(columns, seed, stop, workers, quick=True)
    if stop():
        return None  # the lattices found are kept
    if _share_in_columns(columns, groups) < LEAST_IN_COLUMNS:
        so_far.give_up()
        return None
    begun_s = time.monotonic()  # what the lattices took the next search is spared
    ground = _beside(columns)
    so_far.take_up(len(groups))
    before = so_far.done
    kept = partial(so_far.keep, groups=len(groups))
    _lay_out(columns, _in_order(columns, groups, None), stop, begin=before, done=kept)
    if so_far.done <= len(groups):
        if so_far.done == before:
            so_far.give_up(time.monotonic() - begun_s)
        return None
    best = _lay(problem, columns, seed)
    if best.length_mm >= below_mm or any(columns.left.values()):
        so_far.give_up()
        return None
    listener.better(best)
    return _shortened(problem, columns, ground, best, seed, None, workers, listener, stop)


def _columns_of(problem: LayProblem, seed: int, stop: Stop) -> Columns:
    dies = leaning(problem, dies_of(problem), seed=seed, stop=stop)
    margin = problem.edge_margin_mm
    across = (margin, problem.roll.usable_width_mm - margin)
    return Columns(dies, families_of(dies), problem.gap_mm, across, stop)


def _groups_of(
    columns: Columns, seed: int, stop: Stop, workers: int, *, quick: bool
) -> list[tuple[Group, float]]:
    return groups_of(
        columns.dies,
        columns.families,
        columns.gap_mm,
        seed=seed,
        starts=STARTS_QUICK if quick else STARTS,
        stop=stop,
        quick=quick,
        threads=workers,
    )


def _beside(columns: Columns) -> Callable[[], Sampled]:
    """Sample what is asked for behind the bands on one processor, while the other lays them."""
    beside = ThreadPoolExecutor(1)
    ground = beside.submit(ground_of, columns).result
    beside.shutdown(wait=False)
    return ground


def _shortened(
    problem: LayProblem,
    columns: Columns,
    ground: Callable[[], Sampled] | None,
    best: Lay,
    seed: int,
    work: int | None,
    threads: int,
    listener: Listener,
    stop: Stop,
) -> Lay:
    """Shorten what is laid until the time is up; returns the shortest lay."""
    for _ in improved(
        columns,
        ground,
        seed=seed,
        passes=work,
        threads=threads,
        gathers=len(columns.dies) > 1,
        listener=listener,
        stop=stop,
    ):
        lay = _lay(problem, columns, seed)
        if lay.length_mm < best.length_mm:
            best = lay
            listener.better(lay)
    return best


def _one_die(columns: Columns, die: Die, gap_mm: float, seed: int, stop: Stop) -> Iterator[None]:
    """Lay rows of one die: at once as the first lattices are cut, then the best of all."""
    rings = list(die.rings_mm)
    # lattice rings are about their box centres, as the die's are up to a covering's hundredths
    move = np.array([(r.min(axis=0) + r.max(axis=0)) / 2.0 for r in rings])
    timed = math.isfinite(stop.left_s)
    lattices = searched(
        rings, gap_mm, seed=seed, stop=Share(stop, ROWS_SEARCH * stop.left_s) if timed else stop
    )
    shortest = math.inf
    for rough in (True, False):
        if stop() or not lattices:
            return
        if not rough:
            lattices += straight(rings, gap_mm, seed=seed, stop=stop)
        found = best_strip(lattices, die.demand, columns.across, seed=seed, rough=rough, stop=stop)
        if found.measure < shortest:
            shortest = found.measure
            columns.strip.drop(0)
            pose = np.array([columns.pose_of[0, int(k)] for k in found.pose])
            columns.strip.add(pose, found.at_mm - move[found.pose])
            columns.left[0] = 0
            yield


class _Pace:
    """Says whether to hurry: at the pace so far not all would be laid in time."""

    def __init__(self, columns: Columns, stop: Stop) -> None:
        self._columns, self._stop = columns, stop
        self._begun_s = time.monotonic()
        self._all_mm2 = self._rest_mm2()

    def _rest_mm2(self) -> float:
        return sum(n * self._columns.dies[d].area_mm2 for d, n in self._columns.left.items())

    @property
    def left_s(self) -> float:
        """The time left."""
        return self._stop.left_s

    def __call__(self) -> bool:
        done = 1.0 - self._rest_mm2() / self._all_mm2
        took = time.monotonic() - self._begun_s
        return took * (1.0 - done) > IN_TIME * self.left_s * done and took > 0.1 * self.left_s


class _KeepsTime:
    """Stops early enough to lay in plain rows what the bands have not laid by then."""

    def __init__(self, columns: Columns, stop: Stop) -> None:
        self._columns, self._stop = columns, stop

    @property
    def left_s(self) -> float:
        """The time left for bands."""
        return max(0.0, self._stop.left_s - REST_S_PER_PIECE * sum(self._columns.left.values()))

    def __call__(self) -> bool:
        return self.left_s <= 0.0


def _share_in_columns(columns: Columns, groups: list[tuple[Group, float]]) -> float:
    """Return which share of the cloth is of groups sure to make columns of their own."""
    if not groups:
        return 0.0
    area = sum(n * group.lattice.cell_mm2 for group, n in groups)
    in_groups = {family for group, _ in groups for family, _ in group.roles}
    for number, family in enumerate(columns.families):
        if number not in in_groups:  # no lattice was found: they fill what the others leave open
            area += sum(
                columns.dies[d].demand * columns.cloth_mm2[columns.pose_of[d, 0]] for d in family.dies
            )
    sure = (
        (group, n)
        for group, n in groups
        if n * group.count(group.main) >= SURE_COLUMNS * columns.in_one(group)
    )
    return sum(n * group.lattice.cell_mm2 for group, n in sure) / area


def _in_order(
    columns: Columns, groups: list[tuple[Group, float]], seed: int | None
) -> list[tuple[Group, float]]:
    """Return the groups in the order in which they are laid: the largest pieces first, or with a seed as
    though chance made them larger and smaller."""
    chance = np.random.default_rng(seed).normal(0.0, 0.0 if seed is None else ORDER_SPREAD, len(groups))

    def small(number: int) -> float:
        family = columns.families[groups[number][0].main]
        return -max(columns.dies[k].area_mm2 for k in family.dies) * math.exp(chance[number])

    return [groups[number] for number in sorted(range(len(groups)), key=small)]


def _lay_out(
    columns: Columns,
    groups: list[tuple[Group, float]],
    stop: Stop,
    begin: int = 0,
    done: Callable[[int], None] = lambda number: None,
) -> None:
    """Lay the groups one after the other, filling what each leaves open with the rest.

    The first ``begin`` of them are laid already; ``done`` is told after each how many are, and one more
    when all is laid.
    """
    if begin > len(groups):
        return
    dies, families = columns.dies, columns.families
    for number, (group, n) in enumerate(groups):
        if number < begin:
            continue
        if stop():
            return
        ks = families[group.main].dies
        share = min(1.0, n * group.count(group.main) / sum(dies[k].demand for k in ks))
        more = any(g.main == group.main for g, _ in groups[number + 1 :])
        amounts = [
            (k, min(columns.left[k], round(share * dies[k].demand)) if more else columns.left[k]) for k in ks
        ]
        amounts = [(k, amount) for k, amount in amounts if amount > 0]
        if number % 2:
            amounts.reverse()  # sizes next to each other differ little
        if len(columns.strip.pose) and sum(a for _, a in amounts) < LEAST_COLUMNS * columns.in_one(group):
            continue
        begun = columns.strip.end_mm - columns.largest_mm
        columns.lay_group(number, group, amounts)
        rest = [k for k in columns.left if columns.left[k] > 0]
        if rest and not columns.hurry() and not stop():
            fill(columns, rest, from_mm=begun - columns.largest_mm)
        if not stop():
            done(number + 1)
    rest = [k for k in columns.left if columns.left[k] > 0]
    if rest and not stop():
        # too few for columns of their own
        area_left = sum(columns.left[k] * dies[k].area_mm2 for k in rest)
        room = area_left / (0.5 * (columns.across[1] - columns.across[0])) + 2.0 * columns.largest_mm
        fill(columns, rest, from_mm=columns.strip.end_mm - 2.0 * columns.largest_mm, room_mm=room)
    if not stop():
        done(len(groups) + 1)


def _lay(problem: LayProblem, columns: Columns, seed: int) -> Lay:
    strip = columns.strip
    start = float((strip.at_mm[:, 0] + columns.contacts.low[strip.pose, 0]).min())
    places = [
        (*columns.die_at[p], x - start + problem.end_margin_mm, y)
        for p, (x, y) in zip(strip.pose.tolist(), strip.at_mm.tolist(), strict=True)
    ]
    placements = dealt(columns.dies, places)
    lay = Lay(placements, problem.length_of_mm(placements), engine=BANDS, seed=seed)
    return cleared(problem, lay)
