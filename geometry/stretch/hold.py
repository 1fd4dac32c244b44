"""Whether backing holds an upper's shape: how far a piece gives along its pull axis.

The hold line of a piece, heel to throat, is cut into sections by what lies behind the upper
there: nothing, one layer of backing, two. Every section stretches as the sheets glued together
in it do (geometry.stretch.sheet); the sections add up. What is given is a range: shear blocked to shear
free, since on the last a stack can skew only partly.

No published measurement of leather with fused cloth against angle was found. The strip test of
cloth and upper and the lasting trial decide; this says what to expect and what to try first.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from geometry.errors import SheetError
from geometry.stretch.fit import ASSUMED_NU12, CASES, StretchFit, fit_strips
from geometry.stretch.sheet import Give, Ply, Sheet, give, shares_n_per_mm
from geometry.stretch.strips import PulledStrip

Law = Callable[[float], Ply]
"""The sheet that stands for a material under this many N/mm, and where its axis 1 lies from the
pull. A material tested at several loads gives another secant at every load."""

SETTLE = 1e-4  # relative change of the shares at which secants count as settled
ROUNDS = 12  # rounds in which secants follow the shares of the load; they settle in fewer
STEP_DEG = 0.5  # finer than pieces can be laid
STRIDE_DEG = 2.5  # first looked at so far apart, then in steps of STEP_DEG


@dataclass(frozen=True)
class Material:
    """A material in a stack, as well as it is known: CASES laws soft and stiff about the best.

    Case by case the soft and the stiff end of what is left open, see ``fit.Case``.
    """

    best: Law
    soft: tuple[Law, ...]
    stiff: tuple[Law, ...]

    def turned(self, by_deg: float) -> Material:
        """The same material laid turned by an angle."""
        return self._with({law: _turned(law, by_deg) for law in self._laws})

    def mirrored(self) -> Material:
        """The same material seen from the other hand's piece: its angles count the other way."""
        return self._with({law: _mirrored(law) for law in self._laws})

    @property
    def _laws(self) -> set[Law]:
        return {self.best, *self.soft, *self.stiff}

    def _with(self, made: dict[Law, Law]) -> Material:
        """Cases that were one law stay one."""
        return Material(
            made[self.best], tuple(made[law] for law in self.soft), tuple(made[law] for law in self.stiff)
        )


def fixed(sheet: Sheet, angle_deg: float = 0.0) -> Material:
    """A material known by its constants, without anything about how sure they are."""
    ply = Ply(sheet, angle_deg)

    def law(pull_n_per_mm: float) -> Ply:
        return ply

    return Material(law, (law,) * CASES, (law,) * CASES)


def from_strips(
    strips: Sequence[PulledStrip], direction_deg: float = 0.0, *, nu12: float = ASSUMED_NU12
) -> Material:
    """A material known by its strips; ``direction_deg`` is what of it lies along the pull.

    0 for an upper tested from its pull axis; for a cloth the direction (from the roll's length)
    that is laid along the pull. Raises SheetError, when asked, as ``fit_strips`` does.
    """
    straight = all(len(strip.loads_n) == 1 for strip in strips)
    fits: dict[float, StretchFit] = {}

    def fit_at(pull_n_per_mm: float) -> StretchFit:
        key = 1.0 if straight else round(pull_n_per_mm, 4)
        if key not in fits:
            fits[key] = fit_strips(strips, key, nu12=nu12)
        return fits[key]

    def best(pull_n_per_mm: float) -> Ply:
        fit = fit_at(pull_n_per_mm)
        return Ply(fit.sheet, fit.tight_deg - direction_deg)

    def case(i: int, end: Literal["soft", "stiff"]) -> Law:
        def law(pull_n_per_mm: float) -> Ply:
            found = fit_at(pull_n_per_mm).cases[i]
            return Ply(found.soft if end == "soft" else found.stiff, found.tight_deg - direction_deg)

        return law

    every = range(CASES)
    return Material(best, tuple(case(i, "soft") for i in every), tuple(case(i, "stiff") for i in every))


