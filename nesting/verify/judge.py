"""The independent judge of every lay: true outlines, double precision, no engine's code.

``verify`` judges a lay against the problem it answers, ``verify_document`` a lay.json on its
own: from the coordinates written there, against the items it lists. Both measure overlap depth,
gap shortfall, position on the roll, flaws, the pull axis against the tight direction, the hand,
the shape, the count, and the length and yield that are stated; in a file also its labels, plies and pairs.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.outline import Outline, Ring, ring_area_mm2, rotation
from geometry.pull import undirected_deg
from geometry.said import joined, said
from nesting.errors import LayFileError
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.lay_document import LayDocument, PlacedPiece, document_of, problem_of
from nesting.problem import LayProblem
from nesting.tolerances import VERIFY_DEG, VERIFY_MM
from nesting.verify.claims import claim_faults
from nesting.verify.fault import Fault, FaultKind, Verdict
from nesting.verify.shape import Fit, fit, holes_fit, mirror_fit
from nesting.verify.spacing import beyond_mm, on_regions, polygons_of, too_close

YIELD_PLAY = 1e-6
"""A stated yield (a fraction) may differ from the placements' by this: rounding in the file."""


@dataclass(frozen=True)
class _Field:
    """What the placed outlines are held against."""

    usable_width_mm: float
    length_mm: float
    max_length_mm: float | None
    gap_mm: float
    edge_margin_mm: float
    end_margin_mm: float
    flaws: tuple[Ring, ...]
    use_holes: bool

    @property
    def words(self) -> str:
        parts = (
            said("gap {0} mm", f"{self.gap_mm:g}"),
            said("usable width {0} mm", f"{self.usable_width_mm:g}"),
            said("edge margin {0} mm", f"{self.edge_margin_mm:g}"),
            said("end margin {0} mm", f"{self.end_margin_mm:g}"),
            said("to {0} mm and {1} deg on true outlines", f"{VERIFY_MM:g}", f"{VERIFY_DEG:f}"),
        )
        return joined(*parts, by=", ")


def verify(problem: LayProblem, lay: Lay) -> Verdict:
    """Return the verdict on a lay of ``problem``."""
    faults: list[Fault] = []
    known: list[int] = []
    for i, at in enumerate(lay.placements):
        if at.item_id in problem.by_id:
            known.append(i)
        else:
            faults.append(Fault(FaultKind.SURPLUS, (i,), message=f"{at.item_id} was not asked for"))
    placements = [lay.placements[i] for i in known]
    rings, holes = _placed_rings(problem, placements)
    names = [f"{at.item_id} (no. {i})" for i, at in zip(known, placements, strict=True)]
    field = _Field(
        problem.roll.usable_width_mm,
        lay.length_mm,
        problem.roll.length_mm,
        problem.gap_mm,
        problem.edge_margin_mm,
        problem.end_margin_mm,
        tuple(flaw.ring_mm for flaw in problem.roll.flaws),
        problem.use_holes,
    )
    faults += _renumbered(_spacing_faults(rings, holes, names, field), known)
    for i, at in zip(known, placements, strict=True):
        faults += _turn_faults(i, problem.by_id[at.item_id], at.turn_deg, problem.roll.tight_direction_deg)
    faults += _hand_faults_of_items(problem.items)
    faults += _count_faults(
        {item.id: item.demand for item in problem.items}, [at.item_id for at in lay.placements]
    )
    faults += _pinned_faults(problem.pinned, lay.placements)
    return Verdict(tuple(faults), field.words)


