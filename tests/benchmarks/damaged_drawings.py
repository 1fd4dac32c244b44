"""Drawings damaged on purpose, read one after another: none may hang, none may end in an unknown error.

    PYTHONPATH=. .venv/bin/python tests/benchmarks/damaged_drawings.py FOLDER... [--count 100000] [--seed 1]

FOLDER holds drawings to damage (``../shared/dxf``, the samples); what fails is kept in ``OUT/failed``, how
far it came in ``OUT/state.json``: the next run goes on there. Same seed, same sources: same drawings.
One child process reads them and is watched: a drawing that takes longer than HANG_S is stopped and counted.
An error that only the reader's guard caught ("the drawing is damaged (KeyError ...)") counts as a failure,
and so does a warning of numpy, whatever it says to the person at the desk.
"""

from __future__ import annotations

import argparse
import contextlib
import json
import queue
import random
import subprocess
import sys
import tempfile
import threading
import time
import warnings
from collections import Counter
from pathlib import Path

SLOW_S = 8.0  # processor time of one drawing
HANG_S = 60.0  # processor time after which one is stopped
PATIENCE_S = 600.0  # the same by the wall, on a machine that is busy with other things
VALUES = (b"nan", b"inf", b"1e308", b"-1e308", b"-1", b"0", b"999999999", b"", b"1e-320", b"abc", b"-0.0")
PASSED = ("read", "refused")


def damaged(data: bytes, chance: random.Random) -> bytes:
    """Return the bytes with one to four damages."""
    for _ in range(chance.randint(1, 4)):
        kind = chance.choice(("bytes", "cut", "swap", "value", "value", "value", "repeat", "drop", "count"))
        if kind == "bytes":
            body = bytearray(data)
            for _ in range(chance.randint(1, 20)):
                if body:
                    body[chance.randrange(len(body))] = chance.randrange(256)
            data = bytes(body)
            continue
        if kind == "cut":
            data = data[: chance.randrange(len(data) + 1)]
            continue
        lines = data.split(b"\n")
        at = chance.randrange(len(lines))
        if kind == "swap":
            other = chance.randrange(len(lines))
            lines[at], lines[other] = lines[other], lines[at]
        elif kind == "value":
            lines[at] = chance.choice(VALUES)
        elif kind == "count":
            lines[at] = str(chance.choice((10**6, 10**9, -5, 2**31))).encode()
        elif kind == "repeat":
            span = lines[at : at + chance.randint(1, 40)]
            lines[at:at] = span * chance.randint(1, 3)
        else:
            del lines[at : at + chance.randint(1, 30)]
        data = b"\n".join(lines)
    return data


def trial(sources: list[Path], seed: int, number: int) -> tuple[Path, bytes]:
    """Return the source and the damaged bytes of one number."""
    chance = random.Random(seed * 1_000_003 + number)
    source = sources[chance.randrange(len(sources))]
    return source, damaged(source.read_bytes(), chance)


def ended(path: Path) -> str:
    """Read a drawing; returns how it ended: one of PASSED, or the unknown error."""
    from geometry.dxf.read import read_drawing
    from geometry.errors import GeometryError

    try:
        read_drawing(path)
    except GeometryError as error:
        if error.__cause__ is None:
            return "refused"
        return f"guarded {type(error.__cause__).__name__}: {str(error.__cause__)[:60]}"
    except Exception as error:
        return f"{type(error).__name__}: {str(error)[:60]}"
    return "read"


def child(sources: list[Path], seed: int, first: int, count: int) -> None:
    """Read the drawings from ``first`` on, one line of JSON each: number, seconds, how it ended."""
    warnings.simplefilter("error", RuntimeWarning)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "trial.dxf"
        for number in range(first, count):
            path.write_bytes(trial(sources, seed, number)[1])
            began = time.process_time()
            how = ended(path)
            print(json.dumps([number, round(time.process_time() - began, 3), how]), flush=True)


def processor_s(process: subprocess.Popen[str]) -> float:
    """Seconds of processor time a child has used; 0 where the system does not tell as Linux does."""
    try:
        words = Path(f"/proc/{process.pid}/stat").read_text().rpartition(")")[2].split()
    except OSError:
        return 0.0
    return (int(words[11]) + int(words[12])) / 100.0


