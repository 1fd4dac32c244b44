"""Strips pulled at an angle: what they say at a stated pull, and which of them say nothing.

What is asked for resembles the strip method for fabrics (ISO 13934-1: 50 mm wide, 200 mm between jaws, as a
laboratory's page gives it) and for leather ISO 3376 (jaws 50 or 100 mm apart); neither was read in full.
A bias strip in wide jaws cannot shear freely and reads too stiff: keep strips long and narrow.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from geometry.errors import SheetError
from geometry.said import said
from geometry.tolerances import MOST_STRAIN


@dataclass(frozen=True)
class PulledStrip:
    """One strip: ``angle_deg`` is where it was cut, from the roll's length (or the pull axis).

    ``loads_n`` and ``extensions_mm`` are readings of the same pull, smallest load first; one
    reading will do. ``narrowings_mm`` is how much the width shrank at each, where it was read.
    """

    angle_deg: float
    width_mm: float
    gauge_mm: float
    loads_n: tuple[float, ...]
    extensions_mm: tuple[float, ...]
    narrowings_mm: tuple[float, ...] = ()

    @property
    def name(self) -> str:
        """How messages call the strip."""
        return said("strip at {0} deg", f"{self.angle_deg:g}")

    @property
    def highest_pull_n_per_mm(self) -> float:
        """The largest force per width it was pulled with."""
        return max(self.loads_n) / self.width_mm


def check_strip(strip: PulledStrip) -> None:
    """Raise SheetError, naming the strip and the remedy, when its readings cannot be."""

    def refuse(what: str, remedy: str) -> None:
        raise SheetError(said("{0}: {1}", strip.name, what), remedy=remedy, code="BAD_STRIP")

    numbers = (strip.angle_deg, strip.width_mm, strip.gauge_mm)
    if not np.isfinite([*numbers, *strip.loads_n, *strip.extensions_mm, *strip.narrowings_mm]).all():
        refuse("a reading is not a number", "enter it again")
    if strip.width_mm <= 0 or strip.gauge_mm <= 0:
        refuse("width and gauge length must be greater than zero", "measure the strip between the marks")
    if not strip.loads_n or len(strip.loads_n) != len(strip.extensions_mm):
        refuse(
            said("{0} loads but {1} extensions", len(strip.loads_n), len(strip.extensions_mm)),
            "enter one extension for every load",
        )
    if strip.narrowings_mm and len(strip.narrowings_mm) != len(strip.loads_n):
        refuse("narrowing was not read at every load", "enter one for every load, or none")
    for load, extension in zip(strip.loads_n, strip.extensions_mm, strict=True):
        if load <= 0:
            refuse(
                said("a load of {0} N", f"{load:g}"),
                "loads are greater than zero; leave the unloaded reading out",
            )
        if extension <= 0:
            refuse(
                said("{0} mm under {1} N", f"{extension:g}", f"{load:g}"),
                "a pulled strip gets longer: measure from the unloaded length",
            )
        if extension > MOST_STRAIN * strip.gauge_mm:
            refuse(
                said("{0} mm on a gauge length of {1} mm", f"{extension:g}", f"{strip.gauge_mm:g}"),
                "no upper or backing stretches that far: check that both are in mm",
            )
    order = np.argsort(strip.loads_n, kind="stable")
    loads, extensions = np.array(strip.loads_n)[order], np.array(strip.extensions_mm)[order]
    if (np.diff(loads) == 0).any():
        refuse("the same load appears twice", "enter repeats as strips of their own")
    if (np.diff(extensions) < 0).any():
        refuse("it gets shorter as the load grows", "check the order of the readings, or the clamps for slip")


def strain_at(strip: PulledStrip, pull_n_per_mm: float) -> float:
    """Extension per length at a pull: the monotone curve through the readings and the origin.

    One reading stands for a straight line. Beyond the last reading the line from the origin
    through it is used (its secant), which the caller must report. Raises SheetError for a strip that was
    never loaded.
    """
    return _read(strip, strip.extensions_mm, pull_n_per_mm) / strip.gauge_mm


def narrowing_at(strip: PulledStrip, pull_n_per_mm: float) -> float | None:
    """Narrowing per width at a pull (positive = narrower), None where it was not read."""
    if not strip.narrowings_mm:
        return None
    return _read(strip, strip.narrowings_mm, pull_n_per_mm) / strip.width_mm


def bend(strips: Sequence[PulledStrip], pull_n_per_mm: float) -> float | None:
    """How far the curves bend at low pull: extension at half the pull over half the extension.

    1 is a straight line, above 1 is soft at first and stiffer later. None when no strip has
    several readings within the pull.
    """
    ratios = []
    for strip in strips:
        pulls = np.array(strip.loads_n) / strip.width_mm
        if (pulls <= 0.75 * pull_n_per_mm).any() and (pulls > 0.75 * pull_n_per_mm).any():
            ratios.append(strain_at(strip, pull_n_per_mm / 2) / (strain_at(strip, pull_n_per_mm) / 2))
    return float(np.mean(ratios)) if ratios else None


def _read(strip: PulledStrip, values: Sequence[float], pull_n_per_mm: float) -> float:
    if not max(strip.loads_n, default=0.0) > 0.0:
        unloaded = "a load of 0 N; loads are greater than zero"
        raise SheetError(
            said("{0}: {1}", strip.name, unloaded), remedy="leave the unloaded reading out", code="BAD_STRIP"
        )
    order = np.argsort(strip.loads_n)
    x = np.concatenate([[0.0], np.array(strip.loads_n)[order] / strip.width_mm])
    y = np.concatenate([[0.0], np.array(values)[order]])
    if len(x) == 2 or pull_n_per_mm >= x[-1]:
        return float(y[-1] * pull_n_per_mm / x[-1])
    from scipy.interpolate import PchipInterpolator  # a fifth of a second, and few strips need it

    return float(PchipInterpolator(x, y)(pull_n_per_mm))
