"""A production run of one or several styles: lays planned, nested, judged and written.

Each cloth is planned by itself: one cloth in a stack of plies. Styles that share a cloth share its
lays. Nested lays are kept in the output folder as they are made, so that an interrupted plan goes
on where it was.
"""

from __future__ import annotations

import hashlib
import json
import math
import shutil
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from pathlib import Path
from typing import Any

from app.atomic import write_whole
from app.errors import UnverifiedError, UsageError
from app.lay.job import LayJob, Mode, judged, problem_of
from app.measures import counted
from app.plan.kept_lays import KeptLay
from app.plan.roll_list import rolls_of
from app.style.model import ClothData, Style
from app.style.pieces import used_cloths
from geometry.said import said
from nesting.defaults import OVERCUT_PAIRS, OVERCUT_SHARE
from nesting.errors import NestingError
from nesting.files import lay_file
from nesting.files.wire import lay_from_json, lay_to_json, problem_to_json
from nesting.lay import Lay
from nesting.planning.roll_allocation import Allocation, Spread, StockRoll, allocate, stretches
from nesting.planning.run_bound import bare_lengths
from nesting.planning.run_plan import (
    CuttingTable,
    Rates,
    RunLay,
    RunPlan,
    complete,
    plan_run,
    plies_from_height,
)
from nesting.problem import LayProblem
from nesting.stop import Stop
from nesting.verify.fault import Verdict

Nester = Callable[[LayProblem, float, str], Lay]


@dataclass(frozen=True)
class PlanJob:
    """What is to be planned: ``orders`` has pairs by size for each of ``styles``.

    ``rates`` without the cloth's own price, which comes from its card; ``extra`` is the share of
    pairs cut beyond the order for rejects; ``overcut`` how far a size may go beyond that. ``kept``
    are lays by cloth that stay as they are, under their names; only what they leave of the order is planned.
    """

    styles: tuple[Style, ...]
    orders: tuple[dict[str, int], ...]
    table: CuttingTable
    rates: Rates
    mode: Mode = "face-up"
    cloth_id: str = ""
    extra: float = 0.0
    overcut: float = OVERCUT_SHARE.value
    overcut_pairs: int = OVERCUT_PAIRS.value
    max_sets: int | None = None
    rolls: tuple[StockRoll, ...] = ()
    kept: Mapping[str, tuple[KeptLay, ...]] = field(default_factory=dict)

    def key(self, style: int, size: str) -> str:
        """The name of a size in the plan: the style before it where there are several."""
        return size if len(self.styles) == 1 else f"{self.styles[style].name}/{size}"

    @property
    def ordered(self) -> dict[str, int]:
        """Pairs ordered, by the plan's size names."""
        return {
            self.key(i, size): pairs
            for i, order in enumerate(self.orders)
            for size, pairs in order.items()
            if pairs
        }

    @property
    def demand(self) -> dict[str, int]:
        """Pairs to be cut: the order and what is added for rejects, rounded up."""
        return {size: math.ceil(pairs * (1.0 + self.extra) - 1e-9) for size, pairs in self.ordered.items()}


@dataclass(frozen=True)
class ClothPlan:
    """The plan for one cloth, the documents of its lays (by the lays' names), its rolls.

    ``kept`` are those of its lays that stayed from an earlier plan or were locked by hand.
    """

    cloth: ClothData
    plan: RunPlan
    table: CuttingTable
    names: tuple[str, ...]
    documents: dict[str, dict[str, Any]]
    verdicts: dict[str, Verdict]
    allocation: Allocation | None
    kept: tuple[KeptLay, ...] = ()


HEIGHT_DECIDES = 1000
"""Plies allowed where only the height of the stack limits them, cloth by cloth."""

WORK_FOLDER = "lays-in-work"
"""Where a plan keeps the lays it has nested until it is written."""

WORK_WORDS = """\
Lays nested for a plan that is not finished. If the plan was interrupted, start it
again with the same words and it goes on from them. It takes this folder away when
it is done, unless it was asked to keep it (--keep-work). Nothing else needs it.
"""


