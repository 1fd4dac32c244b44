"""What ``python -m nesting`` does with its options: read, ask the engine, judge, write, report."""

from __future__ import annotations

import argparse
import json
import sys
import time
from dataclasses import replace
from pathlib import Path
from typing import Any

from nesting.engine.child import Progress, lays_in_child, solve_in_child
from nesting.errors import LayFileError, NestingError, ProblemError
from nesting.files import lay_file
from nesting.files.instance import read
from nesting.lay import Lay
from nesting.problem import LayProblem

CLOSING_S = 0.1
"""Judging and writing the result take about this long..."""

CLOSING_S_PER_PIECE = 1e-4
"""... and this long for every piece (measured at 96 to 5,760 pieces): taken off the time the engine gets."""


def run(options: argparse.Namespace, start_s: float) -> int:
    """Do it; ``start_s`` is when the program began, on the monotonic clock. Returns the exit status."""
    try:
        problem, names = read(options.instance, options.gap)
        folder = options.output.resolve().parent
        if not folder.is_dir():
            raise LayFileError("there is no such folder", remedy="make it first", file=str(folder))
        spent = time.monotonic() - start_s + CLOSING_S + CLOSING_S_PER_PIECE * problem.pieces
        seconds = None if options.work else max(0.1, options.seconds - spent)
        docs = []
        for part, lay in _lays(problem, options, seconds):
            extra = {"instance": options.instance.name}
            docs.append(lay_file.to_document(part, lay, extra=extra, piece_names=names))
            if not docs[-1]["verification"]["ok"]:
                return _say(1, f"{options.instance}: {docs[-1]['verification']['verdict']}")
        files = [_numbered(options.output, number, len(docs)) for number in range(1, len(docs) + 1)]
        for file, doc in zip(files, docs, strict=True):
            doc["seconds"] = time.monotonic() - start_s
            lay_file.write(file, doc)
    except (LayFileError, ProblemError) as error:
        return _say(
            2,
            str(
                error
                if error.file
                else type(error)(
                    error.message, remedy=error.remedy, piece=error.piece, file=str(options.instance)
                )
            ),
        )
    except NestingError as error:
        return _say(1, f"{options.instance}: {error}")
    except KeyboardInterrupt:
        return _say(1, f"{options.instance}: interrupted; nothing was written")
    _report(options, files, docs)
    return 0


def _lays(
    problem: LayProblem, options: argparse.Namespace, seconds: float | None
) -> list[tuple[LayProblem, Lay]]:
    """The lay, or with a greatest length as many as it takes, each with what it holds."""
    told = {"seed": options.seed, "workers": options.workers, "on_progress": _tell}
    if options.max_length is None:
        return [(problem, solve_in_child(problem, seconds=seconds, work=options.work, **told))]
    if seconds is None:
        raise ProblemError("--work and --max-length do not go together", remedy="give --seconds")
    bounded = replace(problem, roll=replace(problem.roll, length_mm=options.max_length))
    return [
        (replace(bounded, items=tuple(replace(i, demand=demand.get(i.id, 0)) for i in bounded.items)), lay)
        for demand, lay in lays_in_child(bounded, seconds=seconds, **told)
    ]


def _numbered(output: Path, number: int, of: int) -> Path:
    return output if of == 1 else output.with_name(f"{output.stem}-{number}{output.suffix}")


def _report(options: argparse.Namespace, files: list[Path], docs: list[dict[str, Any]]) -> None:
    if options.json:
        each = [_summary(file, doc) for file, doc in zip(files, docs, strict=True)]
        print(json.dumps(each[0] if options.max_length is None else {"ok": True, "lays": each}))
        return
    for file, doc in zip(files, docs, strict=True):
        print(
            f"{file}: {doc['length_mm']:.1f} mm, yield {100.0 * doc['yield']:.2f} %, "
            f"verified, {doc['engine']}, {doc['seconds']:.1f} s{_above(doc)}"
        )


def _summary(file: Path, doc: dict[str, Any]) -> dict[str, Any]:
    keys = ("length_mm", "yield", "net_area_mm2", "gap_mm", "seconds", "engine", "stopped")
    bound = ("lower_bound_mm", "above_bound")
    told = {key: doc[key] for key in (*keys, *bound)}
    return told | {"ok": True, "pieces": len(doc["placements"]), "lay_file": str(file)}


def _above(doc: dict[str, Any]) -> str:
    above, bounds = doc["above_bound"], doc["lower_bound_mm"]
    if not isinstance(above, float) or not isinstance(bounds, dict):
        return ""
    return f", {100.0 * above:.1f} % above what no lay can undercut ({max(bounds, key=bounds.__getitem__)})"


def _tell(progress: Progress) -> None:
    if progress.lay is not None:
        sys.stderr.write(
            f"{progress.elapsed_s:7.1f} s  {progress.phase.words}: {progress.length_mm:.1f} mm, "
            f"yield {100.0 * progress.yield_:.2f} %\n"
        )


def _say(status: int, line: str) -> int:
    sys.stderr.write(f"nesting: {line}\n")
    return status
