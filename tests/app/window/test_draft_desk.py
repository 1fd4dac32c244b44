"""The pattern maker's work by mouse and keys: mark, drag, type, confirm, copy, measure, undo."""

import threading
from unittest.mock import patch

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.style.document import Document
from app.style.file import load_style
from app.style.pieces import piece_backings
from app.window.running import derive_beside
from geometry.edge_kinds import EdgeKind
from geometry.findings import Finding, Severity
from tests.app.window.hands import SAMPLES, answer, click, drag, key, on_view

CTRL, ALT = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.AltModifier,
)


@pytest.fixture
def derby(shared, qtbot):
    """The shared window with the derby sample freshly open at the draft desk."""
    window = shared.window
    window.session.open(Document(load_style(SAMPLES["derby"])))
    window.show_desk(0)
    for name in ("flip", "solo", "select"):
        window.desk.actions_made[f"draft.{name}"].setChecked(name == "select")
    yield window
    window.session.open(None)
    window.desks[0].stop()


@pytest.fixture
def desk(derby, qtbot):
    desk = derby.desk
    qtbot.waitUntil(lambda: desk.view.visible_mm().contains(desk.scene_of.bounds()))
    return desk


def edge_of(desk, piece: str, kind: EdgeKind):
    shown = desk.board.piece(piece)
    return next(edge for edge in shown.edges if edge.kind is kind)


def middle(desk, piece: str, edge) -> tuple[float, float]:
    return desk.board.piece(piece).to_board(edge.point_at(0.5)[0])


def style_edge(desk, piece: str, name):
    return next(e for e in desk.session.style.piece(piece).edges if (e.ring, e.start) == name)


def test_click_an_edge_and_press_a_number_key(derby, desk):
    edge = edge_of(desk, "Quarter outer", EdgeKind.LASTING)
    click(desk.view, middle(desk, "Quarter outer", edge))
    assert desk.selecting.piece == "Quarter outer" and desk.selecting.edges == {edge.name}
    before = piece_backings(desk.session.style, "Quarter outer", "42", "left")[0].area_mm2
    key(derby, Qt.Key.Key_7)
    assert style_edge(desk, "Quarter outer", edge.name).kind is EdgeKind.RAW
    assert piece_backings(desk.session.style, "Quarter outer", "42", "left")[0].area_mm2 > before
    key(derby, Qt.Key.Key_Z, CTRL)
    assert style_edge(desk, "Quarter outer", edge.name).kind is EdgeKind.LASTING
    assert derby.session.document.redo_label == "Edge kind · Quarter outer"


def test_sweep_over_edges_and_click_a_kind(derby, desk, qtbot):
    x0, y0, x1, y1 = desk.board.piece("Tongue").outline.bbox_mm
    click(desk.view, ((x0 + x1) / 2, (y0 + y1) / 2))
    drag(desk.view, (x0 - 6, y0 - 6), (x1 + 6, y1 + 6))
    count = len(desk.board.piece("Tongue").edges)
    assert desk.selecting.piece == "Tongue" and len(desk.selecting.edges) == count > 1
    qtbot.mouseClick(desk.inspector.kinds[EdgeKind.FOLDED], Qt.MouseButton.LeftButton)
    kinds = [edge.kind for edge in desk.session.style.piece("Tongue").edges]
    assert kinds == [EdgeKind.FOLDED] * count
    assert len(derby.session.document.labels) == 1


def test_a_setback_is_typed_stepped_and_forgotten(derby, desk):
    edge = edge_of(desk, "Vamp", EdgeKind.LASTING)
    click(desk.view, middle(desk, "Vamp", edge))
    key(derby, Qt.Key.Key_S)
    QTest.keyClicks(QApplication.focusWidget(), "12,5")
    key(derby, Qt.Key.Key_Return)
    assert style_edge(desk, "Vamp", edge.name).setback_mm == 12.5
    for _ in range(3):
        key(derby, Qt.Key.Key_Up, ALT)
    assert style_edge(desk, "Vamp", edge.name).setback_mm == 14.0
    key(derby, Qt.Key.Key_Backspace, ALT)
    assert style_edge(desk, "Vamp", edge.name).setback_mm is None
    assert derby.session.document.labels == ("Setback · Vamp",)  # strokes of one gesture


