"""Large demands as sections of a hundred or two pieces, each searched once and laid many times over.

A section that repeats is joined to its own copy: as a strip whose end meets its beginning it is
squeezed on the true outlines until its period is shortest, so its ragged ends interlock. Demands
that do not repeat are split into sections of different pieces.
"""

from __future__ import annotations

import math
import time
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from geometry.outline import rotation
from nesting.compaction.lays import PoseContacts, compact
from nesting.compaction.slp import Arrangement, shortfall, tighten
from nesting.compaction.strip import Strip, pull
from nesting.contact.row_profiles import grown, profile
from nesting.free import arrangement as mixed
from nesting.free import first_layout, kept_sections
from nesting.free.general_solver import suits
from nesting.free.section_parts import CHUNK_PIECES, RepeatedSection, SectionSearch
from nesting.known import folder
from nesting.lay import Lay, Placement
from nesting.listen import Listener, Phase, PhaseCode, Silent
from nesting.problem import LayProblem
from nesting.stop import Never, Share, Stop
from nesting.tolerances import SPARE_MM

SQUEEZE_WHOLE = 400
"""Lays of up to this many pieces are squeezed as a whole in the end, larger ones at their end."""

MOST_WHOLE, WHOLE_SHARE, OTHERS_SHARE = 800, 0.5, 0.25
"""Lays of up to so many pieces are first squeezed as a whole while that pays, in this share of the time at
most (400 pieces of the sandal have 68.7 % after 5 s of a processor, where sections have 66 at 12, measured);
first layouts after the shortest are begun in this share."""

BEHIND = 1.04
"""Sections are given up for the whole where at the yield of what their search has found by then all would be
longer than the whole by this: squeezing them against each other brings no more (at 12 s, measured: 470 pieces
of the sandal 69.0 % as a whole, 67.4 in sections; of the court 59.8 and 62.4, their search not behind)."""

TURNS_S_PER_PIECE = 0.035
"""With more time than this for each piece their search may still turn it, and they are not given up
(BEHIND was measured so)."""

REST = 5.0
"""The whole is set together at most every so many times as long as that takes."""

ROW_MM = 3.0
"""Height of the rows by which sections are set one against the other."""


def solve(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 2,
    work: int | None = None,
    start: Lay | None = None,
    firsts: Sequence[Lay] | None = None,
    searches: SectionSearch | None = None,
) -> Lay:
    """Return the shortest lay found.

    ``start`` is the lay to beat, ``firsts`` the first layouts of the problem, the shortest first (both are
    made if None), and ``searches`` a search of this problem begun before, with this seed and work.
    """
    stop, listener = stop or Never(), listener or Silent()
    if searches is None:
        searching = 0 if work else workers
        searches = SectionSearch(problem, seed=seed, stop=stop, workers=searching, work=work)
    try:
        firsts = firsts or first_layout.layouts(
            problem, seed=seed, stop=stop, listener=listener, workers=workers
        )
        return _searched(searches, stop, listener, start or firsts[0], firsts)
    finally:
        searches.close()


def _searched(
    searches: SectionSearch, stop: Stop, listener: Listener, start: Lay, firsts: Sequence[Lay]
) -> Lay:
    searches.use_clusters()
    if _may_squeeze_whole(searches, stop):
        until = Share(stop, WHOLE_SHARE * stop.left_s)
        others_s = min(OTHERS_SHARE * stop.left_s, mixed.MOST_FIRST_S_PER_PIECE * searches.problem.pieces)
        others = Share(stop, others_s)
        start = mixed.squeezed(searches.problem, firsts, stop=until, others=others, listener=listener)
        if _whole_is_ahead(searches, start, stop):
            searches.close()
            return mixed.solve(
                searches.problem,
                seed=searches.seed,
                stop=stop,
                listener=listener,
                workers=max(1, searches.workers),
                start=start,
                others=firsts[1:],
            )
    whole = _Whole(searches.problem, searches.parts, listener, start)
    if searches.work:
        whole.only_at_the_end()
    for number, part in enumerate(searches.parts):
        if number:
            searches.begin(number, stop)
            searches.use_clusters()
        whole.now(number)
        if part.problem is not searches.problem:
            firsts = first_layout.layouts(
                part.problem, seed=searches.seed, stop=stop, workers=searches.workers
            )
        whole.better(firsts[0])
        if part.problem is searches.problem and start.length_mm < firsts[0].length_mm:
            firsts = [start, *firsts]
        store = None if part.problem is searches.problem else folder.in_use()
        known = kept_sections.find(store, part.problem)
        if known is not None and known.length_mm < firsts[0].length_mm:
            firsts = [known, *firsts]
            whole.better(known)
        found = mixed.solve(
            part.problem,
            seed=searches.seed,
            stop=searches.share(number, stop),
            listener=whole,
            workers=searches.workers,
            start=firsts[0],
            others=firsts[1:],
            search=searches.running,
            work=searches.work,
        )
        kept_sections.keep(store, part.problem, found)
    whole.finish(stop)
    return whole.best


