"""A plan as it goes into the ledger: a run a cloth."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from app.ledger import PlannedLay, PlannedRun
from app.plan_job import ClothPlan, PlanJob, pair_layers

METRE = Decimal("0.001")


def planned_runs(job: PlanJob, plans: Sequence[ClothPlan], name: str) -> Iterator[PlannedRun]:
    """Yield a run for each cloth of a plan."""
    for plan in plans:
        lays = tuple(
            PlannedLay(
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
        net_m2 = sum(plan.documents[lay.name]["net_area_mm2"] * lay.plies / 1e6 for lay in lays)
        yield PlannedRun(
            name=name,
            style=" + ".join(style.name for style in job.styles),
            cloth=plan.cloth.id,
            usable_width_mm=Decimal(str(plan.cloth.usable_width_mm)),
            mode=job.mode,
            pairs=pairs,
            net_m2_per_pair=Decimal(str(round(net_m2 / pairs, 6))),
            cost=plan.plan.cost.quantize(Decimal("0.01")),
            currency=plan.cloth.currency if plan.cloth.price_per_m is not None else "",
            lays=lays,
        )
