"""Our engine and the general solver alone, side by side: density, first layout, wall, memory.

    .venv/bin/python tests/benchmarks/nesting_table.py FOLDER [NAME ...] --seconds 20 60 --workers 2

FOLDER holds open-format instances; a gap of 2 mm is kept for names that start with a piece of ours
(``--gap NAME=MM`` sets another). Both run one after the other on the same machine with the same
wall time, processors and seed; ours is judged by ``verify``, the solver's is taken at its word.
Prints a Markdown table. Not a test: figures depend on the machine and on what else it does.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
import threading
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

SOLVER = """
import json, sys, threading, time
import spyrrow
job = json.load(open(sys.argv[1]))
gap, seconds, workers, seed = float(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4]), int(sys.argv[5])
items = [spyrrow.Item(str(i["id"]), [tuple(p) for p in i["shape"]["data"]], demand=i["demand"],
                      allowed_orientations=i.get("allowed_orientations")) for i in job["items"]]
instance = spyrrow.StripPackingInstance("x", strip_height=job["strip_height"], items=items)
config = spyrrow.StripPackingConfig(early_termination=False, min_items_separation=gap or None,
                                    total_computation_time=seconds, num_workers=workers, seed=seed)
queue, begun, first, done = spyrrow.ProgressQueue(), time.monotonic(), [], []
def solve():
    done.append(instance.solve(config, queue))
thread = threading.Thread(target=solve)
thread.start()
while thread.is_alive():
    time.sleep(0.05)
    for kind, solution in queue.drain():
        if not first and kind == spyrrow.ReportType.ExplFeas:
            first.append(time.monotonic() - begun)
print(json.dumps({"length_mm": done[0].width, "first_s": first[0] if first else None}))
"""


@dataclass(frozen=True)
class Result:
    """One run: density in percent, seconds, memory of the whole family of processes."""

    density: float
    first_s: float | None
    wall_s: float
    peak_mb: float
    note: str = ""


def main() -> None:
    """Run the table."""
    options = _options()
    names = options.names or sorted(path.stem for path in options.folder.glob("*.json"))
    print("| instance | pieces | limit s | solver % | ours % | length ratio | first s | wall s | peak MB |")
    print("|---|---|---|---|---|---|---|---|---|", flush=True)
    for name in names:
        path = options.folder / f"{name}.json"
        doc = json.loads(path.read_text(encoding="utf-8"))
        gap = options.gaps.get(name, 2.0 if "-" in name else 0.0)
        pieces = sum(item["demand"] for item in doc["items"])
        for seconds in options.seconds:
            for seed in options.seeds:
                solver = (
                    None
                    if options.ours_only
                    else solver_alone(path, doc, gap, seconds, options.workers, seed)
                )
                ours = ours_alone(path, gap, seconds, options.workers, seed)
                _row(name, pieces, seconds, solver, ours)


def _row(name: str, pieces: int, seconds: int, solver: Result | None, ours: Result) -> None:
    theirs = f"{solver.density:.2f}" if solver else "-"
    ratio = f"{solver.density / ours.density:.4f}" if solver and ours.density else "-"
    firsts = f"{_s(ours.first_s)} / {_s(solver.first_s if solver else None)}"
    walls = f"{ours.wall_s:.1f} / {_s(solver.wall_s if solver else None)}"
    peaks = f"{ours.peak_mb:.0f} / {solver.peak_mb:.0f}" if solver else f"{ours.peak_mb:.0f}"
    print(
        f"| {name} | {pieces} | {seconds} | {theirs} | {ours.density:.2f}{ours.note} | {ratio} "
        f"| {firsts} | {walls} | {peaks} |",
        flush=True,
    )


def _s(value: float | None) -> str:
    return "-" if value is None else f"{value:.1f}"


def solver_alone(path: Path, doc: dict, gap: float, seconds: int, workers: int, seed: int) -> Result:
    """Run the general solver, taken at its word."""
    command = [sys.executable, "-c", SOLVER, str(path), str(gap), str(seconds), str(workers), str(seed)]
    out, _, wall, peak = _run(command)
    told = json.loads(out)
    area = sum(item["demand"] * _area(item["shape"]["data"]) for item in doc["items"])
    density = 100.0 * area / (doc["strip_height"] * told["length_mm"])
    return Result(density, told["first_s"], wall, peak)


def ours_alone(path: Path, gap: float, seconds: int, workers: int, seed: int) -> Result:
    """Run our command, judged by ``verify``."""
    from nesting.verify import verify_document

    with tempfile.TemporaryDirectory() as folder:
        lay = Path(folder) / "lay.json"
        command = [sys.executable, "-m", "nesting", str(path), "--gap", str(gap), "--seconds", str(seconds)]
        command += ["--workers", str(workers), "--seed", str(seed), "-o", str(lay), "--json"]
        out, err, wall, peak = _run(command)
        told = json.loads(out)
        ok = verify_document(json.loads(lay.read_text(encoding="utf-8"))).ok
    first = next((float(line.split()[0]) for line in err.splitlines() if " mm, yield" in line), None)
    note = f" ({told['engine']})" if ok else " NOT VERIFIED"
    return Result(100.0 * told["yield"], first, wall, peak, note)


def _area(points: list[list[float]]) -> float:
    return (
        abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True)))
        / 2.0
    )


def _run(command: list[str]) -> tuple[str, str, float, float]:
    begun = time.monotonic()
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=ROOT)
    peak = [0.0]
    over = threading.Event()

    def watch() -> None:
        while not over.wait(0.2):
            peak[0] = max(peak[0], _family_mb(process.pid))

    thread = threading.Thread(target=watch)
    thread.start()
    out, err = process.communicate()
    over.set()
    thread.join()
    if process.returncode:
        raise SystemExit(err)
    return out, err, time.monotonic() - begun, peak[0]


def _family_mb(pid: int) -> float:
    """Resident memory of a process and all below it (Linux; 0 elsewhere)."""
    parents: dict[int, int] = {}
    resident: dict[int, float] = {}
    try:
        entries = [int(entry) for entry in os.listdir("/proc") if entry.isdigit()]
    except OSError:
        return 0.0
    for entry in entries:
        try:
            fields = Path(f"/proc/{entry}/stat").read_text(encoding="utf-8").rsplit(")", 1)[1].split()
        except (OSError, IndexError):
            continue
        parents[entry] = int(fields[1])
        resident[entry] = int(fields[21]) * os.sysconf("SC_PAGE_SIZE") / 2**20
    total = 0.0
    for entry in resident:
        above = entry
        while above and above != pid:
            above = parents.get(above, 0)
        total += resident[entry] if above == pid else 0.0
    return total


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("names", nargs="*")
    parser.add_argument("--seconds", type=int, nargs="+", default=[20])
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--seeds", type=int, nargs="+", default=[0])
    parser.add_argument("--gap", action="append", default=[], metavar="NAME=MM")
    parser.add_argument("--ours-only", action="store_true")
    options = parser.parse_args()
    options.gaps = {name: float(mm) for name, mm in (text.split("=") for text in options.gap)}
    return options


if __name__ == "__main__":
    main()
