"""The best lay known for a problem, of all that were found: what no figure may be worse than."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Protocol

from nesting.known.derive import derived, estimate_mm, joined, whole_copies, without
from nesting.known.record import KnownLay, demand_of, exact_key, family_key, record_of
from nesting.lay import Lay
from nesting.problem import LayProblem

MOST_TRIED = 8
"""So many known lays are tried on a problem at most, those first that promise the shortest ..."""

ENOUGH = 2
"""... and no more once this many have served: judging a long lay takes as long as a short search."""

MOST_JOINED = 4
"""This many known lays are tried with another one behind them for the rest, the densest first."""

SHORTER_MM = 1e-6
"""A lay must be shorter by this to count as better."""


class KnownLays(Protocol):
    """Where lays are kept: in memory for a calculation, or on disk for a workshop."""

    def candidates(self, problem: LayProblem) -> Iterable[KnownLay]:
        """Return kept lays of the problem's family."""
        ...

    def keep(self, problem: LayProblem, lay: Lay) -> None:
        """Keep a verified lay, unless a better one of the same problem is there."""
        ...


def best_known(problem: LayProblem, kept: Iterable[KnownLay]) -> tuple[Lay, KnownLay] | None:
    """Return the shortest judged lay that any kept one gives, with the one that gave it."""
    demand = demand_of(problem)
    promising: list[tuple[float, int, KnownLay]] = []
    for known in kept:
        length_mm = estimate_mm(problem, known, demand)
        if length_mm is not None:
            promising.append((length_mm, len(promising), known))
    best: tuple[Lay, KnownLay] | None = None
    served = 0
    for _, _, known in sorted(promising, key=lambda each: each[:2])[:MOST_TRIED]:
        if served == ENOUGH:
            break
        lay = derived(problem, known)
        served += lay is not None
        if lay is not None and (best is None or lay.length_mm < best[0].length_mm - SHORTER_MM):
            best = lay, known
    return best


def is_start(problem: LayProblem, known: KnownLay) -> bool:
    """Whether a search should begin from what a known lay gives, not from its own first layout.

    A lay from which most pieces were taken out is full of holes, and a search with little time would end
    with them.
    """
    return 2 * problem.pieces >= len(known.placements)


def is_same(problem: LayProblem, known: KnownLay) -> bool:
    """Whether a known lay was found for the same pieces, gap and width: that search was one for this."""
    same_cloth = known.gap_mm == problem.gap_mm and known.width_mm == problem.roll.usable_width_mm
    return same_cloth and dict(known.demand) == demand_of(problem)


def best_joined(problem: LayProblem, kept: Sequence[KnownLay]) -> tuple[Lay, KnownLay] | None:
    """Return the shortest judged lay of a known one, as often as it goes in whole, and one for the rest."""
    if problem.roll.flaws or problem.pinned:
        return None
    demand, area = demand_of(problem), problem.net_area_mm2
    fitting: list[tuple[float, int, KnownLay, int, LayProblem]] = []
    for known in kept:
        times = whole_copies(demand, known)
        if times and estimate_mm(problem, known, known.demand) is not None:
            rest = without(problem, known, times)
            dense = (area - rest.net_area_mm2) / (times * known.length_mm)
            fitting.append((-dense, len(fitting), known, times, rest))
    best: tuple[Lay, KnownLay] | None = None
    for _, _, known, _, rest in sorted(fitting, key=lambda each: each[:2])[:MOST_JOINED]:
        if not rest.pieces:
            continue  # a whole number of copies: ``best_known`` has it
        laid = replace(
            problem,
            items=tuple(
                replace(item, demand=item.demand - left.demand)
                for item, left in zip(problem.items, rest.items, strict=True)
            ),
        )
        first, second = derived(laid, known), best_known(rest, kept)
        lay = None if first is None or second is None else joined(problem, first, second[0])
        if lay is not None and (best is None or lay.length_mm < best[0].length_mm - SHORTER_MM):
            best = lay, known
    return best


class Pool:
    """The lays of one calculation, in memory; ``behind`` is what a workshop remembers, if anything."""

    def __init__(self, behind: KnownLays | None = None) -> None:
        self._behind = behind
        self._kept: dict[str, dict[str, KnownLay]] = {}
        self._problems: dict[str, LayProblem] = {}

    def candidates(self, problem: LayProblem) -> Iterable[KnownLay]:
        """Return kept lays of the problem's family, those of the workshop last."""
        yield from self._kept.get(family_key(problem), {}).values()
        if self._behind is not None:
            yield from self._behind.candidates(problem)

    def keep(self, problem: LayProblem, lay: Lay) -> None:
        """Keep a verified lay here and behind, unless a better one of the same problem is there."""
        self._note(problem, lay)
        if self._behind is not None:
            self._behind.keep(problem, lay)

    def settle(self) -> None:
        """Give each problem that a lay was kept for the best lay any gives, until none gets shorter.

        Once is not enough: a lay thinned or joined for one problem may be the best for another. Afterwards no
        lay here is longer than what any other one here gives for its problem (``derive.estimate_mm``).
        """
        shorter = True
        while shorter:
            lays = [(problem, self.best(problem)) for problem in self._problems.values()]
            shorter = any([lay is not None and self._note(problem, lay) for problem, lay in lays])

    def _note(self, problem: LayProblem, lay: Lay) -> bool:
        """Keep a lay in memory if it is the shortest of its problem; returns whether it is."""
        family, key = self._kept.setdefault(family_key(problem), {}), exact_key(problem)
        self._problems.setdefault(key, problem)
        before = family.get(key)
        if before is not None and lay.length_mm >= before.length_mm - SHORTER_MM:
            return False
        family[key] = record_of(problem, lay)
        return True

    def best(self, problem: LayProblem) -> Lay | None:
        """Return the best lay known for a problem, judged; None when none serves."""
        kept = tuple(self.candidates(problem))
        found = [each for each in (best_known(problem, kept), best_joined(problem, kept)) if each is not None]
        return min((lay for lay, _ in found), key=lambda lay: lay.length_mm, default=None)
