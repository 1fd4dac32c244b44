"""No test may know how fast its machine is: it waits for what happens, or gives the work a count."""

from __future__ import annotations

import re
from pathlib import Path

TESTS = Path(__file__).parents[1]

CLOCK = re.compile(r"\b(sleep|perf_counter|monotonic)\(|\bqtbot\.wait\(|\btime\.time\(|\bqWait\(")

SEES_NO_EVENT = {
    "processes.py": "the end of a grandchild: nothing tells it",
    "app/window/real/every_field.py": "a walk at a person's pace that asserts nothing on the way",
}
"""Files that may look again after a while, each with its reason; benchmarks measure time."""

LIMIT = re.compile(r"\btimeout=(\d[\d_]*)")
SHORTEST_LIMIT_S = 600
"""A limit only ends a test that hangs; those of the window have theirs in its ``PatientBot``."""


def _tests() -> list[tuple[str, str]]:
    return [
        (name, path.read_text(encoding="utf-8"))
        for path in sorted(TESTS.rglob("*.py"))
        if not (name := path.relative_to(TESTS).as_posix()).startswith("benchmarks/")
        and path != Path(__file__)
    ]


def test_no_test_waits_by_the_clock() -> None:
    found = {name for name, text in _tests() if CLOCK.search(text)}
    assert found == set(SEES_NO_EVENT)


def test_no_limit_is_met_by_a_slow_machine() -> None:
    found = [
        f"{name}: {match[0]}"
        for name, text in _tests()
        for match in LIMIT.finditer(text)
        if int(match[1].replace("_", "")) < SHORTEST_LIMIT_S
    ]
    assert found == []