class LayStore:
    """Lays already nested, by what was asked; each is judged again before it is used."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def clear(self) -> None:
        """Take the folder away, with what a killed process left half written in it."""
        shutil.rmtree(self._folder, ignore_errors=True)

    def nest(self, problem: LayProblem, seconds: float, label: str, nester: Nester) -> Lay:
        """Return a verified lay: a stored one that had at least as much time, or a new one.

        Raises UnverifiedError when the engine's lay does not verify.
        """
        asked = json.dumps(problem_to_json(problem), sort_keys=True).encode()
        path = self._folder / f"{hashlib.sha256(asked).hexdigest()[:24]}.json"
        known = self._read(path, problem)
        if known is not None and known[0] >= seconds * 0.99:
            return known[1]
        lay = nester(problem, seconds, label)
        verdict = judged(problem, lay)
        if not verdict.ok:
            raise UnverifiedError(
                said("the lay {0} does not verify: {1}", label, verdict.faults[0].message),
                remedy="try another --seed and report it",
            )
        if known is not None and known[1].length_mm <= lay.length_mm:
            lay = known[1]
        if not self._folder.exists():
            write_whole(self._folder / "READ-ME.txt", WORK_WORDS)
        had_s = min(seconds, lay.seconds) if lay.stopped == "cancelled" else seconds
        write_whole(path, json.dumps({"seconds": had_s, "lay": lay_to_json(lay)}))
        return lay

    def _read(self, path: Path, problem: LayProblem) -> tuple[float, Lay] | None:
        try:
            data = json.loads(path.read_text("utf-8"))
            lay = lay_from_json(data["lay"])
            return (float(data["seconds"]), lay) if judged(problem, lay).ok else None
        except (OSError, ValueError, KeyError, TypeError, NestingError):
            return None


def cloth_ids(job: PlanJob) -> tuple[str, ...]:
    """Return the cloths that the run takes, each once; raises UsageError when it takes none."""
    ids: list[str] = []
    for style in job.styles:
        ids += [cloth_id for cloth_id in used_cloths(style) if cloth_id not in ids]
    if job.cloth_id:
        if job.cloth_id not in ids:
            raise UsageError(
                said("nothing is cut from {0}", job.cloth_id),
                remedy=said("the cloths are {0}", ", ".join(ids)),
            )
        ids = [job.cloth_id]
    if not ids:
        raise UsageError("no piece of these styles is backed", remedy="give a piece a backing layer")
    return tuple(ids)


def plan_cloth(
    job: PlanJob,
    cloth_id: str,
    nester: Nester,
    store: LayStore,
    *,
    seconds: float,
    stop: Stop,
    tell: Callable[[str], None],
) -> ClothPlan:
    """Plan the run on one cloth.

    Raises UsageError for styles that do not agree on the cloth, PlanError when there is no plan.
    """
    cloth = _shared_cloth(job, cloth_id)
    users = [i for i, style in enumerate(job.styles) if cloth_id in used_cloths(style)]
    table = replace(job.table, max_plies=most_plies(job, cloth))
    ids = cloth_ids(job)
    rolls = {each: rolls_of(job.rolls, each, ids) for each in ids}[cloth_id] if job.rolls else ()
    if rolls:  # plies that belong together come from one stretch without a flaw
        longest_mm = 1000.0 * max(length for roll in rolls for _, length in stretches(roll))
        table = replace(table, length_mm=min(table.length_mm, longest_mm / _even(job.mode)))
    demand = {
        key: pairs
        for key, pairs in job.demand.items()
        if any(key == job.key(i, size) for i in users for size in job.orders[i])
    }
    stay = job.kept.get(cloth_id, ())
    kept = tuple(each.lay for each in stay)
    for lay in kept:
        if lay.plies > table.max_plies or lay.length_mm > table.room_mm + 1e-6:
            raise UsageError(
                said(
                    "a lay to be kept has {0} of {1} mm; {2} and {3} mm are allowed",
                    counted(lay.plies, "ply"),
                    f"{lay.length_mm:.0f}",
                    counted(table.max_plies, "ply"),
                    f"{table.room_mm:.0f}",
                ),
                remedy="keep it in fewer plies, allow more, or plan it again",
            )
    done = {key: 0 for key in demand}
    for lay in kept:
        for key, sets in lay.sets.items():
            done[key] = done.get(key, 0) + sets * pair_layers(lay.plies, job.mode)
    left = {key: max(0, pairs - done.get(key, 0)) for key, pairs in demand.items()}
    rates = replace(job.rates, cloth_per_m=_price(job, cloth))

    def nest(sets: dict[str, int], budget_s: float) -> Lay:
        problem = problem_of_sets(job, cloth_id, sets)
        return store.nest(problem, budget_s, f"{cloth.name}, {counted(sum(sets.values()), 'set')}", nester)

    width_mm = cloth.usable_width_mm - 2.0 * job.styles[users[0]].rules.edge_margin_mm
    one_set = {key: problem_of_sets(job, cloth_id, {key: 1}) for key in left}
    areas = {key: problem.net_area_mm2 for key, problem in one_set.items()}
    bare = bare_lengths(one_set)
    if any(left.values()):
        plan = plan_run(
            left,
            areas,
            width_mm,
            table,
            rates,
            nest,
            mode=job.mode,
            max_sets=job.max_sets,
            overcut=job.overcut,
            overcut_pairs=job.overcut_pairs,
            bare=bare,
            seconds=seconds,
            stop=stop,
            tell=lambda text: tell(said("{0}: {1}", cloth.name, text)),
        )
    else:
        plan = RunPlan((), job.mode, left, dict(left), 0.0, 0.0, Decimal(0), Decimal(0), 0.0, 0)
    names, lays = _named(stay, plan.lays)
    plan = replace(plan, lays=lays, ordered=demand, cut=_cut(lays, job.mode, demand))
    if kept:  # the bound must hold for the kept lays as well, whatever they cut too many
        plan = complete(plan, bare, table, rates)
    documents: dict[str, dict[str, Any]] = {}
    verdicts: dict[str, Verdict] = {}
    for name, lay in zip(names, lays, strict=True):
        problem = problem_of_sets(job, cloth_id, lay.sets)
        verdicts[name] = judged(problem, lay.nested)
        if not verdicts[name].ok:
            raise UnverifiedError(
                said("lay {0} does not verify: {1}", name, verdicts[name].faults[0].message)
            )
        documents[name] = _document(job, cloth, name, lay, problem)
    allocation = None
    if rolls:
        spreads = tuple(
            Spread(name, (lay.length_mm + 2.0 * table.end_loss_mm) / 1000.0, lay.plies, _even(job.mode))
            for name, lay in zip(names, lays, strict=True)
        )
        allocation = allocate(spreads, rolls)
    return ClothPlan(cloth, plan, table, names, documents, verdicts, allocation, stay)


def problem_of_sets(job: PlanJob, cloth_id: str, sets: Mapping[str, int]) -> LayProblem:
    """Return the lay of these sets: the pieces of all styles on one roll."""
    problems = []
    for i, (style, order) in enumerate(zip(job.styles, job.orders, strict=True)):
        pairs = {size: sets[job.key(i, size)] for size in order if sets.get(job.key(i, size))}
        if pairs and cloth_id in used_cloths(style):
            problems.append((style, problem_of(LayJob(style, pairs, cloth_id, job.mode, _even(job.mode)))))
    if len(job.styles) == 1:
        return replace(problems[0][1], roll=replace(problems[0][1].roll, flaws=()))
    items = tuple(
        replace(item, id=f"{style.name}: {item.id}", piece=f"{style.name} {item.piece}")
        for style, problem in problems
        for item in problem.items
    )
    first = problems[0][1]
    return replace(first, items=items, name=" + ".join(style.name for style, _ in problems),
                   roll=replace(first.roll, flaws=()),
                   gap_mm=max(p.gap_mm for _, p in problems),
                   edge_margin_mm=max(p.edge_margin_mm for _, p in problems),
                   end_margin_mm=max(p.end_margin_mm for _, p in problems))  # fmt: skip


def most_plies(job: PlanJob, cloth: ClothData) -> int:
    """Return the plies allowed: what was asked, the house's limit, the height of the stack."""
    plies = job.table.max_plies
    for style in job.styles:
        rules = style.rules
        if rules.max_plies:
            plies = min(plies, rules.max_plies)
        if rules.cutting_height_mm and cloth.thickness_mm:
            plies = min(plies, plies_from_height(rules.cutting_height_mm, cloth.thickness_mm))
    return plies


