"""A scan of cards dropped on the window becomes pieces: seen, corrected, checked, undone."""

from dataclasses import replace

import cv2
import numpy as np
import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.papers import registry
from app.tools.pointer import Pointer
from app.tools.trace_hand import TraceHand
from app.window.tracing.dialog import TraceDialog
from geometry.piece import Mark, Notch
from geometry.trace.read import trace_picture
from tests.app.window.hands import click, drag, key, with_next_dialog

DPI = 100.0


@pytest.fixture(scope="module")
def scan(tmp_path_factory):
    """A card of 80 x 50 mm, its lower left corner at (30, 30), on a white lid."""
    per_mm, high = DPI / 25.4, 110
    picture = np.full((int(high * per_mm), int(140 * per_mm), 3), 250, np.uint8)
    corners = np.array([(30, high - 30), (110, high - 30), (110, high - 80), (30, high - 80)]) * per_mm
    cv2.fillPoly(picture, [np.round(corners * 256).astype(np.int32)], (60, 90, 140), cv2.LINE_AA, 8)
    path = tmp_path_factory.mktemp("scan") / "card.png"
    cv2.imwrite(str(path), picture)
    return path


@pytest.fixture(scope="module")
def traced(scan):
    return trace_picture(scan, dpi=DPI, shown=True)


@pytest.fixture
def asked(derby, scan, traced):
    """The dialog over the open derby with the scan traced in it."""
    dialog = TraceDialog(scan, derby.session.lengths, derby, asks_size=False)
    dialog.show()
    dialog._traced(traced)
    yield dialog
    dialog.done(0)
    dialog.deleteLater()


def drop(window, path) -> None:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    none = Qt.KeyboardModifier.NoModifier
    event = QDropEvent(QPointF(9, 9), Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, none)
    window.dropEvent(event)


def test_a_dropped_scan_is_traced_beside_the_window_and_taken_as_a_step(derby, scan, qtbot):
    before = derby.session.style
    told = []

    def trace(dialog):
        assert isinstance(dialog, TraceDialog)
        dialog.scale.setCurrentIndex(dialog.scale.findData(""))
        dialog.dpi.set_value(DPI)
        dialog.find_button.click()
        assert dialog.run.running and not dialog.find_button.isEnabled()
        qtbot.waitUntil(lambda: not dialog.run.running)
        told.append(dialog.sure.text())
        dialog.list.item(0).setText("Insole")
        dialog.take.click()

    with_next_dialog(trace)
    drop(derby, scan)
    qtbot.waitUntil(lambda: derby.session.style is not before)
    piece = derby.session.style.pieces[-1]
    assert piece.name == "Insole"
    xs, ys = zip(*piece.drawings["42"].outline_mm, strict=True)
    assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((80.0, 50.0), abs=0.5)
    assert "mm" in told[0]
    derby.activateWindow()
    key(derby, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert derby.session.style == before


def test_enter_in_the_known_length_neither_traces_anew_nor_takes_the_cards(asked):
    asked.known.setFocus()
    QTest.keyClicks(asked.known, "80")
    QTest.keyClick(asked.known, Qt.Key.Key_Return)
    assert asked.known.value == 80.0 and not asked.run.running and asked.isVisible()


def test_an_outline_is_dragged_to_the_edge_and_taken_back(asked):
    area = asked.taken[0].outline.area_mm2
    drag(asked.view, (70, 80), (70, 83))
    assert asked.taken[0].outline.area_mm2 == pytest.approx(
        area + 3 * 8, rel=0.01
    )  # half a cosine, 8 mm each way
    asked.undo()
    assert asked.taken[0].outline.area_mm2 == pytest.approx(area)


def test_a_known_length_is_checked_against_the_outline(asked):
    asked.check.click()
    click(asked.view, (30, 30))
    click(asked.view, (110, 30))
    true = 80.0 + 25.4 / DPI  # OpenCV fills half a pixel beyond a polygon's sides
    asked.known.set_value(true)
    asked.known.entered.emit(true)
    assert asked.seen.text().startswith("80.")
    assert "within" in asked.differs.text()
    asked.known.set_value(82.0)
    asked.known.entered.emit(82.0)
    assert "more than" in asked.differs.text()


def test_a_card_that_is_not_ticked_stays_away(asked):
    asked.list.item(0).setCheckState(Qt.CheckState.Unchecked)
    assert not asked.taken and not asked.take.isEnabled()


def test_a_notch_or_line_that_is_not_ticked_stays_away(asked):
    card = replace(
        asked.taken[0],
        notches=(Notch(70.0, 30.0, 90.0, depth_mm=4.0, width_mm=3.0, kind="v"),),
        marks=(Mark(np.array([(40.0, 40.0), (90.0, 60.0)])),),
    )
    assert asked.found.isHidden(), "nothing was found on the card of the scan"
    asked._fill((card,))
    assert [asked.found.item(k).text() for k in (0, 1)] == [
        "card 1: notch, 4.0 mm deep",
        "card 1: line, 53.9 mm long",
    ]
    assert len(asked.taken[0].notches) == len(asked.taken[0].marks) == 1
    asked.found.item(0).setCheckState(Qt.CheckState.Unchecked)
    assert not asked.taken[0].notches and len(asked.taken[0].marks) == 1
    drag(asked.view, (70, 80), (70, 83))
    assert len(asked.taken[0].marks) == 1, "a correction of the outline leaves what is drawn inside"


def test_a_picture_that_cannot_be_read_is_said_in_the_dialog(derby, tmp_path, qtbot):
    path = tmp_path / "no.png"
    path.write_bytes(b"not a picture")
    dialog = TraceDialog(path, derby.session.lengths, derby, asks_size=True)
    dialog.trace()
    qtbot.waitUntil(lambda: not dialog.run.running)
    assert "not a picture" in dialog.told.text() and not dialog.take.isEnabled()
    dialog.done(0)
    dialog.deleteLater()
    QApplication.processEvents()


def test_cards_are_named_in_the_language_of_the_window(derby, scan, monkeypatch):
    monkeypatch.setattr("app.window.tracing.dialog.translate", lambda context, text: text.upper())
    dialog = TraceDialog(scan, derby.session.lengths, derby, asks_size=False)
    asked_for = {}
    monkeypatch.setattr(dialog.run, "start", lambda path, **options: asked_for.update(options))
    dialog.trace()
    assert asked_for["called"] == "CARD {0}"
    dialog.deleteLater()


def test_the_sheet_to_print_is_written(asked, tmp_path, monkeypatch):
    out = tmp_path / "sheet.pdf"
    monkeypatch.setattr("PySide6.QtWidgets.QFileDialog.getSaveFileName", lambda *a: (str(out), ""))
    written = []
    monkeypatch.setattr(registry, "write", lambda shown, folder: written.append((shown.sheet.name, folder)))
    asked._write_sheet()
    assert written == [("A3", tmp_path)]


def test_a_correction_given_up_leaves_the_cards(asked):
    hand = TraceHand()
    cards = asked.taken
    hand.press(cards, Pointer(70, 80, 4.0))
    hand.move(Pointer(70, 84, 4.0))
    assert [each.cards for each in hand.abandon() if hasattr(each, "cards")] == [cards]
    assert hand.release(Pointer(70, 84, 4.0)) == []
