"""Sheet mechanics against worked examples of Kaw, Roylance, Jones and Texas A&M, each named at its check.

How sure each value is stands beside it: 'remembered' = a published value from memory that the
formulas reproduce; 'computed' = computed from published inputs with the published formulas, so
a check of consistency. No paid standard was read.
"""

import numpy as np
import pytest

from geometry.stretch.sheet import (
    Ply,
    Sheet,
    apparent_n_per_mm,
    give,
    stack_stiffness,
    turned_compliance,
    turned_stiffness,
)

GRAPHITE_EPOXY = Sheet(181.0, 10.3, 7.17, 0.28)  # GPa; A.K. Kaw, Mechanics of Composite Materials, ch. 2
KEVLAR_EPOXY = Sheet(82.0, 4.0, 2.8, 0.25)  # GPa; D. Roylance, MIT, Laminated Composite Plates


def six(matrix):
    return [matrix[i, j] for i, j in ((0, 0), (0, 1), (0, 2), (1, 1), (1, 2), (2, 2))]


def test_kaw_ply_at_60_degrees():
    """Kaw ch. 2 example; remembered and recomputed."""
    expected = [0.080527, -0.0078777, -0.032338, 0.034746, -0.046958, 0.11415]
    assert six(turned_compliance(GRAPHITE_EPOXY, 60)) == pytest.approx(expected, rel=1e-3)
    s = turned_compliance(GRAPHITE_EPOXY, 60)
    constants = [1 / s[0, 0], 1 / s[1, 1], 1 / s[2, 2], -s[0, 1] / s[0, 0]]
    assert constants == pytest.approx([12.418, 28.780, 8.7606, 0.09783], rel=1e-3)


def test_roylance_kevlar_at_30_degrees():
    """S11 remembered and recomputed, the rest computed from the published inputs."""
    expected = [0.08831, -0.01971, -0.12221, 0.20721, -0.08374, 0.29051]
    assert six(turned_compliance(KEVLAR_EPOXY, 30)) == pytest.approx(expected, rel=1e-3)
    assert apparent_n_per_mm(KEVLAR_EPOXY, 30) == pytest.approx(11.324, rel=1e-3)


def test_balanced_woven_ply_is_stiffest_in_shear_on_the_bias():
    """Inputs 69, 69, 20 GPa and nu 0.3 of an exercise whose book is not recorded, so no source; computed."""
    ply = Sheet(69.0, 69.0, 20.0, 0.3)
    shear = [1 / turned_compliance(ply, a)[2, 2] for a in range(0, 91, 5)]
    assert max(shear) == shear[9] == pytest.approx(26.538, rel=1e-3)
    assert min(shear) == pytest.approx(20.0, rel=1e-3)
    assert apparent_n_per_mm(ply, 45) == pytest.approx(56.907, rel=1e-3)


def test_stiffness_of_the_kaw_ply_against_angle():
    """Computed from Kaw's inputs."""
    seen = [apparent_n_per_mm(GRAPHITE_EPOXY, a) for a in (0, 15, 30, 45, 60, 75, 90)]
    assert seen == pytest.approx([181, 72.629, 28.780, 16.737, 12.418, 10.745, 10.3], rel=1e-3)


def test_kaw_three_ply_laminate():
    """Kaw ch. 4 example, [0/30/-45], 5 mm each; remembered and recomputed. Unit 10^6 N/m."""
    plies = [
        Ply(Sheet(181.0 * 5, 10.3 * 5, 7.17 * 5, 0.28), angle) for angle in (0, 30, -45)
    ]  # GPa x mm = 10^6 N/m
    expected = [1739.2, 388.39, 56.63, 453.25, -114.06, 452.48]
    assert six(stack_stiffness(plies)) == pytest.approx(expected, rel=1e-3)


def test_jones_type_moduli_ratio():
    """Computed: E1/E2 = 3, G/E2 = 0.5, nu = 0.25 (the case plotted in Jones ch. 2)."""
    ply = Sheet(3.0, 1.0, 0.5, 0.25)
    seen = [apparent_n_per_mm(ply, a) for a in (15, 30, 45, 60, 75)]
    assert seen == pytest.approx([2.4435, 1.6842, 1.2632, 1.0787, 1.0136], rel=1e-4)


@pytest.mark.parametrize("angle", [0, 7, 30, 45, 61, 90, 133])
def test_isotropic_sheet_is_the_same_at_every_angle(angle):
    """Identity: G = E / 2(1 + nu)."""
    ply = Sheet(10.0, 10.0, 10.0 / 2.6, 0.3)
    assert apparent_n_per_mm(ply, angle) == pytest.approx(10.0, rel=1e-9)


