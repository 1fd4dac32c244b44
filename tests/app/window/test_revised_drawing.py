"""A revised court drawing in the window: throat moved, quarter renamed, piece added; what was drawn stays."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import Qt

from app.style.drafting import draw, where
from app.style.file import load_style
from app.style.pieces import piece_backings
from app.window.revised_drawing import RevisedDrawing
from geometry.dxf.read import read_drawing
from geometry.outline import Outline
from tests.app.window.hands import SAMPLES

BASE = "37"


def revised(drawing, throat):
    """The court drawing with its throat 6 mm nearer the toe, a quarter renamed, one piece more."""
    pieces = []
    for piece in drawing.pieces:
        if piece.name == "Vamp":
            ring = piece.outline.ring_mm
            away = np.hypot(*(ring - throat).T)[:, None]
            moved = ring + np.array([6.0, 0.0]) * np.exp(-((away / 25.0) ** 2))
            piece = replace(piece, outline=Outline.make(moved))
        pieces.append(replace(piece, name=piece.name.replace("Quarter outer", "Outside quarter")))
    pocket = Outline.make([(420, 0), (500, 0), (490, 25), (430, 25)])
    return replace(drawing, pieces=(*pieces, replace(pieces[-1], name="Pocket", outline=pocket, notches=())))


@pytest.fixture(scope="module")
def dialog(shared):
    style = load_style(SAMPLES["court"])
    across = where.course([where.in_frame((290.0, y)) for y in (115.0, 215.0)])
    style = draw.add_split(style, "Quarter outer", 0, across, names=("back", "front"), overlap_mm=8.0)
    line = where.beside(style, "Vamp", (0, 0), 30.0, from_net=True)
    style = draw.add_cut(style, "Vamp", 0, line, where.inner_side(style, "Vamp", (0, 0), line))
    ring = np.array(style.piece("Vamp").drawings[BASE].outline_mm[129:233])  # its folded top line
    drawing = revised(read_drawing(SAMPLES["court"].with_name("court.dxf")), ring[ring[:, 0].argmax()])
    made = RevisedDrawing(style, drawing, Path("court-2.dxf"), shared.window.session.lengths, shared.window)
    yield style, made
    made.deleteLater()


def rows(dialog):
    return [dialog._list.item(row).text() for row in range(dialog._list.count())]


def test_what_moved_what_is_known_by_its_shape_and_what_is_new_is_told(dialog):
    _, shown = dialog
    vamp, outer, inner, pocket = rows(shown)
    assert "moved by 6.0 mm, edges kept: 4" in vamp and "moved by 0.0 mm, edges kept: 4" in outer
    assert "edges kept: 4" in inner and "added" in pocket
    shown._list.setCurrentRow(0)
    assert "check them" in shown._told.text()
    shown._list.setCurrentRow(1)
    assert "Outside quarter" in shown._told.text(), "a name that changed is told"
    assert "check them" not in shown._told.text(), "what did not move needs no second look"


def test_all_that_was_drawn_and_marked_is_on_the_new_outlines(dialog):
    before, shown = dialog
    after = shown.taken().style
    assert [p.name for p in after.pieces] == [*(p.name for p in before.pieces), "Pocket"]
    for piece in before.pieces:
        kept = [(e.kind, e.setback_mm, e.confirmed) for e in after.piece(piece.name).edges]
        assert kept == [(e.kind, e.setback_mm, e.confirmed) for e in piece.edges]
    (split,) = piece_backings(after, "Quarter outer", BASE, "left")
    assert sorted(split.part_names) == ["back", "front"]
    (old,), (new,) = (piece_backings(s, "Vamp", BASE, "left") for s in (before, after))
    toe = [b.outlines[0].bbox_mm[2] for b in (old, new)]
    assert toe[0] == pytest.approx(toe[1], abs=0.01), "the toe line hangs on the lasting edge, which stayed"
    assert new.area_mm2 < old.area_mm2, "the throat took 6 mm of it"


def test_a_piece_that_is_refused_stays_as_it_was_and_the_others_come(dialog):
    before, shown = dialog
    shown._list.item(0).setCheckState(Qt.CheckState.Unchecked)
    after = shown.taken().style
    assert after.piece("Vamp") == before.piece("Vamp") and after.pieces[-1].name == "Pocket"
    shown._list.item(0).setCheckState(Qt.CheckState.Checked)
