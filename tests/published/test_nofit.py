"""No-fit regions whose exact form is known."""

import numpy as np
import pytest
from shapely.geometry import MultiPoint, Polygon

from geometry.outline import Outline
from nesting.contact.nofit import EXCESS_MM, nofit


@pytest.mark.parametrize("a, b", [(30.0, 10.0), (10.0, 30.0), (25.0, 25.0)])
def test_two_squares_give_a_square_of_the_sum_of_their_sides(a, b):
    """Minkowski sum of squares (Bennell & Oliveira, EJOR 2008; from memory)."""
    first = Outline.make([(0, 0), (a, 0), (a, a), (0, a)])
    second = Outline.make([(0, 0), (b, 0), (b, b), (0, b)])
    (polygon,) = nofit(first, second).polygons
    assert polygon.bounds == pytest.approx((-b, -b, a, a), abs=EXCESS_MM)
    assert polygon.area == pytest.approx((a + b) ** 2, abs=EXCESS_MM * 4 * (a + b))


def test_convex_pieces_give_the_hull_of_all_differences_of_vertices():
    """A + (-B) of convex A, B is the hull of {a - b} (de Berg et al., Computational Geometry, ch. 13)."""
    rng = np.random.default_rng(5)
    for _ in range(10):
        a, b = (np.asarray(MultiPoint(rng.uniform(0, 80, (9, 2))).convex_hull.exterior.coords) for _ in "ab")
        hull = MultiPoint((a[:, None] - b[None]).reshape(-1, 2)).convex_hull
        (polygon,) = nofit(Outline.make(a), Outline.make(b)).polygons
        assert hull.hausdorff_distance(polygon) <= EXCESS_MM


@pytest.mark.parametrize("gap", [0.5, 2.0, 5.0])
def test_a_gap_adds_its_parallel_body(gap):
    """Steiner: area(K + disc g) = area + perimeter g + pi g^2."""
    hexagon = [(20 * np.cos(t), 20 * np.sin(t)) for t in np.arange(6) * np.pi / 3]
    outline = Outline.make(hexagon)
    sum_of_both = Polygon(np.asarray(hexagon) * 2.0)
    (polygon,) = nofit(outline, outline, gap).polygons
    expected = sum_of_both.area + sum_of_both.length * gap + np.pi * gap**2
    assert polygon.area == pytest.approx(expected, rel=1e-4)
