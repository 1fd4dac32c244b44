"""What a lay pressed again and again comes to, beside one search of the same time.

    .venv/bin/python tests/benchmarks/presses.py [--styles court,derby] [--presses 20] [--seconds 3]

The samples' own orders. Each press is a process of its own that asks as the ``lay`` command does and goes on
from what is kept in a data folder made for the run, but writes no papers (on 1,344 pieces of the court those
take twice as long as the press); the one long search begins afresh. Printed: the yield after each press,
that of the long search, and both once more on the kept lay (a long search that goes on from all presses).
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
from itertools import pairwise
from pathlib import Path

HERE = Path(__file__).parents[2]


def main() -> int:
    """Press, search, compare; exit status 1 where a press gave a longer lay than the one before."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--styles", default="court,derby,boot,sandal")
    parser.add_argument("--presses", type=int, default=20)
    parser.add_argument("--seconds", type=float, default=3.0)
    parser.add_argument("--seed", type=int, default=0)
    options = parser.parse_args()
    fell_back = False
    for style in options.styles.split(","):
        with tempfile.TemporaryDirectory() as data:
            told = [_laid(style, options.seconds, options.seed, data) for _ in range(options.presses)]
            long_s = options.presses * options.seconds
            fresh = _laid(style, long_s, options.seed, data, "--fresh")
        lengths = [each["length_mm"] for each in told]
        fell_back |= any(b > a + 1e-6 for a, b in pairwise(lengths))
        print(
            f"{style:8s} presses of {options.seconds:g} s: "
            + " ".join(f"{100 * each['yield']:.1f}" for each in told)
            + f" | one of {long_s:g} s: {100 * fresh['yield']:.1f}",
            flush=True,
        )
    return int(fell_back)


PRESS = """
import json, sys
from pathlib import Path
from nesting.engine.ready import prepare
prepare()
from app.commands import say
from app.commands.solving import solve
from app.lay.kept import open_kept
from app.lay.job import LayJob, judged, problem_of
from app.style.file import load_style
from app.style.orders import for_style, read_order
style = load_style(Path(sys.argv[1]))
problem = problem_of(LayJob(style=style, pairs=for_style(read_order(sys.argv[2]), style)))
seconds, seed, fresh = float(sys.argv[3]), int(sys.argv[4]), len(sys.argv) > 5
lay = solve(problem, seconds=seconds, seed=seed, workers=2, fresh=fresh, store=open_kept(say))
assert judged(problem, lay).ok
gross = problem.roll.usable_width_mm * lay.length_mm
print(json.dumps({"length_mm": lay.length_mm, "yield": problem.net_area_mm2 / gross}))
"""


def _laid(style: str, seconds: float, seed: int, data: str, *more: str) -> dict:
    folder = HERE / "sample_styles" / style
    words = [str(folder / f"{style}.style.json"), str(folder / "order.csv"), f"{seconds:g}", str(seed), *more]
    environment = os.environ | {"PYTHONPATH": str(HERE), "STAYPLY_DATA_DIR": data}
    done = subprocess.run(
        [sys.executable, "-c", PRESS, *words], env=environment, check=True, capture_output=True, text=True
    )
    return json.loads(done.stdout)


if __name__ == "__main__":
    sys.exit(main())
