"""Derby, men's EU 42: vamp, two quarters, tongue, heel counter. Left shoe, grain side up.

Last 280 mm. Quarters lie over the vamp and close over the tongue; the counter lies over the
back seam. Lasting 16-18 mm, lap 8 mm, folded topline 5 mm.
"""

from __future__ import annotations

from sample_styles.draw.curves import DrawnShape, arc, curve

LAST, FOLD, LAP, CLOSED = (
    {"allowance_mm": 16.0},
    {"allowance_mm": 5.0},
    {"allowance_mm": 8.0},
    {"allowance_mm": 1.5},
)

VAMP = DrawnShape(
    "Vamp",
    (
        curve(
            "lasting",
            (-78, -112),
            (-30, -112),
            (12, -104),
            (52, -84),
            (82, -52),
            (95, -16),
            (94, 18),
            (79, 54),
            (50, 84),
            (12, 102),
            (-28, 110),
            (-70, 111),
            leave=(40, -2),
            arrive=(-38, 0),
            **LAST,
        ),
        curve("underlay", (-70, 111), (-58, 84), (-34, 54), (-10, 37), leave=(10, -30), **LAP),
        curve("underlay", (-10, 37), (-8, 18), (-8, -17), (-10, -36), **LAP),
        curve("underlay", (-10, -36), (-36, -54), (-64, -85), (-78, -112), **LAP),
    ),
    nicks=((0, 0.5), (2, 0.5)),
    label_mm=(30, -3),
    shift_mm=(110, 130),
    style={
        "hold": ((-54, 78), (22, 78), 2.0),
        "layers": (
            {
                "keep": ((36, -120), (48, -80), (54, -40), (55, 0), (54, 40), (48, 82), (36, 120)),
                "side": (20, 0),
            },
        ),
        "note": "toe left free for the puff",
    },
)

# outer quarter seen from outside: toe to the left, the front wing runs down over the vamp
QUARTER_OUTER = DrawnShape(
    "Quarter outer",
    (
        curve("lasting", (-2, 4), (40, 1), (90, 2), (134, -4), (168, -14), **LAST),
        curve("seam", (168, -14), (178, 8), (183, 32), (181, 56), (176, 76), **CLOSED),
        curve(
            "folded", (176, 76), (150, 70), (126, 68), (104, 74), (88, 88), (74, 106), leave=(-20, -3), **FOLD
        ),
        arc("folded", (74, 106), (65, 112), (55, 108), **FOLD),
        curve("folded", (55, 108), (40, 94), (22, 78), (6, 66), leave=(-13, -14), **FOLD),
        curve("overlay", (6, 66), (-5, 53), (-12, 38), (-11, 20), (-2, 4), leave=(-5, -11)),
    ),
    nicks=((0, 0.45), (5, 0.6)),
    drills=((58, 97), (47, 86.5), (35.5, 76), (23.5, 66.5), (12, 57)),
    lines=(curve("raw", (66, 98), (45, 78), (24, 60), (10, 49)),),
    label_mm=(70, 30),
    shift_mm=(250, 170),
    style={
        "hold": ((0, 36), (176, 36), 3.5),
        "layers": (
            {},
            {
                "cloth": "plain-110",
                "keep": (
                    (72, 112),
                    (84, 96),
                    (60, 78),
                    (38, 58),
                    (16, 40),
                    (4, 50),
                    (2, 66),
                    (40, 104),
                    (58, 118),
                ),
            },
        ),
        "note": "second layer behind the eyelets",
    },
)

QUARTER_INNER = DrawnShape(
    "Quarter inner",
    (
        curve("lasting", (14, -14), (48, -3), (92, 6), (142, 5), (186, 6), **LAST),
        curve("overlay", (186, 6), (194, 21), (195, 38), (188, 53), (176, 66), arrive=(-6, 11)),
        curve("folded", (176, 66), (160, 78), (142, 94), (127, 108), arrive=(-13, 14), **FOLD),
        arc("folded", (127, 108), (117, 112), (108, 106), **FOLD),
        curve("folded", (108, 106), (94, 88), (78, 74), (56, 68), (32, 70), (6, 76), arrive=(-20, 3), **FOLD),
        curve("seam", (6, 76), (1, 56), (-1, 32), (4, 8), (14, -14), **CLOSED),
    ),
    nicks=((0, 0.55), (1, 0.4)),
    drills=((124, 97), (135, 86.5), (146.5, 76), (158.5, 66.5), (170, 57)),
    lines=(curve("raw", (116, 98), (137, 78), (158, 60), (172, 49)),),
    label_mm=(80, 30),
    shift_mm=(250, 30),
    style={
        "hold": ((6, 36), (186, 36), 3.5),
        "layers": (
            {},
            {
                "cloth": "plain-110",
                "keep": (
                    (110, 112),
                    (98, 96),
                    (122, 78),
                    (144, 58),
                    (166, 40),
                    (178, 50),
                    (180, 66),
                    (142, 104),
                    (124, 118),
                ),
            },
        ),
        "note": "second layer behind the eyelets",
    },
)

# toe end down
TONGUE = DrawnShape(
    "Tongue",
    (
        curve("underlay", (-33, 0), (0, 5), (33, 0), **LAP),
        curve("raw", (33, 0), (36, 40), (41, 80), (43, 112), leave=(1, 30)),
        curve("raw", (43, 112), (34, 129), (0, 136), (-34, 129), (-43, 112), leave=(0, 14), arrive=(0, -14)),
        curve("raw", (-43, 112), (-41, 80), (-36, 40), (-33, 0), arrive=(1, -30)),
    ),
    axis_deg=90.0,
    nicks=((0, 0.5),),
    label_mm=(-14, 60),
    shift_mm=(500, 40),
    style={"layers": (), "note": "not backed"},
)

# wraps round the heel, top edge skived and laid over the quarters
COUNTER = DrawnShape(
    "Counter",
    (
        curve("lasting", (-82, 4), (-50, -3), (-18, -13), (0, -15), (18, -13), (50, -3), (82, 4), **LAST),
        curve("overlay", (82, 4), (74, 22), (58, 36)),
        curve("skived", (58, 36), (38, 41), (18, 50), (0, 54), (-18, 50), (-38, 41), (-58, 36)),
        curve("overlay", (-58, 36), (-74, 22), (-82, 4)),
    ),
    nicks=((0, 0.5), (2, 0.5)),
    label_mm=(-18, 15),
    shift_mm=(560, 210),
)

PIECES = (VAMP, QUARTER_OUTER, QUARTER_INNER, TONGUE, COUNTER)
