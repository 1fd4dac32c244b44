"""The shell by mouse and keys: start page, desks, files, undo across desks, the list of keys."""

from pathlib import Path

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QWidget,
)

from app.style.document import Document
from app.style.file import load_style
from app.style.rules_store import load_rules
from app.window.house_rules import HouseRulesDialog
from app.window.problems import problem_of
from app.window.shell.key_list import KeyList
from app.window.shell.start_page import StyleCard
from geometry.edge_kinds import EdgeKind
from tests.app.window.hands import SAMPLES, key, with_next_dialog


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
