"""The run plan and the cut tickets of its lays for the printer, from the lays as they were planned."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication

from app.errors import UsageError
from app.measures import Measures
from app.papers.shown import PlannedRun
from app.plan.job import WORK_FOLDER, ClothPlan, LayStore, PlanJob, cloth_ids, plan_cloth
from app.plan.kept_lays import read_kept
from nesting.lay import Lay
from nesting.problem import LayProblem
from nesting.stop import Never

translate = QCoreApplication.translate


def shown_run(
    job: PlanJob | None, payload: Mapping[str, Any] | None, folder: Path, measures: Measures
) -> PlannedRun:
    """Return the plan in ``folder`` as its papers show it; raises UsageError when there is none yet."""
    if job is None or payload is None:
        raise UsageError(
            translate("Cost", "nothing is planned yet"), remedy=translate("Cost", "plan the run first")
        )
    return PlannedRun(job, payload, _plans(job, payload, folder), job.styles[0].name, measures)


def _plans(job: PlanJob, payload: Mapping[str, Any], folder: Path) -> list[ClothPlan]:
    """The plans of all cloths again: their lays are kept, judged once more, and none is nested."""
    names = ",".join(f"{lay['cloth']}-{lay['name']}" for lay in payload["lays"])
    job = replace(job, kept=read_kept(folder, names))
    store = LayStore(folder / WORK_FOLDER)
    return [
        plan_cloth(job, cloth_id, _nests_nothing, store, seconds=0.0, stop=Never(), tell=lambda text: None)
        for cloth_id in cloth_ids(job)
    ]


def _nests_nothing(problem: LayProblem, seconds: float, label: str) -> Lay:
    raise UsageError(
        translate("Cost", "the lays no longer meet the order"),
        remedy=translate("Cost", "plan again first"),
    )
