"""Press cutting asked for on the run page: the dialog by mouse, the list written by the command."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialogButtonBox, QFileDialog

from app.style.model import HouseRules
from app.window.desks.cost.press_out import PressAsked, PressDialog
from app.window.desks.cost.side import ActionPush
from app.window.desks.draft.view_strip import action_button
from tests.app.window.hands import SAMPLES


@pytest.fixture
def desk(shell, qtbot):
    window = shell.window
    assert window.files.open_paths([SAMPLES["sandal"]])
    shown = next(desk for desk in window.desks if desk.name == "cost")
    window.show_desk(window.desks.index(shown))
    shown.side.order.show_pairs({"36": 0, "37": 4, "38": 0, "39": 0, "40": 0})
    yield shown
    shown.stop()


def press_button(desk):
    """The button of the run page."""
    QTest.keyClick(desk.window(), Qt.Key.Key_Tab, Qt.KeyboardModifier.ControlModifier)
    text = desk.actions_made["cost.press"].text()
    kind = type(action_button(desk.actions_made["cost.press"]))
    return next(
        b for b in desk.plan_page.findChildren(kind) if b.defaultAction() and b.defaultAction().text() == text
    )


def test_dies_and_strokes_of_the_order_are_written(desk, qtbot, tmp_path, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *args: str(tmp_path))
    heard = []
    desk.status.connect(heard.append)

    def answer():
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, PressDialog)
        dialog.layers.set_value(4)
        box = dialog.findChild(QDialogButtonBox)
        QTest.mouseClick(box.buttons()[0], Qt.MouseButton.LeftButton)

    QTimer.singleShot(0, answer)
    QTest.mouseClick(press_button(desk), Qt.MouseButton.LeftButton)
    assert desk.press.run.running and desk.busy()
    qtbot.waitUntil(lambda: not desk.press.run.running)
    assert heard[-1].startswith("Press list written"), heard[-1]
    names = {path.name for path in Path(tmp_path / "press").iterdir()}
    assert "press-list.pdf" in names


def test_each_die_is_drawn_as_soon_as_it_is_set_out(desk, qtbot, tmp_path):
    press_button(desk)  # turns to the run page, where the picture is
    picture, progress = desk.plan_page.picture, desk.plan_page.progress
    empty = picture.grab().toImage()
    seen = []

    def look(event):
        seen.append((event, progress.words.text(), picture.grab().toImage()))

    desk.press.run.live.connect(look)
    desk.press.write(tmp_path, PressAsked(4))
    qtbot.waitUntil(lambda: not desk.press.run.running)
    assert [event["label"] for event, _, _ in seen] == [f"D{n}" for n in range(1, 1 + len(seen))]
    for event, words, drawn in seen:
        written = json.loads((tmp_path / "press" / event["label"] / "lay.json").read_text())
        assert event["length_mm"] == written["length_mm"] and len(event["placements"]) > 0
        assert f"{event['label']}: {desk.session.lengths.roll_text(written['length_mm'])}" in words
        assert drawn != empty
    assert picture.grab().toImage() == empty, "no plan is chosen"


def test_press_cutting_is_stopped_by_mouse_and_writes_nothing(desk, qtbot, tmp_path):
    press_button(desk)
    heard = []
    desk.status.connect(heard.append)
    desk.press.write(tmp_path, PressAsked(4))
    stop = next(b for b in desk.plan_page.findChildren(ActionPush) if b.text() == "Stop")
    assert stop.isEnabled() and desk.busy()
    QTest.mouseClick(stop, Qt.MouseButton.LeftButton)
    assert not desk.press.run.running and not desk.busy() and not stop.isEnabled()
    assert "nothing was written" in heard[-1]
    assert not (tmp_path / "press").exists()


def test_layers_or_a_height_are_asked_for_and_nothing_is_filled_in(shell, qtbot):
    rules = HouseRules(gap_mm=2.5, cutting_height_mm=None)
    dialog = PressDialog(rules, shell.session.lengths, shell.window)
    qtbot.addWidget(dialog)
    dialog.show()
    assert dialog.gap.value is None and dialog.gap.placeholderText() == "2.5"
    assert dialog.cutting_height.text() == dialog.layers.text() == "" and not dialog.write.isEnabled()
    QTest.keyClicks(dialog.cutting_height, "12")
    assert dialog.write.isEnabled()
    QTest.keyClicks(dialog.layers, "4")
    assert not dialog.write.isEnabled() and dialog.both.isVisible(), "one of the two says it, not both"
    dialog.layers.clear()
    QTest.keyClicks(dialog.gap, "3")
    assert dialog.write.isEnabled()
    assert dialog.asked.words == ["--spread", "face-up", "--cutting-height", "12", "--gap", "3"]
    dialog.close()


def test_an_order_without_pairs_is_not_pressed(desk, tmp_path):
    desk.side.order.show_pairs(dict.fromkeys(("36", "37", "38", "39", "40"), 0))
    heard = []
    desk.status.connect(heard.append)
    desk.press.write(tmp_path, PressAsked(4))
    assert not desk.press.run.running and "no pairs" in heard[-1]
