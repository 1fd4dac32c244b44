"""Problems and lays as JSON lines: what an engine in a child process is asked and answers.

Asked, one line: ``{"job": "lay", "problem": ..., "seconds": s | null, "seed": n, "workers": n}``;
with ``"work": n`` a counted amount of work instead of seconds, with ``"job": "lays"`` an order split
over lays none of which is longer than the roll, with ``"polite": true`` behind all other work, with
``"lattices": folder`` those found before are used and new ones kept there. Later perhaps
``{"job": "cancel"}``.
Answered, a line each: ``{"event": "started"}``, ``{"event": "phase", "name", "elapsed_s"}``,
``{"event": "progress", "lay", "yield", "phase", "elapsed_s"}`` with the best verified lay so far, and
in the end ``{"event": "done", "lay"}``, after "lays" ``{"event": "lays", "lays": [{"demand", "lay"}]}``,
or ``{"event": "failed", "code", "message"}``.
"""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError

from nesting.errors import LayFileError
from nesting.files.lay_file import problem_entries
from nesting.lay import Bound, Lay, Placement
from nesting.lay_document import ProblemDocument, problem_of
from nesting.problem import LayProblem

JOBS = ("lay", "lays", "bands")
"""What an engine can be asked for: a lay, an order over several lays, bands of rows alone."""


def job_to_json(
    job: str,
    problem: LayProblem,
    *,
    seconds: float | None,
    seed: int,
    workers: int,
    work: int | None = None,
    start: Lay | None = None,
    polite: bool = False,
    lattices: str | None = None,
) -> dict[str, Any]:
    """Return the one line that an engine's process is asked by; commands and window both send it."""
    assert job in JOBS, job
    return {
        "job": job,
        "problem": problem_to_json(problem),
        "seconds": seconds,
        "seed": seed,
        "workers": workers,
        "work": work,
        "start": None if start is None else lay_to_json(start),
        "polite": polite,
        "lattices": lattices,
    }


def job_from_json(data: dict[str, Any]) -> tuple[str, LayProblem]:
    """Return what is asked and about which problem; raises LayFileError on a job that no engine knows."""
    if data.get("job") not in JOBS:
        raise LayFileError(
            f"no engine knows the job {data.get('job')!r}", remedy=f"ask for {', '.join(JOBS)}"
        )
    return data["job"], problem_from_json(data["problem"])


def problem_to_json(problem: LayProblem) -> dict[str, Any]:
    """Return a problem as JSON; coordinates as in lay.json."""
    return problem_entries(problem)


def problem_from_json(data: Any) -> LayProblem:
    """Return the problem; raises LayFileError."""
    try:
        return problem_of(ProblemDocument.model_validate(data))
    except ValidationError as error:
        first = error.errors()[0]
        place = ".".join(str(part) for part in first["loc"])
        raise LayFileError(f"the problem's {place}: {first['msg']}", remedy="correct it") from None


def lay_to_json(lay: Lay) -> dict[str, Any]:
    """Return a lay as JSON: placements as [item, turn, x, y, pinned], lengths unrounded."""
    return {
        "placements": [[p.item_id, p.turn_deg, p.x_mm, p.y_mm, p.pinned] for p in lay.placements],
        "length_mm": lay.length_mm,
        "engine": lay.engine,
        "seed": lay.seed,
        "budget": lay.budget,
        "stopped": lay.stopped,
        "seconds": lay.seconds,
        "searched_s": lay.searched_s,
        "bound_mm": dict(lay.bound.values_mm) if lay.bound else None,
    }


def lay_from_json(data: dict[str, Any]) -> Lay:
    """Return the lay that ``lay_to_json`` wrote."""
    return Lay(
        placements=tuple(Placement(*entry) for entry in data["placements"]),
        length_mm=data["length_mm"],
        engine=data["engine"],
        seed=data["seed"],
        budget=data["budget"],
        stopped=data["stopped"],
        seconds=data["seconds"],
        searched_s=data.get("searched_s", 0.0),
        bound=None if data["bound_mm"] is None else Bound(data["bound_mm"]),
    )
