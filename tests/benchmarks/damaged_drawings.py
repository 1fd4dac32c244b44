"""Drawings damaged on purpose, read one after another: none may hang, none may end in an unknown error.

    PYTHONPATH=. .venv/bin/python tests/benchmarks/damaged_drawings.py FOLDER [--count 100000] [--seed 1]

FOLDER holds drawings to damage (``../shared/dxf``, the samples); what fails is kept in ``OUT/failed``, how
far it came in ``OUT/state.json``: the next run goes on there. Same seed, same drawings.
"""

from __future__ import annotations

import argparse
import json
import random
import time
import warnings
from collections import Counter
from pathlib import Path

from geometry.dxf.read import read_drawing
from geometry.errors import GeometryError

SLOW_S = 8.0
VALUES = (b"nan", b"inf", b"1e308", b"-1e308", b"-1", b"0", b"999999999", b"", b"1e-320", b"abc", b"-0.0")


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


def main() -> int:
    """Damage, read, count; returns the number of drawings that ended in an unknown error."""
    parser = argparse.ArgumentParser()
    parser.add_argument("folders", type=Path, nargs="+")
    parser.add_argument("--count", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--most-kb", type=int, default=60)
    parser.add_argument("-o", "--out", type=Path, default=Path("damaged"))
    args = parser.parse_args()
    sources = sorted(
        path
        for folder in args.folders
        for path in folder.rglob("*")
        if path.suffix.lower() == ".dxf" and 0 < path.stat().st_size <= args.most_kb * 1024
    )
    (args.out / "failed").mkdir(parents=True, exist_ok=True)
    state = args.out / "state.json"
    done, kinds = 0, Counter[str]()
    if state.exists():
        kept = json.loads(state.read_text())
        done, kinds = kept["done"], Counter(kept["kinds"])
    warnings.simplefilter("error", RuntimeWarning)
    trial = args.out / "trial.dxf"
    while done < args.count:
        chance = random.Random(args.seed * 1_000_003 + done)
        source = sources[chance.randrange(len(sources))]
        data = damaged(source.read_bytes(), chance)
        trial.write_bytes(data)
        began = time.monotonic()
        try:
            read_drawing(trial)
            kinds["read"] += 1
        except GeometryError:
            kinds["refused"] += 1
        except Exception as error:
            kinds[f"{type(error).__name__}: {str(error)[:60]}"] += 1
            (args.out / "failed" / f"{done}-{source.stem}.dxf").write_bytes(data)
        if time.monotonic() - began > SLOW_S:
            kinds["slow"] += 1
            (args.out / "failed" / f"{done}-slow-{source.stem}.dxf").write_bytes(data)
        done += 1
        if done % 200 == 0 or done == args.count:
            state.write_text(json.dumps({"done": done, "kinds": kinds}))
    print(json.dumps({"done": done, "kinds": kinds}, indent=1))
    return sum(count for kind, count in kinds.items() if kind not in ("read", "refused", "slow"))


if __name__ == "__main__":
    raise SystemExit(min(main(), 100))
