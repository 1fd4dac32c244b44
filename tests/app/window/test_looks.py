"""Unit, light and language change at once, and nothing at hand is lost by it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
)

from app.window.desks.order_box import keep_order
from tests.app.window.hands import ROOT, key, with_next_dialog


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


def test_light_waits_for_an_open_menu_of_a_desk_and_takes_it_along(derby, shell, qtbot):
    """A menu under the right button has no loop of its own: nothing returns into a window that is gone."""
    port = derby.desk.view.viewport()
    QTest.mouseClick(port, Qt.MouseButton.RightButton, pos=port.rect().center())
    menu = QApplication.activePopupWidget()
    assert menu is not None and menu.parent() is derby.desk
    derby.actions_made["look.night"].trigger()
    with qtbot.waitSignal(shell._rebuild_soon.timeout):
        pass
    assert shell.window is derby
    with qtbot.waitSignal(derby.destroyed):
        QTest.keyClick(menu, Qt.Key.Key_Escape)
    assert shell.window.desk.name == "draft"


def test_no_menu_runs_a_loop_of_its_own():
    """Dialogs do, and ``hands_are_busy`` sees them until they have returned; a menu it cannot see so long."""
    window = ROOT / "app" / "window"
    found = [path.name for path in window.rglob("*.py") if "menu.exec(" in path.read_text(encoding="utf-8")]
    assert found == []