def _may_squeeze_whole(searches: SectionSearch, stop: Stop) -> bool:
    """Whether sections are made of what can first be squeezed as a whole, which sections may not undercut."""
    several = len(searches.parts) > 1 or searches.parts[0].times > 1
    room = math.isfinite(stop.left_s) and searches.problem.pieces <= MOST_WHOLE
    return several and room and suits(searches.problem)


def _whole_is_ahead(searches: SectionSearch, whole: Lay, stop: Stop) -> bool:
    """Whether sections are not likely to undercut the whole in the time left."""
    if stop.left_s > TURNS_S_PER_PIECE * searches.problem.pieces:
        return False
    found = None if searches.running is None else searches.running.best()
    if found is None:
        return True
    share = searches.parts[0].problem.net_area_mm2 / searches.problem.net_area_mm2
    return found.width_mm > BEHIND * share * whole.length_mm


class _Whole:
    """Hears of better sections and sets the whole lay together from the best of each."""

    def __init__(
        self, problem: LayProblem, parts: Sequence[RepeatedSection], listener: Listener, start: Lay
    ) -> None:
        self._problem = problem
        self._parts = parts
        self._listener = listener
        self._contacts = PoseContacts(problem)
        self._rows = _Rows(problem)
        self._lays: list[Lay | None] = [None] * len(parts)
        self._number = 0
        self._look_again = 0.0
        self.best = start

    def only_at_the_end(self) -> None:
        """Set nothing together on the way: when that is done depends on the clock."""
        self._look_again = math.inf

    def now(self, number: int) -> None:
        """Sections heard of from now on are of part ``number``."""
        self._number = number

    def phase(self, phase: Phase) -> None:
        """Pass on, with the section it is about where there are several."""
        times = self._parts[self._number].times
        self._listener.phase(phase.of_section(self._number + 1, len(self._parts), times))

    def better(self, lay: Lay) -> None:
        """Set the whole together with a better section."""
        known = self._lays[self._number]
        if known is not None and lay.length_mm >= known.length_mm:
            return
        self._lays[self._number] = lay
        if any(found is None for found in self._lays) or time.monotonic() < self._look_again:
            return
        begun = time.monotonic()
        self._take(self._together())
        self._look_again = time.monotonic() + REST * (time.monotonic() - begun)

    def finish(self, stop: Stop) -> None:
        """Squeeze the whole, or its end."""
        if any(found is None for found in self._lays) or stop():
            return
        self._listener.phase(Phase(PhaseCode.SQUEEZE))
        placements = self._together()
        self._take(placements)
        if len(placements) <= SQUEEZE_WHOLE:
            moved = compact(self._problem, placements, contacts=self._contacts, steps=40, stop=stop)
        else:
            moved = self._end_pulled(placements, stop)
        if moved is not None:
            self._take(moved)

    def _take(self, placements: tuple[Placement, ...]) -> None:
        length = self._problem.length_of_mm(placements)
        if length < self.best.length_mm:
            names = dict.fromkeys(lay.engine for lay in self._lays if lay is not None)
            engine = ", ".join(names)
            if len(placements) > sum(part.problem.pieces for part in self._parts[:1]):
                engine += ", in sections"
            self.best = replace(self.best, placements=placements, length_mm=length, engine=engine)
            self._listener.better(self.best)

    def _together(self) -> tuple[Placement, ...]:
        rows = self._rows
        front = np.full(rows.count, self._problem.end_margin_mm - rows.grow_mm)
        placed: list[Placement] = []
        for part, lay in zip(self._parts, self._lays, strict=True):
            assert lay is not None
            section, period = lay.placements, 0.0
            if part.times > 1:
                section, period = self._joined(section)
            low, high = rows.reach(section)
            shift = float((front - low).max())
            for copy in range(part.times):
                dx = shift + copy * period
                placed += [replace(at, x_mm=at.x_mm + dx) for at in section]
                front = np.maximum(front, high + dx)
        return tuple(placed)

    def _joined(self, section: tuple[Placement, ...]) -> tuple[tuple[Placement, ...], float]:
        """Return a section squeezed against its own copy, and its period."""
        low, high = self._rows.reach(section)
        period = float((high - low).max())
        margin = self._problem.edge_margin_mm
        start = Arrangement(
            pose=np.array([self._contacts.pose(at.item_id, at.turn_deg) for at in section]),
            at_mm=np.array([(at.x_mm, at.y_mm) for at in section]),
            basis_mm=np.array([[period, 0.0]]),
            across_mm=(margin, self._problem.roll.usable_width_mm - margin),
        )
        gap = self._problem.gap_mm
        trust = float((self._contacts.high - self._contacts.low).max(axis=1).mean()) / 40.0
        done = tighten(self._contacts, start, gap + SPARE_MM, trust_mm=trust, steps=20)
        if done is None or done.measure >= period or shortfall(self._contacts, done, gap) > SPARE_MM:
            return section, period
        moved = tuple(
            replace(at, x_mm=x, y_mm=y) for at, (x, y) in zip(section, done.at_mm.tolist(), strict=True)
        )
        return moved, done.measure

    def _end_pulled(self, placements: tuple[Placement, ...], stop: Stop) -> tuple[Placement, ...] | None:
        """Squeeze the last pieces against all before them."""
        margin, end = self._problem.edge_margin_mm, self._problem.end_margin_mm
        strip = Strip(
            self._contacts, self._problem.gap_mm, (margin, self._problem.roll.usable_width_mm - margin)
        )
        strip.add(
            np.array([self._contacts.pose(at.item_id, at.turn_deg) for at in placements]),
            np.array([(at.x_mm - end, at.y_mm) for at in placements]),
        )
        if not pull(
            strip, len(placements) - CHUNK_PIECES, len(placements), steps=15, trust_mm=3.0, stop=stop
        ):
            return None
        return tuple(
            replace(at, x_mm=x + end, y_mm=y)
            for at, (x, y) in zip(placements, strip.at_mm.tolist(), strict=True)
        )


