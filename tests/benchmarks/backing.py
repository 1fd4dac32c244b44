"""How fast a backing is derived, beside what a plain even inset costs in the same run.

    PYTHONPATH=. .venv/bin/python tests/benchmarks/backing.py

Prints, for smooth outlines of several sizes with five edges of different setback, the time of
``derive_backing`` and its ratio to shapely's ``buffer`` by an even setback with mitred joins.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from functools import partial

import numpy as np

from geometry.backing.derive import derive_backing
from geometry.backing.house_rules import DraftRules
from geometry.edge_kinds import EdgeKind
from geometry.outline import Outline
from geometry.piece import Edge, Edging, PullAxis, UpperPiece

RUNS = 7
SETBACKS_MM = (10.0, 2.0, 5.5, 0.0, 8.0)


def smooth_piece(count: int) -> UpperPiece:
    """A smooth outline of about 200 x 130 mm with hollows, in five edges."""
    angle = np.linspace(0, 2 * np.pi, count, endpoint=False)
    radius = 60 + 9 * np.cos(2 * angle + 0.3) + 5 * np.cos(3 * angle + 1) + 3 * np.cos(4 * angle + 2)
    outline = Outline.make(np.stack([1.5 * radius * np.cos(angle), radius * np.sin(angle)], axis=1))
    edges = tuple(Edge(EdgeKind.RAW, s, 0.0, True) for s in SETBACKS_MM)
    edging = Edging((tuple(k * count // 5 for k in range(5)),), (edges,))
    return UpperPiece("piece", "37", "left", outline, edging, PullAxis(0.0, "person", True))


def fastest_ms(work: Callable[[], object]) -> float:
    """Return the time of the fastest of several runs."""
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times) * 1e3


def main() -> None:
    """Print the table."""
    print(f"{'vertices':>9} {'derive ms':>10} {'rounded ms':>11} {'buffer ms':>10} {'ratio':>6}")
    for count in (100, 200, 1000, 5000):
        piece = smooth_piece(count)
        derived = fastest_ms(partial(derive_backing, piece, DraftRules()))
        rounded = fastest_ms(partial(derive_backing, piece, DraftRules(knife_radius_mm=3.0)))
        plain = fastest_ms(partial(piece.outline.polygon.buffer, -5.0, join_style="mitre"))
        print(f"{count:9d} {derived:10.1f} {rounded:11.1f} {plain:10.2f} {derived / plain:6.1f}")


if __name__ == "__main__":
    main()