def verify_document(doc: Mapping[str, Any]) -> Verdict:
    """Return the verdict on a lay.json: its coordinates against its own statements.

    Where the file lists no items, pieces of one name, size and hand are held against the first
    of them, and left against right. Raises LayFileError when the file is not a lay at all.
    """
    lay = document_of(doc)
    rings = [at.ring for at in lay.placements]
    holes = [at.holes for at in lay.placements]
    names = [f"{at.name} (no. {i})" for i, at in enumerate(lay.placements)]
    field = _Field(
        lay.roll.usable_width_mm,
        lay.length_mm,
        lay.roll.length_mm,
        lay.gap_mm,
        lay.edge_margin_mm,
        lay.end_margin_mm,
        tuple(np.asarray(ring, dtype=np.float64) for ring in lay.roll.flaws_mm),
        lay.use_holes,
    )
    faults = _spacing_faults(rings, holes, names, field)
    tight = lay.roll.tight_direction_deg
    if lay.items:
        problem = problem_of(lay)
        faults += _hand_faults_of_items(problem.items)
        faults += _count_faults(
            {item.id: item.demand for item in problem.items}, [at.item for at in lay.placements]
        )
        placed = tuple(Placement(at.item, at.rotation_deg, at.x_mm, at.y_mm) for at in lay.placements)
        faults += _pinned_faults(problem.pinned, placed)
        for i, at in enumerate(lay.placements):
            item = problem.by_id.get(at.item)
            if item is not None:
                faults += _piece_faults(i, at, item, problem.roll.tight_direction_deg)
    else:
        faults += _faults_among_alike(lay.placements, tight)
    net = sum(
        ring_area_mm2(r) - sum(abs(ring_area_mm2(h)) for h in hs) for r, hs in zip(rings, holes, strict=True)
    )
    faults += _figure_faults(lay, net)
    wrong = (FaultKind.SHAPE, FaultKind.HAND, FaultKind.AXIS)
    faults += claim_faults(lay, {i for f in faults if f.kind in wrong for i in f.placements})
    unlisted = "" if lay.items else "the file lists no items, so counts and shapes were not checked"
    return Verdict(tuple(faults), joined(field.words, unlisted))


# ------------------------------------------------------------------ position


def _spacing_faults(
    rings: Sequence[Ring], holes: Sequence[Sequence[Ring]], names: Sequence[str], field: _Field
) -> list[Fault]:
    if not rings:
        return []
    polygons = polygons_of(rings, holes, with_holes=field.use_holes)
    faults = []
    overlaps, shortfalls = too_close(polygons, field.gap_mm)
    for i, j, depth in overlaps:
        text = f"{names[i]} and {names[j]} overlap by {depth:.3f} mm"
        faults.append(Fault(FaultKind.OVERLAP, (i, j), amount_mm=depth, message=text))
    for i, j, short in shortfalls:
        text = f"the gap between {names[i]} and {names[j]} is short by {short:.3f} mm"
        faults.append(Fault(FaultKind.GAP, (i, j), amount_mm=short, message=text))
    boxes = np.array([(*ring.min(axis=0), *ring.max(axis=0)) for ring in rings])
    beyond = beyond_mm(
        boxes,
        field.end_margin_mm,
        field.edge_margin_mm,
        field.length_mm - field.end_margin_mm,
        field.usable_width_mm - field.edge_margin_mm,
    )
    for i in np.nonzero(beyond > VERIFY_MM)[0].tolist():
        text = f"{names[i]} lies {beyond[i]:.3f} mm outside the margins of the lay"
        faults.append(Fault(FaultKind.OUTSIDE, (i,), amount_mm=float(beyond[i]), message=text))
    if field.max_length_mm is not None and field.length_mm > field.max_length_mm + VERIFY_MM:
        over = field.length_mm - field.max_length_mm
        faults.append(
            Fault(
                FaultKind.OUTSIDE, (), amount_mm=over, message=f"the lay is {over:.3f} mm longer than allowed"
            )
        )
    stated = field.length_mm - field.end_margin_mm - float(boxes[:, 2].max())
    if stated > VERIFY_MM:  # shorter shows as pieces outside
        text = f"the stated length is {stated:.3f} mm more than the pieces and the end margin take"
        faults.append(Fault(FaultKind.LENGTH, (), amount_mm=stated, message=text))
    for i, _, depth in on_regions(polygons, field.flaws):
        text = f"{names[i]} lies on a flaw by {depth:.3f} mm"
        faults.append(Fault(FaultKind.FLAW, (i,), amount_mm=depth, message=text))
    return faults


def _renumbered(faults: list[Fault], numbers: Sequence[int]) -> list[Fault]:
    return [
        Fault(f.kind, tuple(numbers[i] for i in f.placements), f.amount_mm, f.amount_deg, f.message)
        for f in faults
    ]


def _placed_rings(
    problem: LayProblem, placements: Sequence[Placement]
) -> tuple[list[Ring], list[tuple[Ring, ...]]]:
    turned: dict[tuple[str, float], list[NDArray[np.float64]]] = {}
    rings, holes = [], []
    for at in placements:
        key = (at.item_id, at.turn_deg)
        if key not in turned:
            matrix = rotation(at.turn_deg)
            turned[key] = [ring @ matrix.T for ring in problem.by_id[at.item_id].outline.rings_mm]
        move = np.array((at.x_mm, at.y_mm))
        moved = [ring + move for ring in turned[key]]
        rings.append(moved[0])
        holes.append(tuple(moved[1:]))
    return rings, holes


