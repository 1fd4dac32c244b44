"""Photographs made by calculation: cards of known outline on the printed sheet, through a known camera."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
import shapely

from geometry.trace.sheet import TraceSheet

PER_MM = 16  # pixels a mm of the scene before the camera sees it
RIM_MM = 60.0  # table round the sheet


@dataclass(frozen=True)
class Shot:
    """How a picture is taken; angles in degrees, lens as the share it bends at the picture's corner."""

    width_px: int = 4000
    height_px: int = 3000
    tilt_deg: float = 12.0
    turn_deg: float = 4.0
    lens: float = -0.03
    noise: float = 3.0
    blur_px: float = 0.7
    shadow: float = 0.25
    wood: bool = True


def scene_of(sheet: TraceSheet, cards, colour=(70, 105, 150), covered=(), wood=True, lines=()):
    """The sheet with cards on a table, (h, w, 3); returns the picture, and mm -> scene pixel."""
    wide, high = sheet.width_mm + 2 * RIM_MM, sheet.height_mm + 2 * RIM_MM
    picture = np.empty((int(high * PER_MM), int(wide * PER_MM), 3), dtype=np.uint8)
    picture[:] = (90, 120, 160)
    if wood:
        put_grain_on(picture)

    def px(points):
        points = np.asarray(points, dtype=float)
        return np.column_stack(
            [(points[:, 0] + RIM_MM) * PER_MM, (sheet.height_mm + RIM_MM - points[:, 1]) * PER_MM]
        )

    def fill(points, value):
        shift = 8
        at = np.round((px(points) - 0.5) * 2**shift).astype(np.int32)
        cv2.fillPoly(picture, [at], value, lineType=cv2.LINE_AA, shift=shift)

    fill(
        [(0, 0), (sheet.width_mm, 0), (sheet.width_mm, sheet.height_mm), (0, sheet.height_mm)],
        (244, 246, 247),
    )
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_5X5_100)
    for marker in sheet.markers:
        if marker.number in covered:
            continue
        cells = cv2.aruco.generateImageMarker(dictionary, marker.number, 7)
        (x, y), side = marker.corners_mm[0], np.ptp(marker.corners_mm[:, 0]) / 7
        for r, c in zip(*np.nonzero(cells == 0), strict=True):
            x0, y1 = x + c * side, y - r * side
            fill([(x0, y1), (x0 + side, y1), (x0 + side, y1 - side), (x0, y1 - side)], (25, 25, 25))
    for card in cards:
        polygon = card if isinstance(card, shapely.Polygon) else shapely.Polygon(card)
        fill(polygon.exterior.coords[:-1], colour)
        for hole in polygon.interiors:
            fill(hole.coords[:-1], (244, 246, 247))
    for line in lines:  # a pencil draws 0.5 mm wide
        stroke = shapely.LineString(line).buffer(0.25, cap_style="flat")
        fill(stroke.exterior.coords[:-1], tuple(int(0.62 * c) for c in colour))
    return picture, px


