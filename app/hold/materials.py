"""What is known of the stretch of a style's upper material and cloths, and how."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from app.errors import UsageError
from app.style.model import INVENTED_READING, ClothData, SheetConstants, StretchReading, UpperMaterial
from geometry.errors import SheetError
from geometry.findings import Finding, Severity
from geometry.pull import undirected_deg
from geometry.said import said
from geometry.stretch.fit import StretchFit, fit_strips
from geometry.stretch.hold import Material, fixed, from_strips
from geometry.stretch.sheet import Sheet
from geometry.stretch.strips import PulledStrip
from geometry.tolerances import NEARLY_SAME_RATIO

OFF_CARD_DEG = 15.0
"""A tight direction measured further than this from the cloth card's is an error of the card: strips cut by
hand lie within a few degrees, and at 15 deg the cloth of the worked example gives nearly three times as much
(tests/published/test_mechanics.py). Common practice, no source."""


@dataclass(frozen=True)
class Known:
    """A material whose stretch is known: in a stack, how it is known, and the fit if it was tested."""

    material: Material
    how: str
    fit: StretchFit | None = None
    findings: tuple[Finding, ...] = ()


def how_tested(readings: Iterable[StretchReading]) -> Literal["tested", "example"]:
    """Return how a material with these strips is known: one invented reading makes it an example."""
    return "example" if any(r.note == INVENTED_READING for r in readings) else "tested"


def strips_of(readings: Iterable[StretchReading]) -> tuple[PulledStrip, ...]:
    """Return readings as geometry's strips."""
    return tuple(
        PulledStrip(r.angle_deg, r.width_mm, r.gauge_mm, r.loads_n, r.extensions_mm, r.narrowings_mm)
        for r in readings
    )


def known_upper(material: UpperMaterial, pull_n_per_mm: float) -> Known:
    """Return the upper material's law: from its strips, else its constants.

    Raises UsageError when it has neither.
    """
    called = material.name or "the upper material"
    known = _known(called, material.tests, material.sheet, 0.0, pull_n_per_mm)
    if known is None:
        raise UsageError(
            said("the stretch of {0} is not known", called),
            remedy="pull strips at 0, 45 and 90 degrees to the axis: Stretch tests, or 'stretch --upper'",
        )
    return known


def known_cloth(cloth: ClothData, pull_n_per_mm: float) -> Known:
    """Return a cloth's law as laid: its card's tight direction along the pull.

    Its strips say where the tight direction actually is. Raises UsageError when it has neither
    strips nor constants.
    """
    known = _known(cloth.name, cloth.tests, cloth.sheet, cloth.tight_direction_deg, pull_n_per_mm)
    if known is None:
        raise UsageError(
            said("the stretch of {0} is not known", cloth.name),
            remedy="pull strips at 0, 45, 90 and 135 degrees: Stretch tests, or 'stretch'",
        )
    fit = known.fit
    if fit is None:
        return _axes_checked(cloth, known)
    if not fit.tight_told:
        return known
    off = abs(undirected_deg(fit.tight_deg - cloth.tight_direction_deg))
    if off <= OFF_CARD_DEG:
        return known
    wrong = Finding(
        code="TIGHT_DIRECTION_WRONG",
        severity=Severity.ERROR,
        message=said(
            "the strips of {0} say that its tight direction lies at {1} deg, its card says {2}",
            cloth.name,
            round(fit.tight_deg),
            f"{cloth.tight_direction_deg:g}",
        ),
        done="the pieces are judged as the card would have them laid",
        advice="correct the card, and lay the pieces again",
    )
    return replace(known, findings=(*known.findings, wrong))


def _axes_checked(cloth: ClothData, known: Known) -> Known:
    """Constants of a cloth whose axis 1 is not its tight direction are taken as they stand, and told."""
    sheet = cloth.sheet
    if sheet is None or sheet.e2_n_per_mm <= sheet.e1_n_per_mm * NEARLY_SAME_RATIO:
        return known
    wrong = Finding(
        code="TIGHT_DIRECTION_WRONG",
        severity=Severity.ERROR,
        message=said(
            "by its constants {0} gives less at right angles to its tight direction than "
            "along it (E1 {1}, E2 {2} N/mm)",
            cloth.name,
            f"{sheet.e1_n_per_mm:g}",
            f"{sheet.e2_n_per_mm:g}",
        ),
        done="the pieces are judged as the card would have them laid",
        advice="turn the card's tight direction by 90 degrees and swap E1 and E2",
    )
    return replace(known, findings=(*known.findings, wrong))


def _known(
    called: str,
    tests: Sequence[StretchReading],
    constants: SheetConstants | None,
    direction_deg: float,
    pull: float,
) -> Known | None:
    findings: list[Finding] = []
    if tests:
        strips = strips_of(tests)
        try:
            fit = fit_strips(strips, pull)
            for finding in fit.findings:
                findings.append(replace(finding, message=said("{0}: {1}", called, finding.message)))
            return Known(
                from_strips(strips, direction_deg),
                said("{0}, {1} strips", how_tested(tests), fit.strips),
                fit,
                tuple(findings),
            )
        except SheetError as error:
            if constants is None:
                raise SheetError(
                    said("{0}: {1}", called, error.message), remedy=error.remedy, code=error.code
                ) from None
            findings.append(
                Finding(
                    code="TESTS_REFUSED",
                    severity=Severity.WARNING,
                    message=said("{0}: {1}", called, error.message),
                    done="the constants of its card were used instead",
                    advice=error.remedy,
                )
            )
    if constants is None:
        return None
    try:
        sheet = Sheet(constants.e1_n_per_mm, constants.e2_n_per_mm, constants.g12_n_per_mm, constants.nu12)
    except SheetError as error:
        raise SheetError(
            said("{0}: {1}", called, error.message), remedy=error.remedy, code=error.code
        ) from None
    how = said("constants, {0}", constants.origin) if constants.origin else "constants without a source"
    return Known(fixed(sheet), how, None, tuple(findings))


def direction_to_lay_by(fit: StretchFit) -> float:
    """Return along or across where the strips allow it, else the best estimate.

    Cloth is laid by its edge; a direction within the interval of 0 or 90 is one of these.
    """
    for square in (0.0, 90.0):
        off = undirected_deg(square - fit.tight_deg)
        low = (fit.tight_low_deg or fit.tight_deg) - fit.tight_deg
        high = (fit.tight_high_deg or fit.tight_deg) - fit.tight_deg
        if low <= off <= high:
            return square
    return round(undirected_deg(fit.tight_deg), 1)
