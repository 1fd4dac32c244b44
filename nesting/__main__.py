"""``python -m nesting INSTANCE.json -o LAY.json``: lay an open-format instance as it stands.

With ``--max-length`` an order that does not go into one lay becomes several, LAY-1.json, LAY-2.json, ...

Exit status: 0 done and verified; 1 the lay did not verify or none was found; 2 bad input or usage.
"""

from __future__ import annotations

import argparse
import json
import math
import sys
import time
from dataclasses import replace
from pathlib import Path
from typing import Any, NoReturn

from nesting.defaults import GAP_MM, LAY_SECONDS, WORKERS
from nesting.engine.child import Progress, lays_in_child, solve_in_child
from nesting.errors import LayFileError, NestingError, ProblemError
from nesting.files import lay_file
from nesting.files.instance import read_with_names
from nesting.lay import Lay
from nesting.problem import LayProblem

PARENT_S = 0.4
"""Starting Python and writing the result take about this long..."""

PARENT_S_PER_PIECE = 4e-4
"""... and this long for every piece: taken off the time the engine gets."""


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        sys.stderr.write(f"nesting: {message}; see --help\n")
        raise SystemExit(2)


def main(arguments: list[str] | None = None) -> int:
    """Run the command; returns the exit status."""
    start = time.monotonic()
    options = _options(arguments)
    try:
        problem, names = read_with_names(options.instance, options.gap)
        folder = options.output.resolve().parent
        if not folder.is_dir():
            raise LayFileError("there is no such folder", remedy="make it first", file=str(folder))
        spent = time.monotonic() - start + PARENT_S + PARENT_S_PER_PIECE * problem.pieces
        seconds = None if options.work else max(0.1, options.seconds - spent)
        docs = []
        for part, lay in _lays(problem, options, seconds):
            extra = {"instance": options.instance.name}
            docs.append(lay_file.to_document(part, lay, extra=extra, piece_names=names))
            if not docs[-1]["verification"]["ok"]:
                return _say(1, f"{options.instance}: {docs[-1]['verification']['verdict']}")
        files = [_numbered(options.output, number, len(docs)) for number in range(1, len(docs) + 1)]
        for file, doc in zip(files, docs, strict=True):
            doc["seconds"] = time.monotonic() - start
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


def _options(arguments: list[str] | None) -> argparse.Namespace:
    parser = _Parser(prog="python -m nesting", description="Lay an open-format instance.")
    parser.add_argument("instance", type=Path, metavar="INSTANCE.json")
    parser.add_argument("-o", "--output", type=Path, required=True, metavar="LAY.json")
    parser.add_argument("--gap", type=_at_least_0, default=GAP_MM.value, metavar="MM", help="between pieces")
    parser.add_argument(
        "--seconds", type=_more_than_0, default=LAY_SECONDS.value, metavar="S", help="time limit"
    )
    parser.add_argument(
        "--max-length", type=_more_than_0, metavar="MM", help="no lay is longer: as many lays as it takes"
    )
    parser.add_argument(
        "--work", type=_count, metavar="N", help="count work instead of seconds: the same lay each time"
    )
    parser.add_argument(
        "--workers", type=_count, default=WORKERS.value, metavar="N", help="processors to use"
    )
    parser.add_argument("--seed", type=int, default=0, metavar="N")
    parser.add_argument("--json", action="store_true", help="print a summary in JSON")
    return parser.parse_args(arguments)


def _at_least_0(text: str) -> float:
    value = float(text)
    if not (math.isfinite(value) and value >= 0.0):
        raise argparse.ArgumentTypeError("must be 0 or more")
    return value


def _more_than_0(text: str) -> float:
    value = float(text)
    if not (math.isfinite(value) and value > 0.0):
        raise argparse.ArgumentTypeError("must be more than 0")
    return value


def _count(text: str) -> int:
    value = int(text)
    if value < 1:
        raise argparse.ArgumentTypeError("must be 1 or more")
    return value


if __name__ == "__main__":
    sys.exit(main())