def test_a_word_is_no_setback_and_the_old_one_stays(derby, desk):
    edge = edge_of(desk, "Vamp", EdgeKind.LASTING)
    click(desk.view, middle(desk, "Vamp", edge))
    key(derby, Qt.Key.Key_S)
    QTest.keyClicks(QApplication.focusWidget(), "wide")
    key(derby, Qt.Key.Key_Return)
    assert style_edge(desk, "Vamp", edge.name).setback_mm is None
    assert "wide" in derby.statusBar().currentMessage()
    assert not derby.isWindowModified()


def test_the_axis_is_turned_by_its_handle_live_and_in_one_step(derby, desk):
    desk.select("Vamp")
    end = desk.board.piece("Vamp").axis_ends_mm()[1]
    cx, cy = desk.board.piece("Vamp").middle_mm
    drag(desk.view, end, (cx + 40, cy + 40), let_go=False)
    assert desk.session.style.piece("Vamp").pull_axis.axis_deg == pytest.approx(45, abs=1)
    assert desk.session.document.style.piece("Vamp").pull_axis.axis_deg == 0  # not committed yet
    assert derby.session.document.labels == ()
    QTest.mouseRelease(
        desk.view.viewport(), Qt.MouseButton.LeftButton, pos=on_view(desk.view, (cx + 40, cy + 40))
    )
    assert derby.session.document.labels == ("Turn pull axis · Vamp",)
    key(derby, Qt.Key.Key_Z, CTRL)
    assert desk.session.style.piece("Vamp").pull_axis.axis_deg == 0


def test_escape_while_dragging_leaves_everything_as_it_was(derby, desk):
    desk.select("Vamp")
    end = desk.board.piece("Vamp").axis_ends_mm()[1]
    drag(desk.view, end, (end[0], end[1] + 60), let_go=False)
    key(derby, Qt.Key.Key_Escape)
    QTest.mouseRelease(desk.view.viewport(), Qt.MouseButton.LeftButton, pos=on_view(desk.view, end))
    assert desk.session.style.piece("Vamp").pull_axis.axis_deg == 0 and not derby.isWindowModified()


def test_undo_while_dragging_does_not_commit_the_drag(derby, desk):
    desk.select("Vamp")
    key(derby, Qt.Key.Key_Left, ALT)
    end = desk.board.piece("Vamp").axis_ends_mm()[1]
    drag(desk.view, end, (end[0], end[1] + 60), let_go=False)
    key(derby, Qt.Key.Key_Z, CTRL)
    QTest.mouseRelease(desk.view.viewport(), Qt.MouseButton.LeftButton, pos=on_view(desk.view, end))
    assert desk.session.style.piece("Vamp").pull_axis.axis_deg == 0
    assert derby.session.document.redo_label == "Turn pull axis · Vamp"


def test_the_axis_is_typed(derby, desk):
    desk.select("Counter")
    key(derby, Qt.Key.Key_A)
    QTest.keyClicks(QApplication.focusWidget(), "-12,5")
    key(derby, Qt.Key.Key_Return)
    axis = desk.session.style.piece("Counter").pull_axis
    assert (axis.axis_deg, axis.source, axis.confirmed) == (-12.5, "person", True)


def test_a_break_point_is_added_dragged_and_removed(derby, desk):
    shown = desk.board.piece("Vamp")
    start = edge_of(desk, "Vamp", EdgeKind.LASTING).name[1]
    ring = shown.outline.ring_mm
    count = len(shown.edges)
    key(derby, Qt.Key.Key_B)
    click(desk.view, tuple(ring[start + 20]))
    assert len(desk.session.style.piece("Vamp").edges) == count + 1
    drag(desk.view, tuple(ring[start + 20]), tuple(ring[start + 26]))
    starts = {e.start for e in desk.session.style.piece("Vamp").edges}
    assert start + 26 in starts and start + 20 not in starts
    click(desk.view, tuple(ring[start + 26]))
    assert len(desk.session.style.piece("Vamp").edges) == count
    assert derby.session.document.labels == (
        "Add break point · Vamp",
        "Move break point · Vamp",
        "Remove break point · Vamp",
    )
    key(derby, Qt.Key.Key_Escape)
    assert desk.actions_made["draft.select"].isChecked()


