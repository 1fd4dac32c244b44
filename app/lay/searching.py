"""One search for a lay, as commands and window do it: what it begins from, and what is kept of it."""

from __future__ import annotations

import os
from dataclasses import dataclass, replace
from pathlib import Path

from app.lay.kept import KeptLays
from geometry.said import said
from nesting.defaults import WORKERS
from nesting.known.pool import best_known, is_same, is_start
from nesting.lay import Lay
from nesting.problem import LayProblem


def workers_here() -> int:
    """Return how many processors search where nobody has said: the default, as far as there are any."""
    return min(WORKERS.value, os.cpu_count() or 1)


@dataclass(frozen=True)
class LaySearch:
    """A search for a problem's lay.

    It goes on from ``start``, the best lay that the workshop's store has for it (None: from the beginning),
    with a seed of its own for each time it was ``searched`` before. ``known`` is that best lay also where it
    is no good start.
    """

    problem: LayProblem
    store: KeptLays | None
    known: Lay | None = None
    start: Lay | None = None
    searched: int = 0

    @property
    def kept_in(self) -> Path | None:
        """The folder of sections and lattices found before."""
        return None if self.store is None else self.store.found_in

    def keep(self, lay: Lay) -> None:
        """Keep a verified lay for the next search; raises DatabaseError."""
        if self.store is not None:
            self.store.keep(self.problem, lay)

    def best_of(self, found: Lay) -> Lay:
        """Return the better of what was found and what was known; it says what it went on from."""
        if self.known is not None and self.known.length_mm < found.length_mm:
            return self.known  # full of holes, and shorter all the same
        return found if self.start is None else replace(found, began_from=self.start.began_from)


def search_for(problem: LayProblem, store: KeptLays | None) -> LaySearch:
    """Return the search for a problem's lay that goes on from the best one known; raises DatabaseError.

    Without a store it begins again.
    """
    if store is None:
        return LaySearch(problem, None)
    found = best_known(problem, store.candidates(problem))
    searched = store.searches(problem)
    if found is None:
        return LaySearch(problem, store, searched=searched)
    lay, record = found
    known = replace(lay, began_from=said("{0}, {1} m", record.name, f"{lay.length_mm / 1000:.3f}"))
    start = known if is_start(problem, record) else None
    if start is not None and not is_same(problem, record):
        start = replace(start, searched_s=0.0)  # what was searched for was another lay
    return LaySearch(problem, store, known, start, searched)
