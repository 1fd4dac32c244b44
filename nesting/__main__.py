"""``python -m nesting INSTANCE.json -o LAY.json``: lay an open-format instance as it stands.

With ``--max-length`` an order that does not go into one lay becomes several, LAY-1.json, LAY-2.json, ...

Exit status: 0 done and verified; 1 the lay did not verify or none was found; 2 bad input or usage.
"""

from __future__ import annotations

import argparse
import math
import sys
import time
from pathlib import Path
from typing import NoReturn

from nesting.defaults import GAP_MM, LAY_SECONDS, WORKERS
from nesting.engine.ready import prepare


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        sys.stderr.write(f"nesting: {message}; see --help\n")
        raise SystemExit(2)


def main(arguments: list[str] | None = None) -> int:
    """Run the command; returns the exit status."""
    start_s = time.monotonic() - (time.process_time() if arguments is None else 0.0)
    options = _options(arguments)
    prepare()
    from nesting import instance_command  # takes as long to load as the engine, which loads beside it

    return instance_command.run(options, start_s)


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
