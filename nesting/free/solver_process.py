"""``spyrrow`` in a process of its own: ``python -u -m nesting.free.solver_process``.

It cannot be interrupted and ignores its clock on large inputs, so the parent kills this process
when it has waited long enough. One line in: ``{"height", "items": [{"id", "shape", "demand",
"turns"}], "explore_s", "compress_s", "workers", "seed"}`` (mm, degrees). Lines out:
``{"event": "layout", "width", "placed": [[id, turn, x, y]...]}`` for every layout better than the
last that the library calls feasible, then ``{"event": "done"}``.
"""

from __future__ import annotations

import json
import os
import sys
import threading
import time

import spyrrow

from nesting.process import lines_or_die, say
from nesting.system.processes import work_behind_others

LOOK_S = 0.05  # a wish to stop is met within 200 ms

NICER = 4
"""How much nicer than the process that squeezes: against four threads here that keeps three quarters of a
processor, else a third. On POSIX; where nothing else works nothing is lost."""

INFEASIBLE = (spyrrow.ReportType.ExplInfeas, spyrrow.ReportType.ExplImproving)


def main() -> None:
    """Do the one job of standard input."""
    line = sys.stdin.readline()
    if not line:
        return
    lines_or_die(lambda _: None)
    work_behind_others(NICER)
    job = json.loads(line)
    items = [
        spyrrow.Item(
            item["id"],
            [tuple(point) for point in item["shape"]],
            demand=item["demand"],
            allowed_orientations=item["turns"],
        )
        for item in job["items"]
    ]
    instance = spyrrow.StripPackingInstance("strip", strip_height=job["height"], items=items)
    config = spyrrow.StripPackingConfig(
        early_termination=False,
        total_computation_time=None,
        exploration_time=job["explore_s"],
        compression_time=job["compress_s"],
        num_workers=job["workers"],
        seed=job["seed"],
    )
    progress = spyrrow.ProgressQueue()
    width = float("inf")

    def solve() -> None:
        try:
            instance.solve(config, progress)
        except BaseException as error:  # a panic of the library arrives as one
            say({"event": "failed", "message": str(error)})

    thread = threading.Thread(target=solve, daemon=True)
    thread.start()
    running = True
    while running:
        running = thread.is_alive()
        time.sleep(LOOK_S)
        best = None
        for kind, solution in progress.drain():
            if kind not in INFEASIBLE and solution.width < width:
                width, best = solution.width, solution
        if best is not None:
            placed = [[p.id, p.rotation, *p.translation] for p in best.placed_items]
            say({"event": "layout", "width": width, "placed": placed})
    say({"event": "done"})
    sys.stdout.flush()
    os._exit(0)


if __name__ == "__main__":
    main()