def test_kinds_are_copied_to_the_mirrored_quarter_as_suggestions_and_confirmed(derby, desk):
    edge = edge_of(desk, "Quarter outer", EdgeKind.LASTING)
    inner = edge_of(desk, "Quarter inner", EdgeKind.LASTING).name
    click(desk.view, middle(desk, "Quarter outer", edge))
    key(derby, Qt.Key.Key_3)
    key(derby, Qt.Key.Key_K)
    copied = style_edge(desk, "Quarter inner", inner)
    assert copied.kind is EdgeKind.SKIVED and not copied.confirmed
    key(derby, Qt.Key.Key_N)
    assert desk.selecting.piece == "Quarter inner" and desk.selecting.edges == {inner}
    key(derby, Qt.Key.Key_Return)
    assert style_edge(desk, "Quarter inner", inner).confirmed


def test_confirming_everything_asks_first(derby, desk):
    edge = edge_of(desk, "Quarter outer", EdgeKind.LASTING)
    click(desk.view, middle(desk, "Quarter outer", edge))
    key(derby, Qt.Key.Key_K)
    assert not all(e.confirmed for p in desk.session.style.pieces for e in p.edges)
    answer("No")
    key(derby, Qt.Key.Key_Return, CTRL)
    assert not all(e.confirmed for p in desk.session.style.pieces for e in p.edges)
    answer("Yes")
    key(derby, Qt.Key.Key_Return, CTRL)
    assert all(e.confirmed for p in desk.session.style.pieces for e in p.edges)


def test_pieces_and_edges_are_reached_by_keys_alone(derby, desk):
    key(derby, Qt.Key.Key_PageDown)
    assert desk.selecting.piece == "Vamp"
    key(derby, Qt.Key.Key_PageUp)
    assert desk.selecting.piece == "Counter"
    key(derby, Qt.Key.Key_Right, CTRL)
    first = desk.selecting.edges
    key(derby, Qt.Key.Key_Right, CTRL)
    assert len(first) == 1 and desk.selecting.edges != first
    key(derby, Qt.Key.Key_A, CTRL)
    assert len(desk.selecting.edges) == len(desk.session.style.piece("Counter").edges)


def test_a_measure_between_two_drawn_points(derby, desk):
    a, b = desk.board.piece("Tongue").outline.ring_mm[[0, 20]]
    key(derby, Qt.Key.Key_M)
    drag(desk.view, tuple(a), tuple(b))
    wanted = f"{((a - b) ** 2).sum() ** 0.5:.2f} mm"
    assert derby.statusBar().currentMessage().startswith(wanted)
    assert not derby.isWindowModified()


def test_a_finding_takes_the_board_to_its_place(derby, desk):
    where = tuple(float(v) for v in desk.board.piece("Vamp").outline.ring_mm[5])
    finding = Finding(
        code="X", severity=Severity.WARNING, message="look here", piece="Vamp", where_mm=(where,)
    )
    desk.findings.show_findings([finding])
    index = desk.findings.model.index(0)
    QTest.mouseClick(
        desk.findings.view.viewport(),
        Qt.MouseButton.LeftButton,
        pos=desk.findings.view.visualRect(index).center(),
    )
    assert desk.selecting.piece == "Vamp"
    assert desk.view.visible_mm().contains(QPointF(*where))
    assert desk.scene_of._rings[0].pos() == QPointF(*where)


def test_the_wheel_zooms_to_the_pointer_and_control_with_shift_pans(derby, desk):
    view = desk.view
    at = QPointF(137, 211)
    before, scale = view.to_mm(at), view.px_per_mm
    none, phase = Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase
    spin = QPointF(0, 240).toPoint()
    wheel = QWheelEvent(
        at, view.viewport().mapToGlobal(at), spin * 0, spin, Qt.MouseButton.NoButton, none, phase, False
    )
    QApplication.sendEvent(view.viewport(), wheel)
    after = view.to_mm(at)
    assert view.px_per_mm > scale * 1.3
    assert (after - before).manhattanLength() < 1e-6
    start = view.to_mm(QPointF(200, 200))
    end = view.to_mm(QPointF(260, 230))
    drag(view, (start.x(), start.y()), (end.x(), end.y()), modifiers=CTRL | Qt.KeyboardModifier.ShiftModifier)
    moved = view.to_mm(QPointF(260, 230)) - start
    assert moved.manhattanLength() * view.px_per_mm < 1.5
    key(derby, Qt.Key.Key_Home)
    assert view.visible_mm().contains(desk.scene_of.bounds())


