"""Yield against time: our engine and the open general solver alone, side by side at each budget.

    nice -n -15 .venv/bin/python tests/benchmarks/anytime.py FOLDER NAME ... --seconds 1 2 3 6 12 20 60 \
        --seeds 0 1 2 --out runs.jsonl

Ours gets the wall time of the whole command, its start and writing included; the solver the same number of
seconds by its own clock, its start not counted, and it is taken at its word while ours is judged by
``verify``. One after the other, the same processors, seed after seed, so that what else the machine does
meets both. Every run is a line of ``--out``; what stands there for ``--label`` is not run again, so that a
table may be stopped and gone on with. Prints a Markdown table: the mean over the seeds, instance by instance,
and over all; then curves of the mean over orders of like size. Not a test: figures depend on the machine.
"""

from __future__ import annotations

import argparse
import json
import math
import os
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from itertools import pairwise
from pathlib import Path

from nesting_table import Result, ours_alone, solver_alone

SIZES = (0, 200, 900, 100_000)
"""Orders of like size: from one of these to below the next, in pieces."""

COLUMNS = 4
"""Columns of a curve to a point of yield."""


@dataclass(frozen=True)
class Run:
    """One run of one engine: what it was asked and the yield it reached."""

    label: str
    engine: str
    instance: str
    pieces: int
    seconds: int
    seed: int
    yield_percent: float
    wall_s: float
    peak_mb: float
    note: str
    load: float

    @property
    def key(self) -> tuple[str, str, str, int, int]:
        """What makes it the same run."""
        return self.label, self.engine, self.instance, self.seconds, self.seed


def main() -> None:
    """Make what runs are missing, then print the table."""
    options = _options()
    known = {run.key: run for run in _read(options.out)}
    for name in options.names or sorted(path.stem for path in options.folder.glob("*.json")):
        path = options.folder / f"{name}.json"
        doc = json.loads(path.read_text(encoding="utf-8"))
        gap = 2.0 if "-" in name else 0.0
        for seconds in options.seconds:
            for seed in options.seeds:
                for engine in options.engines:
                    pieces = sum(item["demand"] for item in doc["items"])
                    load = os.getloadavg()[0] if hasattr(os, "getloadavg") else 0.0
                    key = (options.label, engine, name, seconds, seed)
                    if key in known:
                        continue
                    if engine == "ours":
                        got = ours_alone(path, gap, seconds, options.workers, seed)
                    else:
                        got = solver_alone(path, doc, gap, seconds, options.workers, seed)
                    known[key] = _written(options.out, key, pieces, got, load)
    runs = [run for run in known.values() if run.label == options.label]
    _table(runs)
    _curves(runs)


def _written(file: Path, key: tuple[str, str, str, int, int], pieces: int, got: Result, load: float) -> Run:
    label, engine, name, seconds, seed = key
    run = Run(
        label,
        engine,
        name,
        pieces,
        seconds,
        seed,
        got.density,
        got.wall_s,
        got.peak_mb,
        got.note.strip(),
        load,
    )
    with file.open("a", encoding="utf-8") as out:
        out.write(json.dumps(asdict(run)) + "\n")
    return run


def _read(file: Path) -> list[Run]:
    if not file.exists():
        return []
    return [Run(**json.loads(line)) for line in file.read_text(encoding="utf-8").splitlines() if line.strip()]


def _table(runs: list[Run]) -> None:
    """Print solver / ours for each instance (fewest pieces first) and budget."""
    budgets = sorted({run.seconds for run in runs})
    pieces = {run.instance: run.pieces for run in runs}
    print("| solver / ours, % | pieces | " + " | ".join(f"{seconds} s" for seconds in budgets) + " |")
    print("|---" * (2 + len(budgets)) + "|")
    for name in sorted(pieces, key=lambda name: (pieces[name], name)):
        cells = [
            _cell([run for run in runs if run.instance == name and run.seconds == seconds])
            for seconds in budgets
        ]
        print(f"| {name} | {pieces[name]} | " + " | ".join(cells) + " |")
    both = [run for run in runs if {"solver", "ours"} <= {r.engine for r in runs if _asked(r) == _asked(run)}]
    cells = [_cell([run for run in both if run.seconds == seconds]) for seconds in budgets]
    print("| mean of runs with both | | " + " | ".join(cells) + " |")


def _curves(runs: list[Run]) -> None:
    """Print yield against time by size of the order: S the solver alone, O ours, where both were run."""
    budgets = sorted({run.seconds for run in runs})
    for least, most in pairwise(SIZES):
        like = [run for run in runs if least <= run.pieces < most]
        means = {
            (engine, seconds): _mean(
                [
                    run.yield_percent
                    for run in like
                    if (run.engine, run.seconds) == (engine, seconds)
                    and {"solver", "ours"} <= {r.engine for r in like if _asked(r) == _asked(run)}
                ]
            )
            for engine in ("solver", "ours")
            for seconds in budgets
        }
        shown = [mean for mean in means.values() if mean is not None]
        if not shown:
            continue
        low = math.floor(min(shown))
        names = sorted({run.instance for run in like})
        print(f"\n{', '.join(names)}: from {low} %, a column is {1 / COLUMNS:g} points")
        for seconds in budgets:
            line = [" "] * round(COLUMNS * (max(shown) - low) + 2)
            for engine, letter in (("solver", "S"), ("ours", "O")):
                mean = means[engine, seconds]
                if mean is not None:
                    line[round(COLUMNS * (mean - low))] = letter
            if "".join(line).strip():
                figures = " / ".join(f"{means[e, seconds] or 0.0:.1f}" for e in ("solver", "ours"))
                print(f"{seconds:3d} s |{''.join(line).rstrip()}   {figures}")


def _mean(figures: list[float]) -> float | None:
    return sum(figures) / len(figures) if figures else None


def _asked(run: Run) -> tuple[str, int, int]:
    return run.instance, run.seconds, run.seed


def _cell(runs: Iterable[Run]) -> str:
    figures = []
    for engine in ("solver", "ours"):
        found = [run.yield_percent for run in runs if run.engine == engine]
        figures.append(f"{sum(found) / len(found):.1f}" if found else "-")
    return " / ".join(figures)


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("names", nargs="*")
    parser.add_argument("--seconds", type=int, nargs="+", default=[1, 2, 3, 6, 12, 20, 60])
    parser.add_argument("--seeds", type=int, nargs="+", default=[0])
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--engines", nargs="+", choices=("solver", "ours"), default=["solver", "ours"])
    parser.add_argument("--label", default="now", help="which state of the engine the runs are of")
    parser.add_argument("--out", type=Path, default=Path("anytime.jsonl"))
    return parser.parse_args()


if __name__ == "__main__":
    main()
