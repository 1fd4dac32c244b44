"""Frame times of the lay desk with 100, 1,000 and 5,000 pieces: pan, zoom, drag with live collision.

    QT_QPA_PLATFORM=offscreen .venv/bin/python tests/benchmarks/window_lay.py

Medians in milliseconds of wall and of processor time (the second is steadier on a busy machine).
Pieces lie in a plain grid; a board of more than some thousand items moves as a picture while it
is panned or zoomed, so the 5,000 row shows that, not a repainted board.
"""

from __future__ import annotations

import os
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
ROOT = Path(__file__).resolve().parents[2]
sys.path[0] = str(ROOT)  # the packages themselves, not the benchmarks named after them
sys.path.append(str(Path(__file__).parent))

# ruff: noqa: E402

from opened_window import held_mb, opened_window

from app.tools.pointer import Pointer
from app.window.desks.lay.kept_lay import problem_for

RUNS = 15


def main() -> None:
    """Measure and print."""
    with opened_window() as (app, window):
        window.files.open_paths([ROOT / "sample_styles/derby/derby.style.json"])
        window.show_desk([desk.name for desk in window.desks].index("lay"))
        for count in (100, 1000, 5000):
            measure(window.desk, count, app)
        print(f"memory held {held_mb():.0f} MB")


def grid(desk, count: int):
    """Return about ``count`` placements in columns across the roll."""
    desk.edit("order", pairs={desk.session.style.size_run.base: max(1, count // 8)})
    problem = problem_for(desk.session.style, desk.lay)
    placed, x, y, wide = [], 5.0, 5.0, 0.0
    for item in problem.items:
        turn_deg = (item.turns_deg or (0.0,))[0]
        low_x, low_y, high_x, high_y = item.outline.turned(turn_deg).bbox_mm
        for _ in range(item.demand):
            if y + high_y - low_y > problem.roll.usable_width_mm - 5:
                x, y, wide = x + wide + 4, 5.0, 0.0
            placed.append((item.id, turn_deg, x - low_x, y - low_y, False))
            y, wide = y + high_y - low_y + 4, max(wide, high_x - low_x)
    return tuple(placed)


def measure(desk, count: int, app) -> None:
    """Lay ``count`` pieces and time what hands do with them."""
    placements = grid(desk, count)
    begun = time.perf_counter()
    desk.edit("fill", placements=placements)
    app.processEvents()
    shown_ms = 1000 * (time.perf_counter() - begun)
    desk._judge()
    desk.fit()
    app.processEvents()
    print(f"{len(placements)} pieces: shown after {shown_ms:.0f} ms, {len(desk.judged.faults)} faults")
    view, port = desk.view, desk.view.viewport()

    def pan(k: int) -> None:
        view.pan_by(3, 1)
        port.repaint()

    def zoom(k: int) -> None:
        view.zoom_by(1.01)
        port.repaint()

    report("pan, all in view", pan)
    report("zoom, all in view", zoom)
    view._move_on()
    port.repaint()

    def whole(k: int) -> None:
        view._picture = None
        port.repaint()

    report("whole repaint", whole)
    point = desk.table.polygons[3].representative_point()
    px = view.px_per_mm
    view.pressed.emit(Pointer(point.x, point.y, px))
    app.processEvents()

    def drag(k: int) -> None:
        view.moved.emit(Pointer(point.x + (10 + 3 * k) / px, point.y + k / px, px))
        app.processEvents()

    report("drag, live collision", drag)

    def drop(k: int) -> None:
        view.released.emit(Pointer(point.x + 60 / px, point.y, px))
        app.processEvents()

    report("drop, copy on disk", drop, runs=1)


def report(label: str, act: Callable[[int], None], runs: int = RUNS) -> None:
    """Time ``act``."""
    wall, cpu = [], []
    for k in range(runs):
        begun, used = time.perf_counter(), time.process_time()
        act(k)
        wall.append(1000 * (time.perf_counter() - begun))
        cpu.append(1000 * (time.process_time() - used))
    print(
        f"  {label:24s} wall {statistics.median(wall):6.1f} ms   processor {statistics.median(cpu):6.1f} ms"
    )


if __name__ == "__main__":
    main()
