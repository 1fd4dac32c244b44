"""What a pair takes before any lay exists: the quick estimate told, and how good it has proved."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import ROUND_HALF_UP
from typing import Any

from app.cost.per_pair import net_m2_per_pair
from app.cost.quick_estimate import quick_estimate
from app.cost.text import in_columns
from app.measures import Measures
from app.style.model import ClothData, Style
from app.workshop.ledger import Proven
from geometry.said import percent
from nesting.planning.consumption import PER_PAIR, money


def quick_object(
    style: Style, order: Mapping[str, int], cloths: Sequence[ClothData], proven: Mapping[str, Proven | None]
) -> dict[str, Any]:
    """Return the object of ``cost --quick --json``: a pair by size and cloth, without any lay.

    ``proven`` is by cloth what runs before say; the expected metres are the estimate times that
    factor. Without runs nothing is expected: the estimate alone has no edges and no ends.
    """
    return {
        "style": style.name,
        "order": dict(order),
        "cloths": [_cloth(style, order, cloth, proven.get(cloth.id)) for cloth in cloths],
    }


def _cloth(style: Style, order: Mapping[str, int], cloth: ClothData, proven: Proven | None) -> dict[str, Any]:
    estimate = quick_estimate(style, order, cloth, cloth.usable_width_mm)
    net = net_m2_per_pair(style, list(order), cloth.id)
    width_m = cloth.usable_width_mm / 1000.0
    ordered = sum(order.values())
    expected = None if proven is None else round(estimate.metres_per_pair * proven.factor, 6)
    return {
        "id": cloth.id,
        "name": cloth.name,
        "usable_width_mm": cloth.usable_width_mm,
        "price_per_m": None if cloth.price_per_m is None else str(cloth.price_per_m),
        "currency": cloth.currency,
        "density": {piece: round(density, 4) for piece, density in estimate.density.items()},
        "per_pair": [
            {
                "size": size,
                "net_m2": round(net[size], 6),
                "quick_m2": round(m2, 6),
                "quick_metres": round(m2 / width_m, 6),
            }
            for size, m2 in estimate.m2_by_size.items()
        ],
        "average": {
            "net_m2": round(sum(net[size] * count for size, count in order.items()) / ordered, 6),
            "quick_m2": round(estimate.m2_per_pair, 6),
            "quick_metres": round(estimate.metres_per_pair, 6),
            "quick_cost": _cost(estimate.metres_per_pair, cloth),
            "expected_metres": expected,
            "expected_cost": None if expected is None else _cost(expected, cloth),
        },
        "proved": None if proven is None else proven_entry(proven),
    }


def quick_text(told: Mapping[str, Any], measures: Measures) -> str:
    """Return the object in words and tables."""
    lines = [f"{told['style']}, quick estimate of a pair before any lay"]
    area, length = measures.area_unit, measures.length_unit
    for cloth in told["cloths"]:
        average = {**cloth["average"], "size": "average"}
        pairs = {**told["order"], "average": sum(told["order"].values())}
        lines.append(f"{cloth['name']} on {measures.width_text(cloth['usable_width_mm'])} usable:")
        lines += in_columns(
            ["size", "pairs", f"net {area}", f"quick {area}", f"quick {length}"],
            [
                [
                    row["size"],
                    str(pairs[row["size"]]),
                    f"{measures.area(row['net_m2']):.4f}",
                    f"{measures.area(row['quick_m2']):.4f}",
                    f"{measures.length(row['quick_metres']):.4f}",
                ]
                for row in (*cloth["per_pair"], average)
            ],
        )
        density = ", ".join(f"{piece} {percent(share)}" for piece, share in cloth["density"].items())
        lines.append(f"density of each piece's own rows, gap included: {density}")
        cost = (
            "" if average["quick_cost"] is None else f", {average['quick_cost']} {cloth['currency']} per pair"
        )
        lines.append(f"without edges, ends and losses{cost}")
        proved = cloth["proved"]
        if proved is None:
            lines.append("no run in the history shows yet how accurate that is: plan one, or lay the style")
            continue
        cost = "" if average["expected_cost"] is None else f", {average['expected_cost']} {cloth['currency']}"
        lines.append(
            f"expect {measures.length_text(average['expected_metres'])} a pair{cost}: {_proved(proved)}"
        )
    return "\n".join(lines)


def proven_entry(proven: Proven) -> dict[str, Any]:
    """Return how good the quick estimate proved, as JSON has it."""
    return {
        "factor": round(proven.factor, 4),
        "low": round(proven.low, 4),
        "high": round(proven.high, 4),
        "runs": proven.runs,
        "against": "used" if proven.cut else "nested",
    }


def proven_text(proven: Proven) -> str:
    """Return how good the quick estimate proved, in words."""
    return f"quick estimate: {_proved(proven_entry(proven))}"


def _proved(told: Mapping[str, Any]) -> str:
    what = "the cloth used, ends and all, was" if told["against"] == "used" else "the nested lays took"
    runs = f"{told['runs']} {'run' if told['runs'] == 1 else 'runs'}"
    return f"over {runs} {what} {told['factor']:.3f} of it ({told['low']:.3f} to {told['high']:.3f})"


def _cost(metres: float, cloth: ClothData) -> str | None:
    if cloth.price_per_m is None:
        return None
    return str(money(metres, cloth.price_per_m).quantize(PER_PAIR, ROUND_HALF_UP))
