"""Cards traced from pictures made by calculation: how near the truth, and what is refused.

Limits: median error under 0.15 mm and 95 % under 0.4 mm at 12 megapixels over A3, under 0.1 mm for a flatbed
at 300 dpi; the error table stands in docs/trace.md.
"""

from __future__ import annotations

import importlib.util
from pathlib import Path

import cv2
import numpy as np
import pypdfium2
import pytest
import shapely

from app.papers import trace_sheet as sheet_paper
from app.papers.shown import CardSheet
from geometry.errors import TraceError
from geometry.paper import PAPER_MM
from geometry.trace.camera import camera_of
from geometry.trace.outline import fitted_ring
from geometry.trace.read import trace_picture
from geometry.trace.sheet import trace_sheet

spec = importlib.util.spec_from_file_location("trace_render", Path(__file__).with_name("render.py"))
render = importlib.util.module_from_spec(spec)
import sys  # noqa: E402

sys.modules["trace_render"] = render
spec.loader.exec_module(render)

A4 = trace_sheet("A4")
VAMP = shapely.Polygon(
    [
        (45, 45),
        (120, 50),
        (150, 70),
        (160, 105),
        (150, 140),
        (120, 160),
        (45, 165),
        (50, 135),
        (95, 125),
        (95, 85),
        (50, 75),
    ]
)
ROUND = (
    shapely.Point(215, 105)
    .buffer(38, quad_segs=60)
    .difference(shapely.Point(215, 105).buffer(9, quad_segs=40))
)


def save(picture, tmp_path, name="cards.png"):
    path = tmp_path / name
    assert cv2.imwrite(str(path), picture)
    return path


def worst(traced, cards):
    found = []
    for card in cards:
        best = min(traced.pieces, key=lambda piece: piece.outline.polygon.hausdorff_distance(card))
        found.append(render.errors_mm(best.outline.polygon, card))
    return np.concatenate(found)


def test_a_photograph_gives_cards_holes_and_how_sure_they_are(tmp_path) -> None:
    shot = render.Shot(2600, 1950)
    traced = trace_picture(save(render.photograph(A4, [VAMP, ROUND], shot), tmp_path), sheet="A4")
    assert len(traced.pieces) == 2 and traced.scale_from == "markers"
    assert sorted(len(piece.outline.holes_mm) for piece in traced.pieces) == [0, 1]
    errors = worst(traced, [VAMP, ROUND])
    assert np.median(errors) < 0.15 and np.percentile(errors, 95) < 0.4
    assert 0.02 < traced.uncertainty_mm < 0.2
    corners = shapely.points(VAMP.exterior.coords)
    vamp = max(traced.pieces, key=lambda piece: piece.outline.area_mm2).outline
    far = shapely.distance(corners, shapely.MultiPoint(vamp.ring_mm))
    assert far.max() < 0.5, "corners stay sharp"


@pytest.mark.slow
def test_twelve_megapixels_over_a3(tmp_path) -> None:
    sheet = trace_sheet("A3")
    cards = [
        shapely.affinity.scale(VAMP, 1.5, 1.5, origin=(0, 0)),
        shapely.affinity.translate(ROUND, 110, 60),
    ]
    shot = render.Shot(tilt_deg=22.0, lens=-0.04, shadow=0.35)
    traced = trace_picture(save(render.photograph(sheet, cards, shot), tmp_path), sheet="A3")
    errors = worst(traced, cards)
    assert np.median(errors) < 0.15 and np.percentile(errors, 95) < 0.4


def test_a_flatbed_at_300_dpi(tmp_path) -> None:
    traced = trace_picture(save(render.scan((210, 200), [VAMP], 300), tmp_path), dpi=300.0)
    errors = worst(traced, [VAMP])
    assert traced.scale_from == "dpi"
    assert np.percentile(errors, 95) < 0.1


def test_the_printed_sheet_rasterised_is_read_back(tmp_path) -> None:
    """The paper itself, through a PDF reader of its own: every marker where it should be."""
    pdf = sheet_paper.write(CardSheet(A4), tmp_path)[0]
    page = pypdfium2.PdfDocument(pdf)[0]
    assert page.get_width() / 72 * 25.4 == pytest.approx(A4.width_mm, abs=0.01)
    picture = np.asarray(page.render(scale=200 / 72).to_pil().convert("L"))
    camera = camera_of(picture, A4)
    assert camera.markers == len(A4.markers) and camera.residual_mm < 0.05
    corner = camera.mm(np.array([[0.0, float(picture.shape[0])]]))[0]
    assert np.hypot(*corner) < 0.15, "the picture's lower left corner is the sheet's"


def test_too_few_markers_and_cards_over_them_are_refused(tmp_path) -> None:
    shot = render.Shot(1600, 1200)
    few = tuple(range(4, len(A4.markers)))
    picture = render.photograph(A4, [VAMP], shot, covered=few)
    with pytest.raises(TraceError, match=r"4 of the .* markers"):
        trace_picture(save(picture, tmp_path), sheet="A4")
    some = tuple(range(0, len(A4.markers), 3))
    traced = trace_picture(save(render.photograph(A4, [VAMP], shot, covered=some), tmp_path), sheet="A4")
    assert len(traced.pieces) == 1, "a third of them may be covered"


