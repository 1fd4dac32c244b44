"""A pattern maker drafts with mouse and keys: cuts, regions, splits, changes by hand, tapers; all undone."""

import math

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.style import edits
from app.style.document import Document
from app.style.drafting.steps import step_choices
from app.style.file import load_style
from app.style.pieces import piece_backings
from app.window.desks.draft.drawing.figures import FiguresDialog
from app.window.desks.draft.whole.nest import nest_of
from geometry.edge_kinds import EdgeKind
from tests.app.window.hands import SAMPLES, click, drag, key, on_view, with_next_dialog

CTRL, SHIFT, ALT = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
)


@pytest.fixture
def desk(shared, qtbot):
    """The shared window with the derby sample freshly open at the draft desk."""
    window = shared.window
    window.session.open(Document(load_style(SAMPLES["derby"])))
    window.show_desk(0)
    desk = window.desk
    for name in ("flip", "solo", "select"):
        desk.actions_made[f"draft.{name}"].setChecked(name == "select")
    qtbot.waitUntil(lambda: desk.view.visible_mm().contains(desk.scene_of.bounds()))
    yield desk
    desk.gestures.let_go()
    desk.gestures.let_go()
    window.session.open(None)
    window.desks[0].stop()


def at(desk, piece, x, y):
    return desk.board.piece(piece).to_board((x, y))


def layers(desk, piece, size="42"):
    return piece_backings(desk.session.style, piece, size, "left")


def test_a_cut_line_leaves_the_toe_of_the_counter_free_and_undo_gives_it_back(desk):
    whole = layers(desk, "Counter")[0].area_mm2
    key(desk.window(), Qt.Key.Key_X)
    click(desk.view, at(desk, "Counter", 560, 196), ALT)
    click(desk.view, at(desk, "Counter", 560, 262), ALT)
    key(desk.window(), Qt.Key.Key_Return)
    click(desk.view, at(desk, "Counter", 520, 230), ALT)
    cut = layers(desk, "Counter")[0]
    assert cut.area_mm2 < 0.7 * whole
    assert cut.outlines[0].bbox_mm[2] == pytest.approx(560, abs=1.0)
    assert desk.session.document.undo_label == "Draw cut line · Counter"
    assert layers(desk, "Counter", "45")[0].area_mm2 > cut.area_mm2  # graded with the piece
    key(desk.window(), Qt.Key.Key_Z, CTRL)
    assert layers(desk, "Counter")[0].area_mm2 == pytest.approx(whole)


def test_a_split_overlaps_by_what_is_typed(desk):
    key(desk.window(), Qt.Key.Key_W)
    desk.gestures.bar.figure.setFocus()
    QTest.keyClicks(desk.gestures.bar.figure, "10")
    QTest.keyClick(desk.gestures.bar.figure, Qt.Key.Key_Return)
    click(desk.view, at(desk, "Counter", 560, 196), ALT)
    click(desk.view, at(desk, "Counter", 560, 262), ALT)
    key(desk.window(), Qt.Key.Key_Return)
    backing = layers(desk, "Counter")[0]
    assert backing.part_names == ("A", "B")
    a, b = (outline.bbox_mm for outline in backing.outlines)
    low, high = sorted((a, b))
    assert low[2] - high[0] == pytest.approx(10.0, abs=0.05)


def test_a_region_on_a_new_layer_has_a_cloth_of_its_own(desk):
    desk.select("Counter")
    key(desk.window(), Qt.Key.Key_R)
    bar = desk.gestures.bar
    bar.layer.setCurrentIndex(bar.layer.count() - 1)
    bar.layer.activated.emit(bar.layer.count() - 1)
    for x, y in ((540, 220), (580, 220), (580, 245)):
        click(desk.view, at(desk, "Counter", x, y), ALT)
    key(desk.window(), Qt.Key.Key_Return)
    made = desk.session.style.piece("Counter").layers
    assert len(made) == 2 and made[1].cloth == "plain-110"
    assert layers(desk, "Counter")[1].area_mm2 == pytest.approx(40 * 25 / 2, rel=0.1)


def test_a_stretch_is_changed_by_hand_and_told_of(desk):
    key(desk.window(), Qt.Key.Key_J)
    rim = layers(desk, "Counter")[0].outlines[0]
    low = rim.bbox_mm[1]
    for x, y in ((540, low), (560, low + 12), (580, low)):
        click(desk.view, at(desk, "Counter", x, y), ALT)
    key(desk.window(), Qt.Key.Key_Return)
    codes = {finding.code for finding in layers(desk, "Counter")[0].findings}
    assert "CHANGED_BY_HAND" in codes


