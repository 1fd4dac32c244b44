"""Sandal, women's EU 37: front strap, instep strap, heel piece, ankle strap, buckle tab.

Computed in mm, written in inches. Strap edges folded 5 mm, ends lasted 18 mm. A strap is lasted
from its ends, so its pull axis lies along it.
"""

from __future__ import annotations

from sample_styles.draw.curves import DrawnShape, arc, curve, line

LAST, FOLD = {"allowance_mm": 18.0}, {"allowance_mm": 5.0}

# across the joints: lasted on both sides, its long edges folded; the toe lies towards -y
FRONT_STRAP = DrawnShape(
    "Front strap",
    (
        curve("folded", (-98, -34), (-62, -24), (-28, -12), (0, -8), (28, -12), (62, -25), (98, -36), **FOLD),
        line("lasting", (98, -36), (104, 14), **LAST),
        curve("folded", (104, 14), (70, 28), (34, 42), (0, 47), (-34, 43), (-70, 30), (-104, 16), **FOLD),
        line("lasting", (-104, 16), (-98, -34), **LAST),
    ),
    nicks=((0, 0.5), (2, 0.5)),
    cutouts=((-46.0, 9.0, 9.0, 5.0), (0.0, 20.0, 11.0, 6.0), (46.0, 8.5, 9.0, 5.0)),
    label_mm=(-30, 32),
    shift_mm=(120, 60),
    style={"hold": ((-70, 0), (70, 0), 4.5)},
)
INSTEP_STRAP = DrawnShape(
    "Instep strap",
    (
        curve("folded", (-108, -8), (-70, 2), (-34, 10), (0, 13), (34, 10), (70, 2), (108, -8), **FOLD),
        line("lasting", (108, -8), (113, 22), **LAST),
        curve("folded", (113, 22), (72, 34), (35, 43), (0, 46), (-35, 43), (-72, 34), (-113, 22), **FOLD),
        line("lasting", (-113, 22), (-108, -8), **LAST),
    ),
    nicks=((0, 0.5),),
    label_mm=(-30, 24),
    shift_mm=(120, 130),
    style={"hold": ((-60, 21), (60, 21), 4.0)},
)
# wraps the heel; a loop at the top of each side takes the ankle strap
HEEL_PIECE = DrawnShape(
    "Heel piece",
    (
        curve("lasting", (-96, 8), (-60, 0), (-24, -10), (0, -13), (24, -10), (60, 0), (96, 8), **LAST),
        curve("raw", (96, 8), (95, 26), (86, 40), leave=(3, 14)),
        curve(
            "folded",
            (86, 40),
            (62, 46),
            (38, 56),
            (18, 68),
            (0, 72),
            (-18, 68),
            (-38, 56),
            (-62, 46),
            (-86, 40),
            **FOLD,
        ),
        curve("raw", (-86, 40), (-95, 26), (-96, 8), arrive=(3, -14)),
    ),
    nicks=((0, 0.5), (2, 0.5)),
    label_mm=(-25, 15),
    shift_mm=(360, 60),
    style={"hold": ((-80, 20), (80, 20), 5.0)},
)
ANKLE_STRAP = DrawnShape(
    "Ankle strap",
    (
        curve("folded", (-140, -11), (-70, -5), (0, -3), (70, -5), (138, -11), **FOLD),
        arc("folded", (138, -11), (151, 0), (140, 11), **FOLD),
        curve("folded", (140, 11), (70, 18), (0, 20), (-70, 18), (-140, 12), **FOLD),
        line("underlay", (-140, 12), (-140, -11), allowance_mm=8.0),
    ),
    nicks=((3, 0.5),),
    label_mm=(-40, 2),
    shift_mm=(380, 180),
    style={
        "hold": ((-132, 4), (142, 4), 6.0),
        "layers": ({}, {"keep": ((-126, -30), (132, -30), (132, 40), (-126, 40))}),
        "note": "second layer keeps the strap from stretching",
    },
)
BUCKLE_TAB = DrawnShape(
    "Buckle tab",
    (
        line("raw", (-34, -9), (28, -9)),
        arc("raw", (28, -9), (37, 0), (28, 9)),
        line("raw", (28, 9), (-34, 9)),
        line("underlay", (-34, 9), (-34, -9), allowance_mm=8.0),
    ),
    label_mm=(-25, -3),
    shift_mm=(560, 60),
    style={"layers": (), "note": "not backed"},
)
PIECES = (FRONT_STRAP, INSTEP_STRAP, HEEL_PIECE, ANKLE_STRAP, BUCKLE_TAB)