def _turned(law: Law, by_deg: float) -> Law:
    def turned_law(pull_n_per_mm: float) -> Ply:
        ply = law(pull_n_per_mm)
        return Ply(ply.sheet, ply.angle_deg + by_deg)

    return turned_law


def _mirrored(law: Law) -> Law:
    def mirrored_law(pull_n_per_mm: float) -> Ply:
        ply = law(pull_n_per_mm)
        return Ply(ply.sheet, -ply.angle_deg)

    return mirrored_law


@dataclass(frozen=True)
class Section:
    """A stretch of the hold line; ``layers`` are the indices of the backings behind it."""

    length_mm: float
    layers: tuple[int, ...] = ()


@dataclass(frozen=True)
class Hold:
    """What a hold line gives under a pull.

    ``upper_mm`` without backing. With it ``best_mm`` (best estimates, shear free), and the range
    ``low_mm`` (shear blocked, or stiff end) to ``high_mm`` (soft end, shear free); ``added_mm`` is
    the bench sum of strip stiffnesses, never below ``high_mm``. ``holds`` is None without a limit,
    or when the limit lies within the range: then only a trial can tell.
    """

    distance_mm: float
    pull_n_per_mm: float
    upper_mm: float
    best_mm: float
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


@dataclass(frozen=True)
class Stretch:
    """A stack under a pull, as shares of its length.

    ``best``: best estimates, shear free. ``low``: shear blocked, or the stiff end of what the
    strips leave open, whichever is less (not both at once: that would say next to nothing).
    ``free`` and ``added``: soft ends, see ``sheet.Give``.
    """

    best: float
    low: float
    free: float
    added: float


def stretch(materials: Sequence[Material], pull_n_per_mm: float) -> Stretch:
    """Return what a stack gives. Each material is taken at the share of the pull that it carries.

    Sheets glued together share the strain, so a backing near its own limit and an upper at a
    fraction of its own are each represented by the secant of their load.
    """
    best = _settled([m.best for m in materials], pull_n_per_mm)
    stiff = _every_case([m.stiff for m in materials], pull_n_per_mm)
    soft = _every_case([m.soft for m in materials], pull_n_per_mm)
    return Stretch(
        best.shear_free,
        min(best.shear_blocked, *(case.shear_free for case in stiff)),
        max(case.shear_free for case in soft),
        max(case.added for case in soft),
    )


def _every_case(laws: Sequence[Sequence[Law]], pull_n_per_mm: float) -> list[Give]:
    """Every case once; materials that are known alike in all cases are not asked again."""
    distinct = dict.fromkeys(zip(*laws, strict=True))
    return [_settled(case, pull_n_per_mm) for case in distinct]


def _settled(laws: Sequence[Law], pull_n_per_mm: float) -> Give:
    return give(settled_plies(laws, pull_n_per_mm), pull_n_per_mm)


def settled_plies(laws: Sequence[Law], pull_n_per_mm: float) -> list[Ply]:
    """Return the sheets of a stack, each at the secant of the share of the pull that it carries."""
    plies = [law(pull_n_per_mm) for law in laws]
    shares: Sequence[float] = [pull_n_per_mm] * len(laws)
    for _ in range(ROUNDS):
        found = [max(s, 0.01 * pull_n_per_mm) for s in shares_n_per_mm(plies, pull_n_per_mm)]
        still = max(abs(a - b) for a, b in zip(found, shares, strict=True)) <= SETTLE * pull_n_per_mm
        shares, before = found, plies
        plies = [law(share) for law, share in zip(laws, shares, strict=True)]
        if still or plies == before:
            break
    return plies


def check_hold(
    upper: Material,
    backings: Sequence[Material],
    sections: Sequence[Section],
    pull_n_per_mm: float,
    limit_mm: float | None = None,
) -> Hold:
    """Return what a hold line gives. Raises SheetError when it has no length or the pull none."""
    return _line(0.0, upper, backings, sections, pull_n_per_mm, limit_mm)


