"""How long the program works and what it compares until somebody says otherwise."""

from __future__ import annotations

from geometry.defaults import NOTHING_ADDED, OURS, Default

PLIES = Default(
    1,
    "plies",
    "Plies of a lay on the command line (2 face to face)",
    "the least that gives both hands: a stack is never guessed",
    OURS,
)

EXTRA_PERCENT = Default(
    0.0, "% of the pairs", "Pairs cut in addition for rejects", "a plan cuts the order", NOTHING_ADDED
)

COST_SECONDS = Default(
    10.0,
    "s",
    "Time for each lay of a costing",
    "several lays are nested one after another; the cost of a pair moves little after that",
    OURS,
)

WINDOW_PLAN_SECONDS = Default(
    60.0,
    "s",
    "Time for a run plan in the window",
    "half of what the command takes, since somebody is waiting; planning again goes on from its lays",
    OURS,
)

DEMO_SECONDS = Default(12.0, "s", "Time for each lay of the demonstration", "shown, not cut", OURS)

TURN_DEG = Default(0.0, "degrees", "Turn of all backing in 'hold'", "as drafted", NOTHING_ADDED)

SEED = Default(0, "", "Seed of a search", "the same input gives the same search", OURS)
