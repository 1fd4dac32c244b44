"""The stacks that all dies of a cloth are cut from, each one verified lay."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from app.errors import UnverifiedError
from app.lay.job import judged
from app.press.job import PressDie, PressJob, placed
from geometry.said import said
from nesting.files import lay_file
from nesting.lay import Lay
from nesting.press.rows import PressRows, Row
from nesting.press.stack import Block, press_stack
from nesting.verify.fault import Verdict


@dataclass(frozen=True, eq=False)
class PressStack:
    """A stack: its blocks in the order of cutting (``Block.die`` indexes the cloth's dies).

    ``glue`` says how its layers lie; face to face every second one lies turned over.
    """

    name: str
    glue: Literal["up", "down", "face to face"]
    blocks: tuple[Block, ...]
    rows: tuple[PressRows, ...]
    length_mm: float
    document: dict[str, Any]
    verdict: Verdict

    def rows_of(self, block: Block) -> tuple[Row, ...]:
        """Return the rows of a block."""
        return replace(self.rows[block.die], corners_mm=block.corners_mm, turned=block.turned).rows


def press_stacks(job: PressJob, dies: Sequence[PressDie]) -> tuple[PressStack, ...]:
    """Return the stack of all dies, and with ``turned`` a second one, glue side down, of those that
    cut the other hand. Raises UnverifiedError when one does not verify."""
    if job.spread == "face-to-face":
        return (_stack(job, dies, range(len(dies)), "S1", "face to face"),)
    stacks = [_stack(job, dies, range(len(dies)), "S1", "up")]
    over = [k for k, die in enumerate(dies) if die.over]
    if over:
        stacks.append(_stack(job, dies, over, "S2", "down"))
    return tuple(stacks)


def _stack(
    job: PressJob,
    dies: Sequence[PressDie],
    chosen: Sequence[int],
    name: str,
    glue: Literal["up", "down", "face to face"],
) -> PressStack:
    strip = dies[chosen[0]].strip
    margin = strip.edge_margin_mm
    found, _ = press_stack(
        [dies[k].rows for k in chosen],
        [len(dies[k].rows.turned) for k in chosen],
        (margin, strip.roll.usable_width_mm - margin),
        strip.gap_mm,
        start_mm=strip.end_margin_mm,
    )
    blocks = tuple(replace(block, die=chosen[block.die]) for block in found)
    problem = replace(
        strip,
        items=tuple(item for k in chosen for item in dies[k].strip.items),
        name=f"{job.style.name}, stack {name}",
    )
    placements = tuple(
        placement
        for block in blocks
        for placement in placed(dies[block.die].strip, dies[block.die].rows, block.corners_mm, block.turned)
    )
    lay = Lay(placements, problem.length_of_mm(placements), engine="press stack", seed=job.seed)
    verdict = judged(problem, lay)
    if not verdict.ok:
        raise UnverifiedError(said("press stack {0} does not verify: {1}", name, verdict.faults[0].message))
    first = dies[chosen[0]].document
    extra = {key: first[key] for key in ("style", "cloth", "spread", "end_loss_mm", "chord_mm")}
    extra |= {"stack": name, "glue": glue, "turn_tolerance_deg": first["turn_tolerance_deg"]}
    document = lay_file.to_document(problem, lay, plies=dies[chosen[0]].layers, extra=extra)
    rows = tuple(die.rows for die in dies)
    return PressStack(name, glue, blocks, rows, lay.length_mm, document, verdict)
