"""Into which sections a large demand is best split, and the search for each."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from nesting.free import sampling
from nesting.free.general_solver import NO_CLOCK_S, Search, pays, suits
from nesting.problem import LayProblem
from nesting.stop import Share, Stop

FROM_PIECES = 150
"""Smaller demands are searched whole."""

WHOLE_PIECES = 600
"""Demands that do not repeat are searched whole up to this."""

CHUNK_PIECES = 200
"""Size of the sections of a demand that does not repeat."""

SECTION_PIECES = (80, 260)
"""Equal sections that are laid several times hold at least and at most this many pieces."""

PIECES_PER_S = 60.0
"""Pieces that are laid in several orders and squeezed in a second, about (measured)."""

LEAST_SECTION = 150
"""Smaller sections lose more at their ends than the squeeze gains."""

MOST_SEARCHED = 0.6
"""With little time sections are made only where they leave this much of the pieces to be laid, at most: else
the whole is squeezed in the same time and has no seams."""

SECTION_LENGTHS = 3.0
"""A section is at least this many lengths of the longest piece, or its ragged ends cost more than the
time gained (measured: straps of 300 mm in sections of two lengths took a quarter more cloth)."""

ROUNDED_DOWN = 0.75
"""Part of the least section that must be left when a demand is divided and rounded down."""

ROUGH_YIELD = 0.65
"""What a section yields, about: only for how many pieces lie in a length."""

CLOSING_S, CLOSING_S_PER_PIECE = 0.3, 1e-3
"""Time kept for setting sections together and judging the whole."""


@dataclass(frozen=True)
class RepeatedSection:
    """A section: what it holds, and how many times it is laid."""

    problem: LayProblem
    times: int


def parts_of(problem: LayProblem, seconds: float = math.inf) -> tuple[RepeatedSection, ...]:
    """Return the sections of a problem, the one laid most often first; one part: lay it whole.

    ``seconds`` there are: with little time the sections are smaller, so that each can be searched.
    """
    if problem.pieces <= LEAST_SECTION or not suits(problem) or sampling.as_a_whole(problem, seconds):
        return (RepeatedSection(problem, 1),)
    if problem.pieces > FROM_PIECES and problem.pieces > seconds * PIECES_PER_S:
        least = max(LEAST_SECTION, _pieces_in(problem, SECTION_LENGTHS))
        return _hurried(problem, least, max(least, seconds * PIECES_PER_S))
    if problem.pieces <= FROM_PIECES:
        return (RepeatedSection(problem, 1),)
    parts: list[RepeatedSection] = []
    left = [item.demand for item in problem.items]
    while (times := equal_sections(left)) > 1:
        parts.append(RepeatedSection(_with_demand(problem, [count // times for count in left]), times))
        left = [count % times for count in left]
    total = sum(left)
    if not parts and total <= WHOLE_PIECES:
        return (RepeatedSection(problem, 1),)
    if total:
        chunks = max(1, round(total / CHUNK_PIECES))
        parts += [RepeatedSection(part, 1) for part in _evenly(problem, left, chunks)]
    return tuple(parts)


def equal_sections(demand: Sequence[int]) -> int:
    """Return into how many equal sections a demand is best split: the fewest pieces left over."""
    total = sum(demand)
    low, high = SECTION_PIECES
    best = (math.inf, 1)
    for sections in range(max(2, math.ceil(total / high)), total // low + 1):
        left_over = sum(count % sections for count in demand)
        if total - left_over >= sections * low:
            best = min(best, (left_over, sections))
    return best[1]


def _pieces_in(problem: LayProblem, lengths: float) -> float:
    """Return about how many pieces lie in this many lengths of the longest along the roll."""
    longest = 0.0
    for item in problem.items:
        if item.demand:
            boxes = [item.outline.turned(turn).bbox_mm for turn in item.turns_deg or (0.0,)]
            longest = max(longest, min(box[2] - box[0] for box in boxes))
    room = lengths * longest * problem.roll.usable_width_mm * ROUGH_YIELD
    return problem.pieces * room / problem.net_area_mm2


def _hurried(problem: LayProblem, least: float, most: float) -> tuple[RepeatedSection, ...]:
    """Return sections of ``least`` to about ``most`` pieces: one laid several times, and one with
    what is left over; those with the fewest pieces to search. One part when there are none."""
    demand = [item.demand for item in problem.items]
    best: tuple[int, tuple[RepeatedSection, ...]] | None = None
    most_sections = int(problem.pieces / least)
    fewest = max(2, min(math.ceil(problem.pieces / most), most_sections))
    for count in range(fewest, min(2 * fewest + 2, most_sections) + 1):
        each = [n // count for n in demand]
        last = [n - (count - 1) * e for n, e in zip(demand, each, strict=True)]
        if sum(each) < ROUNDED_DOWN * least:
            continue
        parts = [RepeatedSection(_with_demand(problem, each), count if last == each else count - 1)]
        if last != each:
            parts.append(RepeatedSection(_with_demand(problem, last), 1))
        searched = sum(part.problem.pieces for part in parts)
        if searched <= MOST_SEARCHED * problem.pieces and (best is None or searched < best[0]):
            best = (searched, tuple(parts))
    return best[1] if best is not None else (RepeatedSection(problem, 1),)


def _with_demand(problem: LayProblem, demand: Sequence[int]) -> LayProblem:
    items = tuple(replace(i, demand=d) for i, d in zip(problem.items, demand, strict=True) if d)
    return replace(problem, items=items)


def _evenly(problem: LayProblem, demand: Sequence[int], chunks: int) -> list[LayProblem]:
    shares = [[0] * len(demand) for _ in range(chunks)]
    turn = 0
    for number, count in enumerate(demand):
        for _ in range(count):
            shares[turn % chunks][number] += 1
            turn += 1
    return [_with_demand(problem, share) for share in shares if sum(share)]


class SectionSearch:
    """The parts of a problem and the search for each; that for the first begins at once.

    Light to load: the search is at work while compiled code is still being read.
    """

    def __init__(
        self, problem: LayProblem, *, seed: int, stop: Stop, workers: int, work: int | None = None
    ) -> None:
        self.work = work
        self.problem = problem
        self.parts = parts_of(problem, stop.left_s)
        self.seed = seed
        self.workers = workers
        self.running: Search | None = None
        self.begin(0, stop)

    def begin(self, number: int, stop: Stop) -> None:
        """Begin the search for a part, if there is time for one."""
        self.close()
        seconds = self.seconds(number, stop.left_s)
        part = self.parts[number].problem
        if self.workers and part.pieces > 1 and pays(part, seconds):
            share = self.share(number, stop)
            self.running = Search(part, seed=self.seed, stop=share, workers=self.workers)

    def use_clusters(self) -> None:
        """Let the search that runs use clusters (``Search.use_clusters``)."""
        if self.running is not None:
            self.running.use_clusters()

    def begin_with(self, workers: int, stop: Stop) -> None:
        """Begin the search for the first part with this many processes."""
        self.workers = workers
        self.begin(0, stop)

    def __enter__(self) -> SectionSearch:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """End the search that runs."""
        if self.running is not None:
            self.running.close()
            self.running = None

    def share(self, number: int, stop: Stop) -> Stop:
        """When a part must stop: in its share of the time; where work is counted only when all must."""
        return stop if self.work else Share(stop, self.seconds(number, stop.left_s))

    def seconds(self, number: int, left_s: float) -> float:
        """A part's share of the time left: by its pieces, more for what is laid many times."""
        if not math.isfinite(left_s):
            return NO_CLOCK_S
        whole = len(self.parts) == 1 and self.parts[0].times == 1
        closing = 0.0 if whole else CLOSING_S + CLOSING_S_PER_PIECE * min(self.problem.pieces, 2000)
        weights = [part.problem.pieces * math.sqrt(part.times) for part in self.parts[number:]]
        return (left_s - closing) * weights[0] / sum(weights)
