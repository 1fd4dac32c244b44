"""Constants and tight direction of a sheet from strips pulled at angles.

At angle a from axis 1 a strip's compliance is c^4/E1 + s^4/E2 + s^2 c^2 (1/G12 - 2 nu12/E1) (R.M. Jones,
Mechanics of Composite Materials, ch. 2, from memory). Extension alone therefore tells E1, E2 and the last
bracket; nu12 needs the strip's narrowing, or is assumed, and G12 follows. The logarithms of the compliances
are fitted by least squares: strips of one cloth differ by a percentage, not by a length in mm. Intervals
are at CONFIDENCE: what an F test on the misfit does not reject.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy import special

from geometry.errors import SheetError
from geometry.findings import Finding, Severity
from geometry.pull import undirected_deg
from geometry.said import percent, said
from geometry.stretch.regression import Array, Profile, basis, log_interval, profile, tight_interval
from geometry.stretch.sheet import Sheet
from geometry.stretch.strips import PulledStrip, bend, check_strip, narrowing_at, strain_at
from geometry.tolerances import (
    NEARLY_SAME_RATIO,
    READING_MM,
    REPEAT_REFUSE_RATIO,
    REPEAT_WARN_RATIO,
    STRAIGHT_WITHIN,
    TIGHT_UNTOLD_DEG,
)

CONFIDENCE = 0.95  # usual for tests of materials (common practice, no source)
CASES = 5  # samples of the sheets that cannot be ruled out
ASSUMED_NU12 = 0.2
"""Taken where narrowing was not measured (woven cloth 0.1 to 0.4, common practice, no source). It
moves G12 by 2 nu12/E1, a per cent or so on a woven cloth, and the strip's extension not at all."""


@dataclass(frozen=True)
class Interval:
    """A value and where the truth lies at CONFIDENCE; ``low`` and ``high`` None = cannot be said."""

    value: float
    low: float | None
    high: float | None


@dataclass(frozen=True)
class Case:
    """A tight direction that cannot be ruled out, with the constants that go with it.

    ``soft`` and ``stiff`` have every constant at one end of what that direction leaves open.
    """

    tight_deg: float
    soft: Sheet
    stiff: Sheet


@dataclass(frozen=True)
class StretchFit:
    """A fitted sheet. ``tight_deg`` is axis 1, from where the strips' angles count, in (-90, 90].

    ``tight_from``: ``measured``, or ``threads`` when too few angles were tested to tell a slant,
    so that only along (0) or across (90) was asked. ``scatter`` is the relative spread of the
    strips about the fit; ``misfit_p`` the chance of so poor a fit if the sheet is orthotropic
    (None without repeats or spare angles); ``bend`` see ``strips.bend``. ``cases`` are CASES
    samples of all that cannot be ruled out: a slant and the constants go together, so the ends of
    separate intervals would say too much.
    """

    sheet: Sheet
    tight_deg: float
    tight_low_deg: float | None
    tight_high_deg: float | None
    tight_from: Literal["measured", "threads"]
    tight_told: bool
    e1: Interval
    e2: Interval
    g12: Interval
    nu12: Interval
    nu12_from: Literal["measured", "assumed"]
    scatter: float
    misfit_p: float | None
    bend: float | None
    pull_n_per_mm: float
    strips: int
    cases: tuple[Case, ...]
    findings: tuple[Finding, ...]


