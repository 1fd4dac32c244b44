"""Ankle boot, women's EU 37 as base: shaft halves, vamp, toe cap, tongue, counter. Left shoe.

Toe cap and tongue are drawn as halves on a mirror line. Shaft 118 mm above the feather line,
top opening about 250 mm; lasting 15 mm, laps 8 mm, folded top and facing 5 mm.
"""

from __future__ import annotations

from sample_styles.draw.curves import DrawnShape, curve, line

LAST, FOLD, LAP, CLOSED = (
    {"allowance_mm": 15.0},
    {"allowance_mm": 5.0},
    {"allowance_mm": 8.0},
    {"allowance_mm": 1.5},
)

SHAFT_OUTER = DrawnShape(
    "SHAFT OUTER",
    (
        curve("lasting", (20, 2), (52, 4), (86, 2), (118, -4), (142, -13), **LAST),
        curve("seam", (142, -13), (151, 10), (154, 36), (149, 66), (145, 96), (147, 128), **CLOSED),
        curve("folded", (147, 128), (118, 132), (86, 131), (52, 124), **FOLD),
        curve("folded", (52, 124), (44, 104), (36, 86), (24, 70), (8, 58), **FOLD),
        curve("overlay", (8, 58), (2, 44), (4, 26), (20, 2), leave=(-8, -9)),
    ),
    nicks=((0, 0.5), (1, 0.5), (4, 0.6)),
    drills=((57, 118), (51, 103), (44, 89), (34, 75)),
    label_mm=(60, 50),
    shift_mm=(230, 170),
    style={"hold": ((20, 40), (150, 40), 2.6)},
)
SHAFT_INNER = DrawnShape(
    "SHAFT INNER",
    (
        curve("lasting", (12, -13), (36, -3), (70, 5), (104, 8), (138, 6), **LAST),
        curve("overlay", (138, 6), (153, 28), (154, 45), (146, 58), arrive=(-8, 9)),
        curve("folded", (146, 58), (130, 70), (118, 86), (110, 104), (102, 124), **FOLD),
        curve("folded", (102, 124), (68, 131), (36, 132), (7, 128), **FOLD),
        curve("seam", (7, 128), (9, 96), (5, 66), (0, 36), (3, 10), (12, -13), **CLOSED),
    ),
    nicks=((0, 0.5), (1, 0.4), (4, 0.5)),
    drills=((97, 118), (103, 103), (110, 89), (120, 75)),
    label_mm=(50, 50),
    shift_mm=(230, 0),
    style={"hold": ((4, 40), (134, 40), 2.6)},
)
VAMP = DrawnShape(
    "VAMP",
    (
        curve("lasting", (-62, -99), (-30, -97), (2, -89), (32, -72), (46, -59), leave=(33, 0), **LAST),
        curve("underlay", (46, -59), (51, -30), (53, 0), (51, 30), (46, 60), **LAP),
        curve("lasting", (46, 60), (32, 73), (2, 89), (-30, 97), (-58, 99), arrive=(-30, 1), **LAST),
        curve("underlay", (-58, 99), (-52, 74), (-34, 46), (-14, 30), leave=(5, -28), **LAP),
        curve("underlay", (-14, 30), (-11, 14), (-11, -14), (-14, -30), **LAP),
        curve("underlay", (-14, -30), (-36, -48), (-56, -75), (-62, -99), arrive=(-5, -28), **LAP),
    ),
    nicks=((1, 0.5), (4, 0.5)),
    label_mm=(8, 30),
    shift_mm=(100, 130),
    style={"hold": ((-46, 66), (16, 66), 1.5)},
)
# half piece on the mirror line y = 0; the toe points to +x
TOE_CAP = DrawnShape(
    "TOE CAP",
    (
        line("centre", (-4, 0), (56, 0)),
        curve("lasting", (56, 0), (53, 20), (40, 42), (18, 60), (-11, 73), leave=(0, 20), **LAST),
        curve("overlay", (-11, 73), (-6, 38), (-4, 0), arrive=(0, -36)),
    ),
    mirror_segment=0,
    nicks=((2, 0.5),),
    label_mm=(10, 25),
    shift_mm=(20, -90),
    style={"layers": (), "note": "not backed: lies under the puff"},
)
# half piece on the mirror line x = 0; the toe end points down
TONGUE = DrawnShape(
    "TONGUE",
    (
        curve("underlay", (0, 3), (16, 2), (29, -1), leave=(1, 0), **LAP),
        curve("raw", (29, -1), (31, 34), (36, 74), (39, 104), leave=(1, 30)),
        curve("raw", (39, 104), (31, 120), (0, 126), leave=(0, 12), arrive=(-1, 0)),
        line("centre", (0, 126), (0, 3)),
    ),
    axis_deg=90.0,
    mirror_segment=3,
    nicks=((0, 0.5),),
    label_mm=(5, 60),
    shift_mm=(150, -110),
    style={"layers": (), "note": "not backed"},
)
COUNTER = DrawnShape(
    "COUNTER",
    (
        curve("lasting", (-72, 6), (-44, -2), (-16, -12), (0, -14), (16, -12), (44, -2), (72, 6), **LAST),
        curve("overlay", (72, 6), (66, 24), (54, 38)),
        curve("skived", (54, 38), (32, 43), (14, 53), (0, 56), (-14, 53), (-32, 43), (-54, 38)),
        curve("overlay", (-54, 38), (-66, 24), (-72, 6)),
    ),
    nicks=((0, 0.5), (2, 0.5)),
    label_mm=(-15, 20),
    shift_mm=(300, -90),
)
PIECES = (SHAFT_OUTER, SHAFT_INNER, VAMP, TOE_CAP, TONGUE, COUNTER)