class State:
    """How far the run came, kept in a file."""

    def __init__(self, out: Path) -> None:
        self.out, self.file = out, out / "state.json"
        self.done, self.kinds, self.slowest, self.seconds = 0, Counter[str](), 0.0, 0.0
        (out / "failed").mkdir(parents=True, exist_ok=True)
        if self.file.exists():
            kept = json.loads(self.file.read_text())
            self.done, self.kinds = kept["done"], Counter(kept["kinds"])
            self.slowest, self.seconds = kept["slowest_s"], kept["seconds"]

    def count(self, number: int, seconds: float, how: str, source: Path, data: bytes) -> None:
        """Note one drawing; one that failed or was slow is kept."""
        kinds = [how] if seconds <= SLOW_S else [how, "slow"]
        self.kinds.update(kinds)
        self.slowest = max(self.slowest, seconds)
        self.seconds += seconds
        self.done = number + 1
        if kinds[-1] not in PASSED:
            word = "slow-" if "slow" in kinds else ""
            (self.out / "failed" / f"{number}-{word}{source.stem}.dxf").write_bytes(data)

    def save(self) -> None:
        """Write it down."""
        self.file.write_text(
            json.dumps(
                {
                    "done": self.done,
                    "kinds": dict(self.kinds.most_common()),
                    "slowest_s": self.slowest,
                    "seconds": round(self.seconds, 1),
                },
                indent=1,
            )
        )


def watch(words: list[str], sources: list[Path], seed: int, count: int, state: State) -> None:
    """Run one child from where the state stands until it ends or must be stopped."""
    line_up: queue.Queue[str] = queue.Queue()
    command = [sys.executable, __file__, *words, "--child", str(state.done)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:

        def drain() -> None:
            assert process.stdout is not None
            for line in process.stdout:
                line_up.put(line)
            line_up.put("")

        threading.Thread(target=drain, daemon=True).start()
        began, used, finished = time.monotonic(), processor_s(process), 0
        while True:
            try:
                line = line_up.get(timeout=5.0)
            except queue.Empty:
                spent = processor_s(process) - used
                if spent < HANG_S and time.monotonic() - began < PATIENCE_S:
                    continue
                process.kill()
                source, data = trial(sources, seed, state.done)
                state.count(state.done, spent, "stopped", source, data)
                return
            if not line:
                if state.done < count:  # it died on this one
                    source, data = trial(sources, seed, state.done)
                    state.count(state.done, 0.0, f"the reader died ({process.wait()})", source, data)
                return
            number, seconds, how = json.loads(line)
            source, data = trial(sources, seed, number)
            state.count(number, seconds, how, source, data)
            began, used, finished = time.monotonic(), processor_s(process), finished + 1
            if finished % 100 == 0:
                state.save()


def main() -> int:
    """Damage, read, count; returns the number of drawings that ended in an unknown error."""
    parser = argparse.ArgumentParser()
    parser.add_argument("folders", type=Path, nargs="+")
    parser.add_argument("--count", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--most-kb", type=int, default=60)
    parser.add_argument("-o", "--out", type=Path, default=Path("damaged"))
    parser.add_argument("--again", action="store_true", help="read what is kept in OUT/failed once more")
    parser.add_argument("--child", type=int, default=-1, help=argparse.SUPPRESS)
    args = parser.parse_args()
    if args.again:
        warnings.simplefilter("error", RuntimeWarning)
        results = {path.name: ended(path) for path in sorted((args.out / "failed").glob("*.dxf"))}
        print(json.dumps(results, indent=1))
        return sum(how not in PASSED for how in results.values())
    sources = sorted(
        path
        for folder in args.folders
        for path in folder.rglob("*")
        if path.suffix.lower() == ".dxf" and 0 < path.stat().st_size <= args.most_kb * 1024
    )
    if args.child >= 0:
        with contextlib.suppress(BrokenPipeError):
            child(sources, args.seed, args.child, args.count)
        return 0
    state = State(args.out)
    words = [word for word in sys.argv[1:] if word != "--child"]
    while state.done < args.count:
        watch(words, sources, args.seed, args.count, state)
        state.save()
    print(state.file.read_text())
    return sum(count for kind, count in state.kinds.items() if kind not in (*PASSED, "slow"))


if __name__ == "__main__":
    raise SystemExit(min(main(), 100))
