"""Grade rule files (.rul) that travel with drawings in the layer scheme of ASTM D6673 / AAMA-292.

The standard's text was not read in full. What is read here is what public descriptions and free
programs of independent origin agree on: a heading of ``WORD: value`` lines with UNITS, NUMBER OF
SIZES, SIZE LIST and SAMPLE SIZE; then ``RULE: DELTA n`` with a pair dx, dy for each size in the
order of the list, wrapped at will; at last END. The pairs count from the sample size, whose own
pair is 0, 0. A point of the drawing takes rule n where a text ``# n`` stands on it; x runs along
the grade reference line. Where only one of these descriptions says something it is not relied on.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from geometry.errors import DrawingError
from geometry.inch import MM_PER_INCH

_HEAD = re.compile(r"^\s*([A-Za-z][A-Za-z0-9/ ]*?)\s*:\s*(.*?)\s*$")
_RULE = re.compile(r"^\s*RULE\s*:\s*DELTA\s+(\S+)\s*(.*)$", re.IGNORECASE)
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")
_MM_PER = {"metric": 1.0, "english": MM_PER_INCH}
_LARGEST_BYTES = 20_000_000  # a rule table of thousands of points takes some hundred kilobytes


@dataclass(frozen=True)
class GradeRules:
    """A grade rule table: by rule, how far a point moves from the sample size to each size.

    ``deltas_mm[rule][size]`` is (dx, dy) in mm, along and across the grade reference line.
    """

    table: str
    sizes: tuple[str, ...]
    sample: str
    deltas_mm: dict[str, dict[str, tuple[float, float]]]


def rules_beside(drawing: Path) -> Path | None:
    """Return the rule file that lies beside a drawing under its name, if there is one."""
    for found in sorted(drawing.parent.glob("*")) if drawing.parent.is_dir() else ():
        if found.suffix.lower() == ".rul" and found.stem.lower() == drawing.stem.lower():
            return found
    return None


def read_rules(path: Path) -> GradeRules:
    """Read a grade rule file.

    Raises DrawingError, naming file and line, when it is no such file, says no unit, or its
    numbers do not make up one pair for every size.
    """
    try:
        if path.stat().st_size > _LARGEST_BYTES:
            raise _wrong(path, "is far too large for a grade rule file", "name the .rul file of the drawing")
        text = path.read_bytes().decode("utf-8", errors="replace")
    except FileNotFoundError:
        raise _wrong(path, "there is no such grade rule file", "check the name") from None
    except OSError as error:
        raise _wrong(path, f"cannot be read ({error.strerror or error})", "check the file") from None
    head: dict[str, str] = {}
    rules: dict[str, list[float]] = {}
    lines: dict[str, int] = {}
    current = ""
    for number, line in _lines(text):
        rule = _RULE.match(line)
        if rule:
            current = rule.group(1)
            if current in rules:
                raise _wrong(path, f"line {number}: rule {current} appears twice", "keep one of them")
            rules[current], lines[current] = _numbers(path, number, rule.group(2)), number
        elif current:
            rules[current] += _numbers(path, number, line)
        else:
            said = _HEAD.match(line)
            if said:
                head.setdefault(" ".join(said.group(1).lower().split()), said.group(2))
    if not rules or "size list" not in head:
        raise _wrong(path, "is not a grade rule file: it lacks SIZE LIST or RULE: DELTA", "name another")
    return _table(path, head, rules, lines)


def _lines(text: str) -> Iterator[tuple[int, str]]:
    for number, line in enumerate(text.splitlines(), start=1):
        if line.strip().upper() == "END":
            return
        if line.strip():
            yield number, line


def _numbers(path: Path, number: int, text: str) -> list[float]:
    """The numbers of a line of pairs; a remark after # is left out."""
    words = text.split("#", 1)[0].replace(",", " ").split()
    found = []
    for word in words:
        if not _NUMBER.fullmatch(word):
            raise _wrong(path, f"line {number}: {word} is not a number", "write dx, dy with decimal points")
        found.append(float(word))
    return found


def _table(
    path: Path, head: dict[str, str], rules: dict[str, list[float]], lines: dict[str, int]
) -> GradeRules:
    sizes = tuple(head["size list"].split())
    sample = head.get("sample size", "")
    told = head.get("number of sizes", "")
    if told and told != str(len(sizes)):
        raise _wrong(path, f"states {told} sizes and lists {len(sizes)}", "correct the SIZE LIST")
    if len(set(sizes)) < len(sizes):
        raise _wrong(path, "lists a size twice", "correct the SIZE LIST")
    if sample not in sizes:
        raise _wrong(path, f"the sample size {sample or '(none)'} is not in the SIZE LIST", "correct it")
    unit = _MM_PER.get(head.get("units", "").lower())
    if unit is None:
        raise _wrong(
            path,
            f"the unit is {head.get('units') or 'not stated'}",
            "write UNITS: METRIC (mm) or ENGLISH (inch)",
        )
    deltas: dict[str, dict[str, tuple[float, float]]] = {}
    for rule, numbers in rules.items():
        where = f"line {lines[rule]}: rule {rule}"
        if len(numbers) != 2 * len(sizes):
            raise _wrong(
                path, f"{where} has {len(numbers)} numbers, {len(sizes)} sizes need {2 * len(sizes)}",
                "give dx, dy for every size",
            )  # fmt: skip
        pairs = [(x * unit, y * unit) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
        deltas[rule] = dict(zip(sizes, pairs, strict=True))
        if math.hypot(*deltas[rule][sample]) > 1e-6:
            raise _wrong(path, f"{where} moves the sample size {sample}", "count from the sample size")
    return GradeRules(head.get("grade rule table", ""), sizes, sample, deltas)


def _wrong(path: Path, message: str, remedy: str) -> DrawingError:
    return DrawingError(message, file=path.name, remedy=remedy, code="BAD_RULES")
