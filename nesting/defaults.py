"""What the lay and the plan take where nobody has said another figure."""

from __future__ import annotations

from geometry.defaults import OURS, PRACTICE, Default

SPREADING_PAGES = (
    "web pages on marker planning and fabric consumption of texeducation, stitchdiary and "
    "apparelmerchandisinglearner (2 cm at each end of a ply; 0.5 to 1 % for ends of rolls)"
)

END_LOSS_MM = Default(
    20.0,
    "mm",
    "End loss at each end of a ply",
    "cloth that cannot be spread edge on edge and is cut off with the ply",
    SPREADING_PAGES,
)

OVERCUT_SHARE = Default(
    0.02,
    "share of a size's pairs",
    "Overcut: pairs of a size cut beyond the order",
    "lets a size be cut in whole plies with the others instead of in a lay of its own",
    PRACTICE,
)

OVERCUT_PAIRS = Default(
    2,
    "pairs",
    "Overcut of a small size",
    "two per cent of a small size is no whole pair; without this it would need a lay of its own",
    PRACTICE,
)

REMNANT_FROM_M = Default(
    1.0,
    "m",
    "Remnant worth keeping, from a length of",
    "shorter pieces of roll hold few pairs and are seldom spread again",
    PRACTICE,
)

PLAN_SECONDS = Default(
    120.0,
    "s",
    "Time for a run plan on the command line",
    "every lay of the plan is nested, so a plan takes several times as long as a lay",
    OURS,
)

LAY_SECONDS = Default(
    20.0,
    "s",
    "Time for a lay, on the command line and on the Lay desk",
    "a wait that a person at the desk accepts; the search can be filled again from where it ended, and "
    "docs/benchmarks.md shows what more time gives",
    OURS,
)

WORKERS = Default(
    2,
    "processors",
    "Processors that search at once, as far as the machine has them",
    "leaves the rest of the machine to the window and to other work",
    OURS,
)

ALLOCATION_SECONDS = Default(
    10.0,
    "s",
    "Time for sharing a plan out among rolls",
    "an integer program that is solved exactly within a second on lists of some dozens of rolls",
    OURS,
)

MOST_LAYS = Default(
    8,
    "lays",
    "Lays of a plan that are chosen together",
    "the choice of what goes together grows quickly with every lay; a plan of one size per lay may have more",
    OURS,
)

GAP_MM = Default(
    0.0,
    "mm",
    "Gap of an open-format instance (python -m nesting)",
    "instances of the literature are compared without a gap; lays of a style take the house rule",
    OURS,
)
