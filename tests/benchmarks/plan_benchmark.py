"""Run plans against two references, everything nested: cost, cloth, lays, overcut, gap, wall time.

    nice -n -10 .venv/bin/python tests/benchmarks/plan_benchmark.py --seconds 120 --lock /tmp/bench.lock
    .venv/bin/python tests/benchmarks/plan_benchmark.py --solve

For every sample style's own order, and for 1,800 pairs of eleven sizes of the derby, three plans a
cloth, each with the same time, the same engine, seed and two processors:

``plan``     what the planner chooses
``one size`` a lay holds one size only; sets and plies of every size chosen at their best
``ratio``    one lay in the order's proportions, repeated until the order is met; the best such lay,
             free of the overcut limit

The references are chosen well, so that what the planner wins is not won against a straw man. Every
lay is nested by the engine and judged before it counts. ``gap`` is the distance of the cost from
what no plan can beat (cloth without any waste): most of it is what lies between the pieces, so
``choice`` states beside it what other lays could still save at the lengths known. Table 6 m, 20
plies, 20 mm lost at each end, 6 for setting up a lay, 0.05 a ply-metre spread, 1.20 a lay-metre cut:
example rates of an invented workshop. With ``--lock`` every plan takes that file's lock while it
runs; results already in ``--out`` are not made again, so that it can be run in portions.

``--solve`` times the choice of lays alone: two small cases proven by enumeration, then eleven and
twelve sizes on a table that is short or long for them.
"""

from __future__ import annotations

import argparse
import contextlib
import json
import math
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from app.plan.job import ClothPlan, LayStore, PlanJob, cloth_ids, plan_cloth, problem_of_sets  # noqa: E402
from app.plan.kept_lays import KeptLay  # noqa: E402
from app.style.file import load_style  # noqa: E402
from app.style.orders import for_style, read_order  # noqa: E402
from nesting.engine.child import solve_in_child  # noqa: E402
from nesting.lay import Lay  # noqa: E402
from nesting.planning.cut_order import plan_cut  # noqa: E402
from nesting.planning.cut_sets import CutCosts, CutLimits  # noqa: E402
from nesting.planning.length_model import LengthModel  # noqa: E402
from nesting.planning.run_plan import CuttingTable, Rates, RunLay, rates_to_costs  # noqa: E402
from nesting.problem import LayProblem  # noqa: E402
from nesting.stop import Deadline  # noqa: E402

TABLE = CuttingTable(6000.0, 20, 20.0)
RATES = Rates(Decimal(0), Decimal("6"), Decimal("0.05"), Decimal("1.20"))
LARGE = dict(
    zip(map(str, range(36, 47)), (23, 67, 131, 205, 271, 317, 289, 227, 149, 85, 36), strict=True)
)  # 1,800 pairs, bell-shaped as orders are; none of the numbers has a factor in common
METHODS = ("plan", "one size", "ratio")


def main() -> None:
    """Run what is asked and print the table."""
    parser = argparse.ArgumentParser(description="run plans against two references")
    parser.add_argument("--seconds", type=float, default=60.0, help="for each plan of a cloth")
    parser.add_argument("--large-seconds", type=float, default=210.0, help="the same for 1,800 pairs")
    parser.add_argument("--cases", nargs="*", default=["boot", "court", "derby", "sandal", "1800"])
    parser.add_argument("--methods", nargs="*", default=METHODS, choices=METHODS)
    parser.add_argument("--lock", type=Path, help="a lock file held while a plan is made")
    parser.add_argument("--out", type=Path, help="folder of results (default: a temporary one)")
    parser.add_argument("--solve", action="store_true", help="time the choice of lays alone")
    options = parser.parse_args()
    if options.solve:
        _solve_times(options.lock)
        return
    with tempfile.TemporaryDirectory() as scratch:
        out = options.out or Path(scratch)
        out.mkdir(parents=True, exist_ok=True)
        rows = []
        for case in options.cases:
            job = _job(case)
            seconds = options.large_seconds if case == "1800" else options.seconds
            for cloth in cloth_ids(job):
                for method in options.methods:
                    path = out / f"{case}-{cloth}-{method.replace(' ', '-')}.json"
                    if not path.exists():
                        with _held(options.lock):
                            row = _measured(job, case, cloth, method, seconds)
                        path.write_text(json.dumps(row, indent=1), "utf-8")
                    rows.append(json.loads(path.read_text("utf-8")))
        _print(rows)


def _job(case: str) -> PlanJob:
    name = "derby" if case == "1800" else case
    folder = ROOT / "sample_styles" / name
    style = load_style(folder / f"{name}.style.json")
    if case == "1800":
        style = style.model_copy(
            update={"size_run": style.size_run.model_copy(update={"sizes": tuple(LARGE)})}
        )
        order = for_style(LARGE, style)
    else:
        order = for_style(read_order(folder / "order.csv"), style)
    return PlanJob((style,), (order,), TABLE, RATES)


