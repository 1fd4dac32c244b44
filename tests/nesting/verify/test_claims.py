"""A lay.json that contradicts itself is found out, though its outlines are all right."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any

import pytest

from geometry.outline import Outline
from nesting.errors import LayFileError
from nesting.files import lay_file
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.verify import verify_document
from nesting.verify.fault import FaultKind

VAMP = Outline.make([(0, 0), (120, 0), (150, 40), (90, 70), (20, 60)])
STRAP = Outline.make([(0, 0), (60, 0), (70, 8), (0, 12)])
Document = dict[str, Any]


def document(mode: str = "face-up", plies: int = 2) -> Document:
    """One pair of size 36: a vamp and two straps a shoe, one above the other."""
    hands = ("left", "right") if mode == "face-up" else ("left",)
    items, placements, y = [], [], 0.0
    for hand in hands:
        for name, outline, each in (("Vamp", VAMP, 1), ("Strap", STRAP, 2)):
            drawn = outline if hand == "left" else outline.mirrored()
            items.append(Item(f"{name} {hand}", drawn, each, piece=name, size="36", hand=hand))
            for _ in range(each):
                low, high = drawn.bbox_mm[1], drawn.bbox_mm[3]
                placements.append(Placement(f"{name} {hand}", 0.0, 0.0, y - low))
                y += high - low + 2.0
    problem = LayProblem(Roll(400.0), tuple(items), gap_mm=2.0)
    lay = Lay(tuple(placements), problem.length_of_mm(placements))
    extra = {
        "mode": mode,
        "hands": list(hands),
        "pairs": {"36": 1},
        "pairs_cut": {"36": plies if mode == "face-up" else plies // 2},
        "turn_tolerance_deg": 0.0,
    }
    return json.loads(json.dumps(lay_file.to_document(problem, lay, plies=plies, extra=extra)))


@pytest.mark.parametrize("mode", ["face-up", "face-to-face"])
def test_what_the_program_writes_does_not_contradict_itself(mode: str) -> None:
    assert verify_document(document(mode)).faults == ()


def _rename(doc: Document, size: str) -> None:
    for entry in (*doc["items"], *doc["placements"]):
        entry["size"] = size


def _one_hand(doc: Document) -> None:
    for entry in (*doc["items"], *doc["placements"]):
        entry["hand"] = "left"


def _without(doc: Document, item: str) -> None:
    doc["items"] = [entry for entry in doc["items"] if entry["id"] != item]
    doc["placements"] = [entry for entry in doc["placements"] if entry["item"] != item]


FACE_UP: list[tuple[str, Callable[[Document], object], FaultKind]] = [
    ("the size on a label", lambda d: d["placements"][0].update(size="37"), FaultKind.LABEL),
    ("the piece on a label", lambda d: d["placements"][0].update(piece="Tongue"), FaultKind.LABEL),
    ("the place on a label", lambda d: d["placements"][0].update(x_mm=5.0), FaultKind.LABEL),
    ("the axis on a label", lambda d: d["placements"][0].update(pull_axis_deg=180.0), FaultKind.LABEL),
    ("a turn that nobody granted", lambda d: d["items"][0].update(turn_tolerance_deg=9.0), FaultKind.LABEL),
    ("an item twice", lambda d: d["items"].append(copy.deepcopy(d["items"][0])), FaultKind.LABEL),
    ("pairs", lambda d: d["pairs"].update({"36": 2}), FaultKind.PAIRS),
    ("a size that is not there", lambda d: d["pairs"].update({"37": 1}), FaultKind.PAIRS),
    ("all pieces of another size", lambda d: _rename(d, "37"), FaultKind.PAIRS),
    ("pairs of the stack", lambda d: d["pairs_cut"].update({"36": 20}), FaultKind.PAIRS),
    ("plies", lambda d: d.update(plies=3), FaultKind.PAIRS),
    ("a left without its right", lambda d: _without(d, "Strap right"), FaultKind.PAIRS),
    ("a right without its left", lambda d: _without(d, "Strap left"), FaultKind.PAIRS),
    ("the spread", lambda d: d.update(mode="face-to-face"), FaultKind.HAND),
    ("the hands", lambda d: d.update(hands=["left"]), FaultKind.HAND),
    ("left pieces only", _one_hand, FaultKind.HAND),
    ("a hand that no shoe has", lambda d: d["items"][0].update(hand="both"), FaultKind.HAND),
    ("a bound above the lay", lambda d: d.update(lower_bound_mm={"area": 9999.0}), FaultKind.LENGTH),
]  # fmt: skip


@pytest.mark.parametrize("what, change, kind", FACE_UP, ids=[what for what, _, _ in FACE_UP])
def test_a_changed_statement_is_found(
    what: str, change: Callable[[Document], object], kind: FaultKind
) -> None:
    doc = document()
    change(doc)
    found = [fault for fault in verify_document(doc).faults if fault.kind is kind]
    assert found and all(fault.message for fault in found), what


def test_odd_plies_face_to_face_are_found_and_so_is_the_other_spread() -> None:
    odd = document("face-to-face")
    odd["plies"] = 3
    odd["pairs_cut"] = {"36": 1}
    assert {fault.kind for fault in verify_document(odd).faults} == {FaultKind.PAIRS}
    up = document("face-to-face")
    up["mode"] = "face-up"
    assert FaultKind.HAND in {fault.kind for fault in verify_document(up).faults}


def test_a_shoe_needs_as_many_of_a_piece_in_every_size() -> None:
    """The right vamp is called a strap of size 37 with its left: one a shoe, where 36 has two."""
    doc = document()
    for entry in (*doc["items"], *doc["placements"]):
        if entry["piece"] == "Vamp":
            entry.update(piece="Strap", size="37")
    doc["pairs"], doc["pairs_cut"] = {"36": 1, "37": 1}, {"36": 2, "37": 2}
    said = [fault.message for fault in verify_document(doc).faults if fault.kind is FaultKind.PAIRS]
    assert said == ["Strap: 1 a shoe in one size, 2 in another"]


def test_holes_left_out_or_added_are_found() -> None:
    ring = Outline.make(VAMP.ring_mm, [[(60, 20), (80, 20), (80, 40), (60, 40)]])
    problem = LayProblem(Roll(400.0), (Item("collar", ring, 1),))
    placements = (Placement("collar", 0.0, 0.0, 0.0),)
    doc = lay_file.to_document(problem, Lay(placements, problem.length_of_mm(placements)))
    assert verify_document(doc).faults == ()
    without = copy.deepcopy(doc)
    without["placements"][0]["holes_mm"] = []
    assert FaultKind.SHAPE in {fault.kind for fault in verify_document(without).faults}
    moved = copy.deepcopy(doc)
    moved["placements"][0]["holes_mm"] = [[[x + 1.0, y] for x, y in moved["placements"][0]["holes_mm"][0]]]
    assert FaultKind.SHAPE in {fault.kind for fault in verify_document(moved).faults}


def test_an_outline_that_crosses_itself_is_a_fault_and_no_accident() -> None:
    doc = document()
    for k in range(5):
        changed = copy.deepcopy(doc)
        changed["placements"][0]["outline_mm"][k] = [130.0, 150.0 + k]
        found = {fault.kind for fault in verify_document(changed).faults}
        assert FaultKind.SHAPE in found and FaultKind.OVERLAP in found


@pytest.mark.parametrize(
    "change",
    [
        lambda d: d["placements"][0]["outline_mm"][0].__setitem__(0, "7"),
        lambda d: d["placements"][0]["outline_mm"][0].__setitem__(0, 1e200),
        lambda d: d.update(gap_mm=True),
        lambda d: d.update(plies="2"),
        lambda d: d.update(plies=0),
        lambda d: d.update(mode="sideways"),
        lambda d: d["pairs"].update({"36": -1}),
    ],
)
def test_what_is_no_number_or_no_spread_is_refused(change: Callable[[Document], object]) -> None:
    doc = document()
    change(doc)
    with pytest.raises(LayFileError):
        verify_document(doc)
