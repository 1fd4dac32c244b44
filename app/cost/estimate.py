"""What runs of the history let expect of a style: cloth per pair with its spread, before any lay."""

from __future__ import annotations

from typing import Any

from app.cost.per_pair import net_m2_per_pair
from app.cost.quick_estimate import quick_estimate
from app.errors import UsageError
from app.style.model import Style
from app.style.pieces import used_cloths
from app.workshop.ledger import Ledger, Proven
from geometry.said import said


def estimates(ledger: Ledger, style: Style, cloth: str, proven: Proven | None) -> list[dict[str, Any]]:
    """Return what similar runs let expect of a style's base size, an object per cloth ('' = all of them).

    Raises OrderError when there is no run to learn from, UsageError for a cloth that it does not take.
    """
    base = style.size_run.base
    found = []
    for cloth_id in used_cloths(style):
        if cloth and cloth_id != cloth:
            continue
        net = net_m2_per_pair(style, [base], cloth_id)[base]
        guess = ledger.estimate(net, cloth=cloth)
        width_m = style.cloth(cloth_id).usable_width_mm / 1000.0
        quick = quick_estimate(style, {base: 1}, style.cloth(cloth_id), width_m * 1000.0).m2_per_pair
        found.append(
            {
                "style": style.name,
                "cloth": cloth_id,
                "size": base,
                "net_m2": round(net, 6),
                "m2_per_pair": round(guess.m2_per_pair, 6),
                "low_m2": round(guess.low_m2, 6),
                "high_m2": round(guess.high_m2, 6),
                "metres_per_pair": round(guess.m2_per_pair / width_m, 6),
                "runs": list(guess.from_runs),
                "quick_m2": round(quick, 6),
                "quick_proved_m2": None if proven is None else round(quick * proven.factor, 6),
            }
        )
    if not found:
        raise UsageError(said("{0} takes no such cloth", style.name), remedy="leave out --cloth")
    return found