# ------------------------------------------------------------------ axis, hand, shape


def _turn_faults(i: int, item: Item, turn_deg: float, tight_deg: float, play_deg: float = 0.0) -> list[Fault]:
    if item.turns_deg is None:
        return []
    granted = item.turn_tolerance_deg + VERIFY_DEG + play_deg
    off = min((_between_deg(turn_deg, turn) for turn in item.turns_deg), default=180.0)
    if item.piece:  # a style's piece: its pull axis must lie on the tight direction, whatever was allowed
        off = max(off, abs(undirected_deg(item.pull_axis_deg + turn_deg - tight_deg)))
    if off <= granted:
        return []
    text = f"{item.id} (no. {i}) is turned {off:.4g} deg off its permitted direction"
    return [Fault(FaultKind.AXIS, (i,), amount_deg=off, message=text)]


def _between_deg(a: float, b: float) -> float:
    return abs((a - b + 180.0) % 360.0 - 180.0)


def _piece_faults(i: int, at: PlacedPiece, item: Item, tight_deg: float) -> list[Fault]:
    found = fit(item.outline.ring_mm, at.ring)
    if not found.fits:
        if mirror_fit(item.outline.ring_mm, at.ring).fits:
            text = f"{at.name} (no. {i}) is the mirror image of what it says it is"
            return [Fault(FaultKind.HAND, (i,), message=text)]
        return [_shape_fault(i, at, found)]
    if not holes_fit(item.outline.holes_mm, at.holes, found):
        return [Fault(FaultKind.SHAPE, (i,), message=f"{at.name} (no. {i}) has not the piece's holes")]
    faults = []
    if item.hand and at.hand and item.hand != at.hand:
        text = f"{at.name} (no. {i}) says {at.hand}, its item {item.hand}"
        faults.append(Fault(FaultKind.HAND, (i,), message=text))
    faults += _turn_faults(i, item, found.turn_deg, tight_deg, found.reading_deg)
    axis = item.pull_axis_deg + found.turn_deg
    return faults + _stated_turn_faults(i, at, axis, found.turn_deg, found.reading_deg)


def _stated_turn_faults(
    i: int, at: PlacedPiece, axis_deg: float | None, turn_deg: float | None, reading_deg: float
) -> list[Fault]:
    off = 0.0
    if axis_deg is not None and at.pull_axis_deg is not None:
        off = abs(undirected_deg(axis_deg - at.pull_axis_deg))
    if turn_deg is not None:
        off = max(off, _between_deg(turn_deg, at.rotation_deg))
    if off <= VERIFY_DEG + reading_deg:
        return []
    text = f"{at.name} (no. {i}) lies {off:.4g} deg off the turn or pull axis it states"
    return [Fault(FaultKind.AXIS, (i,), amount_deg=off, message=text)]


def _shape_fault(i: int, at: PlacedPiece, found: Fit) -> Fault:
    if np.isfinite(found.left_over_mm):
        text = f"{at.name} (no. {i}) differs from the piece by {found.left_over_mm:.3f} mm"
        return Fault(FaultKind.SHAPE, (i,), amount_mm=found.left_over_mm, message=text)
    return Fault(FaultKind.SHAPE, (i,), message=f"{at.name} (no. {i}) is not the piece's outline")


def _hand_faults_of_items(items: Sequence[Item]) -> list[Fault]:
    """Left and right of one piece and size must be mirror images, not copies, of each other."""
    by_name: dict[tuple[str, str], dict[str, Item]] = {}
    for item in items:
        if item.piece and item.hand:
            by_name.setdefault((item.piece, item.size), {})[item.hand] = item
    faults = []
    for (piece, size), hands in by_name.items():
        if len(hands) == 2 and _same_hand(*(item.outline for item in hands.values())):
            text = f"left and right of {piece} {size} are the same outline, not mirror images".replace(
                "  ", " "
            )
            faults.append(Fault(FaultKind.HAND, (), message=text))
    return faults


def _same_hand(a: Outline, b: Outline) -> bool:
    return fit(a.ring_mm, b.ring_mm).fits and not mirror_fit(a.ring_mm, b.ring_mm).fits