def _line(
    off_deg: float,
    upper: Material,
    backings: Sequence[Material],
    sections: Sequence[Section],
    pull_n_per_mm: float,
    limit_mm: float | None,
) -> Hold:
    distance = sum(section.length_mm for section in sections)
    if distance <= 0:
        raise SheetError("the hold line has no length", remedy="draw it from heel to throat")
    alone = _stack(upper, (), 0.0, pull_n_per_mm)
    best = low = high = added = 0.0
    for section in sections:
        behind = tuple(backings[i] for i in section.layers)
        got = _stack(upper, behind, off_deg if behind else 0.0, pull_n_per_mm)
        best += section.length_mm * got.best
        low += section.length_mm * got.low
        high += section.length_mm * got.free
        added += section.length_mm * got.added
    return Hold(distance, pull_n_per_mm, distance * alone.best, best, low, high, added, limit_mm)


@lru_cache(maxsize=2048)
def _stack(upper: Material, backings: tuple[Material, ...], off_deg: float, pull_n_per_mm: float) -> Stretch:
    """``stretch`` of a stack with its backing turned; pieces on one cloth ask for the same ones."""
    laid = (backing.turned(off_deg) if off_deg else backing for backing in backings)
    return stretch([upper, *laid], pull_n_per_mm)


def hold_at(
    angle_off_deg: float,
    upper: Material,
    backings: Sequence[Material],
    sections: Sequence[Section],
    pull_n_per_mm: float,
    limit_mm: float | None = None,
) -> Hold:
    """The hold with all backing turned off its place by an angle, to the worse side."""
    sides = [
        _line(side * angle_off_deg, upper, backings, sections, pull_n_per_mm, limit_mm)
        for side in ((1, -1) if angle_off_deg else (1,))
    ]
    return max(sides, key=lambda hold: hold.high_mm)


def extra_mm_at(
    angle_off_deg: float,
    upper: Material,
    backings: Sequence[Material],
    sections: Sequence[Section],
    pull_n_per_mm: float,
) -> float:
    """How many mm more the hold line gives when the backing lies turned by an angle.

    Of best estimates, shear free. Below zero when the turn happens to help (the cloth was off its
    tight direction before).
    """
    straight = check_hold(upper, backings, sections, pull_n_per_mm)
    return hold_at(angle_off_deg, upper, backings, sections, pull_n_per_mm).best_mm - straight.best_mm


def in_chain(holds: Sequence[Hold], limit_mm: float | None = None) -> Hold:
    """Return the hold of lines that the same pull stretches one after another: all adds up.

    Both ends of the range add up too, since nothing says that one stack skews when its neighbour
    does not. Raises SheetError without a line, or when the pulls differ.
    """
    pulls = {hold.pull_n_per_mm for hold in holds}
    if len(pulls) != 1:
        raise SheetError("a chain of hold lines needs lines under one pull", remedy="draw its hold lines")

    def total(name: str) -> float:
        return float(sum(getattr(hold, name) for hold in holds))

    return Hold(
        total("distance_mm"),
        pulls.pop(),
        total("upper_mm"),
        total("best_mm"),
        total("low_mm"),
        total("high_mm"),
        total("added_mm"),
        limit_mm,
    )


def tolerance_deg(
    upper: Material,
    backings: Sequence[Material],
    sections: Sequence[Section],
    pull_n_per_mm: float,
    limit_mm: float,
) -> float | None:
    """The largest turn off its place that can be granted, see ``granted_turn_deg``.

    The shear-free figure counts, the greater of the range.
    """

    def kept(angle: float) -> bool:
        return hold_at(angle, upper, backings, sections, pull_n_per_mm).high_mm <= limit_mm

    return granted_turn_deg(kept)


def granted_turn_deg(kept: Callable[[float], bool]) -> float | None:
    """The largest turn up to which ``kept`` says that a limit is kept throughout.

    In steps of STEP_DEG, 90 when every angle keeps the limit, None when it is broken already
    without a turn.
    """
    if not kept(0.0):
        return None
    granted = 0.0  # the give changes smoothly with the turn: long strides, then the last one in steps
    while granted < 90.0 and kept(min(granted + STRIDE_DEG, 90.0)):
        granted = min(granted + STRIDE_DEG, 90.0)
    while granted < 90.0 and kept(granted + STEP_DEG):
        granted += STEP_DEG
    return granted