def _measured(job: PlanJob, case: str, cloth: str, method: str, seconds: float) -> dict[str, Any]:
    begun = time.monotonic()

    def nester(problem: LayProblem, budget_s: float, label: str) -> Lay:
        return solve_in_child(problem, seconds=budget_s, seed=0, workers=2)

    with tempfile.TemporaryDirectory() as scratch:
        store = LayStore(Path(scratch))
        asked = job
        if method != "plan":

            def nest(sets: dict[str, int], budget_s: float) -> Lay:
                return store.nest(problem_of_sets(job, cloth, sets), budget_s, method, nester)

            lays = _one_size(job, cloth, nest, seconds) if method == "one size" else None
            lays = lays or _ratio(job, cloth, nest, seconds)
            stay = tuple(KeptLay(f"{number}", lay) for number, lay in enumerate(lays))
            asked = replace(job, kept={cloth: stay})
        plan = plan_cloth(
            asked, cloth, nester, store, seconds=seconds, stop=Deadline(seconds), tell=lambda text: None
        )
    return _row(job, case, method, plan, time.monotonic() - begun)


def _row(job: PlanJob, case: str, method: str, plan: ClothPlan, wall_s: float) -> dict[str, Any]:
    assert all(verdict.ok for verdict in plan.verdicts.values())
    cut, ordered = sum(plan.plan.cut.values()), sum(job.ordered.values())
    net = sum(plan.documents[n]["net_area_mm2"] * lay.plies for n, lay in _lays(plan))
    laid = sum(lay.length_mm * lay.plies for _, lay in _lays(plan)) * plan.cloth.usable_width_mm
    return {
        "case": case,
        "cloth": plan.cloth.id,
        "method": method,
        "pairs": ordered,
        "cost": str(plan.plan.cost.quantize(Decimal("0.01"))),
        "bound": str(plan.plan.bound_cost.quantize(Decimal("0.01"))),
        "metres": plan.plan.metres,
        "lays": len({tuple(sorted(lay.sets.items())) for lay in plan.plan.lays}),
        "set_ups": len(plan.plan.lays),
        "plies": sum(lay.plies for lay in plan.plan.lays),
        "overcut": cut - ordered,
        "gap": plan.plan.gap,
        "choice_gap": plan.plan.choice_gap if method == "plan" else None,
        "yield": net / laid,
        "wall_s": wall_s,
        "detail": [[lay.sets, lay.plies, round(lay.length_mm, 1)] for lay in plan.plan.lays],
    }


def _lays(plan: ClothPlan) -> list[tuple[str, RunLay]]:
    return list(zip(plan.names, plan.plan.lays, strict=True))


def _model(job: PlanJob, cloth: str, sets: dict[str, int], lay: Lay | None) -> LengthModel:
    areas = {size: problem_of_sets(job, cloth, {size: 1}).net_area_mm2 for size in job.demand}
    style = job.styles[0]
    width = style.cloth(cloth).usable_width_mm - 2.0 * style.rules.edge_margin_mm
    model = LengthModel(width, areas)
    return model.with_lay(sum(n * areas[size] for size, n in sets.items()), lay.length_mm) if lay else model


def _costs(job: PlanJob, cloth: str) -> CutCosts:
    price = job.styles[0].cloth(cloth).price_per_m or Decimal(1)
    return rates_to_costs(replace(job.rates, cloth_per_m=price), job.table, 1)


