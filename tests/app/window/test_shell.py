"""The shell by mouse and keys: start page, desks, files, undo across desks, the list of keys."""

from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QMimeData, QObject, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QFileDialog,
    QLabel,
    QWidget,
)

from app.style import edits
from app.style.document import Document
from app.style.file import load_style, save_style
from app.style.rules_store import load_rules
from app.window.application import Shell
from app.window.desks.order_box import keep_order
from app.window.house_rules import HouseRulesDialog
from app.window.problems import ProblemDialog, problem_of
from app.window.shell.key_list import KeyList
from app.window.shell.start_page import StyleCard
from geometry.piece import EdgeKind
from tests.app.window.hands import SAMPLES, answer, end, key, with_next_dialog


def test_it_opens_on_the_start_page_with_the_samples(shell):
    window = shell.window
    assert window.desk is None
    names = {card.card.name for card in window.start_page.findChildren(StyleCard)}
    assert {load_style(path).name for path in SAMPLES.values()} <= names


def test_a_click_on_a_sample_opens_it_at_the_first_desk_as_an_unnamed_copy(shell, qtbot):
    window = shell.window
    card = next(c for c in window.start_page.findChildren(StyleCard) if c.card.path == SAMPLES["court"])
    qtbot.mouseClick(card, Qt.MouseButton.LeftButton)
    assert window.desk is window.desks[0]
    assert shell.session.document.path is None
    assert "Court C12" in window.windowTitle() and not window.isWindowModified()


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


def test_shift_home_shows_the_selected_piece_and_home_all_of_them(derby):
    draft = derby.desk
    key(derby, Qt.Key.Key_Home)
    whole = draft.view.transform().m11()
    draft.select("Counter")
    key(derby, Qt.Key.Key_Home, Qt.KeyboardModifier.ShiftModifier)
    assert draft.view.transform().m11() > 1.5 * whole
    seen = draft.view.mapToScene(draft.view.viewport().rect()).boundingRect()
    assert seen.contains(draft.scene_of.bounds("Counter"))
    key(derby, Qt.Key.Key_Home)
    assert draft.view.transform().m11() == whole


def test_desks_are_switched_by_key_and_by_click(derby, qtbot):
    key(derby, Qt.Key.Key_F6)
    assert derby.desk.name == "cloth"
    stations = derby._rail.stations
    qtbot.mouseClick(stations, Qt.MouseButton.LeftButton, pos=stations.centre_of(0).toPoint())
    assert derby.desk.name == "draft"


