"""Whether two trees of this project lay the same, digit for digit, and which one sooner.

    .venv/bin/python tests/benchmarks/same_lays.py OTHER_TREE INSTANCE.json ... [--work N] [--rounds N]

Before and after a change that is to change nothing: every instance is laid by counted work, by one worker
and the same seed, in turns by the tree OTHER_TREE and by this one, so that a busy machine slows both. What is
compared are all placements; the time is that of the processor, engines and their processes together, the
least of the rounds. Exit status 1 where a lay differs.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).parents[2]


def main() -> int:
    """Lay and compare."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("other", type=Path)
    parser.add_argument("instances", type=Path, nargs="+")
    parser.add_argument("--work", default="1")
    parser.add_argument("--rounds", type=int, default=3)
    options = parser.parse_args()
    differ = False
    for instance in options.instances:
        least_s = {options.other: float("inf"), HERE: float("inf")}
        lays = set()
        for number in range(options.rounds):
            trees = (options.other, HERE) if number % 2 == 0 else (HERE, options.other)
            for tree in trees:
                lay, spent_s = _laid(tree, instance, options.work)
                least_s[tree] = min(least_s[tree], spent_s)
                lays.add(json.dumps(lay["placements"]))
        differ |= len(lays) != 1
        other_s, here_s = least_s.values()
        print(
            f"{instance.stem:16s} {lay['length_mm']:10.3f} mm  {'same' if len(lays) == 1 else 'DIFFERENT'}"
            f"  {other_s:6.1f} s there, {here_s:6.1f} s here, ratio {here_s / other_s:.3f}",
            flush=True,
        )
    return int(differ)


def _laid(tree: Path, instance: Path, work: str) -> tuple[dict, float]:
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "lay.json"
        command = [sys.executable, "-m", "nesting", str(instance.resolve()), "-o", str(out)]
        command += ["--work", work, "--workers", "1", "--seed", "7"]
        environment = os.environ | {"PYTHONPATH": str(tree.resolve())}
        subprocess.run(command, cwd=tree, env=environment, check=True, capture_output=True)
        lay = json.loads(out.read_text(encoding="utf-8"))
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return lay, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


if __name__ == "__main__":
    sys.exit(main())