def test_another_sheet_than_was_printed_is_refused(tmp_path) -> None:
    picture = render.photograph(A4, [VAMP], render.Shot(1600, 1200))
    with pytest.raises(TraceError, match=r"sheet A3|markers"):
        trace_picture(save(picture, tmp_path), sheet="A3")


def test_blur_white_cards_and_empty_sheets_are_refused(tmp_path) -> None:
    blurred = render.photograph(A4, [VAMP], render.Shot(1600, 1200, blur_px=0.7))
    blurred = cv2.GaussianBlur(blurred, (0, 0), 9)
    with pytest.raises(TraceError):
        trace_picture(save(blurred, tmp_path), sheet="A4")
    with pytest.raises(TraceError, match="no card"):
        trace_picture(save(render.photograph(A4, [], render.Shot(1600, 1200)), tmp_path), sheet="A4")


@pytest.mark.parametrize("at_mm", [(45.0, 55.0), (45.0, 35.0)], ids=["at its edge", "on the card"])
def test_glare_on_a_card_is_refused_and_beside_it_does_no_harm(tmp_path, at_mm) -> None:
    card = shapely.box(15, 15, 75, 55)
    grey = 0.9 * render.scan((100, 80), [card], 150).astype(float)

    def shone_on(x_mm, y_mm):
        y, x = np.mgrid[0 : grey.shape[0], 0 : grey.shape[1]] * 25.4 / 150
        spot = 500.0 * np.exp(-((x - x_mm) ** 2 + (80 - y - y_mm) ** 2) / (2 * 3.0**2))
        return np.clip(grey + spot[..., None], 0, 255).astype(np.uint8)

    with pytest.raises(TraceError, match="glare"):
        trace_picture(save(shone_on(*at_mm), tmp_path), dpi=150.0, lines=False)
    beside = trace_picture(save(shone_on(95.0, 75.0), tmp_path), dpi=150.0, lines=False)
    assert worst(beside, [card]).max() < 0.1


def test_a_picture_too_large_to_look_at_is_named_before_it_is(tmp_path, monkeypatch) -> None:
    import geometry.trace.read as read

    with pytest.raises(TraceError, match="1355 x 1355 mm"):
        trace_picture(save(np.zeros((4000, 4000), np.uint8), tmp_path), dpi=75.0)
    monkeypatch.setattr(read, "MOST_PIXELS", 1_000_000)
    with pytest.raises(TraceError, match=r"cards.png.*million pixels.*fewer"):
        trace_picture(save(np.zeros((1100, 1100), np.uint8), tmp_path), sheet="A4")
    monkeypatch.setattr(read, "MOST_BYTES", 100)
    with pytest.raises(TraceError, match="million pixels"):
        trace_picture(save(np.zeros((500, 500), np.uint8), tmp_path), sheet="A4")


@pytest.mark.parametrize(("content", "said"), [(b"", "not a picture"), (b"\x89PNG x", "not a picture")])
def test_what_is_no_picture_is_named(tmp_path, content, said) -> None:
    path = tmp_path / "x.png"
    path.write_bytes(content)
    with pytest.raises(TraceError, match=said) as caught:
        trace_picture(path, sheet="A4")
    assert "x.png" in str(caught.value)


def test_a_picture_that_is_missing_or_tiny_or_of_a_strange_sheet_is_named(tmp_path) -> None:
    with pytest.raises(TraceError, match=r"gone.png"):
        trace_picture(tmp_path / "gone.png", sheet="A4")
    tiny = save(np.zeros((50, 50, 3), np.uint8), tmp_path)
    with pytest.raises(TraceError, match="50 x 50"):
        trace_picture(tiny, sheet="A4")
    with pytest.raises(TraceError, match="no sheet"):
        trace_sheet("B9")
    with pytest.raises(TraceError, match="dots per inch"):
        trace_picture(save(np.zeros((500, 500, 3), np.uint8), tmp_path), dpi=3.0)


@pytest.mark.parametrize("name", PAPER_MM)
def test_markers_stay_on_the_sheet_and_apart(name) -> None:
    sheet = trace_sheet(name)
    boxes = [shapely.Polygon(marker.corners_mm) for marker in sheet.markers]
    page = shapely.box(0, 0, sheet.width_mm, sheet.height_mm)
    assert len(boxes) <= 100 and all(page.buffer(-7).contains(box) for box in boxes)
    assert shapely.STRtree(boxes).query(boxes, predicate="dwithin", distance=4.0).shape[1] == len(boxes)
    field = shapely.box(*sheet.field_mm)
    assert not any(box.intersects(field) for box in boxes)


def test_a_drawn_square_keeps_its_corners_and_a_circle_gets_none() -> None:
    square = np.array(shapely.segmentize(shapely.box(0, 0, 60, 40), 0.1).exterior.coords[:-1])
    ring = fitted_ring(square + np.random.default_rng(0).normal(0, 0.02, square.shape))
    far = shapely.distance(shapely.points([(0, 0), (60, 0), (60, 40), (0, 40)]), shapely.MultiPoint(ring))
    assert far.max() < 0.05
    circle = np.array(shapely.Point(0, 0).buffer(30, quad_segs=400).exterior.coords[:-1])
    assert abs(np.hypot(*fitted_ring(circle).T) - 30).max() < 0.05