def put_grain_on(picture):
    """Wood: waves along the picture, told by products of sines so that a large one takes little time."""
    along = 3 * np.sin(np.arange(picture.shape[1], dtype=np.float32) / 900)
    cos, sin = np.cos(along), np.sin(along)
    for rows in np.array_split(np.arange(len(picture), dtype=np.float32), max(1, len(picture) // 64)):
        wave = 18 * (np.outer(np.sin(rows / 55), cos) + np.outer(np.cos(rows / 55), sin))
        grain = (wave + 8 * np.sin(rows / 9)[:, None]).astype(np.float32)
        part = picture[int(rows[0]) : int(rows[-1]) + 1]
        for k, share in enumerate((0.6, 0.8, 1.0)):
            part[..., k] += (share * grain).astype(np.int8).view(np.uint8)


def photograph(sheet: TraceSheet, cards, shot: Shot, seed: int = 1, **scene_options):
    """What the camera gives of the scene."""
    scene, px = scene_of(sheet, cards, wood=shot.wood, **scene_options)
    corners = px(
        [
            (-20, -20),
            (sheet.width_mm + 20, -20),
            (sheet.width_mm + 20, sheet.height_mm + 20),
            (-20, sheet.height_mm + 20),
        ]
    )
    w, h = shot.width_px, shot.height_px
    lean, twist = np.tan(np.radians(shot.tilt_deg)) * 0.25, np.tan(np.radians(shot.turn_deg))
    target = np.array(
        [
            (0.04 * w + twist * 0.02 * w, 0.96 * h),
            (0.96 * w, 0.97 * h - twist * 0.05 * h),
            (0.96 * w - lean * w * 0.4, 0.05 * h),
            (0.04 * w + lean * w * 0.5, 0.04 * h + twist * 0.04 * h),
        ]
    )
    matrix = cv2.getPerspectiveTransform(corners.astype(np.float32), target.astype(np.float32))
    ys, xs = np.arange(h, dtype=np.float64)[:, None], np.arange(w, dtype=np.float64)[None, :]
    size, middle = np.hypot(w, h) / 2.0, (w / 2.0, h / 2.0)
    u, v = (xs + 0.5 - middle[0]) / size, (ys + 0.5 - middle[1]) / size
    r2 = u * u + v * v
    bent = 1 + shot.lens * r2
    x, y = u * bent * size + middle[0], v * bent * size + middle[1]
    (a, b, c), (d, e, f), (g, k, m) = np.linalg.inv(matrix)
    far = g * x + k * y + m
    back = [((a * x + b * y + c) / far - 0.5), ((d * x + e * y + f) / far - 0.5)]
    soft = cv2.GaussianBlur(scene, (0, 0), max(0.3, shot.blur_px * PER_MM * sheet.width_mm / w))
    seen = cv2.remap(soft, *(each.astype(np.float32) for each in back), cv2.INTER_LINEAR)
    light = 1.0 - shot.shadow * np.clip((xs / w) * 0.7 + (ys / h) * 0.5, 0, 1)
    noise = shot.noise * np.random.default_rng(seed).standard_normal(seen.shape, dtype=np.float32)
    noise += seen * light.astype(np.float32)[..., None]
    return np.clip(noise, 0, 255, out=noise).astype(np.uint8)


def scan(sheet_mm, cards, dpi: float, colour=(70, 105, 150), noise=1.5, seed=2):
    """What a flatbed gives: straight from above, white lid."""
    per_mm = dpi / 25.4
    over = 4
    wide, high = (int(side * per_mm) for side in sheet_mm)
    picture = np.full((high * over, wide * over, 3), 250, dtype=np.uint8)
    for card in cards:
        polygon = card if isinstance(card, shapely.Polygon) else shapely.Polygon(card)
        for ring, value in (
            (polygon.exterior, colour),
            *((hole, (250, 250, 250)) for hole in polygon.interiors),
        ):
            points = np.array(ring.coords[:-1])
            at = np.column_stack([points[:, 0] * per_mm * over, (high - points[:, 1] * per_mm) * over])
            cv2.fillPoly(
                picture, [np.round((at - 0.5) * 256).astype(np.int32)], value, lineType=cv2.LINE_AA, shift=8
            )
    small = cv2.resize(picture, (wide, high), interpolation=cv2.INTER_AREA).astype(float)
    noisy = cv2.GaussianBlur(small, (0, 0), 0.6) + np.random.default_rng(seed).normal(0, noise, small.shape)
    return np.clip(noisy, 0, 255).astype(np.uint8)


def errors_mm(traced, truth):
    """Distances of points of a traced outline from the true one, both ways, mm."""
    a, b = traced.exterior, truth.exterior
    there = shapely.distance(shapely.points(shapely.get_coordinates(shapely.segmentize(a, 0.5))), b)
    back = shapely.distance(shapely.points(shapely.get_coordinates(shapely.segmentize(b, 0.5))), a)
    return np.concatenate([there, back])
