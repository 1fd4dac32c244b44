"""Styles and drawings opened, dropped, saved and revised in the window; no file is lost."""

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import (
    QApplication,
    QFileDialog,
    QLabel,
)

from app.style import edits
from app.style.document import Document
from app.style.file import load_style, save_style
from app.window.application import Shell
from app.window.problems import ProblemDialog
from tests.app.window.hands import SAMPLES, answer, end, key, with_next_dialog


def test_a_recent_style_is_opened_from_the_menu_and_one_that_is_gone_is_not_offered(derby, tmp_path):
    kept, gone = tmp_path / "kept.style.json", tmp_path / "gone.style.json"
    kept.write_bytes(SAMPLES["court"].read_bytes())
    for path in (gone, kept):
        derby.session.settings.add_recent(path)
    derby.menus.recent.aboutToShow.emit()
    actions = {action.text(): action for action in derby.menus.recent.actions()}
    assert list(actions) == ["kept"] and actions["kept"].toolTip() == str(kept)
    actions["kept"].trigger()
    assert derby.session.document.path == kept


def test_saving_asks_for_a_name_once_and_remembers_the_file(derby, tmp_path, monkeypatch):
    target = tmp_path / "mine"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *a, **k: (str(target), ""))
    derby.desk.select("Vamp")
    key(derby, Qt.Key.Key_Right, Qt.KeyboardModifier.AltModifier)
    key(derby, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    saved = tmp_path / "mine.style.json"
    assert load_style(saved).piece("Vamp").pull_axis.axis_deg == -1
    assert not derby.isWindowModified()
    assert derby.session.settings.recent == [saved]
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *a, **k: pytest.fail("asked again"))
    key(derby, Qt.Key.Key_Right, Qt.KeyboardModifier.AltModifier)
    key(derby, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert load_style(saved).piece("Vamp").pull_axis.axis_deg == -2


def test_closing_with_unsaved_changes_asks(derby):
    derby.desk.select("Vamp")
    key(derby, Qt.Key.Key_Right, Qt.KeyboardModifier.AltModifier)
    answer("Cancel")
    assert not derby.close() and derby.isVisible()
    answer("Do not save")
    assert derby.close()


def test_a_file_dropped_on_the_window_opens(shell, qtbot):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(SAMPLES["sandal"]))])
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    event = QDropEvent(QPointF(50, 50), Qt.DropAction.CopyAction, data, left, none)
    shell.window.dropEvent(event)
    qtbot.waitUntil(lambda: shell.session.style is not None and shell.session.style.name == "Sandal S3")


def test_drawings_dragged_over_a_board_reach_the_window(derby):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(SAMPLES["sandal"]))])
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    for number, desk in enumerate(derby.desks[:3]):
        derby.show_desk(number)
        over = QDragEnterEvent(QPoint(60, 60), Qt.DropAction.CopyAction, data, left, none)
        desk.view.dragEnterEvent(over)
        assert not over.isAccepted(), "a board that takes it keeps it from the window"
        QApplication.sendEvent(desk.view.viewport(), over)
        assert over.isAccepted()


def test_several_drawings_dropped_become_one_style(shell, qtbot):
    data = QMimeData()
    names = ("court", "sandal")
    data.setUrls([QUrl.fromLocalFile(str(SAMPLES[name].with_name(f"{name}.dxf"))) for name in names])
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    shell.window.dropEvent(QDropEvent(QPointF(50, 50), Qt.DropAction.CopyAction, data, left, none))
    with_next_dialog(lambda question: question.accept())  # which size is drawn
    qtbot.waitUntil(lambda: shell.session.style is not None)
    assert {"Vamp", "Front strap"} <= {piece.name for piece in shell.session.style.pieces}


def test_a_damaged_file_is_told_with_its_name_and_a_remedy(shell, tmp_path):
    bad = tmp_path / "bad.style.json"
    bad.write_text('{"format": "stayply-style"', encoding="utf-8")
    told = {}

    def look(dialog) -> None:
        assert isinstance(dialog, ProblemDialog)
        told["text"] = " ".join(label.text() for label in dialog.findChildren(QLabel))
        dialog.copy_details()
        told["copied"] = QApplication.clipboard().text()

    with_next_dialog(look)
    assert not shell.window.files.open_paths([bad])
    assert "bad.style.json" in told["text"] and "Remedy" in told["text"]
    assert "bad.style.json" in told["copied"] and "StyleFileError" in told["copied"]
    assert shell.session.document is None


def killed_with_a_step(qapp, folder, sample):
    """A program that ended by force with a step of its style not saved: it, and its window."""
    first = Shell(qapp, folder)
    first.settings.language = "en"
    window = first.show()
    style = load_style(SAMPLES[sample])
    first.session.open(Document(style))
    first.session.apply("Turn", edits.set_axis(style, "Vamp", 12))
    first.session.recovery._lock.close()  # as the system does when the process is killed
    return first, window