def test_glue_side_up_mirrors_what_is_shown_and_not_the_style(derby, desk):
    edge = edge_of(desk, "Quarter outer", EdgeKind.SEAM)
    right = middle(desk, "Quarter outer", edge)
    key(derby, Qt.Key.Key_G)
    flipped = middle(desk, "Quarter outer", edge)
    cx = desk.board.piece("Quarter outer").middle_mm[0]
    assert flipped[0] == pytest.approx(2 * cx - right[0]) and flipped[1] == right[1]
    click(desk.view, flipped)
    assert desk.selecting.edges == {edge.name}
    assert not derby.isWindowModified()


def test_two_sizes_lie_over_each_other(derby, desk, qtbot):
    strip = desk.strip
    strip.over_box.setCurrentIndex(strip.over_box.findData("45"))
    strip.over_box.activated.emit(strip.over_box.currentIndex())
    qtbot.waitUntil(lambda: not desk.size_on_board.waiting)
    shown = desk.scene_of._drawn["Vamp"].shown
    assert shown.over is not None and shown.over.area_mm2 > shown.piece.outline.area_mm2


def test_another_size_can_be_looked_at_but_is_marked_on_the_base(derby, desk, qtbot):
    strip = desk.strip
    strip.size_box.setCurrentIndex(strip.size_box.findData("44"))
    strip.size_box.activated.emit(strip.size_box.currentIndex())
    qtbot.waitUntil(lambda: not desk.size_on_board.waiting)
    assert desk.board.piece("Vamp").upper.size == "44"
    desk.select("Vamp")
    drag(desk.view, desk.board.piece("Vamp").axis_ends_mm()[1], (300, 300))
    assert not derby.isWindowModified()


def test_a_size_never_shown_is_derived_beside_the_window(derby, desk, qtbot):
    """Until it is there the board keeps what it shows, whatever is done; the last one asked for comes."""
    strip, told = desk.strip, []
    desk.status.connect(told.append)
    strip.size_box.setFocus()
    threads = []
    derive = derive_beside._derive
    first = threading.Event()

    def slow(style, wanted, hands):
        threads.append((threading.current_thread().name, {size for _, size in wanted}))
        first.wait()
        return derive(style, wanted, hands)

    with patch.object(derive_beside, "_derive", slow):
        QTest.keyClick(strip.size_box, Qt.Key.Key_End)
        largest = strip.size_shown
        desk.select("Vamp")
        kept, on_base = desk.board.piece("Vamp").upper.size, desk.on_base
        QTest.keyClick(strip.size_box, Qt.Key.Key_Up)
        next_to_it = strip.size_shown
        first.set()
        qtbot.waitUntil(lambda: not desk.size_on_board.waiting)
    assert desk.board.piece("Vamp").upper.size == next_to_it not in ("42", largest)
    assert kept == "42" and not on_base
    assert threads == [("derive", {largest}), ("derive", {next_to_it})]
    assert any(largest in line for line in told) and told[-1] == ""


def test_a_size_that_cannot_be_graded_says_why_and_the_base_size_stays(derby, desk, monkeypatch, qtbot):
    told, faults = [], []
    monkeypatch.setattr("sys.excepthook", lambda kind, error, trace: faults.append(error))
    desk.status.connect(told.append)
    desk.strip.size_box.setFocus()
    QTest.keyClick(desk.strip.size_box, Qt.Key.Key_End)
    largest = desk.strip.size_shown
    assert largest != desk.session.style.size_run.base
    qtbot.waitUntil(lambda: not desk.size_on_board.waiting)
    edge = desk.board.piece("Counter").edges[0]
    desk.select("Counter", frozenset({edge.name}))
    field = desk.inspector.allowance
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "1900")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert faults == []
    assert desk.strip.size_shown == desk.session.style.size_run.base
    assert any("Counter" in line and largest in line for line in told), told
    assert desk.inspector.allowance.isEnabled(), "the field that mends it is there"
    key(derby, Qt.Key.Key_Z, CTRL)
    assert style_edge(desk, "Counter", edge.name).allowance_mm != 1900


@pytest.mark.parametrize("typed", ["3000000000", "1" * 21, "100", "0"])
def test_a_count_that_no_shoe_has_is_refused_and_leaves_the_field(derby, desk, monkeypatch, typed):
    told, faults = [], []
    monkeypatch.setattr("sys.excepthook", lambda kind, error, trace: faults.append(error))
    desk.status.connect(told.append)
    desk.select("Vamp")
    field = desk.inspector.per_shoe
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, typed)
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert faults == []
    assert desk.session.style.piece("Vamp").per_shoe == 1 and field.text() == "1"
    assert told, "the refusal is said"


