"""Nonsense in a list of edits: every field of every edit, each refused with edit, piece and remedy."""

from __future__ import annotations

import copy
import math
from typing import Any

import pytest

from app.style.drafting.script import DOES, carry_out
from app.style.file import load_style
from geometry.errors import DeskError
from tests.app.window.hands import SAMPLES

STYLE = load_style(SAMPLES["derby"])
QUARTER = "Quarter outer"
SOUND: list[dict[str, Any]] = [
    {"do": "cut", "piece": "Counter", "line": [[560, 190], [560, 270]], "smooth": True, "keep": [520, 230]},
    {"do": "cut", "piece": "Counter", "beside": {"edge": 0, "inward_mm": 25, "from": "net"}, "keep": "inner"},
    {"do": "region", "piece": "Counter", "layer": "new", "cloth": "plain-110", "band": {"edge": 72}},
    {"do": "region", "piece": "Counter", "polygon": [[540, 220], [580, 220], [560, 245]], "rounded_mm": 2},
    {"do": "split", "piece": "Counter", "line": [[560, 190], [560, 270]], "names": ["a", "b"], "notches": 2},
    {"do": "split", "piece": "Counter", "line": [[560, 190], [560, 270]], "overlap_mm": 10, "layer": 1},
    {"do": "join", "piece": "Counter", "with": ["Vamp"]},
    {"do": "change", "piece": "Counter", "line": [[540, 202], [560, 212], [580, 202]], "smooth": True},
    {"do": "smooth", "piece": "Counter", "from": [520, 215], "to": [600, 215]},
    {"do": "layer", "piece": "Counter", "cloth": "plain-110"},
    {"do": "notch", "piece": QUARTER, "at": {"edge": 54, "share": 0.3}, "kind": "v", "depth_mm": 3},
    {"do": "notch", "piece": QUARTER, "at": {"edge": 54, "at_mm": 30}, "width_mm": 2, "on": "both"},
    {"do": "relief", "piece": QUARTER, "edge": 54, "pitch_mm": 8, "depth_mm": 4, "to_share": 0.9},
    {"do": "slit", "piece": QUARTER, "line": [[300, 180], [340, 190]], "smooth": False, "on": "backing"},
    {"do": "mark", "piece": QUARTER, "line": [[300, 180], [340, 190]], "smooth": False, "on": "upper"},
    {"do": "drill", "piece": QUARTER, "at": [320, 200], "diameter_mm": 3, "on": "both"},
    {"do": "text", "piece": QUARTER, "at": [320, 200], "text": "x", "height_mm": 5, "angle_deg": 30},
    {"do": "taper", "piece": QUARTER, "edge": 54, "from_mm": 4, "to_mm": 8},
    {"do": "setback", "piece": QUARTER, "edge": 54, "mm": 4},
    {"do": "allowance", "piece": QUARTER, "edges": [54], "mm": 4},
    {"do": "kind", "piece": QUARTER, "of_kind": "folded", "kind": "raw"},
    {"do": "break_corners", "piece": QUARTER, "corner_deg": 30},
    {"do": "remove", "piece": "Vamp", "what": "keep", "number": 1},
]
NONSENSE = (1e9, -1e9, math.nan, math.inf, "", "è/ ..", "9" * 300, None, [], {}, [[0, 0]], [1, 2, 3])
MEANT = [
    ("layer", "cloth", ""),  # the first cloth
    ("text", "text", "è/ .."),
    ("setback", "mm", None),  # the house rule
    ("allowance", "mm", None),
    ("allowance", "edges", [[0, 0]]),
]
"""What is no nonsense, however it looks."""


def spoilt(edit: dict[str, Any]):
    """The edit with one field made nonsense, and the field's name."""
    fields = [(name,) for name in edit if name != "do"]
    fields += [(name, inner) for name, value in edit.items() if isinstance(value, dict) for inner in value]
    for *outer, last in fields:
        for value in NONSENSE:
            bad = copy.deepcopy(edit)
            holder = bad[outer[0]] if outer else bad
            holder[last] = value
            yield bad, last, value
        if not outer:
            yield {**edit, f"{last}_": 1}, last, "a field misspelt"


@pytest.mark.parametrize("edit", SOUND, ids=lambda edit: edit["do"])
def test_each_field_made_nonsense_is_refused_with_edit_piece_and_remedy(edit: dict[str, Any]) -> None:
    taken = []
    for bad, field, value in spoilt(edit):
        if any((edit["do"], field) == meant[:2] and value == meant[2] for meant in MEANT):
            continue
        try:
            carry_out(STYLE, [bad])
        except DeskError as error:
            told = str(error)
            assert told.startswith(f"edit 1, {edit['do']}") and error.remedy, told
            assert field == "piece" or f"on {edit['piece']}: " in told, told
            assert len(told) < 500 and "Traceback" not in told and "  " not in told, told
        else:
            taken.append((field, value))
    assert not taken


def test_every_edit_there_is_was_tried() -> None:
    assert {edit["do"] for edit in SOUND} == set(DOES)


@pytest.mark.parametrize("asked", [1e9, None, "cut", [], ["cut"], math.nan], ids=repr)
def test_what_is_no_edit_at_all_says_how_one_is_written(asked: Any) -> None:
    with pytest.raises(DeskError) as raised:
        carry_out(STYLE, [asked])
    assert "edit 1" in str(raised.value) and raised.value.remedy
