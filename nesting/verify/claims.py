"""Does a lay.json contradict itself in what it says beside the coordinates?

Papers, tickets and the ledger read piece, size, hand, plies and pairs from the file; a label that
is not its item's, or pairs that the pieces do not make up, would cut a wrong order from a lay
whose outlines are all right.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Collection, Mapping, Sequence

import numpy as np

from geometry.outline import as_ring, rotation
from nesting.lay_document import ItemData, LayDocument, PlacedPiece
from nesting.tolerances import VERIFY_DEG, VERIFY_MM
from nesting.verify.fault import Fault, FaultKind

BOTH = {"left", "right"}


def claim_faults(lay: LayDocument, blamed: Collection[int] = ()) -> list[Fault]:
    """Return what the file's own statements have against each other.

    The place of a placement in ``blamed`` (its outline is wrong already) is not held against it.
    """
    faults: list[Fault] = []
    items = {item.id: item for item in lay.items}
    if len(items) < len(lay.items):
        twice = [name for name, n in Counter(item.id for item in lay.items).items() if n > 1]
        faults.append(_fault(FaultKind.LABEL, f"{', '.join(twice)} is listed twice among the items"))
    if lay.turn_tolerance_deg is not None:
        for asked in lay.items:
            if asked.turn_tolerance_deg > lay.turn_tolerance_deg + VERIFY_DEG:
                text = f"{asked.id} permits a tilt of {asked.turn_tolerance_deg:g} deg, "
                text += f"the lay one of {lay.turn_tolerance_deg:g}"
                faults.append(_fault(FaultKind.LABEL, text))
    for i, at in enumerate(lay.placements):
        item = items.get(at.item)
        if item is not None:
            faults += _label_faults(i, at, item, placed=i not in blamed)
    bound = max(lay.lower_bound_mm.values(), default=0.0)
    if bound > lay.length_mm + VERIFY_MM:
        text = f"the lay is {bound - lay.length_mm:.3f} mm shorter than its own lower bound"
        faults.append(Fault(FaultKind.LENGTH, (), amount_mm=bound - lay.length_mm, message=text))
    return faults + _hand_faults(lay) + _pair_faults(lay)


def _label_faults(i: int, at: PlacedPiece, item: ItemData, *, placed: bool) -> list[Fault]:
    faults = []
    if item.piece:
        for word, said, meant in (("piece", at.piece, item.piece), ("size", at.size, item.size)):
            if said != meant:
                text = f"{at.name} (no. {i}) says {word} {said or '-'}, its item {meant or '-'}"
                faults.append(Fault(FaultKind.LABEL, (i,), message=text))
    if at.pull_axis_deg is not None and not -90.0 < at.pull_axis_deg <= 90.0:
        text = f"{at.name} (no. {i}) states an axis of {at.pull_axis_deg:g} deg, beyond (-90, 90]"
        faults.append(Fault(FaultKind.LABEL, (i,), message=text))
    if placed and "x_mm" in at.model_fields_set and len(item.outline_mm) == len(at.outline_mm):
        off = _off_place_mm(at, item)
        if off > 2.0 * VERIFY_MM:  # the vertices and the place are rounded, each for itself
            text = f"{at.name} (no. {i}) lies {off:.3f} mm from the x_mm and y_mm it states"
            faults.append(Fault(FaultKind.LABEL, (i,), amount_mm=off, message=text))
    return faults


def _off_place_mm(at: PlacedPiece, item: ItemData) -> float:
    """How far the placed vertices are from the item's, turned and moved as stated."""
    stated = as_ring(item.outline_mm, ccw=True) @ rotation(at.rotation_deg).T + (at.x_mm, at.y_mm)
    placed = at.ring
    start = int(np.argmin(np.abs(placed - stated[0]).sum(axis=1)))
    return float(np.abs(np.roll(placed, -start, axis=0) - stated).max())