class _Rows:
    """Where pieces start and end in rows across the roll, grown by half the gap."""

    def __init__(self, problem: LayProblem) -> None:
        self._problem = problem
        self.grow_mm = problem.gap_mm / 2.0 + SPARE_MM
        self._low_mm = problem.edge_margin_mm - self.grow_mm
        height = problem.roll.usable_width_mm - 2.0 * self._low_mm
        self.count = math.ceil(height / ROW_MM) + 1
        self._rings: dict[tuple[str, float], NDArray[np.float64]] = {}

    def reach(self, placements: Sequence[Placement]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Return the least and greatest x of the pieces in each row (infinite where there is none)."""
        low = np.full(self.count, np.inf)
        high = np.full(self.count, -np.inf)
        for at in placements:
            key = (at.item_id, at.turn_deg)
            if key not in self._rings:
                ring = self._problem.by_id[at.item_id].outline.ring_mm @ rotation(at.turn_deg).T
                self._rings[key] = grown(ring, self.grow_mm)
            ring = self._rings[key] + (at.x_mm, at.y_mm - self._low_mm)
            first = max(0, math.floor(ring[:, 1].min() / ROW_MM))
            ring[:, 1] = np.maximum(ring[:, 1] - first * ROW_MM, 0.0)
            left, right = profile(ring, ROW_MM)
            rows = slice(first, min(self.count, first + len(left)))
            left, right = left[: rows.stop - first], right[: rows.stop - first]
            low[rows] = np.minimum(low[rows], left)
            high[rows] = np.maximum(high[rows], right)
        return low, high