def fit_strips(
    strips: Sequence[PulledStrip],
    pull_n_per_mm: float,
    *,
    nu12: float = ASSUMED_NU12,
    reading_mm: float = READING_MM,
) -> StretchFit:
    """Fit a sheet to strips at a working pull (secants at that pull).

    ``reading_mm`` is the least step that the extensions were read to: equal repeats do not make
    the interval shrink to nothing. Raises SheetError where nothing can be fitted: a bad strip,
    too few angles, contradictory repeats, or strips that no sheet can answer.
    """
    if not strips:
        raise SheetError(
            "there are no strips", remedy="cut and pull strips every 30 degrees, or at least at 0, 45 and 90"
        )
    if not (np.isfinite(pull_n_per_mm) and pull_n_per_mm > 0):
        raise SheetError(
            said("a pull of {0} N/mm", f"{pull_n_per_mm:g}"), remedy="it must be greater than zero"
        )
    for strip in strips:
        check_strip(strip)
    angles = np.array([undirected_deg(s.angle_deg) for s in strips])
    strains = np.array([strain_at(s, pull_n_per_mm) for s in strips])
    measured = strains / pull_n_per_mm
    findings = _repeats(angles, measured)
    slanted = _told_apart(angles)
    found = profile(angles, np.log(measured), slanted=slanted)
    tight, s = float(found.tight_deg[found.best]), found.compliances[found.best].tolist()
    rss = float(found.misfit[found.best])
    free = len(strips) - (4 if slanted else 3)
    floor = float(np.mean((reading_mm / np.sqrt(12.0) / (strains * [p.gauge_mm for p in strips])) ** 2))
    limit = None
    if free > 0:
        limit = rss + max(rss / free, floor) * float(special.fdtri(1, free, CONFIDENCE))
    s12, nu_from, nu_interval = _narrowing(strips, angles, pull_n_per_mm, tight, s, nu12)
    s66 = 4 * s[2] - s[0] - s[1] - 2 * s12
    if s66 <= 0:
        raise SheetError(
            "the strips on the bias give less than any sheet with these strips along and across could",
            remedy="test the 45-degree strips again: narrow, long, not held askew in wide jaws",
            code="NO_SHEET",
        )
    sheet = Sheet(1 / s[0], 1 / s[1], 1 / s66, -s12 / s[0])
    intervals = _constants(found, limit, sheet)
    low, high, told = _tight(found, limit, slanted)
    fit = StretchFit(
        sheet=sheet,
        tight_deg=undirected_deg(tight),
        tight_low_deg=low,
        tight_high_deg=high,
        tight_from="measured" if slanted else "threads",
        tight_told=told,
        e1=intervals[0],
        e2=intervals[1],
        g12=intervals[2],
        nu12=nu_interval,
        nu12_from=nu_from,
        scatter=float(np.sqrt(rss / free)) if free > 0 else 0.0,
        misfit_p=_misfit(angles, np.log(measured), rss, 4 if slanted else 3, floor),
        bend=bend(strips, pull_n_per_mm),
        pull_n_per_mm=pull_n_per_mm,
        strips=len(strips),
        cases=_cases(found, limit, sheet, tight),
        findings=(),
    )
    findings += _remarks(fit, strips, s, free)
    return StretchFit(**{**fit.__dict__, "findings": tuple(findings)})


def extensions(sheet: Sheet, tight_deg: float, angles_deg: Array, pull_n_per_mm: float) -> Array:
    """Extension (share of length) of strips at angles, for a polar plot; shear free."""
    s = np.array([1 / sheet.e1_n_per_mm, 1 / sheet.e2_n_per_mm, 0.0])
    s[2] = (s[0] + s[1] + 1 / sheet.g12_n_per_mm - 2 * sheet.nu12 / sheet.e1_n_per_mm) / 4
    return basis(np.asarray(angles_deg, dtype=np.float64) - tight_deg) @ s * pull_n_per_mm


# -- the angles and the narrowing ------------------------------------------------------------------
def _told_apart(angles: Array) -> bool:
    """Whether the angles can tell a slant of the tight direction; raises SheetError if too few."""
    distinct = _distinct(angles)
    if len(distinct) == 1:
        raise SheetError(
            said("strips at one angle only ({0} deg) say nothing about the other angles", f"{distinct[0]:g}"),
            remedy="cut strips at 0, 45 and 90 degrees at least, better every 30 degrees",
            code="TOO_FEW_ANGLES",
        )
    double = np.radians(2 * np.array(distinct))
    waves = np.column_stack(
        [np.ones(len(double)), np.cos(double), np.sin(double), np.cos(2 * double), np.sin(2 * double)]
    )
    # axes along the threads leave the cosines only; a slant is told by the first sine
    if np.linalg.matrix_rank(waves[:, [0, 1, 3]], tol=1e-3) < 3:
        raise SheetError(
            said(
                "strips at {0} deg do not give the shear stiffness", " and ".join(f"{a:g}" for a in distinct)
            ),
            remedy="cut strips at 45 degrees as well",
            code="TOO_FEW_ANGLES",
        )
    return bool(np.linalg.matrix_rank(waves[:, [0, 1, 2, 3]], tol=1e-3) == 4)


def _distinct(angles: Array) -> list[float]:
    found: list[float] = []
    for angle in np.sort(angles):
        if all(abs(undirected_deg(angle - other)) > 1.0 for other in found):
            found.append(float(angle))
    return found