def test_woven_glass_under_equal_pulls():
    """Texas A&M layup examples (inputs seen, answer computed): 4.31e6 psi, nu 0.17, 0.03 in, 1000 lb/in."""
    e = 4.31e6 * 0.03
    strain = np.linalg.solve(stack_stiffness([Ply(Sheet(e, e, e, 0.17))]), [1000, 1000, 0])
    assert strain[:2] == pytest.approx([6.4192e-3, 6.4192e-3], rel=1e-3)


def test_cross_ply_glass():
    """Texas A&M layup examples (inputs seen, answer computed): S-glass 90/0/90, 0.01 in each, lb/in."""
    ply = Sheet(6.3e6 * 0.01, 1.29e6 * 0.01, 0.66e6 * 0.01, 0.27)
    a = stack_stiffness([Ply(ply, 90), Ply(ply, 0), Ply(ply, 90)])
    assert [a[0, 0], a[0, 1], a[1, 1], a[2, 2]] == pytest.approx([90146, 10607, 141005, 19800], rel=1e-3)
    strain = np.linalg.solve(a, [1000, 1000, 0])
    assert strain[:2] == pytest.approx([1.03503e-2, 6.3133e-3], rel=1e-3)


# Upper 12, 8, 4 N/mm, nu 0.4, pulled along its axis 1; backing 40, 16, 1.2 N/mm, nu 0.2; 1 N/mm.
# Illustrative inputs, computed: a check of consistency, not a measurement.
UPPER = Sheet(12.0, 8.0, 4.0, 0.4)
BACKING = Sheet(40.0, 16.0, 1.2, 0.2)
UPPER_AND_BACKING = [  # angle, backing Ex, added %, shear free %, shear blocked %
    (0, 40.0000, 1.9231, 1.9146, 1.9146),
    (5, 32.4340, 2.2505, 2.0175, None),
    (10, 20.9864, 3.0315, 2.3156, 2.0282),
    (15, 13.6051, 3.9055, 2.7773, 2.1886),
    (30, 5.8024, 5.6172, 4.5911, 3.4441),
    (45, 4.3916, 6.1007, 5.7202, 5.6495),
    (60, 5.2330, 5.8028, 5.3007, None),
    (90, 16.0000, 3.5714, 3.4781, 3.4781),
]


@pytest.mark.parametrize(("angle", "ex", "added", "free", "blocked"), UPPER_AND_BACKING)
def test_upper_with_backing_at_an_angle(angle, ex, added, free, blocked):
    assert apparent_n_per_mm(BACKING, angle) == pytest.approx(ex, rel=1e-4)
    got = give([Ply(UPPER), Ply(BACKING, angle)], 1.0)
    assert 100 * got.added == pytest.approx(added, rel=1e-4)
    assert 100 * got.shear_free == pytest.approx(free, rel=1e-4)
    if blocked is not None:
        assert 100 * got.shear_blocked == pytest.approx(blocked, rel=1e-4)
    mirrored = give([Ply(UPPER), Ply(BACKING, -angle)], 1.0)
    assert mirrored.shear_free == pytest.approx(got.shear_free, rel=1e-12)
    assert mirrored.shear == pytest.approx(-got.shear, abs=1e-15)


def test_upper_with_backing_at_15_degrees_in_full():
    plies = [Ply(UPPER), Ply(BACKING, 15)]
    expected = [49.599, 9.6845, 7.9858, 23.9988, -1.8883, 8.0504]
    assert six(stack_stiffness(plies)) == pytest.approx(expected, rel=1e-4)
    assert give(plies, 1.0).shear == pytest.approx(-0.030746, rel=1e-4)
    assert 100 * give([Ply(UPPER)], 1.0).shear_free == pytest.approx(8.3333, rel=1e-5)


@pytest.mark.parametrize("angle", range(0, 181, 9))
def test_invariant_of_a_turned_sheet(angle):
    q = turned_stiffness(BACKING, angle)
    assert q[0, 0] + q[1, 1] + 2 * q[0, 1] == pytest.approx(63.414634, rel=1e-7)


def test_plain_strip():
    """25 mm wide, 100 mm long, 50 N, 12 N/mm: 16.667 % = 16.667 mm."""
    strain = 50 / 25 / 12.0
    assert 100 * strain == pytest.approx(16.667, abs=1e-3)
    assert 100.0 * give([Ply(UPPER)], 50 / 25).shear_free == pytest.approx(16.667, abs=1e-3)
