"""From a lay as the style keeps it to the table and its judgement; remembered for the same values."""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.lay.job import LayJob, judged, problem_of
from app.style.model import LayData, Style
from app.style.pieces import used_cloths
from app.tools.lay_table import LayTable
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.verify.fault import Fault, FaultKind

KEPT = 24


@dataclass(frozen=True, eq=False)
class Judged:
    """A table with what the independent judge finds wrong with it."""

    table: LayTable
    faults: tuple[Fault, ...]

    @property
    def bad(self) -> frozenset[int]:
        """Placements that have a fault."""
        return frozenset(i for fault in self.faults for i in fault.placements)

    @property
    def shown(self) -> tuple[Fault, ...]:
        """The faults listed: what is missing stands on the side table instead."""
        return tuple(fault for fault in self.faults if fault.kind is not FaultKind.MISSING)


def first_lay(style: Style) -> LayData:
    """Return the lay shown while a style keeps none: one pair of the base size, nothing laid."""
    cloths = used_cloths(style)
    return LayData(name="1", cloth=cloths[0] if cloths else "", pairs={style.size_run.base: 1})


def job_of(style: Style, lay: LayData) -> LayJob:
    """Return the job that a kept lay answers."""
    return LayJob(
        style=style,
        pairs=dict(lay.pairs),
        cloth_id=lay.cloth,
        mode=lay.mode,
        plies=1 if lay.mode == "face-up" else 2,
        width_mm=lay.width_mm,
        gap_mm=lay.gap_mm,
        max_length_mm=lay.max_length_mm,
        with_flaws=lay.planned is None,  # a run is cut from many rolls
    )


_problems: dict[tuple[object, ...], tuple[tuple[object, ...], LayProblem]] = {}
_tables: dict[tuple[int, int], tuple[LayProblem, object, LayTable]] = {}
_judgements: dict[int, tuple[LayTable, Judged]] = {}


def problem_for(style: Style, lay: LayData) -> LayProblem:
    """Return the problem of a kept lay, the same object while nothing it depends on changed.

    Raises UsageError when nothing is asked for or nothing is cut from the cloth.
    """
    parts = (style.pieces, style.cloths, style.rules, style.size_run)
    key = (
        *map(id, parts),
        lay.cloth,
        lay.mode,
        lay.width_mm,
        lay.gap_mm,
        lay.max_length_mm,
        lay.planned is None,
        tuple(sorted(lay.pairs.items())),
    )
    held = _problems.get(key)
    if held is None:
        while len(_problems) >= KEPT:
            _problems.pop(next(iter(_problems)))
        held = _problems[key] = (parts, problem_of(job_of(style, lay)))
    return held[1]


def table_of(style: Style, lay: LayData, *, only_pinned: bool = False) -> LayTable:
    """Return the table of a kept lay; ``only_pinned`` leaves the rest to the engine.

    Pieces that the style no longer has are left off the table.
    """
    problem = problem_for(style, lay)
    key = (id(problem), id(lay.placements))
    held = _tables.get(key)
    if held is not None and held[0] is problem and held[1] is lay.placements and not only_pinned:
        return held[2]
    placements = tuple(Placement(*entry) for entry in lay.placements if entry[0] in problem.by_id)
    if only_pinned:
        pinned = tuple(at for at in placements if at.pinned)
        return LayTable(replace(problem, pinned=pinned), pinned)
    last = next((t for p, _, t in reversed(_tables.values()) if p is problem), None)
    table = LayTable(problem, placements) if last is None else last.changed_to(placements)
    while len(_tables) >= KEPT:
        _tables.pop(next(iter(_tables)))
    _tables[key] = (problem, lay.placements, table)
    return table


def judged_lay(style: Style, lay: LayData) -> Judged:
    """Return a kept lay with its judgement."""
    known = known_judgement(style, lay)
    if known is None:
        table = table_of(style, lay)
        verdict = judged(table.problem, Lay(table.placements, table.length_mm))
        while len(_judgements) >= KEPT:
            _judgements.pop(next(iter(_judgements)))
        known = Judged(table, verdict.faults)
        _judgements[id(table)] = (table, known)
    return known


def known_judgement(style: Style, lay: LayData) -> Judged | None:
    """Return the judgement of a kept lay if it has been made."""
    table = table_of(style, lay)
    held = _judgements.get(id(table))
    return held[1] if held is not None and held[0] is table else None
