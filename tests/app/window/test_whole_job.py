"""The whole job on a sample drawing by mouse and keys only: import, mark, confirm, lay, write, save."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog

from app.style.file import load_style
from app.window.drawing_import import SizeQuestion
from geometry.edge_kinds import EdgeKind
from nesting.files import lay_file
from nesting.verify import verify_document
from tests.app.window.hands import ROOT, answer, click, drag, key, with_next_dialog

CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


def say_size(dialog) -> None:
    assert isinstance(dialog, SizeQuestion)
    dialog.size_field.setFocus()
    dialog.size_field.selectAll()
    QTest.keyClicks(dialog.size_field, "37")
    QTest.keyClick(dialog.size_field, Qt.Key.Key_Return)


def test_from_a_drawing_to_cutter_files(shell, qtbot, tmp_path, monkeypatch):
    window = shell.window
    drawing = ROOT / "sample_styles/court/court.dxf"
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *a, **k: ([str(drawing)], ""))
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *a, **k: (str(tmp_path / "court"), ""))
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *a, **k: str(tmp_path))

    with_next_dialog(say_size)  # the drawing names no size
    key(window, Qt.Key.Key_N, CTRL)  # a new style from the drawing
    draft = window.desk
    assert draft.name == "draft" and shell.session.style is not None
    qtbot.waitUntil(lambda: draft.view.visible_mm().contains(draft.scene_of.bounds()))

    # the longest edge of every piece is lasted, the next one folded with a setback of its own
    for shown in draft.board.pieces:
        by_length = sorted(shown.edges, key=lambda edge: -edge.length_mm)
        click(draft.view, shown.to_board(by_length[0].point_at(0.37)[0]))
        assert draft.selecting.edges == {by_length[0].name}
        key(window, Qt.Key.Key_1)
        click(draft.view, shown.to_board(by_length[1].point_at(0.37)[0]))
        key(window, Qt.Key.Key_2)
    key(window, Qt.Key.Key_S)
    QTest.keyClicks(QApplication.focusWidget(), "6.5")
    key(window, Qt.Key.Key_Return)

    # the axis of the first piece by its handle, snapped; then everything left is confirmed
    first = draft.board.pieces[0]
    draft_piece = first.name
    key(window, Qt.Key.Key_Escape)
    key(window, Qt.Key.Key_Escape)
    key(window, Qt.Key.Key_PageDown)
    assert draft.selecting.piece == draft_piece
    first = draft.board.piece(draft_piece)
    cx, cy = first.to_board(first.middle_mm)
    drag(draft.view, first.axis_ends_mm()[1], (cx + 80, cy + 1), modifiers=CTRL)
    assert shell.session.style.piece(draft_piece).pull_axis.axis_deg == 0
    answer("Yes")
    key(window, Qt.Key.Key_Return, CTRL)
    assert all(edge.confirmed for piece in shell.session.style.pieces for edge in piece.edges)
    assert shell.session.style.piece(draft_piece).edges[0].kind in set(EdgeKind)

    key(window, Qt.Key.Key_F6)  # the cloth: across, then back along
    key(window, Qt.Key.Key_T)
    key(window, Qt.Key.Key_Z, CTRL)

    key(window, Qt.Key.Key_F7)  # the lay
    lay = window.desk
    assert lay.name == "lay"
    lay.order.seconds.setFocus()
    lay.order.seconds.selectAll()
    QTest.keyClicks(lay.order.seconds, "3")
    QTest.keyClick(lay.order.seconds, Qt.Key.Key_Return)
    key(window, Qt.Key.Key_Return, CTRL)
    qtbot.waitUntil(lambda: not lay.run.running)
    assert lay.table.missing == {} and lay.judged.faults == ()
    key(window, Qt.Key.Key_E, CTRL)
    written = tmp_path / "lay-1" / "lay.json"
    assert verify_document(lay_file.read_json(written)).ok

    key(window, Qt.Key.Key_S, CTRL)  # saved, with the lay in it
    again = load_style(tmp_path / "court.style.json")
    assert again == shell.session.style and len(again.lays[0].placements) == len(lay.table.placements)
    assert not window.isWindowModified()

    steps = shell.session.document.labels
    for _ in steps:  # every step of all three desks can be taken back
        key(window, Qt.Key.Key_Z, CTRL)
    assert shell.session.document.undo_label == "" and window.isWindowModified()
    assert shell.session.style.lays == ()
