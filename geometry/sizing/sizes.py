"""Shoe sizes by system: last lengths, girths, conversion, and labels.

Steps of the systems: Paris point 20/3 mm (ISO/TS 19407:2015, introduction) with 5 mm girth
(mysamplefactory, web); English and American 1/3 in (what-when-how, web) with 1/4 in girth (US patent
1,948,547); Mondopoint 5 mm (ISO 9407 range 1; range 2 is 7.5 mm) named by the foot's length.
The zero points of the English and American systems are from memory (last length
(size + 25)/3 in for adults; American men's sizes read one more, women's two more on the same
last). No table of ISO 19407 was seen, and none is claimed here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, get_args

from geometry.errors import SizeError
from geometry.inch import MM_PER_INCH
from geometry.said import said

SizeSystem = Literal["paris", "uk", "us-men", "us-women", "mondopoint"]
SYSTEMS: tuple[SizeSystem, ...] = get_args(SizeSystem)


@dataclass(frozen=True)
class System:
    """Last length = ``step_mm`` x (size + ``zero``) + ``over_mm``; a girth step per size.

    A last is two sizes longer than the foot in every system (rule of thumb). ``every`` is the
    usual gap between two labels of a run.
    """

    step_mm: float
    zero: float
    girth_step_mm: float
    over_mm: float = 0.0
    every: float = 1.0


_PARIS = 20.0 / 3.0  # a Paris point is two thirds of a centimetre
_ENGLISH = MM_PER_INCH / 3.0
_TABLE: dict[SizeSystem, System] = {
    "paris": System(_PARIS, 0.0, 5.0),
    "uk": System(_ENGLISH, 25.0, MM_PER_INCH / 4.0),
    "us-men": System(_ENGLISH, 24.0, MM_PER_INCH / 4.0),
    "us-women": System(_ENGLISH, 23.0, MM_PER_INCH / 4.0),
    # the size is the foot's length in mm; girth in the Paris proportion, 5 mm to 20/3 mm of length
    "mondopoint": System(1.0, 0.0, 0.75, over_mm=2 * _PARIS, every=5.0),
}


def system_of(name: str) -> System:
    """Return the figures of a size system; raises SizeError for an unknown one."""
    if name not in SYSTEMS:
        raise SizeError(
            said("there is no size system {0}", f"{name!r}"),
            remedy=said("use one of {0}", ", ".join(SYSTEMS)),
        )
    return _TABLE[name]


def size_number(label: str | float) -> float:
    """Return the number a size label stands for: "37", "37.5", "37,5", "37 1/2", "6½".

    Raises SizeError when the label is not a number.
    """
    text = str(label).strip().replace("½", " 1/2").replace(",", ".")
    match = re.fullmatch(r"(\d+(?:\.\d+)?)(?:\s+(\d+)\s*/\s*([1-9]\d*))?", text)
    if match is None:
        raise SizeError(
            said("size {0} is not a number", f"{str(label)!r}"), remedy="write sizes like 37 or 37.5"
        )
    whole, over, under = match.groups()
    return float(whole) + (float(Fraction(int(over), int(under))) if over else 0.0)


def last_length_mm(system: str, size: str | float) -> float:
    """Return the length of the last of a size."""
    figures = system_of(system)
    return figures.step_mm * (size_number(size) + figures.zero) + figures.over_mm


def girth_mm(system: str, base: str | float, to: str | float, base_girth_mm: float) -> float:
    """Return the ball girth of a size, given that of the base size: the same step every size."""
    if not base_girth_mm > 0.0:
        raise SizeError(
            said("a girth of {0} mm is not possible", f"{base_girth_mm:g}"),
            remedy="measure the last's joint girth",
        )
    girth = base_girth_mm + system_of(system).girth_step_mm * (size_number(to) - size_number(base))
    if girth <= 0.0:
        raise SizeError(
            said("size {0} would have a girth of {1} mm", to, f"{girth:g}"),
            remedy="check the size and the base girth",
        )
    return girth


def grade_factors(
    system: str, base: str | float, to: str | float, base_girth_mm: float
) -> tuple[float, float]:
    """Return (length factor, width factor) of a proportional grade from ``base`` to ``to``.

    Lengths go as the last lengths, widths as the ball girths; both are taken from the base
    size, n steps at once (repeating one size's factor would be a geometric grade). Raises SizeError for a
    size whose last would have no length (size 0 in Paris points) or no girth.
    """
    for size in (base, to):
        length = last_length_mm(system, size)
        if length <= 0.0:
            raise SizeError(
                said("size {0} would have a last of {1} mm", size, f"{length:g}"),
                remedy="check the size and the system",
            )
    k_length = last_length_mm(system, to) / last_length_mm(system, base)
    return k_length, girth_mm(system, base, to, base_girth_mm) / base_girth_mm


def size_label(number: float) -> str:
    """Return the label of a size number: 37.0 -> "37", 37.5 -> "37.5"."""
    return f"{number:.4f}".rstrip("0").rstrip(".")


def in_order(labels: Iterable[str]) -> tuple[str, ...]:
    """Return size labels from the smallest to the largest; those that are not numbers come last."""

    def key(label: str) -> tuple[int, float, str]:
        try:
            return 0, size_number(label), label
        except SizeError:
            return 1, 0.0, label

    return tuple(sorted(labels, key=key))


def parse_sizes(text: str, *, known: Sequence[str] = (), system: str = "paris") -> tuple[str, ...]:
    """Return the sizes of a list such as "36-41" or "36,38-40", each once, in order.

    With ``known`` labels a range means the known sizes between its ends (so "36-41" takes in
    half sizes where the style has them), and a size that is not known is an error. Without,
    a range goes in whole sizes, in halves when an end is a half, in 5 mm for Mondopoint.
    Raises SizeError.
    """
    found: list[str] = []
    for part in (p.strip() for p in re.split(r"[;,]", text)):
        if not part:
            continue
        if part in known:
            found.append(part)
            continue
        ends = [e.strip() for e in re.split(r"\s*(?:-|–|\.\.)\s*", part)]
        if len(ends) > 2 or not all(ends):
            raise SizeError(
                said("cannot read sizes {0}", f"{part!r}"), remedy="write them like 36-41 or 36,38-40"
            )
        if len(ends) == 1:
            found.append(_known(ends[0], known))
        else:
            found.extend(_between(ends[0], ends[1], known, system))
    if not found:
        raise SizeError(
            said("there are no sizes in {0}", f"{text!r}"), remedy="write them like 36-41 or 36,38-40"
        )
    return in_order(dict.fromkeys(found))


def _known(label: str, known: Sequence[str]) -> str:
    number = size_number(label)
    if not known:
        return size_label(number)
    for other in known:
        try:
            if size_number(other) == number:
                return other
        except SizeError:
            continue
    raise SizeError(
        said("there is no size {0}", label), remedy=said("the sizes are {0}", ", ".join(in_order(known)))
    )


def _between(first: str, last: str, known: Sequence[str], system: str) -> list[str]:
    low, high = size_number(first), size_number(last)
    if low > high:
        raise SizeError(
            said("the range {0}-{1} runs backwards", first, last), remedy=said("write {0}-{1}", last, first)
        )
    if known:
        _known(first, known), _known(last, known)
        numbers = {}
        for label in known:
            try:
                numbers[label] = size_number(label)
            except SizeError:
                continue
        return [label for label in in_order(numbers) if low <= numbers[label] <= high]
    every = system_of(system).every
    if every == 1.0 and (low % 1.0 or high % 1.0):
        every = 0.5
    count = int((high - low) / every + 1e-9)
    if count > 200:
        raise SizeError(
            said("the range {0}-{1} holds {2} sizes", first, last, count + 1), remedy="check both ends"
        )
    return [size_label(low + i * every) for i in range(count + 1)]
