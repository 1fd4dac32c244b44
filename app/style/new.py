"""A style from a drawing: pieces with their sizes, edges and axes proposed, house rules copied in.

Nothing that the drawing leaves open is settled silently: every assumption comes back as a
question, and stays marked as unconfirmed in the style.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any, cast

from app import tolerances
from app.defaults import workshop
from app.errors import UsageError
from app.style.model import (
    ClothData,
    DrillData,
    EdgeData,
    HouseRules,
    MarkData,
    NotchData,
    PieceData,
    PullAxisData,
    SizeDrawing,
    SizeRun,
    Style,
)
from app.style.pieces import TOLD_ONCE, draft_rules
from geometry.backing.edges import find_edging, suggest_kinds
from geometry.backing.house_rules import DraftRules
from geometry.checks.sets import check_hands
from geometry.findings import Finding, Severity
from geometry.piece import DrawnPiece, Edging
from geometry.pull import propose_axis
from geometry.said import said
from geometry.sizing.sizes import SizeSystem, in_order, size_number

if TYPE_CHECKING:  # the reader is loaded by whoever reads a drawing
    from geometry.dxf.read import ReadDrawing

UNNAMED_CLOTH = ClothData(
    id="cloth-1",
    name="Cloth to be named",
    width_mm=workshop.UNNAMED_WIDTH_MM.value,
    usable_width_mm=workshop.UNNAMED_USABLE_MM.value,
    how_known="assumed",
    note="placeholder: enter the cloth that is used",
)


def new_style(
    drawing: ReadDrawing,
    *,
    name: str,
    rules: HouseRules,
    source: str = "",
    system: SizeSystem = "paris",
    base: str = "",
    sizes: Sequence[str] = (),
    cloth: ClothData = UNNAMED_CLOTH,
) -> tuple[Style, tuple[Finding, ...]]:
    """Return the style of a drawing and what a person must confirm.

    ``base`` '' takes the file's own base size, else the middle one of the drawn sizes; ``sizes``
    adds sizes that are to be graded from it. Raises UsageError when the drawing has no piece, or
    a piece is not drawn in the base size.
    """
    if not drawing.pieces:
        raise UsageError("there is no piece in the drawing", file=source, remedy="check its layers and units")
    found: list[Finding] = []
    grouped = _grouped(drawing.pieces, found)
    drawn_sizes = in_order({size for by_size in grouped.values() for size in by_size if size})
    base = base or drawing.base_size or _middle(drawn_sizes)
    if not base:
        raise UsageError(
            "the drawing names no size", file=source, remedy="state which size is drawn: --base-size 37"
        )
    if base not in drawn_sizes:
        size_number(base)  # a word that is not a size is refused here, not on the roll
    draft = draft_rules(
        Style(name=name, size_run=SizeRun(base=base, sizes=(base,)), pieces=(), cloths=(), rules=rules)
    )
    pieces = tuple(_piece(piece, by_size, base, draft, found, source) for piece, by_size in grouped.items())
    found += _hands_drawn(grouped, base)
    run = in_order({base, *drawn_sizes, *drawing.sizes, *sizes})
    complete = all(set(run) <= set(piece.drawings) for piece in pieces)
    style = Style(
        name=name,
        size_run=SizeRun(system=system, base=base, sizes=run, graded=not complete),
        pieces=pieces,
        cloths=(cloth,),
        rules=rules,
        drawing=source,
    )
    return style, tuple(found)


def size_drawing(drawn: DrawnPiece) -> SizeDrawing:
    """Return a drawn piece as the style keeps it."""
    return SizeDrawing(
        outline_mm=_points(drawn.outline.ring_mm),
        holes_mm=tuple(_points(hole) for hole in drawn.outline.holes_mm),
        notches=tuple(
            NotchData(
                x_mm=_rounded(notch.x_mm),
                y_mm=_rounded(notch.y_mm),
                angle_deg=_rounded(notch.angle_deg),
                depth_mm=_rounded(notch.depth_mm),
                width_mm=_rounded(notch.width_mm),
                kind=notch.kind,
            )
            for notch in drawn.notches
        ),
        marks=tuple(
            MarkData(points_mm=_points(mark.points_mm), kind=mark.kind, closed=mark.closed)
            for mark in drawn.marks
        ),
        drill_holes=tuple(
            DrillData(
                x_mm=_rounded(hole.x_mm), y_mm=_rounded(hole.y_mm), diameter_mm=_rounded(hole.diameter_mm)
            )
            for hole in drawn.drill_holes
        ),
        turn_points_mm=_points(drawn.turn_points_mm),
    )


def edge_data(edging: Edging) -> tuple[EdgeData, ...]:
    """Return edges as the style keeps them."""
    return tuple(
        EdgeData(
            ring=ring,
            start=start,
            kind=edge.kind,
            setback_mm=edge.setback_mm,
            allowance_mm=edge.allowance_mm,
            confirmed=edge.confirmed,
            setback_end_mm=edge.setback_end_mm,
        )
        for ring, (breaks, edges) in enumerate(zip(edging.breaks, edging.edges, strict=True))
        for start, edge in zip(breaks, edges, strict=True)
    )


def piece_data(
    name: str, by_size: dict[str, DrawnPiece], base: str, rules: DraftRules
) -> tuple[PieceData, tuple[Finding, ...]]:
    """Return a piece with its edges and pull axis proposed on the base size, and what was noticed."""
    drawn = by_size[base]
    edging, noticed = find_edging(drawn, rules)
    axis = propose_axis(drawn)
    piece = PieceData(
        name=name,
        drawings={size: size_drawing(by_size[size]) for size in in_order(by_size)},
        edges=edge_data(suggest_kinds(drawn, edging)),
        pull_axis=PullAxisData(axis_deg=_axis_deg(axis.axis_deg), source=axis.source, confirmed=False),
    )
    return piece, noticed


def per_shoe(quantity: str) -> tuple[int, str]:
    """Return how many of a piece one shoe needs by the drawing's quantity text, and what is open.

    ``R,L`` (two numbers) is taken as right and left count (from memory of the interchange
    scheme; the older form with one number may mean either, so it is asked).
    """
    numbers = [int(text) for text in re.findall(r"\d+", quantity)]
    if len(numbers) == 2 and numbers[0] == numbers[1] and numbers[0] > 0:
        return numbers[0], "" if numbers[0] == 1 else f"taken as {numbers[0]} for each shoe"
    if not numbers or numbers == [1]:
        return 1, ""
    if len(numbers) == 1 and numbers[0] > 0:
        each = max(1, numbers[0] // 2)
        return each, f"may count one shoe or a pair; taken as {each} for each shoe"
    return 1, "does not read as right and left count; taken as one for each shoe"


def _grouped(pieces: Sequence[DrawnPiece], found: list[Finding]) -> dict[str, dict[str, DrawnPiece]]:
    """Return pieces by name and size; a second piece of a name in a size gets a name of its own."""
    grouped: dict[str, dict[str, DrawnPiece]] = {}
    for piece in pieces:
        plain = " ".join(piece.name.split()) or "piece"
        name, number = plain, 1
        while piece.size in grouped.get(name, {}):
            number += 1
            name = f"{plain} {number}"
        if number > 1:
            found.append(
                _question("NAME_TWICE", name, f"several pieces are called {plain}", f"this one is now {name}")
            )
        grouped.setdefault(name, {})[piece.size] = piece
    return grouped


_HAND = re.compile(r"(?<![A-Za-z0-9])(left|right|l|r)(?![A-Za-z0-9])", re.IGNORECASE)


def _hands_drawn(grouped: Mapping[str, Mapping[str, DrawnPiece]], base: str) -> list[Finding]:
    """Return what is to be said of pieces that are drawn in both hands.

    Those are pieces whose names differ in left and right or L and R only; and mirror images whose
    names differ in their number only, where a copy is a copy.
    """
    known: dict[str, DrawnPiece] = {}
    found: list[Finding] = []
    for name, by_size in grouped.items():
        drawn = replace(by_size.get(base) or by_size.get("") or next(iter(by_size.values())), name=name)
        plain = " ".join(re.sub(r"[\s_.\d-]+", " ", _HAND.sub(" ", name)).lower().split())
        first = known.setdefault(plain, drawn)
        if first is not drawn and plain:
            told = check_hands(first, drawn)
            found += told if _HAND.search(name) else [f for f in told if f.code == "BOTH_HANDS"]
    return found


def _piece(
    name: str,
    by_size: dict[str, DrawnPiece],
    base: str,
    rules: DraftRules,
    found: list[Finding],
    source: str,
) -> PieceData:
    sized = {size or base: drawn for size, drawn in by_size.items()}
    if base not in sized:
        raise UsageError(
            said(
                "piece {0} is not drawn in the base size {1} ({2} are)",
                name,
                base,
                ", ".join(in_order(sized)),
            ),
            file=source,
            remedy="draw it, or choose another --base-size",
        )
    for size, drawn in sized.items():
        polygon = drawn.outline.polygon
        if not polygon.is_valid:
            raise UsageError(
                said("piece {0}: the outline of size {1} crosses itself", name, size),
                file=source,
                remedy="redraw it there",
            )
    piece, noticed = piece_data(name, sized, base, rules)
    found += (finding for finding in noticed if finding.code not in TOLD_ONCE)
    count, doubt = per_shoe(sized[base].quantity)
    if doubt:
        found.append(_question("QUANTITY", name, f'the quantity "{sized[base].quantity}"', doubt))
    return piece.model_copy(update={"per_shoe": count})


def _middle(sizes: Sequence[str]) -> str:
    return sizes[(len(sizes) - 1) // 2] if sizes else ""


def _question(code: str, piece: str, message: str, done: str) -> Finding:
    return Finding(
        code=code,
        severity=Severity.QUESTION,
        message=message,
        done=done,
        advice="check it in the style",
        piece=piece,
    )


def _axis_deg(angle_deg: float) -> float:
    rounded = _rounded(angle_deg)
    return 90.0 if rounded <= -90.0 else rounded


def _rounded(value: float) -> float:
    return round(float(value), tolerances.STORED_DECIMALS) + 0.0


def _points(values: Any) -> tuple[tuple[float, float], ...]:
    return cast(
        tuple[tuple[float, float], ...], tuple((_rounded(point[0]), _rounded(point[1])) for point in values)
    )
