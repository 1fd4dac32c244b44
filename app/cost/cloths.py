"""Cloths beside each other: what a pair takes and costs of each, and whether its backing holds.

Each cloth is put in place of the costed one, with its own width, price and tight direction; the
style's other cloths stay. A lay is nested once for cloths on which the pieces lie alike.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.cost.per_pair import ClothCost, NestedWidth, Solver, Width, cloth_width, nest_width, net_m2_per_pair
from app.cost.report import width_row
from app.errors import UsageError
from app.hold.cloth_choice import compare
from app.hold.verdicts import span
from app.style.model import ClothData, Style
from app.workshop.cloth_register import ClothRegister, RegisterError
from geometry.errors import SheetError
from geometry.said import said


@dataclass(frozen=True)
class HoldVerdict:
    """Whether the backing holds with a cloth: None when it is not known, and why then."""

    holds: bool | None
    piece: str = ""
    why: str = ""

    def __str__(self) -> str:
        if self.holds:
            return "holds"
        if self.holds is False:
            return f"breaks: {self.piece}" if self.piece else "breaks"
        return self.why or "a trial must decide"


def cloths_wanted(style: Style, text: str) -> tuple[ClothData, ...]:
    """Return cloths named by id, of the style or the workshop's register; ``all`` is every one of both.

    Raises UsageError for an id that neither has.
    """
    own = {cloth.id: cloth for cloth in style.cloths}
    register = ClothRegister()
    if text.strip() == "all":
        others = {entry.id: entry.cloth for entry in register.entries("cloth")}
        return tuple({**others, **own}.values())
    found = []
    for name in dict.fromkeys(part.strip() for part in text.split(",") if part.strip()):
        try:
            found.append(own[name] if name in own else register.entry("cloth", name).cloth)
        except RegisterError:
            raise UsageError(
                said("neither the style nor the register has a cloth {0}", name),
                remedy=said("the style has {0}; 'cloth list' shows those of the register", ", ".join(own)),
            ) from None
    return tuple(found)


def in_place(style: Style, cloth_id: str, cloth: ClothData) -> Style:
    """Return the style with another cloth where ``cloth_id`` was; it answers to that id."""
    placed = cloth.model_copy(update={"id": cloth_id})
    return style.model_copy(
        update={"cloths": tuple(placed if own.id == cloth_id else own for own in style.cloths)}
    )


def hold_verdict(style: Style) -> HoldVerdict:
    """Return whether a style's backing holds as its cloths stand."""
    try:
        (candidate,) = compare(style, style.cloths[:1])
    except (UsageError, SheetError) as error:
        return HoldVerdict(None, why=error.message)
    if candidate.worst is None:
        return HoldVerdict(None, why="no limits set")
    worst = candidate.worst
    told = f"{worst.called} gives {span(worst.hold)} of {worst.hold.limit_mm:g} mm"
    if candidate.holds is None:
        return HoldVerdict(None, worst.called, f"a trial must decide: {told}")
    return HoldVerdict(candidate.holds, worst.called, told)


def compare_cloths(
    style: Style,
    order: Mapping[str, int],
    own: ClothCost,
    cloths: Sequence[ClothData],
    widths: Mapping[str, Sequence[Width]],
    known: Sequence[NestedWidth],
    solver: Solver,
) -> list[dict[str, Any]]:
    """Return a line for each cloth and width, for ``by_cloth`` of the cost object.

    ``widths`` are further widths by cloth id, beside each cloth's own. The same pairs are laid on
    every one; the costed cloth's own lay, and those of its widths that are ``known``, are not
    nested again.
    """
    nested: dict[tuple[float, float, bool], NestedWidth] = {}
    tried = own.cloth
    for lay in (*known, own.nested):
        nested[(lay.width.usable_width_mm, tried.tight_direction_deg, tried.one_way)] = lay
    lines = []
    for cloth in cloths:
        placed = in_place(style, own.cloth.id, cloth)
        put = placed.cloth(own.cloth.id)
        verdict = hold_verdict(placed)
        net = net_m2_per_pair(placed, list(order), put.id)
        for width in dict.fromkeys((cloth_width(cloth), *widths.get(cloth.id, ()))):
            key = (width.usable_width_mm, cloth.tight_direction_deg, cloth.one_way)
            if key not in nested:
                nested[key] = nest_width(placed, put, order, width, solver, own.nested.pairs)
            lay = nested[key].on(width)
            lines.append(
                {
                    "cloth": cloth.id,
                    "name": cloth.name,
                    "currency": cloth.currency,
                    "own_width": width == cloth_width(cloth),
                    **width_row(lay, ClothCost(put, lay, net), order),
                    "holds": verdict.holds,
                    "hold": str(verdict),
                    "hold_piece": verdict.piece,
                    "hold_why": verdict.why,
                }
            )
    return lines