def test_undo_names_the_step_and_works_across_desks(derby):
    draft = derby.desk
    draft.select("Vamp")
    key(derby, Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier)
    assert derby.session.style.piece("Vamp").pull_axis.axis_deg == 1
    key(derby, Qt.Key.Key_F6)
    key(derby, Qt.Key.Key_T)
    assert derby.session.style.cloths[0].tight_direction_deg == 90
    assert "Tight direction" in derby.actions_made["edit.undo"].text()
    key(derby, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert derby.session.style.cloths[0].tight_direction_deg == 0
    assert "Turn pull axis · Vamp" in derby.actions_made["edit.undo"].text()
    key(derby, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert derby.session.style.piece("Vamp").pull_axis.axis_deg == 0
    assert not derby.isWindowModified()
    key(derby, Qt.Key.Key_Y, Qt.KeyboardModifier.ControlModifier)
    assert derby.session.style.piece("Vamp").pull_axis.axis_deg == 1 and derby.isWindowModified()


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


def test_an_unexpected_error_says_that_the_work_is_kept():
    parts = problem_of(ZeroDivisionError("x"))
    assert "ZeroDivisionError" in parts["message"] and "kept" in parts["remedy"]
    assert "Traceback" not in parts["message"] + parts["remedy"]


def test_the_list_of_keys_holds_every_action_and_finds_one(derby):
    seen = {}

    def look(dialog) -> None:
        assert isinstance(dialog, KeyList)
        model = dialog.found
        seen["all"] = sum(model.rowCount(model.index(r, 0)) for r in range(model.rowCount()))
        QTest.keyClicks(dialog.search, "glue side")
        seen["found"] = [
            model.index(r, 0, model.index(g, 0)).data()
            for g in range(model.rowCount())
            for r in range(model.rowCount(model.index(g, 0)))
        ]

    with_next_dialog(look)
    key(derby, Qt.Key.Key_F1)
    specs = [spec for desk in derby.desks for spec in desk.specs()]
    assert seen["all"] >= len(specs)
    assert seen["found"] == ["Glue side up"]


def test_no_key_does_two_things_at_one_desk(derby):
    for desk in derby.desks:
        keys = [k for spec in (*derby_shell_specs(), *desk.specs()) for k in spec.keys]
        assert len(keys) == len(set(keys)), sorted(k for k in keys if keys.count(k) > 1)


def derby_shell_specs():
    from app.window.shell.shell_actions import SHELL

    return SHELL


def test_inches_are_shown_and_typed_while_the_style_stays_in_mm(derby):
    derby.actions_made["look.inch"].trigger()
    desk = derby.desk
    shown = desk.board.piece("Vamp")
    edge = shown.edges[0]
    desk.select("Vamp", frozenset({edge.name}))
    field = desk.inspector.setback
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "1/4")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert desk.edges_selected[0].edge.setback_mm == pytest.approx(6.35)
    assert field.text() == "0.25"


def test_house_rules_are_one_step_and_can_be_kept_for_the_workshop(derby, tmp_path, monkeypatch):
    monkeypatch.setenv("STAYPLY_CONFIG_DIR", str(tmp_path / "config"))
    key(derby, Qt.Key.Key_F5)

    def enter(dialog) -> None:
        assert isinstance(dialog, HouseRulesDialog)
        setback = dialog._edges[EdgeKind.LASTING][0]
        for field, text in ((setback, "12.5"), (dialog._fields["gap_mm"], "3")):
            field.setFocus()
            field.selectAll()
            QTest.keyClicks(field, text)
        dialog._workshop.setFocus()  # leaving a field enters it
        dialog._workshop.setChecked(True)
        dialog.accept()

    before = derby.session.style
    with_next_dialog(enter)
    key(derby, Qt.Key.Key_Comma, Qt.KeyboardModifier.ControlModifier)
    rules = derby.session.style.rules
    assert rules.edge_rules[EdgeKind.LASTING].setback_mm == 12.5 and rules.gap_mm == 3
    assert load_rules().edge_rules[EdgeKind.LASTING].setback_mm == 12.5
    assert derby.session.document.labels == ("House rules",)
    key(derby, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert derby.session.style is before


def test_house_rules_left_as_they_were_leave_no_step(derby):
    with_next_dialog(lambda dialog: dialog.reject())
    key(derby, Qt.Key.Key_Comma, Qt.KeyboardModifier.ControlModifier)
    assert derby.session.document.labels == ()


def test_italian_and_night_are_taken_at_once_and_the_work_stays(derby, shell, qtbot):
    derby.desk.select("Vamp")
    key(derby, Qt.Key.Key_Right, Qt.KeyboardModifier.AltModifier)
    derby.actions_made["look.italian"].trigger()
    qtbot.waitUntil(lambda: shell.window is not derby)
    window = shell.window
    assert window.desk.name == "draft"
    assert window.desk.title() != "Draft"
    assert window.session.style.piece("Vamp").pull_axis.axis_deg == -1
    window.actions_made["look.night"].trigger()
    qtbot.waitUntil(lambda: shell.window is not window)
    from app.window.widgets.theme import theme

    assert theme().dark
    assert shell.window.desks[0].title() != "Draft"


def test_what_a_killed_program_left_is_offered_and_restored(qapp, qtbot, tmp_path):
    folder = tmp_path / "recovery"
    first = Shell(qapp, folder)
    first.settings.language = "en"
    window = first.show()
    style = load_style(SAMPLES["court"])
    first.session.open(Document(style))
    first.session.apply("Turn", edits.set_axis(style, "Vamp", 12))
    copy = first.session.recovery
    copy._lock.close()  # as the system does when the process is killed
    second = Shell(qapp, folder)
    again = second.show()
    answer("Restore")
    again.files.offer_recovery(folder)
    assert second.session.style.piece("Vamp").pull_axis.axis_deg == 12
    assert again.isWindowModified()
    end(second)
    window.hide()
    end(first)


def test_every_field_and_button_has_a_name_for_screen_readers(derby):
    from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit

    for desk in derby.desks:
        derby.show_desk(derby.desks.index(desk))
        for kind in (QAbstractButton, QComboBox, QLineEdit):
            for widget in desk.findChildren(kind):
                if widget.isVisible():
                    assert widget.accessibleName() or getattr(widget, "text", str)(), widget.toolTip()


def test_the_command_refuses_where_there_is_no_screen(monkeypatch, capsys):
    from app.__main__ import main

    monkeypatch.delenv("QT_QPA_PLATFORM", raising=False)
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    monkeypatch.setattr("sys.platform", "linux")
    assert main(["window"]) == 2
    assert "screen" in capsys.readouterr().err


def test_a_file_that_is_not_there_is_named(capsys):
    from app.__main__ import main

    assert main(["window", str(Path("/no/such/file.dxf"))]) == 2
    assert "/no/such/file.dxf" in capsys.readouterr().err


def test_nothing_is_lost_when_light_and_language_change(derby, shell, qtbot):
    """Zoom, selection, sizes on Draft; order, cloth and figures on Cost; in both changes."""
    draft = derby.desk
    draft.select("Vamp", frozenset({("Vamp", 0)}))
    small, large = draft.session.style.size_run.sizes[0], draft.session.style.size_run.sizes[-1]
    draft.strip.choose_sizes(large, small)
    draft.view.zoom_by(3.0)
    zoom, middle = draft.view.px_per_mm, draft.view.place()[1]
    derby.show_desk(3)
    cost = derby.desk
    keep_order(draft.session, {"42": 7})
    cost.counting.widths.failed = {"1,000 mm": "a piece is wider"}
    for change in ("look.night", "look.italian", "look.day", "look.english"):
        before = shell.window
        with qtbot.waitSignal(before.destroyed):
            before.actions_made[change].trigger()
        window = shell.window
        assert window.desk.name == "cost"
        assert window.desk.side.order.pairs == {"42": 7}
        assert window.desk.cloth is not None and window.desk.actions_made["cost.compare"].isEnabled()
        assert window.desk.counting.widths.failed == {"1,000 mm": "a piece is wider"}
    shell.window.show_desk(0)
    QApplication.processEvents()
    draft = shell.window.desk
    assert draft.selecting.piece == "Vamp" and draft.selecting.edges == frozenset({("Vamp", 0)})
    assert (draft.strip.size_shown, draft.strip.size_over) == (large, small)
    assert draft.strip.size_box.count() == len(draft.session.style.size_run.sizes)
    assert draft.view.px_per_mm == pytest.approx(zoom)
    assert (draft.view.place()[1] - middle).manhattanLength() < 2.0


def test_light_waits_for_work_that_runs(derby, shell, qtbot, monkeypatch):
    working = ["The roll is being filled."]
    monkeypatch.setattr(type(derby.desk), "busy", lambda desk: working[0] if working else "")
    derby.actions_made["look.night"].trigger()
    qtbot.waitUntil(lambda: "has finished" in derby.statusBar().currentMessage())
    assert shell.window is derby
    working.clear()
    with qtbot.waitSignal(derby.destroyed):
        pass
    assert shell.window is not derby and shell.window.desk.name == "draft"


def test_light_waits_for_an_open_dialog_and_takes_nothing_from_it(derby, shell, qtbot, monkeypatch):
    """The dialog belongs to the old window: it must not be destroyed while it still answers."""
    working = ["The roll is being filled."]
    monkeypatch.setattr(type(derby.desk), "busy", lambda desk: working[0] if working else "")
    derby.actions_made["look.night"].trigger()
    qtbot.waitUntil(lambda: "has finished" in derby.statusBar().currentMessage())

    def answer_late(dialog):
        working.clear()
        with qtbot.waitSignal(shell._rebuild_soon.timeout):  # work alone would no longer keep the light
            pass
        QTest.keyClick(dialog._fields["gap_mm"], Qt.Key.Key_Up)
        dialog.accept()

    with_next_dialog(answer_late)
    with qtbot.waitSignal(derby.destroyed):
        derby.files.edit_rules()
    assert shell.session.style.rules.gap_mm == 2.5
    assert shell.window is not derby and shell.window.desk.name == "draft"


def test_another_style_opened_while_cost_is_shown_opens_on_draft(derby, shell, monkeypatch):
    shown = []
    monkeypatch.setattr("app.window.problems.show_problem", lambda error, parent=None: shown.append(error))
    monkeypatch.setattr("sys.excepthook", lambda kind, error, trace: shown.append(error))
    derby.show_desk(3)
    assert derby.desk.cloth is not None
    style = load_style(SAMPLES["court"])
    cloth = style.cloths[0].model_copy(update={"id": "another-cloth"})
    pieces = tuple(
        piece.model_copy(
            update={"layers": tuple(layer.model_copy(update={"cloth": ""}) for layer in piece.layers)}
        )
        for piece in style.pieces
    )
    shell.session.open(Document(style.model_copy(update={"cloths": (cloth,), "pieces": pieces})))
    assert shown == []
    assert derby.desk.name == "draft"
    derby.show_desk(3)
    assert derby.desk.cloth.id == "another-cloth"
    assert shown == []


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
    first = Shell(qapp, folder)
    first.settings.language = "en"
    window = first.show()
    style = load_style(SAMPLES["derby"])
    first.session.open(Document(style))
    first.session.apply("Turn", edits.set_axis(style, "Vamp", 12))
    first.session.recovery._lock.close()  # as the system does when the process is killed
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


def test_a_desk_made_later_flashes_no_window_of_its_own(shell, qapp):
    shown = []

    class Watch(QObject):
        def eventFilter(self, widget, event):
            if event.type() == QEvent.Type.Show and isinstance(widget, QWidget) and widget.isWindow():
                shown.append(widget)
            return False

    watch = Watch()
    shell.session.open(Document(load_style(SAMPLES["court"])))
    qapp.installEventFilter(watch)
    try:
        assert len(list(shell.window.desks)) == 4
    finally:
        qapp.removeEventFilter(watch)
    assert shown == []


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