def test_a_step_of_the_line_is_typed_exactly(desk):
    key(desk.window(), Qt.Key.Key_X)
    click(desk.view, at(desk, "Counter", 560, 230), ALT)
    start = desk.gestures.drawing.points_mm[0]
    bar = desk.gestures.bar
    for field, text in ((bar.length, "12.5"), (bar.angle, "90")):
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)
    QTest.mouseClick(bar.set_point, Qt.MouseButton.LeftButton)
    x, y = desk.gestures.drawing.points_mm[1]
    assert (x, y) == pytest.approx((start[0], start[1] + 12.5))
    key(desk.window(), Qt.Key.Key_Escape)
    assert desk.gestures.drawing.points_mm == []


def test_a_point_snaps_to_a_corner_and_is_kept_by_its_edge(desk):
    edge = desk.board.piece("Counter").edges[0]
    corner = desk.board.piece("Counter").to_board(tuple(edge.points_mm[0]))
    key(desk.window(), Qt.Key.Key_X)
    spot = on_view(desk.view, corner)
    QTest.mouseClick(desk.view.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    assert desk.gestures.drawing.points_mm[0] == pytest.approx(tuple(edge.points_mm[0]))


def test_a_setback_runs_from_one_value_to_another(desk, qtbot):
    shown = desk.board.piece("Quarter outer")
    edge = next(e for e in shown.edges if e.kind is EdgeKind.FOLDED)
    click(desk.view, shown.to_board(edge.point_at(0.37)[0]))

    def fill(dialog: FiguresDialog) -> None:
        for field, text in zip(dialog.fields, ("4", "8"), strict=True):
            field.setFocus()
            QTest.keyClicks(field, text)
        dialog.accept()

    with_next_dialog(fill)
    key(desk.window(), Qt.Key.Key_S, SHIFT)
    held = next(e for e in desk.session.style.piece("Quarter outer").edges if (e.ring, e.start) == edge.name)
    assert (held.setback_mm, held.setback_end_mm) == (4.0, 8.0)


def test_all_edges_of_a_kind_are_chosen(desk):
    shown = desk.board.piece("Vamp")
    edge = next(e for e in shown.edges if e.kind is EdgeKind.UNDERLAY)
    desk.select("Vamp", frozenset({edge.name}))
    key(desk.window(), Qt.Key.Key_A, SHIFT)
    assert len(desk.selecting.edges) == 3


def test_a_notch_is_set_on_the_edge_clicked(desk):
    shown = desk.board.piece("Counter")
    key(desk.window(), Qt.Key.Key_Q)
    click(desk.view, shown.to_board(shown.edges[1].point_at(0.4)[0]))
    assert len(desk.session.style.piece("Counter").details) == 1
    assert len(layers(desk, "Counter")[0].notches) >= 1


def test_slits_and_marks_are_lines_on_backing_and_upper(desk):
    for held, what in ((Qt.KeyboardModifier.NoModifier, "slit"), (SHIFT, "mark")):
        key(desk.window(), Qt.Key.Key_I, held)
        click(desk.view, at(desk, "Counter", 550, 225), ALT)
        click(desk.view, at(desk, "Counter", 570, 235), ALT)
        key(desk.window(), Qt.Key.Key_Return)
        assert desk.session.style.piece("Counter").details[-1].what == what
    assert [d.on for d in desk.session.style.piece("Counter").details] == ["backing", "upper"]
    assert desk.session.document.undo_label == "Draw mark · Counter"


def test_a_mark_goes_on_what_is_chosen(desk):
    key(desk.window(), Qt.Key.Key_I, SHIFT)
    bar = desk.gestures.bar
    bar.on.setCurrentIndex(bar.on.findData("both"))
    bar.on.activated.emit(bar.on.currentIndex())
    click(desk.view, at(desk, "Counter", 550, 225), ALT)
    click(desk.view, at(desk, "Counter", 570, 235), ALT)
    key(desk.window(), Qt.Key.Key_Return)
    assert desk.session.style.piece("Counter").details[-1].on == "both"


def test_a_stretch_is_smoothed_between_two_points(desk):
    key(desk.window(), Qt.Key.Key_C, SHIFT)
    low = layers(desk, "Counter")[0].outlines[0].bbox_mm[1]
    click(desk.view, at(desk, "Counter", 540, low), ALT)
    click(desk.view, at(desk, "Counter", 580, low), ALT)
    assert desk.session.document.undo_label == "Smooth stretch · Counter"
    (change,) = desk.session.style.piece("Counter").layers[0].changes
    assert change.smooth and len(change.places) > 2


def test_the_parts_of_a_split_are_named_on_the_desk(desk):
    key(desk.window(), Qt.Key.Key_W)
    for field, name in zip(desk.gestures.bar.parts, ("toe", "heel"), strict=True):
        field.setFocus()
        QTest.keyClicks(field, name)
        QTest.keyClick(field, Qt.Key.Key_Return)
    click(desk.view, at(desk, "Counter", 560, 196), ALT)
    click(desk.view, at(desk, "Counter", 560, 262), ALT)
    key(desk.window(), Qt.Key.Key_Return)
    assert layers(desk, "Counter")[0].part_names == ("toe", "heel")
    for field in desk.gestures.bar.parts:
        field.clear()


def free_corner(desk):
    """A place on the board that is seen and beside all pieces."""
    box = desk.scene_of.bounds()
    return round(box.left()) + 4.0, round(box.bottom()) + 6.0


def test_a_rectangle_is_dragged_and_a_backing_alone_is_typed(desk):
    count = len(desk.session.style.pieces)
    x, y = free_corner(desk)
    key(desk.window(), Qt.Key.Key_T)
    drag(desk.view, (x, y), (x + 40, y + 8))
    made = desk.session.style.pieces[-1]
    assert len(desk.session.style.pieces) == count + 1 and not made.backing_only
    assert desk.selecting.piece == made.name == "New piece"
    bar = desk.gestures.shape_bar
    bar.alone.setChecked(True)
    bar.name.setText("Stay")
    click(desk.view, (x + 60, y))
    for field, text in ((bar.first, "55"), (bar.high, "12.5")):
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)
    QTest.mouseClick(bar.set_figures, Qt.MouseButton.LeftButton)
    stay = desk.session.style.piece("Stay")
    assert stay.backing_only
    assert layers(desk, "Stay")[0].area_mm2 == pytest.approx(55 * 12.5)
    bar.alone.setChecked(False)
    key(desk.window(), Qt.Key.Key_Z, CTRL)
    key(desk.window(), Qt.Key.Key_Z, CTRL)
    assert len(desk.session.style.pieces) == count


