"""From far away lines are drawn with fewer points, and none lies further off than can be seen."""

import numpy as np
import pytest
import shapely

from app.window.canvas.far import OFF_PX, thinned, thinning_mm
from app.window.canvas.paths import outline_path, polyline_path
from geometry.outline import Outline


@pytest.mark.parametrize("px_per_mm", [0.02, 0.08, 0.9, 5.0, 40.0])
def test_a_thinned_line_lies_within_what_is_seen(px_per_mm) -> None:
    angle = np.linspace(0.0, 2.0 * np.pi, 400, endpoint=False)
    ring = np.column_stack([np.cos(angle), np.sin(angle)]) * (90.0 + 8.0 * np.sin(5 * angle))[:, None]
    off = thinning_mm(px_per_mm)
    assert off * px_per_mm <= OFF_PX
    if off == 0.0:
        return  # near by every point is drawn
    (path,) = thinned([polyline_path(ring, closed=True)], off)
    points = [(p.x(), p.y()) for part in path.toSubpathPolygons() for p in part.toList()]
    assert len(points) < len(ring)
    away = shapely.distance(shapely.points(ring), shapely.LineString(points))
    assert away.max() <= off + 1e-9


def test_holes_stay_holes_and_an_empty_path_stays_empty() -> None:
    square = [(0, 0), (40, 0), (40, 40), (0, 40)]
    holed = outline_path(Outline.make(square, [[(10, 10), (10, 20), (20, 20), (20, 10)]]))
    with_hole, empty = thinned([holed, polyline_path(np.zeros((0, 2)))], 1.0)
    assert with_hole.fillRule() == holed.fillRule() and len(with_hole.toSubpathPolygons()) == 2
    assert empty.isEmpty()
