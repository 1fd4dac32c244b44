"""Lays of a run plan worked on by hand: opened as lays of the style, given back, locked, let go again.

A lay given back is kept with the style, so that undo takes it back too; whoever plans the run afterwards
keeps it as it is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Any

from app.errors import UnverifiedError, UsageError
from app.lay.job import LayJob, judged, problem_of
from app.lay.with_style import fields_of, lay_of
from app.plan.kept_lays import KeptLay
from app.style.model import LayData, PlannedLay, Style
from geometry.said import said
from nesting.lay import Lay
from nesting.planning.run_plan import RunLay
from nesting.problem import LayProblem
from nesting.verify.fault import FaultKind

NAMED_MISSING = 4
"""So many of the pieces that are missing are named; the rest is counted."""


def opened(style: Style, entry: Mapping[str, Any], lay: Lay, room_mm: float, name: str) -> tuple[Style, int]:
    """Return the style with a lay of a plan (its entry of plan.json) opened, and which of its lays that is.

    A lay opened before, with the same pairs, is shown again as it was left.
    """
    planned = PlannedLay(
        name=entry["name"],
        cloth=entry["cloth"],
        pairs=dict(entry["sets"]),
        plies=entry["plies"],
        mode=entry["mode"],
        room_mm=room_mm,
    )
    for index, known in enumerate(style.lays):
        if known.planned is not None and _same(known.planned, planned):
            return style, index
    made = LayData(
        name=name,
        cloth=planned.cloth,
        pairs=planned.pairs,
        mode=planned.mode,
        max_length_mm=room_mm,
        planned=planned,
        **fields_of(lay),
    )
    return style.model_copy(update={"lays": (*style.lays, made)}), len(style.lays)


def _same(first: PlannedLay, second: PlannedLay) -> bool:
    return (first.name, first.cloth, first.mode, first.pairs) == (
        second.name,
        second.cloth,
        second.mode,
        second.pairs,
    )


def job_of_planned(style: Style, lay: LayData) -> LayJob:
    """Return what a lay opened out of a plan must hold: what the plan needs, at the house's gap.

    Flaws are those of one roll and do not count here. Raises UsageError when it is of no plan, or on
    another cloth or in another spread than the plan's.
    """
    needed = lay.planned
    if needed is None:
        raise UsageError(
            said("lay {0} does not belong to a run plan", lay.name),
            remedy="open a lay of the plan on the Lay desk",
        )
    if lay.cloth != needed.cloth:
        raise UsageError(
            said("the plan lays {0} on {1}, this lay is on {2}", needed.name, needed.cloth, lay.cloth),
            remedy="lay it on the plan's cloth",
        )
    if lay.mode != needed.mode:
        raise UsageError(
            said("the plan spreads {0} {1}, this lay is {2}", needed.name, needed.mode, lay.mode),
            remedy="spread it as the plan does",
        )
    sizes = dict.fromkeys((*needed.pairs, *lay.pairs))
    pairs = {size: max(needed.pairs.get(size, 0), lay.pairs.get(size, 0)) for size in sizes}
    return LayJob(
        style,
        {size: count for size, count in pairs.items() if count},
        lay.cloth,
        lay.mode,
        1 if lay.mode == "face-up" else 2,
        max_length_mm=needed.room_mm,
        with_flaws=False,
    )


def require_fit(style: Style, lay: LayData) -> tuple[LayJob, LayProblem, Lay]:
    """Return job, problem and lay of a lay that may be given back to its plan.

    Raises UsageError when it is older than its pieces, lacks what the plan needs or does not verify, and
    says what is missing or wrong.
    """
    job = job_of_planned(style, lay)
    if lay.stale:
        raise UsageError(
            said("lay {0} is older than its pieces ({1})", lay.name, lay.stale), remedy="fill the roll again"
        )
    problem = problem_of(job)
    made = lay_of(lay, problem)
    laid = Counter(at.item_id for at in made.placements)
    missing = {item.id: item.demand - laid[item.id] for item in problem.items if laid[item.id] < item.demand}
    if missing:
        raise UsageError(
            said("lay {0} no longer holds what the plan needs: {1} missing", lay.name, _listed(missing)),
            remedy="lay these pieces as well",
        )
    length_mm = made.length_mm
    if job.max_length_mm is not None and length_mm > job.max_length_mm + 1e-6:
        raise UsageError(
            said(
                "lay {0} is {1} mm long, the table of the plan has room for {2} mm",
                lay.name,
                f"{length_mm:.0f}",
                f"{job.max_length_mm:.0f}",
            ),
            remedy="make it shorter",
        )
    faults = judged(problem, made).faults
    if faults:
        gaps = [fault for fault in faults if fault.kind is FaultKind.GAP]
        if len(gaps) == len(faults):
            raise UsageError(
                said(
                    "lay {0} has {1} gaps below the {2} mm of the house rules",
                    lay.name,
                    len(gaps),
                    problem.gap_mm,
                ),
                remedy="move these pieces apart",
            )
        raise UsageError(said("lay {0} has {1} faults", lay.name, len(faults)), remedy="correct them first")
    return job, problem, made


def _listed(missing: Mapping[str, int]) -> str:
    named = [f"{count} × {item}" for item, count in missing.items()]
    if len(named) <= NAMED_MISSING:
        return ", ".join(named)
    rest = sum(list(missing.values())[NAMED_MISSING:])
    text: str = said("{0} and {1} more", ", ".join(named[:NAMED_MISSING]), rest)
    return text


def given_back(style: Style, lay: LayData, reason: str = "") -> Style:
    """Return the style with a lay locked for its run plan, in place of what was given back before.

    ``reason`` says why it may break a hold limit. Raises UsageError as ``require_fit`` does.
    """
    require_fit(style, lay)
    assert lay.planned is not None
    planned = lay.planned.model_copy(update={"reason": reason})
    made = lay.model_copy(update={"planned": planned})
    others = let_go(style, planned.cloth, planned.name).locked_lays
    return style.model_copy(update={"locked_lays": (*others, made)})


def let_go(style: Style, cloth: str, name: str) -> Style:
    """Return the style without the locked lay of that name and cloth: it may be planned again."""
    stay = tuple(lay for lay in style.locked_lays if not _is(lay, cloth, name))
    return style.model_copy(update={"locked_lays": stay})


def locked_lay(style: Style, cloth: str, name: str) -> LayData | None:
    """Return the lay that is locked under a name of the plan, None where none is."""
    return next((lay for lay in style.locked_lays if _is(lay, cloth, name)), None)


def _is(lay: LayData, cloth: str, name: str) -> bool:
    return lay.planned is not None and (lay.planned.cloth, lay.planned.name) == (cloth, name)


def locked_kept(style: Style, order: Mapping[str, int]) -> dict[str, tuple[KeptLay, ...]]:
    """Return the locked lays of a style as a plan keeps them, by cloth.

    Raises UsageError when one holds a size that is not ordered, UnverifiedError when one does not hold
    with the pieces as they are now.
    """
    kept: dict[str, tuple[KeptLay, ...]] = {}
    for data in style.locked_lays:
        assert data.planned is not None
        name = data.planned.name
        other = [size for size, count in data.pairs.items() if count and not order.get(size)]
        if other:
            raise UsageError(
                said("the locked lay {0} holds size {1}, which is not ordered", name, other[0]),
                remedy="unlock it, or order that size",
            )
        try:
            job, _, lay = require_fit(style, data)
        except UsageError as error:
            raise UnverifiedError(
                said("the locked lay {0} cannot be kept: {1}", name, error.message),
                remedy="unlock it, or give back a corrected one",
            ) from None
        run_lay = RunLay(dict(job.pairs), data.planned.plies, lay.length_mm, lay)
        each = KeptLay(name, run_lay, locked=True, reason=data.planned.reason)
        kept[data.cloth] = (*kept.get(data.cloth, ()), each)
    return kept
