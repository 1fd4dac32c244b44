"""A plan told: the object of ``plan --json``, and the files it is written to."""

from __future__ import annotations

import glob
import json
import re
from collections.abc import Mapping, Sequence
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path
from typing import Any

from app.atomic import write_whole
from app.cautions import caution_lines, cautions
from app.lay.longer import longer_text
from app.measures import METRIC, Measures, counted
from app.plan.job import ClothPlan, PlanJob, pair_layers
from geometry.said import joined, percent, said
from nesting.files import lay_file
from nesting.planning.consumption import CENT, PER_PAIR, YIELD_MEANS
from nesting.planning.roll_allocation import Allocation
from nesting.planning.run_plan import RunLay


def plan_object(job: PlanJob, plans: Sequence[ClothPlan], seconds: float) -> dict[str, Any]:
    """Return the object of ``plan --json``."""
    priced = all(plan.cloth.price_per_m is not None for plan in plans)
    metres = {plan.cloth.id: round(plan.plan.metres, 3) for plan in plans}
    total = sum((plan.plan.cost for plan in plans), Decimal(0))
    bound = sum((plan.plan.bound_cost for plan in plans), Decimal(0))
    ordered = sum(job.ordered.values())
    return {
        "lays": [
            _lay_entry(plan, name, lay)
            for plan in plans
            for name, lay in zip(plan.names, plan.plan.lays, strict=True)
        ],
        "pairs_ordered": job.ordered,
        "pairs_to_cut": job.demand,
        "pairs_cut": _least_cut(plans),
        "cloth_m": metres,
        "lower_bound_m": {plan.cloth.id: round(plan.plan.bound_m, 3) for plan in plans},
        "gap": 0.0 if total == 0 else round(float((total - bound) / total), 6),
        "choice_gap": {plan.cloth.id: round(plan.plan.choice_gap, 6) for plan in plans},
        "utilisation": {plan.cloth.id: round(_utilisation(plan), 6) for plan in plans},
        "shares": {plan.cloth.id: _shares(plan) for plan in plans},
        "cost": {
            "total": str(total.quantize(CENT, ROUND_HALF_UP)),
            "per_pair": str((total / ordered).quantize(PER_PAIR, ROUND_HALF_UP)),
            "cloth": str(_cloth_money(plans).quantize(CENT, ROUND_HALF_UP)),
            "currency": plans[0].cloth.currency if priced else "",
            "priced": priced,
        },
        "rolls": {plan.cloth.id: _rolls(plan.allocation) for plan in plans if plan.allocation},
        "assumptions": [
            said(
                "table {0} mm, {1} mm lost at each end of a ply",
                f"{job.table.length_mm:g}",
                f"{job.table.end_loss_mm:g}",
            ),
            said(
                "at most {0}",
                joined(*(said("{0} plies of {1}", p.table.max_plies, p.cloth.name) for p in plans), by=", "),
            ),
            said(
                "extra pairs for rejects {0}, overcut up to {1} or {2} of a size",
                percent(job.extra),
                percent(job.overcut),
                counted(job.overcut_pairs, "pair"),
            ),
            "lower bound, which no plan can beat: no waste between the pieces, and the lays that are then "
            "best",
        ],
        "cautions": cautions("plan"),
        "seconds": round(seconds, 2),
    }


def write_plan(payload: Mapping[str, Any], plans: Sequence[ClothPlan], out_dir: Path) -> list[Path]:
    """Write plan.json and every lay's lay.json, each whole or not at all.

    Lays of an earlier plan in that folder that are none of this one are taken away, so that nobody
    cuts them.
    """
    paths = []
    for plan in plans:
        for name in plan.names:
            path = out_dir / lay_path(plan, name)
            path.parent.mkdir(parents=True, exist_ok=True)
            lay_file.write(path, plan.documents[name])
            paths.append(path)
    path = out_dir / "plan.json"
    write_whole(path, json.dumps(payload, ensure_ascii=False, indent=1))
    for plan in plans:
        _clear_earlier(out_dir, plan.cloth.id, set(paths))
    return [path, *paths]


def _clear_earlier(out_dir: Path, cloth_id: str, written: set[Path]) -> None:
    """Take away the files that a plan writes for a lay, where the lay is none of this plan."""
    for path in out_dir.glob(f"{glob.escape(cloth_id)}-*/lay.json"):
        if path not in written and re.fullmatch("[A-Z]+", path.parent.name[len(cloth_id) + 1 :]):
            for file in (*path.parent.glob("cut-ticket.*"), *path.parent.glob("lay*.*")):
                file.unlink()
            if not any(path.parent.iterdir()):
                path.parent.rmdir()


def lay_path(plan: ClothPlan, name: str) -> Path:
    """Return where the lay.json of a plan's lay stands, from the output folder."""
    return Path(f"{plan.cloth.id}-{name}") / "lay.json"


