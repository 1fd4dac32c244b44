"""From a style and pairs per size to the question a nesting engine answers, and a judged lay."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from app.errors import UsageError
from app.style.halves import refuse_halves
from app.style.model import ClothData, Style
from app.style.pieces import HANDS, piece_backings, used_cloths
from geometry.drawn.details import details_of_part
from geometry.outline import Outline
from geometry.piece import BackingPiece, Hand, Notch
from geometry.said import said
from nesting.files import lay_file
from nesting.items import Item, turns_onto
from nesting.lay import Lay
from nesting.problem import LayProblem
from nesting.remnant import remnant_roll
from nesting.roll import Flaw, Roll
from nesting.verify import verify
from nesting.verify.fault import Verdict

Mode = Literal["face-up", "face-to-face"]
MODES: tuple[Mode, ...] = ("face-up", "face-to-face")

MOST_PIECES = 20_000
"""Most pieces in one lay: some 200 m of roll, which no table takes in one spread. An order of any size is
cut in many lays (``plan``); one lay of it all would keep the engine busy for hours."""


@dataclass(frozen=True)
class LayJob:
    """What is to be laid: ``pairs`` sets of a style in one lay on one cloth.

    Face up, every ply gives ``pairs``, the lay holding both hands. Face to face, two plies give
    them, the lay holding one hand. ``width_mm`` is the usable width; None takes the cloth's.
    ``remnant`` is the outline of the cloth left to cut from, x along its roll, instead of a roll.
    """

    style: Style
    pairs: dict[str, int]
    cloth_id: str = ""
    mode: Mode = "face-up"
    plies: int = 1
    width_mm: float | None = None
    gap_mm: float | None = None
    max_length_mm: float | None = None
    with_flaws: bool = True
    remnant: Outline | None = None

    @property
    def cloth(self) -> ClothData:
        """The cloth that is laid."""
        return self.style.cloth(self.cloth_id)

    @property
    def hands(self) -> tuple[Hand, ...]:
        """The hands that lie in the lay."""
        return HANDS if self.mode == "face-up" else ("left",)

    @property
    def pairs_cut(self) -> dict[str, int]:
        """Pairs that the whole stack gives."""
        stacks = self.plies if self.mode == "face-up" else self.plies // 2
        return {size: count * stacks for size, count in self.pairs.items()}


@dataclass(frozen=True)
class Shape:
    """One shape to cut: a part of a piece's backing; ``piece`` also says layer and part."""

    piece: str
    size: str
    hand: Hand
    per_shoe: int
    outline: Outline
    pull_axis_deg: float
    notches: tuple[Notch, ...] = ()


def shapes(style: Style, sizes: Sequence[str], hands: Sequence[Hand], cloth_id: str) -> Iterator[Shape]:
    """Yield every shape of the style that is cut from a cloth.

    Raises UsageError when a backing has vanished (an order must not be cut without it), and when a piece
    is half a pattern.
    """
    first = style.cloths[0].id
    refuse_halves(style, tuple(piece.name for piece in style.pieces if piece.layers))
    for piece in style.pieces:
        for size in sizes:
            for hand in hands:
                backed = piece_backings(style, piece.name, size, hand) if piece.layers else ()
                for backing, layer in zip(backed, piece.layers, strict=True):
                    if (layer.cloth or first) != cloth_id:
                        continue
                    if not backing.outlines:
                        raise UsageError(
                            said("the backing of {0} in size {1} vanishes", piece.name, size),
                            remedy="make its setbacks smaller, or give the piece no backing",
                        )
                    for part, outline in enumerate(backing.outlines):
                        named = piece.name
                        named += f", layer {backing.layer + 1}" if backing.layer else ""
                        named += f", {part_words}" if (part_words := part_label(backing, part)) else ""
                        axis = backing.upper.pull_axis.axis_deg
                        nicks = details_of_part(backing, part).notches
                        yield Shape(named, size, hand, piece.per_shoe, outline, axis, nicks)


def part_label(backing: BackingPiece, number: int) -> str:
    """Return how a lay names a part beside its piece: 'part front', 'part 2', '' of a whole backing."""
    name = backing.part_name(number)
    return name if not name or name.startswith("part ") else f"part {name}"