def test_renaming_to_a_taken_name_is_refused(derby, desk):
    desk.select("Vamp")
    field = desk.inspector.name
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "Tongue")
    key(derby, Qt.Key.Key_Return)
    assert next(p.name for p in desk.session.style.pieces) == "Vamp" and desk.selecting.piece == "Vamp"
    assert "Tongue" in derby.statusBar().currentMessage()
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "Front")
    key(derby, Qt.Key.Key_Return)
    assert desk.session.style.pieces[0].name == "Front" and desk.selecting.piece == "Front"


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_every_sample_opens_and_every_piece_can_be_selected(shell, name, qtbot):
    window = shell.window
    assert window.files.open_paths([SAMPLES[name]])
    desk = window.desk
    for piece in desk.session.style.pieces:
        desk.pick_piece(piece.name)
        assert desk.inspector.name.text() == piece.name
    assert not window.isWindowModified()


def test_another_piece_selected_by_key_lets_go_of_the_hold_line_in_the_hand(derby, desk, monkeypatch):
    faults = []
    monkeypatch.setattr("sys.excepthook", lambda kind, error, trace: faults.append(error))
    style = desk.session.style
    with_line = next(p for p in style.pieces if p.hold_line is not None)
    without = next(p for p in style.pieces if p.hold_line is None)
    desk.pick_piece(with_line.name)
    desk.fit()
    key(derby, Qt.Key.Key_H)
    end = desk.board.piece(with_line.name).to_board(with_line.hold_line.to_mm)
    beside = (end[0] + 6.0, end[1] + 6.0)
    drag(desk.view, end, beside, let_go=False)
    assert desk.session.style != style, "the line follows the hand"
    desk.pick_piece(without.name)
    assert desk.session.style == style
    move_to, port = on_view(desk.view, (end[0] - 9.0, end[1])), desk.view.viewport()
    QTest.mouseMove(port, move_to)
    QTest.mouseRelease(port, Qt.MouseButton.LeftButton, pos=move_to)
    key(derby, Qt.Key.Key_Escape)
    assert faults == [] and desk.session.style == style


def test_the_hold_line_is_drawn_limited_moved_removed_and_undone(derby, qtbot):
    """Mouse and keys only: H, drag heel to throat, the limit typed, an end dragged, Del, undo."""
    desk = derby.desk
    desk.pick_piece("Tongue")
    key(derby, Qt.Key.Key_H)
    piece = desk.board.piece("Tongue")
    x0, y0, x1, y1 = piece.outline.bbox_mm
    x = (x0 + x1) / 2  # the tongue's pull axis stands upright
    a, b = piece.to_board((x, y0 + 8)), piece.to_board((x + 3, y1 - 8))
    drag(desk.view, a, b, modifiers=Qt.KeyboardModifier.ControlModifier)
    line = desk.piece_data.hold_line
    assert line.limit_mm is None and line.to_mm[0] == pytest.approx(line.from_mm[0], abs=1e-3)
    key(derby, Qt.Key.Key_H, Qt.KeyboardModifier.ShiftModifier)
    QTest.keyClicks(desk.inspector.hold_limit, "1,5")
    QTest.keyClick(desk.inspector.hold_limit, Qt.Key.Key_Return)
    assert desk.piece_data.hold_line.limit_mm == 1.5
    drag(desk.view, piece.to_board(line.to_mm), piece.to_board((x, y1 - 20)))
    assert desk.piece_data.hold_line.to_mm[1] < line.to_mm[1]
    qtbot.waitUntil(lambda: desk.judge.held_for(desk.session.style) is not None)
    held = next(p for p in desk.judge.held.pieces if p.piece == "Tongue")
    moved = desk.piece_data.hold_line
    assert held.hold.distance_mm == pytest.approx(moved.to_mm[1] - moved.from_mm[1], rel=0.01)
    key(derby, Qt.Key.Key_Delete)
    assert desk.piece_data.hold_line is None
    for left in (moved, line.model_copy(update={"limit_mm": 1.5}), line, None):
        key(derby, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
        assert desk.piece_data.hold_line == left
    qtbot.waitUntil(lambda: not desk.judge.waiting)
