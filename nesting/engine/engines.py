"""What every engine is called by, and the list of those there are.

An engine is a function of a problem and of how to work on it. It knows neither clock nor screen: it asks
``stop`` and tells ``listener``. With ``work`` it ends by a counted amount of work, and then the same
problem, seed and work give the same lay. It answers None when it comes to nothing; ``verify`` judges what
it answers, whatever it is.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from nesting.lay import Lay
from nesting.listen import Listener
from nesting.problem import LayProblem
from nesting.stop import Stop


class Engine(Protocol):
    """One call for every engine; ``workers`` is how many processors it may use."""

    def __call__(
        self,
        problem: LayProblem,
        *,
        seed: int = 0,
        stop: Stop | None = None,
        listener: Listener | None = None,
        workers: int = 2,
        work: int | None = None,
    ) -> Lay | None:
        """Return the best lay found, None when there is none."""


def _first_layout() -> Engine:
    from nesting.free import first_layout

    return first_layout.solve


def _sections() -> Engine:
    from nesting.free import sections

    return sections.solve


def _bands() -> Engine:
    from nesting.rows import production

    return production.solve


ENGINES: dict[str, Callable[[], Engine]] = {
    "first-layout": _first_layout,
    "sections": _sections,
    "bands": _bands,
}
"""The engines by name, each loaded when it is asked for: reading compiled code takes a while."""