def _narrowing(
    strips: Sequence[PulledStrip], angles: Array, pull: float, tight: float, s: Array, nu12: float
) -> tuple[float, Literal["measured", "assumed"], Interval]:
    """(S12, how known, nu12). At angle a the narrowing is -S12 - (S11 + S22 - k) s^2 c^2 per pull."""
    k = 4 * s[2] - s[0] - s[1]
    found = []
    for strip, angle in zip(strips, angles, strict=True):
        narrowing = narrowing_at(strip, pull)
        if narrowing is not None:
            off = np.radians(angle - tight)
            found.append(-narrowing / pull - (s[0] + s[1] - k) * (np.sin(off) * np.cos(off)) ** 2)
    if not found:
        return -nu12 * s[0], "assumed", Interval(nu12, None, None)
    s12 = float(np.mean(found))
    value = -s12 / s[0]
    if len(found) < 2:
        return s12, "measured", Interval(value, None, None)
    reach = (
        special.stdtrit(len(found) - 1, (1 + CONFIDENCE) / 2)
        * np.std(found, ddof=1)
        / np.sqrt(len(found))
        / s[0]
    )
    return s12, "measured", Interval(value, float(value - reach), float(value + reach))


# -- how good -------------------------------------------------------------------------------------
def _constants(found: Profile, limit: float | None, sheet: Sheet) -> tuple[Interval, Interval, Interval]:
    """E1, E2 and G12 with their intervals."""
    values = (sheet.e1_n_per_mm, sheet.e2_n_per_mm, sheet.g12_n_per_mm)
    if limit is None:
        return (
            Interval(values[0], None, None),
            Interval(values[1], None, None),
            Interval(values[2], None, None),
        )
    s = found.compliances
    shear, shear_slopes = _shear(s, sheet.nu12)
    slopes = np.zeros((3, len(s), 3))
    slopes[0, :, 0] = slopes[1, :, 1] = 1.0
    slopes[2] = shear_slopes
    out = []
    for value, logs, slope in zip(
        values, (np.log(s[:, 0]), np.log(s[:, 1]), np.log(shear)), slopes, strict=True
    ):
        low, high = log_interval(found, limit, logs, slope)
        out.append(Interval(value, float(np.exp(-min(high, 50.0))), float(np.exp(-max(low, -50.0)))))
    return out[0], out[1], out[2]


def _shear(s: Array, nu12: float) -> tuple[Array, Array]:
    """1/G12 of compliances (k, 3), and the slopes (k, 3) of its log by theirs."""
    tightness = 1 - 2 * nu12  # of S11 in 1/G12 = 4 S45 - S22 - S11 + 2 nu12 S11
    shear = np.maximum(4 * s[:, 2] - s[:, 1] - tightness * s[:, 0], 1e-3 * s[:, 2])
    return shear, s * (-tightness, -1.0, 4.0) / shear[:, None]


def _cases(found: Profile, limit: float | None, sheet: Sheet, tight: float) -> tuple[Case, ...]:
    """Sample the directions within ``limit`` from end to end, each with its own constants."""
    if limit is None:
        return (Case(tight, sheet, sheet),) * CASES
    within = np.flatnonzero(found.misfit <= limit)
    turn = (found.tight_deg[within] - tight + 90.0) % 180.0 - 90.0
    within, turn = within[np.argsort(turn)], np.sort(turn)
    wanted = [turn[0], turn[0] / 2, 0.0, turn[-1] / 2, turn[-1]]
    picked = [int(within[np.argmin(np.abs(turn - t))]) for t in wanted]
    s, covariance = found.compliances[picked], found.covariance[picked]
    shear, slopes = _shear(s, sheet.nu12)
    room = np.sqrt(np.maximum(limit - found.misfit[picked], 0.0))
    reach = room[:, None] * np.sqrt(np.einsum("kii->ki", covariance))
    shear_reach = room * np.sqrt(np.maximum(np.einsum("ki,kij,kj->k", slopes, covariance, slopes), 0.0))

    def at(i: int, way: float) -> Sheet:
        e1, e2 = (1 / s[i, :2] * np.exp(way * np.minimum(reach[i, :2], 5.0))).tolist()
        g12 = float(np.exp(way * min(shear_reach[i], 5.0)) / shear[i])
        bound = 0.99 * (e1 / e2) ** 0.5
        return Sheet(e1, e2, g12, float(np.clip(sheet.nu12, -bound, bound)))

    return tuple(Case(float(found.tight_deg[k]), at(i, -1.0), at(i, 1.0)) for i, k in enumerate(picked))