def test_a_free_shape_closes_at_its_first_corner_and_may_not_cross_itself(desk):
    x, y = free_corner(desk)
    key(desk.window(), Qt.Key.Key_O, SHIFT)
    for corner in ((x, y), (x + 30, y), (x + 30, y + 8)):
        click(desk.view, corner, ALT)
    bar = desk.gestures.shape_bar
    for field, text in ((bar.first, "20"), (bar.angle, "180")):
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)
    QTest.mouseClick(bar.set_figures, Qt.MouseButton.LeftButton)
    click(desk.view, (x, y))
    made = desk.session.style.pieces[-1]
    assert len(made.drawings["42"].outline_mm) == 4
    told = []
    desk.status.connect(told.append)
    count = len(desk.session.style.pieces)
    for corner in ((x, y - 30), (x + 30, y - 20), (x + 30, y - 30), (x, y - 24)):
        click(desk.view, corner, ALT)
    key(desk.window(), Qt.Key.Key_Return)
    assert len(desk.session.style.pieces) == count and any("not clean" in text for text in told)


def test_a_step_of_the_setback_is_run_out_along_the_edge_chosen_beside_the_finding(desk, qtbot):
    style = desk.session.style
    piece = "Quarter inner"
    ring = style.piece(piece).drawings[style.size_run.base].outline_mm
    starts = {edge.start for edge in style.piece(piece).edges if edge.ring == 0}

    def bend(k):
        a, b, c = (ring[(k + step) % len(ring)] for step in (-1, 0, 1))
        turn = math.atan2(c[1] - b[1], c[0] - b[0]) - math.atan2(b[1] - a[1], b[0] - a[0])
        return abs(math.remainder(turn, math.tau))

    far = [k for k in range(len(ring)) if all(math.dist(ring[k], ring[s]) > 15.0 for s in starts)]
    smooth = min(far, key=bend)
    style = edits.add_break(style, piece, 0, smooth)
    desk.session.apply("step", edits.set_setback(style, piece, [(0, smooth)], 9.0))
    desk._find()
    model = desk.findings.model
    row = next(r for r, finding in enumerate(model.rows) if finding.code == "SETBACK_STEP")
    found = model.rows[row]
    view = desk.findings.view
    view.scrollTo(model.index(row, 0))
    QTest.mouseClick(
        view.viewport(), Qt.MouseButton.LeftButton, pos=view.visualRect(model.index(row, 0)).center()
    )
    offer = desk.step_offer
    assert offer.isVisible() and sum(button.isVisible() for button in offer.buttons) == 2
    before, behind = step_choices(desk.session.style, piece, found.where_mm[0])
    assert before.to_mm == behind.to_mm == 9.0 and before.from_mm == behind.from_mm
    shown = desk.session.lengths.text(9.0)
    assert all(shown in button.text() for button in offer.buttons[:2])
    QTest.mouseClick(offer.buttons[0], Qt.MouseButton.LeftButton)
    edge = next(e for e in desk.session.style.piece(piece).edges if (e.ring, e.start) == before.edge)
    assert (edge.setback_mm, edge.setback_end_mm) == (before.from_mm, 9.0)
    desk._find()
    assert not offer.isVisible()
    assert all(f.code != "SETBACK_STEP" or f.piece != piece for f in model.rows)
    key(desk.window(), Qt.Key.Key_Z, CTRL)
    desk._find()
    assert any(f.code == "SETBACK_STEP" and f.piece == piece for f in model.rows)


