"""``lay`` and ``plan`` for many styles: each style and width a job of its own, side by side."""

from __future__ import annotations

import argparse
import os
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from app.commands import Outcome, say
from app.errors import UsageError
from app.plan.season import SeasonJob, TaskResult, run_season
from app.style.file import load_style
from geometry.said import percent

SHOWN = ("length_mm", "yield", "cloth_m", "gap", "cost")


def add_many(parser: argparse.ArgumentParser) -> None:
    """How many jobs run at once, and where."""
    parser.add_argument(
        "--jobs", type=int, default=os.cpu_count() or 1, metavar="N", help="jobs at once with many styles"
    )
    parser.add_argument(
        "--cluster", default="", metavar="ADDRESS", help="hand the jobs to a running Dask scheduler"
    )


def run_many(
    command: str,
    styles: Sequence[Path],
    run: Path | None,
    pairs: str | None,
    options: Sequence[str],
    widths_mm: Sequence[float],
    out: Path,
    *,
    jobs: int,
    cluster: str,
) -> Outcome:
    """Run ``command`` for every style (and width); jobs finished before are not done again.

    The order is ``pairs``, the file ``run``, each style's own, or ``order.csv`` beside it. Raises UsageError
    for a style without an order.
    """
    if jobs < 1:
        raise UsageError(f"--jobs {jobs} is not valid", remedy="give a number from 1")
    tasks = [
        _task(command, style, run, pairs, options, width)
        for style in styles
        for width in (widths_mm or (None,))
    ]
    results = run_season(tasks, out, workers=jobs, cluster=cluster, tell=say)
    entries = [_entry(results[task.key]) for task in tasks]
    failed = [entry for entry in entries if entry["status"] != 0]
    lines = [f"{entry['job']}: {_words(entry)}" for entry in entries]
    lines.append(f"{len(entries) - len(failed)} of {len(entries)} done, in {out}")
    return Outcome(
        {"jobs": entries, "done": len(entries) - len(failed)}, "\n".join(lines), 1 if failed else 0
    )


def _task(
    command: str,
    style: Path,
    run: Path | None,
    pairs: str | None,
    options: Sequence[str],
    width_mm: float | None,
) -> SeasonJob:
    files = {style.name: _content(style)}
    words = [command, style.name]
    own = pairs is None and run is None and any(load_style(style).order.values())
    order = run if run is not None else style.with_name("order.csv")
    if pairs is not None:
        words += ["--pairs", pairs]
    elif not own and order.is_file():
        files[order.name] = _content(order)
        words += ["--run", order.name]
    elif not own:
        raise UsageError(
            "has no order of its own, and none lies beside it",
            file=str(style),
            remedy="put an order.csv there, or give --pairs or --run",
        )
    key = style.name.removesuffix(".json").removesuffix(".style")
    if width_mm is not None:
        words += ["--width", f"{width_mm:g}"]
        key += f"-{width_mm:g}"
    return SeasonJob(key, (*words, *options, "-o", "result"), files)


def _content(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise UsageError(f"cannot be read ({error.strerror})", file=str(path)) from None


def _entry(result: TaskResult) -> dict[str, Any]:
    told = {name: result.payload[name] for name in SHOWN if name in result.payload}
    message = "" if result.status == 0 else (result.messages.strip().splitlines() or ["it was killed"])[-1]
    return {"job": result.key, "status": result.status, "message": message, **told}


def _words(entry: dict[str, Any]) -> str:
    if entry["status"] != 0:
        return f"failed: {entry['message']}"
    if "yield" in entry:
        return f"{entry['length_mm'] / 1000:.3f} m, yield {percent(entry['yield'])}"
    metres = ", ".join(f"{m:.2f} m of {cloth}" for cloth, m in entry.get("cloth_m", {}).items())
    return f"{metres}, {percent(entry['gap'])} of the cost above the bound"
