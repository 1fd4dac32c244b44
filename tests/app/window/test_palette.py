"""The colours can be told apart, also with a colour-vision deficiency, and read on both canvases.

Deficiencies are simulated with the matrices of Machado, Oliveira and Fernandes, "A
physiologically-based model for simulation of color vision deficiency", IEEE TVCG 15 (2009),
severity 1.0 (values from memory; each row sums to 1, which is checked). Contrast is that of WCAG 2.x
(relative luminance ratio), where graphics need 3:1.
"""

from itertools import combinations

import numpy as np
import pytest
from PySide6.QtGui import QColor

from app.window.widgets.marks import edge_colour
from app.window.widgets.theme import DAY, NIGHT
from geometry.edge_kinds import EDGE_KINDS

DEFICIENCIES = {
    "none": np.eye(3),
    "protan": np.array(
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]
    ),
    "deutan": np.array(
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]
    ),
    "tritan": np.array(
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]]
    ),
}
LEAST_DISTANCE = 9.0
"""Distance in CIE L*a*b* (1976) below which two lines may not be told apart side by side; about four
just noticeable differences."""


def linear(colour: QColor) -> np.ndarray:
    c = np.array([colour.redF(), colour.greenF(), colour.blueF()])
    return np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4)


def luminance(colour: QColor) -> float:
    return float(linear(colour) @ (0.2126, 0.7152, 0.0722))


def contrast(a: QColor, b: QColor) -> float:
    high, low = sorted((luminance(a), luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def lab(rgb: np.ndarray) -> np.ndarray:
    xyz = np.clip(rgb, 0, 1) @ np.array(
        [[0.4124, 0.2126, 0.0193], [0.3576, 0.7152, 0.1192], [0.1805, 0.0722, 0.9505]]
    )
    t = xyz / (0.9505, 1.0, 1.089)
    f = np.where(t > (6 / 29) ** 3, np.cbrt(t), t / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def look_alike(a, b) -> bool:
    """Whether two marks differ in colour only: the pattern alone does not tell them apart."""
    return bool(a.dash) == bool(b.dash) and abs(len(a.dash) - len(b.dash)) < 2


@pytest.mark.parametrize("theme", [DAY, NIGHT], ids=lambda t: t.name)
def test_every_edge_line_stands_out_from_the_canvas(theme):
    for kind in EDGE_KINDS:
        assert contrast(edge_colour(kind, theme), QColor(theme.canvas)) >= 3.0, kind


@pytest.mark.parametrize("theme", [DAY, NIGHT], ids=lambda t: t.name)
@pytest.mark.parametrize("deficiency", DEFICIENCIES)
def test_kinds_with_like_patterns_differ_in_colour_for_everyone(theme, deficiency):
    matrix = DEFICIENCIES[deficiency]
    assert np.allclose(matrix.sum(axis=1), 1.0, atol=2e-3)
    seen = {kind: lab(matrix @ linear(edge_colour(kind, theme))) for kind in EDGE_KINDS}
    for a, b in combinations(EDGE_KINDS, 2):
        if look_alike(EDGE_KINDS[a].screen, EDGE_KINDS[b].screen):
            away = float(np.linalg.norm(seen[a] - seen[b]))
            assert away >= LEAST_DISTANCE, f"{a} and {b}: {away:.1f} ({deficiency})"


def test_no_two_kinds_share_pattern_and_width():
    looks = [(entry.screen.dash, entry.screen.width_px) for entry in EDGE_KINDS.values()]
    assert len(set(looks)) == len(looks)


@pytest.mark.parametrize("theme", [DAY, NIGHT], ids=lambda t: t.name)
@pytest.mark.parametrize(
    ("ink", "ground", "least"),
    [
        ("ink", "panel", 4.5),
        ("ink", "field", 4.5),
        ("ink", "canvas", 4.5),
        ("ink", "accent_soft", 4.5),
        ("ink_soft", "panel", 4.5),
        ("ink_soft", "field", 4.5),
        ("accent_ink", "accent", 4.5),
        ("error", "field", 4.5),
        ("warning", "field", 4.5),
        ("question", "field", 4.5),
        ("note", "field", 4.5),
        ("cloth_line", "canvas", 3.0),
        ("leather_line", "canvas", 3.0),
        ("accent", "canvas", 3.0),
    ],
)
def test_text_and_lines_can_be_read(theme, ink, ground, least):
    assert contrast(theme.colour(ink), theme.colour(ground)) >= least


def test_good_and_bad_differ_in_lightness_not_only_in_hue():
    for theme in (DAY, NIGHT):
        for matrix in DEFICIENCIES.values():
            good = lab(matrix @ linear(theme.colour("good")))
            bad = lab(matrix @ linear(theme.colour("error")))
            assert np.linalg.norm(good - bad) >= LEAST_DISTANCE