def test_the_size_nest_shows_what_is_drawn_in_every_size(desk):
    style = desk.session.style
    assert all(not each.backings for sizes in nest_of(style, "Counter", "42", drawn=True) for each in sizes)
    key(desk.window(), Qt.Key.Key_X)
    click(desk.view, at(desk, "Counter", 560, 196), ALT)
    click(desk.view, at(desk, "Counter", 560, 262), ALT)
    key(desk.window(), Qt.Key.Key_Return)
    click(desk.view, at(desk, "Counter", 520, 230), ALT)
    smaller, larger = nest_of(desk.session.style, "Counter", "42", drawn=True)
    assert [len(smaller), len(larger)] == [2, 3]
    areas = [each.backings[0].area_mm2 for each in (*smaller, *larger)]
    assert areas == sorted(areas) and areas[0] < areas[-1]  # what the cut leaves grows with the size
    desk.select("Counter")
    desk.actions_made["draft.show_nest"].setChecked(True)
    desk._find()
    shown = desk.scene_of._drawn["Counter"].shown.nest
    assert shown[1][-1].backings and not desk.scene_of._drawn["Vamp"].shown.nest[1][-1].backings
    desk.actions_made["draft.show_nest"].setChecked(False)


def test_figures_that_make_no_sense_are_refused_where_they_are_typed(desk):
    """Nothing is lost and nothing is half done: the style and its steps are as they were."""
    before, told = desk.session.style, []
    desk.status.connect(told.append)
    edge = desk.board.piece("Counter").edges[0]
    desk.select("Counter", frozenset({edge.name}))
    asked = []

    def nonsense(dialog: FiguresDialog) -> None:
        for text in ("", "wide", "nan"):
            dialog.fields[0].setFocus()
            dialog.fields[0].selectAll()
            QTest.keyClicks(dialog.fields[0], text)
            dialog.accept()
            asked.append((dialog.isVisible(), dialog.told.text()))
        QTest.keyClicks(dialog.fields[0], "1e9")
        dialog.accept()

    for code in (Qt.Key.Key_X, Qt.Key.Key_Q):
        with_next_dialog(nonsense)
        key(desk.window(), code, SHIFT)
    assert all(shown and "type a length" in text for shown, text in asked) and len(asked) == 6

    key(desk.window(), Qt.Key.Key_W)
    bar = desk.gestures.bar
    bar.figure.setFocus()
    bar.figure.selectAll()
    QTest.keyClicks(bar.figure, "-3")
    QTest.keyClick(bar.figure, Qt.Key.Key_Return)
    assert desk.gestures.drawing.overlap_mm >= 0.0 and "0 or more" in told[-1]
    click(desk.view, at(desk, "Counter", 560, 230), ALT)
    for field, text in ((bar.length, "1e12"), (bar.angle, "90")):
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)
    QTest.mouseClick(bar.set_point, Qt.MouseButton.LeftButton)
    key(desk.window(), Qt.Key.Key_Return)
    assert "no such length fits" in told[-1]
    assert desk.session.style == before and desk.session.document.labels == ()


def test_a_hole_gets_the_diameter_and_a_notch_the_depth_that_is_typed(desk):
    bar = desk.gestures.bar
    for mode, figure in ((Qt.Key.Key_Y, "3"), (Qt.Key.Key_Q, "4,5")):
        key(desk.window(), mode)
        bar.figure.setFocus()
        bar.figure.setText(figure)
        QTest.keyClick(bar.figure, Qt.Key.Key_Return)
        click(desk.view, at(desk, "Counter", 560, 230 if mode == Qt.Key.Key_Y else 264), ALT)
    hole, notch = desk.session.style.piece("Counter").details
    assert hole.diameter_mm == 3.0 and notch.depth_mm == 4.5


def test_a_word_is_written_as_high_and_on_what_is_chosen(desk):
    desk.pick_piece("Counter")

    def write(dialog) -> None:
        dialog.word.setText("42 L")
        dialog.high.setText("6")
        dialog.on.setCurrentIndex(dialog.on.findData("upper"))
        dialog.accept()

    with_next_dialog(write)
    key(desk.window(), Qt.Key.Key_W, SHIFT)
    (word,) = desk.session.style.piece("Counter").details
    assert (word.text, word.height_mm, word.on) == ("42 L", 6.0, "upper")