def _hand_faults(lay: LayDocument) -> list[Fault]:
    """Plies, spread and hands: what of them would leave a left shoe without its right."""
    faults = []
    hands = {hand for hand in (item.hand for item in lay.items or lay.placements) if hand}
    for hand in sorted(hands - BOTH):
        faults.append(_fault(FaultKind.HAND, f"there is no hand {hand}"))
    if lay.hands is not None and hands and set(lay.hands) != hands:
        told, found = " and ".join(lay.hands), " and ".join(sorted(hands))
        faults.append(_fault(FaultKind.HAND, f"the file says {told}, its pieces are {found}"))
    if lay.mode == "face-to-face":
        if lay.plies % 2:
            text = f"{lay.plies} plies face to face leave a left shoe without its right"
            faults.append(_fault(FaultKind.PAIRS, text))
        if len(hands) > 1:
            faults.append(_fault(FaultKind.HAND, "face to face, but the lay holds both hands"))
    elif lay.mode is not None and len(hands) == 1:
        faults.append(_fault(FaultKind.HAND, f"glue side up, but every piece is a {min(hands)} one"))
    return faults


def _pair_faults(lay: LayDocument) -> list[Fault]:
    """Pairs stated, against the pieces of each size and hand and the plies."""
    if lay.pairs is None:
        return []
    faults = []
    counts: dict[str, Counter[tuple[str, str]]] = defaultdict(Counter)
    # pairs of several styles go by STYLE/SIZE, and their pieces begin with the style's name
    styles = sorted({size.rsplit("/", 1)[0] for size in lay.pairs if "/" in size}, key=len, reverse=True)
    for at in lay.placements:
        style = next((name for name in styles if at.piece.startswith(f"{name} ")), "")
        counts[f"{style}/{at.size}" if style else at.size][at.piece, at.hand] += 1
    for size in sorted(set(counts) | {size for size, n in lay.pairs.items() if n}):
        faults += _size_faults(size, lay.pairs.get(size, 0), counts[size], lay.mode)
    faults += _per_shoe_faults(lay.pairs, counts)
    if lay.pairs_cut is not None:
        stacks = lay.plies // 2 if lay.mode == "face-to-face" else lay.plies
        for size in sorted(set(lay.pairs) | set(lay.pairs_cut)):
            told, cut = lay.pairs_cut.get(size, 0), lay.pairs.get(size, 0) * stacks
            if told != cut:
                text = f"{told} pairs of size {size} are stated, {lay.plies} plies give {cut}"
                faults.append(_fault(FaultKind.PAIRS, text))
    return faults


def _size_faults(
    size: str, pairs: int, pieces: Mapping[tuple[str, str], int], mode: str | None
) -> list[Fault]:
    if not pieces:
        return [_fault(FaultKind.PAIRS, f"{pairs} pairs of size {size} are stated, but no piece is there")]
    faults = []
    for (piece, hand), count in sorted(pieces.items()):
        if pairs < 1 or count % pairs:
            text = f"{count} {piece} {size} {hand} do not make up the {pairs} pairs stated"
            faults.append(_fault(FaultKind.PAIRS, text))
    for piece in sorted({piece for piece, _ in pieces}) if mode == "face-up" else ():
        left, right = (pieces.get((piece, hand), 0) for hand in ("left", "right"))
        if left != right:
            faults.append(_fault(FaultKind.PAIRS, f"{left} left and {right} right of {piece} {size}"))
    return faults


def _per_shoe_faults(
    pairs: Mapping[str, int], counts: Mapping[str, Mapping[tuple[str, str], int]]
) -> Sequence[Fault]:
    """A shoe needs as many of a piece in one size as in another."""
    needed: dict[str, set[int]] = defaultdict(set)
    for size, pieces in counts.items():
        for (piece, _), count in pieces.items():
            if pairs.get(size, 0) > 0 and count % pairs[size] == 0:
                needed[piece].add(count // pairs[size])
    return [
        _fault(FaultKind.PAIRS, f"{piece}: {min(n)} a shoe in one size, {max(n)} in another")
        for piece, n in sorted(needed.items())
        if len(n) > 1
    ]


def _fault(kind: FaultKind, text: str) -> Fault:
    return Fault(kind, (), message=text)