def _lay_entry(plan: ClothPlan, name: str, lay: RunLay) -> dict[str, Any]:
    return {
        "name": name,
        "cloth": plan.cloth.id,
        "sets": lay.sets,
        "plies": lay.plies,
        "mode": plan.plan.mode,
        "length_mm": round(lay.length_mm, 3),
        "yield": plan.documents[name]["yield"],
        "longer_search": plan.documents[name]["longer_search"],
        "metres": round(lay.plies * (lay.length_mm + 2.0 * plan.table.end_loss_mm) / 1000.0, 3),
        "pairs": {size: n * pair_layers(lay.plies, plan.plan.mode) for size, n in lay.sets.items()},
        "lay_file": lay_path(plan, name).as_posix(),
        "kept": any(each.name == name for each in plan.kept),
        "locked": any(each.name == name and each.locked for each in plan.kept),
    }


def _least_cut(plans: Sequence[ClothPlan]) -> dict[str, int]:
    """Pairs that can be made: a size is complete when every cloth's pieces of it are cut."""
    least: dict[str, int] = {}
    for plan in plans:
        for size, pairs in plan.plan.cut.items():
            least[size] = min(pairs, least.get(size, pairs))
    return least


def _utilisation(plan: ClothPlan) -> float:
    """Net area of everything cut over the whole cloth taken, selvedge and ends counted."""
    net = sum(
        plan.documents[name]["net_area_mm2"] * lay.plies
        for name, lay in zip(plan.names, plan.plan.lays, strict=True)
    )
    return net / (plan.plan.metres * 1000.0 * plan.cloth.width_mm) if plan.plan.metres else 0.0


def _shares(plan: ClothPlan) -> dict[str, float]:
    """Where the cloth of the lays goes, selvedges counted; the shares add up to 1."""
    width, usable = plan.cloth.width_mm, plan.cloth.usable_width_mm
    spread = laid = net = 0.0
    for name, lay in zip(plan.names, plan.plan.lays, strict=True):
        spread += lay.plies * (lay.length_mm + 2.0 * plan.table.end_loss_mm)
        laid += lay.plies * lay.length_mm
        net += lay.plies * plan.documents[name]["net_area_mm2"]
    if not spread:
        return {}
    parts = {
        "pieces": net,
        "between_pieces": usable * laid - net,
        "selvedge": (width - usable) * spread,
        "ends_of_plies": usable * (spread - laid),
    }
    return {key: round(area / (width * spread), 6) for key, area in parts.items()}


def _cloth_money(plans: Sequence[ClothPlan]) -> Decimal:
    return sum(
        (Decimal(str(round(p.plan.metres, 6))) * (p.cloth.price_per_m or Decimal(0)) for p in plans),
        Decimal(0),
    )


def _rolls(allocation: Allocation) -> dict[str, Any]:
    return {
        "uses": [
            {
                "roll": use.roll,
                "lot": use.lot,
                "from_m": round(use.from_m, 3),
                "length_m": round(use.length_m, 3),
                "plies": use.plies,
                "left_m": round(use.left_m, 3),
            }
            for use in allocation.uses
        ],
        "remnants": [{"roll": use.roll, "left_m": round(use.left_m, 3)} for use in allocation.remnants],
        "waste_m": round(allocation.waste_m, 3),
        "flaw_m": round(allocation.flaw_m, 3),
    }


def plan_text(payload: Mapping[str, Any], measures: Measures = METRIC) -> str:
    """Return a plan in words, as ``plan`` prints it."""
    told = measures.length_text
    lines = []
    for lay in payload["lays"]:
        sets = ", ".join(f"{size}: {n}" for size, n in lay["sets"].items())
        lines.append(
            f"{lay['cloth']} lay {lay['name']}: {counted(lay['plies'], 'ply')} {lay['mode']}, sets {sets}, "
            f"{told(lay['length_mm'] / 1000, 3)}, yield {percent(lay['yield'])}"
            f"{longer_text(lay['longer_search'])}, {told(lay['metres'], 2)} of cloth"
            f"{', laid by hand and locked' if lay['locked'] else ''}"
        )
    ordered, cut = payload["pairs_ordered"], payload["pairs_cut"]
    lines.append(f"ordered {counted(sum(ordered.values()), 'pair')}, cut {sum(cut.values())}")
    for cloth, metres in payload["cloth_m"].items():
        lines.append(
            f"{cloth}: {told(metres, 2)}, utilisation {percent(payload['utilisation'][cloth])}; "
            f"no plan can take less than {told(payload['lower_bound_m'][cloth], 2)}"
        )
    cost = payload["cost"]
    if cost["priced"]:
        lines.append(f"cost {cost['total']} {cost['currency']}, {cost['per_pair']} per pair")
    else:
        lines.append("no price is known: the plan saves metres")
    lines.append(
        f"{percent(payload['gap'])} of it lies above what no plan can beat (cloth without waste); other lays "
        f"at these lengths could save {percent(max(payload['choice_gap'].values(), default=0.0), 2)}"
    )
    for cloth, rolls in payload["rolls"].items():
        for use in rolls["uses"]:
            plies = ", ".join(f"{n} of {lay}" for lay, n in use["plies"].items())
            lines.append(
                f"{cloth} roll {use['roll']} from {told(use['from_m'], 2)}: {plies}, "
                f"{told(use['left_m'], 2)} left"
            )
    lines += [YIELD_MEANS, *caution_lines("plan")]
    lines += [f"written: {path}" for path in payload.get("files", ())]
    return "\n".join(lines)