def _document(job: PlanJob, cloth: ClothData, name: str, lay: RunLay, problem: LayProblem) -> dict[str, Any]:
    extra = {
        "style": " + ".join(style.name for style in job.styles),
        "cloth": {
            "id": cloth.id,
            "name": cloth.name,
            "how_known": cloth.how_known,
            "one_way": cloth.one_way,
        },
        "lay": name,
        "mode": job.mode,
        "pairs": dict(lay.sets),
        "pairs_cut": {size: n * pair_layers(lay.plies, job.mode) for size, n in lay.sets.items()},
        "turn_tolerance_deg": job.styles[0].rules.turn_tolerance_deg,
        "end_loss_mm": job.table.end_loss_mm,
        "chord_mm": job.styles[0].rules.chord_mm,
    }
    return lay_file.to_document(problem, lay.nested, plies=lay.plies, extra=extra)


def _cut(lays: Sequence[RunLay], mode: Mode, demand: Mapping[str, int]) -> dict[str, int]:
    cut = dict.fromkeys(demand, 0)
    for lay in lays:
        for size, sets in lay.sets.items():
            cut[size] = cut.get(size, 0) + sets * pair_layers(lay.plies, mode)
    return cut


def _shared_cloth(job: PlanJob, cloth_id: str) -> ClothData:
    found = [style.cloth(cloth_id) for style in job.styles if cloth_id in used_cloths(style)]
    first = found[0]
    for style, other in zip(job.styles, found, strict=False):
        same = ("usable_width_mm", "width_mm", "tight_direction_deg", "one_way")
        differs = [name for name in same if getattr(other, name) != getattr(first, name)]
        if differs:
            raise UsageError(
                said(
                    "{0} has another {1}: {2} differ",
                    style.name,
                    cloth_id,
                    ", ".join(differs).replace("_", " "),
                ),
                remedy="give the two cloths different names or the same card",
            )
    return first