def _faults_among_alike(placements: Sequence[PlacedPiece], tight_deg: float | None) -> list[Fault]:
    """Judge pieces against the first of their name, size and hand, where no items are listed."""
    first: dict[tuple[str, str, str], PlacedPiece] = {}
    faults: list[Fault] = []
    for i, at in enumerate(placements):
        if tight_deg is not None and at.pull_axis_deg is not None and at.hand:
            off = abs(undirected_deg(at.pull_axis_deg - tight_deg))
            if off > VERIFY_DEG:
                text = f"the pull axis of {at.name} (no. {i}) is {off:.4g} deg off the tight direction"
                faults.append(Fault(FaultKind.AXIS, (i,), amount_deg=off, message=text))
        key = (at.name, at.size, at.hand)
        model = first.setdefault(key, at)
        if model is at:
            continue
        found = fit(model.ring, at.ring)
        if found.fits:
            turn = model.rotation_deg + found.turn_deg
            faults += _stated_turn_faults(i, at, None, turn, found.reading_deg)
        elif mirror_fit(model.ring, at.ring).fits:
            text = f"{at.name} (no. {i}) is the mirror image of others of its name and hand"
            faults.append(Fault(FaultKind.HAND, (i,), message=text))
        else:
            faults.append(_shape_fault(i, at, found))
    for (name, size, hand), at in first.items():
        other = first.get((name, size, "right")) if hand == "left" else None
        if other is not None and fit(at.ring, other.ring).fits and not mirror_fit(at.ring, other.ring).fits:
            text = f"left and right of {name} are the same outline, not mirror images"
            faults.append(Fault(FaultKind.HAND, (), message=text))
    return faults


# ------------------------------------------------------------------ count and figures


def _count_faults(demand: Mapping[str, int], item_ids: Sequence[str]) -> list[Fault]:
    count = Counter(item_ids)
    where: dict[str, list[int]] = {}
    for i, item_id in enumerate(item_ids):
        where.setdefault(item_id, []).append(i)
    faults = []
    for item_id, asked in demand.items():
        laid = count.get(item_id, 0)
        if laid < asked:
            text = f"{asked - laid} of {asked} {item_id} missing"
            faults.append(Fault(FaultKind.MISSING, (), message=text))
        elif laid > asked:
            text = f"{laid - asked} more {item_id} than the {asked} asked for"
            faults.append(Fault(FaultKind.SURPLUS, tuple(where[item_id][asked:]), message=text))
    for item_id in count.keys() - demand.keys():
        text = f"{item_id} was not asked for"
        faults.append(Fault(FaultKind.SURPLUS, tuple(where[item_id]), message=text))
    return faults


def _pinned_faults(pinned: Sequence[Placement], placements: Sequence[Placement]) -> list[Fault]:
    faults = []
    for pin in pinned:
        alike = [at for at in placements if at.item_id == pin.item_id]
        if not any(_same_place(pin, at) for at in alike):
            text = f"{pin.item_id} pinned at ({pin.x_mm:.1f}, {pin.y_mm:.1f}) mm is not there"
            faults.append(Fault(FaultKind.PINNED, (), message=text))
    return faults


def _same_place(a: Placement, b: Placement) -> bool:
    return (
        abs(a.x_mm - b.x_mm) <= VERIFY_MM
        and abs(a.y_mm - b.y_mm) <= VERIFY_MM
        and _between_deg(a.turn_deg, b.turn_deg) <= VERIFY_DEG
    )


def _figure_faults(lay: LayDocument, net_area_mm2: float) -> list[Fault]:
    faults = []
    if lay.net_area_mm2 is not None and abs(lay.net_area_mm2 - net_area_mm2) > YIELD_PLAY * max(
        1.0, net_area_mm2
    ):
        text = f"the stated net area is {lay.net_area_mm2:.1f} mm2, the pieces have {net_area_mm2:.1f} mm2"
        faults.append(Fault(FaultKind.LENGTH, (), message=text))
    if lay.stated_yield is not None and lay.length_mm > 0:
        true_yield = net_area_mm2 / (lay.roll.usable_width_mm * lay.length_mm)
        if abs(lay.stated_yield - true_yield) > YIELD_PLAY:
            text = f"the stated yield is {lay.stated_yield:.6f}, the pieces give {true_yield:.6f}"
            faults.append(Fault(FaultKind.LENGTH, (), message=text))
    return faults


def words(verdict: Verdict, *, most: int = 5) -> str:
    """Return a verdict in a line: 'verified (...)', or the first faults."""
    if verdict.ok:
        return said("verified: {0}", verdict.checked)
    texts = [fault.message or fault.kind.value for fault in verdict.faults[:most]]
    rest = len(verdict.faults) - len(texts)
    more = said("and {0} more", rest) if rest > 0 else ""
    return said("not verified: {0}", joined(*texts, more))


__all__ = ["LayFileError", "verify", "verify_document", "words"]