def test_what_a_killed_program_left_is_offered_and_restored(qapp, qtbot, tmp_path):
    folder = tmp_path / "recovery"
    first, window = killed_with_a_step(qapp, folder, "court")
    second = Shell(qapp, folder)
    again = second.show()
    answer("Restore")
    again.files.offer_recovery(folder)
    assert second.session.style.piece("Vamp").pull_axis.axis_deg == 12
    assert again.isWindowModified()
    end(second)
    window.hide()
    end(first)


def saved_court(tmp_path):
    path = tmp_path / "court.style.json"
    path.write_bytes(SAMPLES["court"].read_bytes())
    return path


@pytest.mark.parametrize("choice", ["Overwrite with mine", "Use theirs", "Cancel"])
def test_a_file_saved_by_another_window_is_never_overwritten_in_silence(derby, shell, tmp_path, choice):
    path = saved_court(tmp_path)
    assert derby.files.open_paths([path])
    mine = edits.set_axis(shell.session.style, "Vamp", 12)
    theirs = edits.set_axis(shell.session.style, "Vamp", -7)
    shell.session.apply("mine", mine)
    save_style(theirs, path)
    asked = []

    def decide(box):
        asked.append(box.informativeText())
        next(button for button in box.buttons() if button.text() == choice).click()

    with_next_dialog(decide)
    derby.files.save()
    assert "pieces Vamp: pull_axis" in asked[0], "what differs is shown"
    on_disk = load_style(path)
    if choice == "Overwrite with mine":
        assert on_disk == mine and not shell.session.document.dirty
    elif choice == "Use theirs":
        assert shell.session.style == theirs == on_disk
        shell.session.document.undo()
        assert shell.session.style == mine, "mine is one undo away"
    else:
        assert on_disk == theirs and shell.session.style == mine and shell.session.document.dirty
    shell.session.document.mark_saved(path, shell.session.style)


def test_the_file_is_looked_at_when_the_window_is_entered_again(derby, shell, tmp_path):
    path = saved_court(tmp_path)
    assert derby.files.open_paths([path])
    save_style(edits.set_axis(shell.session.style, "Vamp", -7), path)
    asked = []

    def keep(box):
        asked.append(box.windowTitle())
        next(button for button in box.buttons() if button.text() == "Keep mine").click()

    with_next_dialog(keep)
    derby._look_at_file()
    assert asked == ["The file was changed elsewhere"]
    derby._look_at_file()  # asked once: what the file holds was seen
    assert len(asked) == 1


def test_a_restore_does_not_drop_the_file_that_was_named(qapp, qtbot, tmp_path):
    folder = tmp_path / "recovery"
    first, window = killed_with_a_step(qapp, folder, "derby")
    second = Shell(qapp, folder)
    again = second.show()
    named = saved_court(tmp_path)

    def restore(box):
        with_next_dialog(lambda after: find(after, "Do not save").click())
        find(box, "Restore").click()

    def find(box, text):
        return next(button for button in box.buttons() if button.text() == text)

    with_next_dialog(restore)
    second._first = [named]
    second._begin()
    assert second.session.document.path == named
    end(second)
    window.hide()
    end(first)
    assert again is not window


def revised(tmp_path, names=None):
    """The derby's own drawing, revised: some pieces renamed."""
    text = SAMPLES["derby"].with_name("derby.dxf").read_text(encoding="utf-8")
    for old, new in (names or {}).items():
        text = text.replace(old, new)
    path = tmp_path / "derby-2.dxf"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_revised_drawing_is_taken_piece_by_piece_in_one_step(derby, tmp_path):
    before = derby.session.style
    path = revised(tmp_path)
    shown = []

    def look(dialog):
        shown.append([dialog._list.item(i).text() for i in range(dialog._list.count())])
        dialog.grab().save(str(tmp_path / "revision.png"))
        dialog._list.item(0).setCheckState(Qt.CheckState.Unchecked)
        dialog.accept()

    with_next_dialog(look)
    derby.files.revise(path)
    assert len(shown[0]) == len(before.pieces) and "kept" in shown[0][0]
    after = derby.session.style
    assert after.pieces[0] == before.pieces[0], "the piece that was not ticked stays as it was"
    for one, other in zip(before.pieces, after.pieces, strict=True):
        marked = [[e.model_copy(update={"start": 0}) for e in piece.edges] for piece in (one, other)]
        assert marked[0] == marked[1] and one.layers == other.layers
    if after != before:
        assert derby.session.document.labels == ("Revised drawing",)


def test_a_drawing_that_cannot_be_read_changes_nothing(derby, tmp_path, monkeypatch):
    shown = []
    monkeypatch.setattr("app.window.files.show_problem", lambda error, parent: shown.append(str(error)))
    (tmp_path / "bad.dxf").write_text("no drawing")
    before = derby.session.style
    assert not derby.files.revise(tmp_path / "bad.dxf")
    assert "bad.dxf" in shown[0] and derby.session.style is before
