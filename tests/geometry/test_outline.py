"""An outline keeps its material on the left and its first vertex where it was."""

import numpy as np
import pytest

from geometry.errors import OutlineError
from geometry.outline import Outline

SQUARE = [(0, 0), (0, 10), (10, 10), (10, 0)]  # drawn clockwise


def test_a_clockwise_drawing_is_turned_and_keeps_its_first_vertex():
    outline = Outline.make(SQUARE)
    assert outline.area_mm2 == 100.0
    assert tuple(outline.ring_mm[0]) == (0, 0)


def test_mirroring_keeps_the_area_and_sends_vertex_i_to_minus_i():
    outline = Outline.make([(0, 0), (10, 0), (10, 4), (0, 9)])
    mirror = outline.mirrored()
    assert mirror.area_mm2 == outline.area_mm2
    assert np.array_equal(mirror.ring_mm[1], outline.ring_mm[-1] * (1, -1))


def test_quarter_turns_are_exact():
    outline = Outline.make(SQUARE)
    assert outline.turned(180).turned(180) == outline


@pytest.mark.parametrize(
    "points", [[(0, 0), (1, 1)], [(0, 0), (1, 1), (2, 2)], [(0, 0), (1, np.inf), (2, 2)]]
)
def test_what_is_no_outline_is_refused(points):
    with pytest.raises(OutlineError):
        Outline.make(points)
