"""Problems, lays and what an engine tells, as JSON lines: the one language of commands, window and engines.

Asked, one line: ``{"job": "lay", "problem": ..., "seconds": s | null, "seed": n, "workers": n}``;
with ``"work": n`` a counted amount of work instead of seconds, with ``"polite": true`` behind all other work,
with ``"kept_in": folder`` those found before are used and new ones kept there. The job "lays" is an order
split over lays none of which is longer than the roll; the name of an engine asks that engine alone. Later
perhaps ``{"job": "cancel"}``.
Answered, a line each (``Told``): "started", "phase", "progress" with the best verified lay so far, and in the
end "done" with the lay (null when an engine alone came to nothing), "lays", or "failed".
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from pydantic import ValidationError

from geometry.said import packed, said, unpacked
from nesting.errors import EngineError, LayFileError, NestingError, ProblemError, TooLongError
from nesting.files.lay_file import problem_entries
from nesting.lay import Bound, Lay, Placement
from nesting.lay_document import ProblemDocument, problem_of
from nesting.listen import Phase, PhaseCode
from nesting.problem import LayProblem

LAY, LAYS = "lay", "lays"
"""The jobs that take the whole engine; any other job is the name of one engine."""

Event = Literal["started", "phase", "progress", "done", "lays", "failed"]
ENDS: tuple[Event, ...] = ("done", "lays", "failed")
"""After one of these an engine's process says no more."""


@dataclass(frozen=True)
class Told:
    """One line of an engine's process; of the fields those that the event has."""

    event: Event
    elapsed_s: float = 0.0
    phase: Phase | None = None
    lay: Lay | None = None
    lays: tuple[tuple[dict[str, int], Lay], ...] = ()
    error: NestingError | None = None

    @property
    def is_last(self) -> bool:
        """Whether nothing comes after it."""
        return self.event in ENDS


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
    kept_in: str | None = None,
) -> dict[str, Any]:
    """Return the one line that an engine's process is asked by."""
    return {
        "job": job,
        "problem": problem_to_json(problem),
        "seconds": seconds,
        "seed": seed,
        "workers": workers,
        "work": work,
        "start": None if start is None else lay_to_json(start),
        "polite": polite,
        "kept_in": kept_in,
    }


def told_to_json(told: Told) -> dict[str, Any]:
    """Return what an engine tells as the line it is told by."""
    line: dict[str, Any] = {"event": told.event, "elapsed_s": told.elapsed_s}
    if told.phase is not None:
        phase = told.phase
        line["phase"] = [phase.code.value, phase.section, phase.sections, phase.times]
    if told.lay is not None or told.event == "done":
        line["lay"] = None if told.lay is None else lay_to_json(told.lay)
    if told.event == "lays":
        line["lays"] = [{"demand": demand, "lay": lay_to_json(lay)} for demand, lay in told.lays]
    if told.error is not None:
        error = told.error
        line |= {"code": error.code, "file": error.file, "piece": error.piece}
        line |= {"message": packed(error.message), "remedy": packed(error.remedy)}
    return line


def told_from_json(line: dict[str, Any]) -> Told:
    """Return what ``told_to_json`` wrote."""
    phase, lay = line.get("phase"), line.get("lay")
    return Told(
        event=line["event"],
        elapsed_s=line.get("elapsed_s", 0.0),
        phase=None if phase is None else Phase(PhaseCode(phase[0]), *phase[1:]),
        lay=None if lay is None else lay_from_json(lay),
        lays=tuple((each["demand"], lay_from_json(each["lay"])) for each in line.get("lays", ())),
        error=_error(line) if line["event"] == "failed" else None,
    )


def _error(line: dict[str, Any]) -> NestingError:
    kinds: dict[str, type[NestingError]] = {kind.code: kind for kind in (ProblemError, TooLongError)}
    return kinds.get(line.get("code", ""), EngineError)(
        unpacked(line["message"]),
        remedy=unpacked(line.get("remedy", "")),
        file=line.get("file", ""),
        piece=line.get("piece", ""),
    )


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
        raise LayFileError(said("the problem's {0}: {1}", place, first["msg"]), remedy="correct it") from None


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