def _one_size(job: PlanJob, cloth: str, nest: Any, seconds: float) -> tuple[RunLay, ...]:
    """Each size in lays of its own: sets and plies as the planner would choose them for it alone."""
    demand = job.demand
    middle = sorted(demand)[len(demand) // 2]
    probe = {middle: 6}
    model = _model(job, cloth, probe, nest(probe, 0.05 * seconds))
    limits = CutLimits(job.table.max_plies, job.table.room_mm, None, job.overcut, job.overcut_pairs)
    chosen = []
    for size, pairs in demand.items():
        per_set = {size: model.per_set_mm()[size]}
        plan = plan_cut({size: pairs}, per_set, limits, _costs(job, cloth), start_mm=model.start_mm)
        chosen += [({size: lay.sets[0]}, lay.layers) for lay in plan.lays]
    each = 0.95 * seconds / len({tuple(sets.items()) for sets, _ in chosen})
    return tuple(_laid(sets, plies, nest, each) for sets, plies in chosen)


def _ratio(job: PlanJob, cloth: str, nest: Any, seconds: float) -> tuple[RunLay, ...]:
    """One lay in the order's proportions, spread as often as it takes; the cheapest such lay."""
    demand, table = job.demand, job.table
    costs = _costs(job, cloth)
    probe = {size: max(1, round(8 * pairs / sum(demand.values()))) for size, pairs in demand.items()}
    model = _model(job, cloth, probe, nest(probe, 0.1 * seconds))
    per_set = model.per_set_mm()
    best: tuple[float, dict[str, int], int] | None = None
    for total in range(len(demand), sum(demand.values()) + 1):
        sets = {size: max(1, round(total * n / sum(demand.values()))) for size, n in demand.items()}
        long = model.start_mm + sum(n * per_set[size] for size, n in sets.items())
        if long > table.room_mm:
            break
        plies = max(math.ceil(demand[size] / n) for size, n in sets.items())
        lays = math.ceil(plies / table.max_plies)
        money = lays * (costs.per_lay + costs.per_lay_m * long / 1000.0)
        money += plies * (costs.per_layer + costs.per_layer_m * long / 1000.0)
        if best is None or money < best[0]:
            best = (money, sets, plies)
    assert best is not None
    _, sets, plies = best
    lays = math.ceil(plies / table.max_plies)
    nested = _laid(sets, 1, nest, 0.9 * seconds)
    return tuple(replace(nested, plies=plies // lays + (k < plies % lays)) for k in range(lays))


def _laid(sets: dict[str, int], plies: int, nest: Any, seconds: float) -> RunLay:
    lay = nest(sets, seconds)
    assert lay.length_mm <= TABLE.room_mm, "the reference's lay is longer than the table"
    return RunLay(sets, plies, lay.length_mm, lay)


@contextlib.contextmanager
def _held(lock: Path | None) -> Iterator[None]:
    if lock is None:
        yield
        return
    import fcntl

    with lock.open("a") as file:
        fcntl.flock(file, fcntl.LOCK_EX)
        yield


def _print(rows: list[dict[str, Any]]) -> None:
    print("| order | cloth | way | cost | m of cloth | lays | set-ups | plies | overcut | yield | gap "
          "| choice | wall s | against plan |")  # fmt: skip
    print("|---|---|---|---|---|---|---|---|---|---|---|---|---|---|")
    planned: dict[tuple[str, str], Decimal] = {}
    for row in rows:
        key, cost = (row["case"], row["cloth"]), Decimal(row["cost"])
        if row["method"] == "plan":
            planned[key] = cost
        choice = "" if row["choice_gap"] is None else f"{row['choice_gap']:.2%}"
        against = f"{cost / planned[key] - 1:+.1%}" if key in planned else ""
        print(
            f"| {row['case']}, {row['pairs']} pairs | {row['cloth']} | {row['method']} | {row['cost']} "
            f"| {row['metres']:.2f} | {row['lays']} | {row['set_ups']} | {row['plies']} | {row['overcut']} "
            f"| {row['yield']:.1%} | {row['gap']:.1%} | {choice} | {row['wall_s']:.0f} | {against} |",
            flush=True,
        )


def _solve_times(lock: Path | None) -> None:
    """Print how long the choice of lays takes, its gap to the proven bound and what it cuts too many."""
    few = CutCosts(per_lay=1000.0, per_layer_m=1.0)
    real = CutCosts(per_lay=6.0, per_layer=3.45 * 0.04, per_layer_m=3.45, per_lay_m=1.2)
    c7 = dict(zip("abcde", (54, 84, 91, 60, 29), strict=True))
    c8 = dict(zip("abcdef", (60, 120, 180, 180, 120, 60), strict=True))
    twelve = dict(
        zip(map(str, range(34, 46)), (13, 31, 67, 119, 181, 239, 253, 209, 151, 89, 43, 17), strict=True)
    )
    cases: list[tuple[str, dict[str, int], float, CutLimits, CutCosts]] = [
        ("C7, five sizes", c7, 1.0, CutLimits(35, 4.0, 4), few),
        ("C8, six sizes", c8, 1.0, CutLimits(60, 6.0, 6), few),
    ]
    for name, order in (("eleven sizes", LARGE), ("twelve sizes", twelve)):
        for each in (50.0, 100.0, 180.0):
            limits = CutLimits(20, TABLE.room_mm, None, 0.02, 2)
            cases.append((f"{name}, {each:g} mm a pair", order, each, limits, real))
    print("| case | pairs | limit s | s | lays | overcut | gap to the proven bound |")
    print("|---|---|---|---|---|---|---|")
    for name, order, each, limits, costs in cases:
        lengths = {size: each * (1.0 if costs is few else 1.0 + 0.012 * i) for i, size in enumerate(order)}
        start = 0.0 if costs is few else 40.0
        for limit in (5.0, 60.0):
            with _held(lock):
                begun = time.monotonic()
                plan = plan_cut(order, lengths, limits, costs, start_mm=start, stop=Deadline(limit))
                took = time.monotonic() - begun
            over = sum(plan.pairs) - sum(order.values())
            print(
                f"| {name} | {sum(order.values())} | {limit:g} | {took:.2f} | {len(plan.lays)} | {over} "
                f"| {plan.gap:.3%} |",
                flush=True,
            )
            if took < limit:
                break


if __name__ == "__main__":
    main()