def _price(job: PlanJob, cloth: ClothData) -> Decimal:
    """Without a price a metre counts as one: the plan then saves metres, and no money is told."""
    if cloth.price_per_m is not None:
        return cloth.price_per_m
    return job.rates.cloth_per_m or Decimal(1)


def pair_layers(plies: int, mode: Mode) -> int:
    """Return how many times a stack gives its sets: every ply face up, every two face to face."""
    return plies if mode == "face-up" else plies // 2


def _named(stay: Sequence[KeptLay], fresh: Sequence[RunLay]) -> tuple[tuple[str, ...], tuple[RunLay, ...]]:
    """Lays that stay keep their names, on whatever paper they stand; new ones take the letters left over."""
    taken = {each.name for each in stay}
    letters = (name for i in range(len(stay) + len(fresh)) if (name := _name(i)) not in taken)
    named = [(each.name, each.lay) for each in stay] + list(zip(letters, fresh, strict=False))
    named.sort(key=lambda each: (len(each[0]), each[0]))
    return tuple(name for name, _ in named), tuple(lay for _, lay in named)


def _even(mode: Mode) -> int:
    return 2 if mode == "face-to-face" else 1


def _name(index: int) -> str:
    """A, B, ..., Z, AA, AB, ..."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(65 + rest) + letters
    return letters
