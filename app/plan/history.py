"""A plan as it goes into the ledger: a run per cloth."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from decimal import Decimal
from typing import Any

from app.cost.quick_estimate import quick_estimate
from app.plan.job import ClothPlan, PlanJob, pair_layers
from app.style.pieces import used_cloths
from app.workshop.ledger import LedgerLay, LedgerRun

METRE = Decimal("0.001")
EXACT = ("usable_width_mm", "net_m2_per_pair", "cost", "quick_m2_per_pair", "nested_m2_per_pair")


def planned_runs(job: PlanJob, plans: Sequence[ClothPlan], name: str) -> Iterator[LedgerRun]:
    """Yield a run for each cloth of a plan."""
    for plan in plans:
        lays = tuple(
            LedgerLay(
                lay_name,
                lay.sets,
                lay.plies,
                sum(lay.sets.values()) * pair_layers(lay.plies, job.mode),
                (lay.plies * Decimal(str(lay.length_mm + 2.0 * plan.table.end_loss_mm)) / 1000).quantize(
                    METRE
                ),
            )
            for lay_name, lay in zip(plan.names, plan.plan.lays, strict=True)
        )
        pairs = sum(plan.plan.cut.values())
        laid_m2 = sum(
            lay.plies * nested.length_mm * plan.cloth.usable_width_mm / 1e6
            for lay, nested in zip(lays, plan.plan.lays, strict=True)
        )
        net_m2 = sum(plan.documents[lay.name]["net_area_mm2"] * lay.plies / 1e6 for lay in lays)
        yield LedgerRun(
            name=name,
            style=" + ".join(style.name for style in job.styles),
            cloth=plan.cloth.id,
            usable_width_mm=Decimal(str(plan.cloth.usable_width_mm)),
            mode=job.mode,
            pairs=pairs,
            net_m2_per_pair=_area(net_m2 / pairs),
            cost=plan.plan.cost.quantize(Decimal("0.01")),
            currency=plan.cloth.currency if plan.cloth.price_per_m is not None else "",
            lays=lays,
            quick_m2_per_pair=_area(_quick_m2_per_pair(job, plan.cloth.id)),
            nested_m2_per_pair=_area(laid_m2 / pairs),
        )


def run_object(run: LedgerRun) -> dict[str, Any]:
    """Return a planned run as JSON: what ``planned_run`` reads back."""
    return {key: _plain(value) for key, value in asdict(run).items()}


def planned_run(told: Mapping[str, Any]) -> LedgerRun:
    """Return the run that ``run_object`` told."""
    lays = tuple(LedgerLay(**{**lay, "metres": Decimal(lay["metres"])}) for lay in told["lays"])
    exact = {key: Decimal(told[key]) for key in EXACT if told[key] is not None}
    return LedgerRun(**{**told, **exact, "lays": lays})


def _plain(value: Any) -> Any:
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    if isinstance(value, dict):
        return {key: _plain(each) for key, each in value.items()}
    return value


def _quick_m2_per_pair(job: PlanJob, cloth_id: str) -> float:
    """The quick estimate of a pair, averaged over the pairs of all styles that take the cloth."""
    total, pairs = 0.0, 0
    for style, order in zip(job.styles, job.orders, strict=True):
        if order and cloth_id in used_cloths(style):
            cloth = style.cloth(cloth_id)
            ordered = sum(order.values())
            total += quick_estimate(style, order, cloth, cloth.usable_width_mm).m2_per_pair * ordered
            pairs += ordered
    return total / pairs


def _area(m2: float) -> Decimal:
    return Decimal(str(round(m2, 6)))
