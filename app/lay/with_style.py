"""A lay as a style keeps it, and back: nothing of how it was found is lost on the way."""

from __future__ import annotations

from typing import Any

from app.style.model import LayData
from nesting.bound import lower_bound
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem

BY_HAND = "hand work"
"""What made a lay that was moved by hand, behind the engine that made it before."""

HOW_FOUND = ("engine", "seed", "budget", "stopped", "seconds", "searched_s", "began_from")


def placed_data(placements: tuple[Placement, ...]) -> tuple[tuple[str, float, float, float, bool], ...]:
    """Return placements as a style keeps them."""
    return tuple((at.item_id, at.turn_deg, at.x_mm, at.y_mm, at.pinned) for at in placements)


def fields_of(lay: Lay) -> dict[str, Any]:
    """Return the fields of ``LayData`` that a lay found by an engine fills."""
    return {"placements": placed_data(lay.placements)} | {name: getattr(lay, name) for name in HOW_FOUND}


def fields_by_hand(data: LayData, placements: tuple[Placement, ...]) -> dict[str, Any]:
    """Return the fields of a kept lay whose pieces a person moved, or only pinned where they lie.

    Of a lay that was moved no seed makes it again, and how long was searched says no longer what a search
    may add.
    """
    placed = placed_data(placements)
    if [at[:4] for at in placed] == [at[:4] for at in data.placements]:
        return {"placements": placed}
    makers = [name for name in data.engine.split(", ") if name and name != BY_HAND]
    found = {name: LayData.model_fields[name].default for name in HOW_FOUND}
    return found | {"placements": placed, "engine": ", ".join([*makers, BY_HAND])}


def lay_of(data: LayData, problem: LayProblem) -> Lay:
    """Return a kept lay of a problem; pieces that the style no longer has are left off."""
    placements = tuple(Placement(*at) for at in data.placements if at[0] in problem.by_id)
    found = {name: getattr(data, name) for name in HOW_FOUND}
    return Lay(placements, problem.length_of_mm(placements), bound=lower_bound(problem), **found)
