"""The quick test: pull a piece of cloth by hand in several directions, more or less.

Hands feel which way gives least, not by how much; no constant comes from it (common practice,
no source). Coating can change the tight way, so the coated cloth is what must be pulled.
"""

from __future__ import annotations

import re

from geometry.errors import SheetError
from geometry.findings import Finding, Severity
from geometry.pull import undirected_deg
from geometry.said import said


def read_hand_pulls(text: str) -> tuple[float, Finding]:
    """Return the tight direction of a ranking like ``0<90<45``, least give first, and a finding.

    Angles in degrees from the roll's length; ``=`` between two that feel alike. Raises SheetError
    when it is not a ranking, names an angle twice, or the two that give least feel alike.
    """
    parts = re.split(r"([<=])", text.replace(" ", ""))
    try:
        angles = [undirected_deg(float(part)) for part in parts[::2]]
    except ValueError:
        angles = []
    if len(angles) < 2:
        raise SheetError(said("'{0}' is not a ranking", text), remedy="write 0<90<45: least give first")
    if len({round(angle, 1) for angle in angles}) < len(angles):
        raise SheetError(said("'{0}' names a direction twice", text), remedy="each direction once; 180 is 0")
    if parts[1] == "=":
        raise SheetError(
            said(
                "{0} and {1} deg feel alike: by hand the tight direction cannot be determined",
                f"{angles[0]:g}",
                f"{angles[1]:g}",
            ),
            remedy="cut strips and measure them",
        )
    return angles[0], Finding(
        code="BY_HAND",
        severity=Severity.NOTE,
        message="a pull by hand ranks directions, it measures nothing",
        done="the direction counts as assumed",
        advice="cut strips every 30 degrees before a run",
    )
