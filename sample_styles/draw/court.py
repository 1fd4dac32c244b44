"""Court shoe, women's EU 37: one-piece vamp with a U throat, two quarters. Left shoe, grain side up.

Lengths: vamp 56 mm from the throat to the feather line at the toe, side seam behind the joint,
quarters 56 mm high at the back seam. Lasting 15 mm, folded topline 5 mm, side lap 8 mm.
"""

from __future__ import annotations

from app.style.model import HoldChain
from sample_styles.draw.curves import DrawnShape, curve

LAST, FOLD, LAP, CLOSED = (
    {"allowance_mm": 15.0},
    {"allowance_mm": 5.0},
    {"allowance_mm": 8.0},
    {"allowance_mm": 1.5},
)

# toe to +x, so the inner side of a left vamp lies at -y
VAMP = DrawnShape(
    "Vamp",
    (
        curve(
            "lasting",
            (-74, -103),
            (-40, -99),
            (-4, -88),
            (30, -69),
            (56, -40),
            (68, -10),
            (67, 18),
            (53, 46),
            (28, 70),
            (-5, 88),
            (-38, 98),
            (-68, 102),
            leave=(34, 3),
            arrive=(-31, 2),
            **LAST,
        ),
        curve("underlay", (-68, 102), (-65, 78), (-58, 48), **LAP),
        curve(
            "folded",
            (-58, 48),
            (-36, 42),
            (-16, 31),
            (-4, 15),
            (-1, -1),
            (-5, -17),
            (-17, -33),
            (-38, -44),
            (-62, -50),
            leave=(23, -4),
            arrive=(-24, -4),
            **FOLD,
        ),
        curve("underlay", (-62, -50), (-70, -78), (-74, -103), **LAP),
    ),
    nicks=((0, 0.5), (1, 0.5), (3, 0.5)),
    label_mm=(18, -3),
    shift_mm=(90, 120),
    # the toe is left free for the puff: the backing ends on a line 24 mm short of the feather line
    style={
        "hold": ((-62, 70), (0, 70), 2.0),
        "layers": (
            {
                "keep": ((14, -110), (24, -72), (29, -36), (30, 0), (29, 40), (24, 76), (14, 110)),
                "side": (10, 0),
            },
        ),
        "note": "toe left free for the puff",
    },
)

# outer quarter seen from outside: toe to the left
QUARTER_OUTER = DrawnShape(
    "Quarter outer",
    (
        curve("lasting", (-6, 2), (30, 5), (70, 3), (108, -4), (140, -15), **LAST),
        curve("seam", (140, -15), (150, 8), (154, 30), (153, 50), (149, 66), **CLOSED),
        curve("folded", (149, 66), (128, 62), (95, 55), (55, 54), (24, 59), (4, 64), leave=(-20, -2), **FOLD),
        curve("overlay", (4, 64), (-1, 34), (-6, 2)),
    ),
    nicks=((0, 0.55), (3, 0.5)),
    label_mm=(50, 30),
    shift_mm=(220, 140),
    style={"hold": ((2, 34), (148, 34), 3.5)},
)

# inner quarter seen from outside: toe to the right
QUARTER_INNER = DrawnShape(
    "Quarter inner",
    (
        curve("lasting", (10, -15), (42, -4), (80, 5), (118, 8), (150, 4), **LAST),
        curve("overlay", (150, 4), (146, 34), (140, 63)),
        curve("folded", (140, 63), (120, 59), (93, 55), (55, 55), (22, 62), (1, 66), arrive=(-20, 2), **FOLD),
        curve("seam", (1, 66), (-3, 50), (-4, 30), (0, 8), (10, -15), **CLOSED),
    ),
    nicks=((0, 0.45), (1, 0.5)),
    label_mm=(50, 30),
    shift_mm=(220, 30),
    style={"hold": ((2, 34), (146, 34), 3.5)},
)

# on each side the pull runs heel to throat through a quarter and on through the vamp
CHAINS = (
    HoldChain(name="Outer side", pieces=("Quarter outer", "Vamp"), limit_mm=5.0),
    HoldChain(name="Inner side", pieces=("Quarter inner", "Vamp"), limit_mm=5.0),
)

PIECES = (VAMP, QUARTER_OUTER, QUARTER_INNER)