def problem_of(job: LayJob) -> LayProblem:
    """Return the nesting problem of a job.

    Raises UsageError for plies or a mode that cannot be, a cloth that nothing is cut from, and
    KeyError-free messages for unknown cloths.
    """
    style, cloth = job.style, _cloth(job)
    check_mode(job, cloth)
    rules = style.rules
    tight = cloth.tight_direction_deg
    items = tuple(
        Item(
            id=f"{shape.piece} {shape.size} {shape.hand}",
            outline=shape.outline,
            demand=job.pairs[shape.size] * shape.per_shoe,
            turns_deg=turns_onto(shape.pull_axis_deg, tight, one_way=cloth.one_way),
            pull_axis_deg=shape.pull_axis_deg,
            turn_tolerance_deg=rules.turn_tolerance_deg,
            piece=shape.piece,
            size=shape.size,
            hand=shape.hand,
        )
        for shape in shapes(style, list(job.pairs), job.hands, cloth.id)
        if job.pairs[shape.size]
    )
    if not items:
        raise UsageError(
            said("nothing of {0} is cut from {1}", style.name, cloth.name), remedy="choose another --cloth"
        )
    pieces = sum(item.demand for item in items)
    if pieces > MOST_PIECES:
        raise UsageError(
            said(
                "one lay of {0} pieces is more than can be spread at once (the maximum is {1})",
                f"{pieces:,}",
                f"{MOST_PIECES:,}",
            ),
            remedy="lay fewer pairs, or let 'plan' share the order out into lays",
        )
    return LayProblem(
        roll=_roll(job, cloth),
        items=items,
        gap_mm=rules.gap_mm if job.gap_mm is None else job.gap_mm,
        edge_margin_mm=rules.edge_margin_mm,
        end_margin_mm=rules.end_margin_mm
        if job.remnant is None
        else max(rules.end_margin_mm, rules.edge_margin_mm),
        name=style.name,
    )


def _roll(job: LayJob, cloth: ClothData) -> Roll:
    if job.remnant is not None:
        return remnant_roll(job.remnant, cloth.tight_direction_deg, job.style.rules.edge_margin_mm)
    flaws = cloth.flaws if job.with_flaws else ()
    return Roll(
        usable_width_mm=cloth.usable_width_mm if job.width_mm is None else job.width_mm,
        tight_direction_deg=cloth.tight_direction_deg,
        width_mm=cloth.width_mm if job.width_mm is None else None,
        length_mm=job.max_length_mm,
        flaws=tuple(Flaw(np.array(flaw.ring_mm, dtype=np.float64), flaw.note) for flaw in flaws),
    )


def check_mode(job: LayJob, cloth: ClothData) -> None:
    """Raise UsageError when the plies cannot be spread so."""
    if job.plies < 1:
        raise UsageError(said("{0} plies cannot be cut", job.plies), remedy="give a number from 1")
    if job.mode != "face-to-face":
        return
    if job.plies % 2:
        raise UsageError(
            said("{0} plies face to face would leave a left shoe without its right", job.plies),
            remedy="take an even number of plies, or cut glue side up",
        )
    if cloth.tight_direction_deg not in (0.0, 90.0):
        raise UsageError(
            said(
                "the tight direction of {0} lies at {1} deg: turned over, it lies the other "
                "way, and every second ply would be cut off its axis",
                cloth.name,
                f"{cloth.tight_direction_deg:g}",
            ),
            remedy="cut glue side up",
        )


def document_of(job: LayJob, problem: LayProblem, lay: Lay) -> dict[str, Any]:
    """Return the lay.json of a lay, with what the papers must say beside it."""
    cloth, style = job.cloth, job.style
    extra = {
        "style": style.name,
        "cloth": {"id": cloth.id, "name": cloth.name, "how_known": cloth.how_known, "one_way": cloth.one_way},
        "mode": job.mode,
        "hands": list(job.hands),
        "pairs": dict(job.pairs),
        "pairs_cut": job.pairs_cut,
        "turn_tolerance_deg": style.rules.turn_tolerance_deg,
        "end_loss_mm": style.rules.end_loss_mm,
        "chord_mm": style.rules.chord_mm,
    }
    return lay_file.to_document(problem, lay, plies=job.plies, extra=extra)


def judged(problem: LayProblem, lay: Lay) -> Verdict:
    """Return the verdict on a lay."""
    return verify(problem, lay)


def other_cloths(job: LayJob) -> tuple[str, ...]:
    """Return the names of the cloths that the style needs beside this one."""
    return tuple(
        job.style.cloth(cloth_id).name for cloth_id in used_cloths(job.style) if cloth_id != job.cloth.id
    )


def pieces_by_hand(document: Mapping[str, Any]) -> dict[tuple[str, str], int]:
    """Return how many pieces of each size and hand a lay holds."""
    counts: dict[tuple[str, str], int] = {}
    for at in document["placements"]:
        key = (str(at["size"]), str(at["hand"]))
        counts[key] = counts.get(key, 0) + 1
    return counts


def _cloth(job: LayJob) -> ClothData:
    try:
        return job.cloth
    except KeyError:
        names = ", ".join(cloth.id for cloth in job.style.cloths)
        raise UsageError(
            said("the style has no cloth {0}", job.cloth_id), remedy=said("its cloths are {0}", names)
        ) from None
