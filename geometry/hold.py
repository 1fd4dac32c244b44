"""Whether backing holds an upper's shape: how far a piece gives along its pull axis.

The hold line of a piece, heel to throat, is cut into sections by what lies behind the upper
there: nothing, one layer of backing, two. Every section stretches as the sheets glued together
in it do (geometry.sheet); the sections add up. What is given is a range: shear blocked to shear
free, since on the last a stack can skew only partly.

No published measurement of leather with fused cloth against angle was found. The strip test of
cloth and upper and the lasting trial decide; this says what to expect and what to try first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from geometry.errors import SheetError
from geometry.sheet import Ply, Sheet, give, shares_n_per_mm
from geometry.stretch_fit import ASSUMED_NU12, StretchFit, fit_strips
from geometry.strip import Strip

Law = Callable[[float], Ply]
"""A material in a stack: the sheet that stands for it under so many N/mm, and where its axis 1
lies from the pull. A material tested to several loads gives another secant at every load."""

SETTLE = 1e-4  # relative change of the shares at which secants count as settled
ROUNDS = 12
STEP_DEG = 0.5


def fixed(sheet: Sheet, angle_deg: float = 0.0) -> Law:
    """A material known by its constants."""
    ply = Ply(sheet, angle_deg)
    return lambda pull_n_per_mm: ply


def from_strips(strips: Sequence[Strip], direction_deg: float = 0.0, *, nu12: float = ASSUMED_NU12) -> Law:
    """A material known by its strips; ``direction_deg`` is what of it lies along the pull.

    0 for an upper tested from its pull axis; for a cloth the direction (from the roll's length)
    that is laid along the pull. Raises SheetError, when asked, as ``fit_strips`` does.
    """
    fits: dict[float, StretchFit] = {}

    def law(pull_n_per_mm: float) -> Ply:
        key = round(pull_n_per_mm, 4)
        if key not in fits:
            fits[key] = fit_strips(strips, key, nu12=nu12)
        return Ply(fits[key].sheet, fits[key].tight_deg - direction_deg)

    if all(len(strip.loads_n) == 1 for strip in strips):  # one reading is a straight line
        return lambda pull_n_per_mm: law(1.0)
    return law


def turned(law: Law, by_deg: float) -> Law:
    """The same material laid turned by an angle."""

    def turned_law(pull_n_per_mm: float) -> Ply:
        ply = law(pull_n_per_mm)
        return Ply(ply.sheet, ply.angle_deg + by_deg)

    return turned_law


@dataclass(frozen=True)
class Section:
    """A stretch of the hold line; ``layers`` are the indices of the backings behind it."""

    length_mm: float
    layers: tuple[int, ...] = ()


@dataclass(frozen=True)
class Hold:
    """What a hold line gives under a pull.

    ``upper_mm`` without backing; ``low_mm`` to ``high_mm`` with it (shear blocked to shear free);
    ``added_mm`` is the bench sum of strip stiffnesses, never below ``high_mm``. ``holds`` is None
    without a limit, or when the limit lies within the range: then only a trial can tell.
    """

    distance_mm: float
    pull_n_per_mm: float
    upper_mm: float
    low_mm: float
    high_mm: float
    added_mm: float
    limit_mm: float | None = None

    @property
    def holds(self) -> bool | None:
        """Whether the limit is kept."""
        if self.limit_mm is None:
            return None
        if self.high_mm <= self.limit_mm:
            return True
        return False if self.low_mm > self.limit_mm else None

    def percent(self, mm: float) -> float:
        """``mm`` as per cent of the distance."""
        return 100.0 * mm / self.distance_mm

    def scaled(self, factor: float) -> Hold:
        """With the backed figures multiplied by what trials showed."""
        return Hold(
            self.distance_mm,
            self.pull_n_per_mm,
            self.upper_mm,
            self.low_mm * factor,
            self.high_mm * factor,
            self.added_mm * factor,
            self.limit_mm,
        )


@dataclass(frozen=True)
class Stretch:
    """A stack under a pull, as shares of its length: see ``sheet.Give``."""

    blocked: float
    free: float
    added: float


def stretch(laws: Sequence[Law], pull_n_per_mm: float) -> Stretch:
    """Return what a stack gives. Each material is taken at the share of the pull that it carries.

    Sheets glued together share the strain, so a backing near its own limit and an upper at a
    fraction of its own are each represented by the secant of their load.
    """
    shares = [pull_n_per_mm / len(laws)] * len(laws) if laws else []
    plies = [law(pull_n_per_mm) for law in laws]
    for _ in range(ROUNDS):
        found = shares_n_per_mm(plies, pull_n_per_mm)
        still = max(abs(a - b) for a, b in zip(found, shares, strict=True)) <= SETTLE * pull_n_per_mm
        shares = [max(share, 0.01 * pull_n_per_mm) for share in found]
        if still:
            break
        plies = [law(share) for law, share in zip(laws, shares, strict=True)]
    got = give(plies, pull_n_per_mm)
    return Stretch(got.shear_blocked, got.shear_free, got.added)


def check_hold(
    upper: Law,
    backings: Sequence[Law],
    sections: Sequence[Section],
    pull_n_per_mm: float,
    limit_mm: float | None = None,
) -> Hold:
    """Return what a hold line gives. Raises SheetError when it has no length or the pull none."""
    distance = sum(section.length_mm for section in sections)
    if distance <= 0:
        raise SheetError("the hold line has no length", remedy="draw it from heel to throat")
    alone = stretch([upper], pull_n_per_mm)
    known: dict[tuple[int, ...], Stretch] = {(): alone}
    low = high = added = 0.0
    for section in sections:
        if section.layers not in known:
            stack = [upper, *(backings[i] for i in section.layers)]
            known[section.layers] = stretch(stack, pull_n_per_mm)
        got = known[section.layers]
        low += section.length_mm * got.blocked
        high += section.length_mm * got.free
        added += section.length_mm * got.added
    return Hold(distance, pull_n_per_mm, distance * alone.free, low, high, added, limit_mm)


def hold_at(
    angle_off_deg: float,
    upper: Law,
    backings: Sequence[Law],
    sections: Sequence[Section],
    pull_n_per_mm: float,
    limit_mm: float | None = None,
) -> Hold:
    """The hold with all backing turned off its place by an angle, to the worse side."""
    sides = [
        check_hold(
            upper, [turned(b, side * angle_off_deg) for b in backings], sections, pull_n_per_mm, limit_mm
        )
        for side in ((1, -1) if angle_off_deg else (1,))
    ]
    return max(sides, key=lambda hold: hold.high_mm)


def extra_mm_at(
    angle_off_deg: float,
    upper: Law,
    backings: Sequence[Law],
    sections: Sequence[Section],
    pull_n_per_mm: float,
) -> float:
    """How many mm more the hold line gives when the backing lies turned by an angle (shear free).

    Below zero when the turn happens to help (the cloth was off its tight direction before).
    """
    straight = check_hold(upper, backings, sections, pull_n_per_mm)
    return hold_at(angle_off_deg, upper, backings, sections, pull_n_per_mm).high_mm - straight.high_mm


def sensitivity(
    angles_deg: Iterable[float],
    upper: Law,
    backings: Sequence[Law],
    sections: Sequence[Section],
    pull_n_per_mm: float,
    limit_mm: float | None = None,
) -> tuple[tuple[float, Hold], ...]:
    """(angle off, hold) for each angle: what a slant in the lay costs."""
    return tuple((a, hold_at(a, upper, backings, sections, pull_n_per_mm, limit_mm)) for a in angles_deg)


def tolerance_deg(
    upper: Law,
    backings: Sequence[Law],
    sections: Sequence[Section],
    pull_n_per_mm: float,
    limit_mm: float,
) -> float | None:
    """The largest turn off its place that can be granted: up to it the limit is kept throughout.

    In steps of STEP_DEG, 90 when every angle keeps the limit, None when it is broken already
    without a turn. The shear-free figure counts, the greater of the range.
    """
    granted = None
    for angle in np.arange(0.0, 90.0 + STEP_DEG / 2, STEP_DEG):
        if hold_at(float(angle), upper, backings, sections, pull_n_per_mm).high_mm > limit_mm:
            break
        granted = float(angle)
    return granted