def _tight(found: Profile, limit: float | None, slanted: bool) -> tuple[float | None, float | None, bool]:
    """(low, high, told) of the tight direction."""
    if limit is None:
        s = found.compliances[found.best]
        return None, None, bool(s[1] / s[0] > NEARLY_SAME_RATIO)
    if not slanted:
        return None, None, bool(found.misfit.max() > limit)
    low, high, one = tight_interval(found, limit)
    if high - low > TIGHT_UNTOLD_DEG:
        return None, None, False
    return low, high, one


def _misfit(angles: Array, logs: Array, rss: float, parameters: int, floor: float) -> float | None:
    """Chance of so poor a fit: F test of the misfit against the spread of repeats."""
    groups = [logs[np.abs([undirected_deg(a - b) for a in angles]) <= 1.0] for b in _distinct(angles)]
    pure = sum(float(np.sum((g - g.mean()) ** 2)) for g in groups)
    spare, repeats = len(groups) - parameters, len(logs) - len(groups)
    if spare <= 0 or repeats <= 0:
        return None
    spread = max(pure / repeats, floor)
    return float(special.fdtrc(spare, repeats, max(rss - pure, 0.0) / spare / spread))


# -- what the person is told --------------------------------------------------------------------
def _repeats(angles: Array, measured: Array) -> list[Finding]:
    findings = []
    for angle in _distinct(angles):
        same = measured[np.abs([undirected_deg(a - angle) for a in angles]) <= 1.0]
        ratio = float(same.max() / same.min())
        if ratio > REPEAT_REFUSE_RATIO:
            raise SheetError(
                said(
                    "repeats at {0} deg contradict each other: one gives {1} times the other",
                    f"{angle:g}",
                    f"{ratio:.1f}",
                ),
                remedy="look for a slipped clamp, a strip cut at another angle or a mistyped reading",
                code="CONTRADICTORY_REPEATS",
            )
        if ratio > REPEAT_WARN_RATIO:
            findings.append(
                Finding(
                    code="REPEATS_APART",
                    severity=Severity.WARNING,
                    message=said("repeats at {0} deg differ by a factor {1}", f"{angle:g}", f"{ratio:.2f}"),
                    done="all were used",
                    advice="pull more strips, or leave out the one that slipped",
                )
            )
    return findings


def _remarks(fit: StretchFit, strips: Sequence[PulledStrip], s: Array, free: int) -> list[Finding]:
    noticed: list[Finding] = []

    def say(code: str, severity: Severity, message: str, advice: str, done: str = "") -> None:
        noticed.append(Finding(code=code, severity=severity, message=message, advice=advice, done=done))

    round_about = extensions(fit.sheet, 0.0, np.arange(0.0, 91.0, 5.0), 1.0)
    if round_about.max() / round_about.min() < NEARLY_SAME_RATIO:
        say(
            "NEARLY_THE_SAME",
            Severity.NOTE,
            "the sheet gives nearly the same in all directions",
            "its direction on the roll hardly matters for the hold",
        )
    if not fit.tight_told:
        say(
            "TIGHT_UNTOLD",
            Severity.WARNING,
            "the strips do not determine the tight direction",
            "test more repeats, and compare along and across by hand",
        )
    elif fit.tight_from == "threads":
        say(
            "TIGHT_BY_THREADS",
            Severity.NOTE,
            "strips at these angles can only tell along from across",
            "strips every 30 degrees would show a slanted direction",
        )
    if free <= 0:
        say(
            "NO_REPEATS",
            Severity.WARNING,
            "without repeats nothing can be said about how sure this is",
            "pull three strips at every angle",
        )
    if fit.misfit_p is not None and fit.misfit_p < 1 - CONFIDENCE:
        say(
            "POOR_FIT",
            Severity.WARNING,
            "the angles do not fit one orthotropic sheet",
            "check the angles; a knitted or scrim-stitched cloth may need its own trial",
        )
    if fit.bend is not None and abs(fit.bend - 1) > STRAIGHT_WITHIN:
        more = "more" if fit.bend > 1 else "less"
        say(
            "BENDS",
            Severity.NOTE,
            said("at half the pull it gives {0} of what it gives at the full pull", percent(fit.bend / 2, 0)),
            said("at a lower pull expect {0} than these constants say", more),
            "the secant at the working pull was used",
        )
    highest = min(strip.highest_pull_n_per_mm for strip in strips)
    if fit.pull_n_per_mm > highest * 1.05:
        say(
            "BEYOND_TEST",
            Severity.WARNING,
            said(
                "the working pull of {0} N/mm is more than the {1} N/mm tested",
                f"{fit.pull_n_per_mm:g}",
                f"{highest:.3g}",
            ),
            "load the strips as far as lasting will",
            "the secant of the last reading was used",
        )
    return noticed
