"""The roll by mouse and keys: fields, tight direction, flaws, which piece is backed with what."""

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox

from tests.app.window.hands import click, drag, key


@pytest.fixture
def desk(derby, qtbot):
    key(derby, Qt.Key.Key_F6)
    desk = derby.desk
    qtbot.waitUntil(lambda: desk.view.visible_mm().contains(desk.roll.bounds))
    return desk


def write(field, text: str) -> None:
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def test_width_and_price_are_typed_and_shown_at_the_rail(derby, desk):
    write(desk.form._numbers["usable_width_mm"], "1344,5")
    write(desk.form.price, "3,95")
    cloth = desk.session.style.cloths[0]
    assert cloth.usable_width_mm == 1344.5 and cloth.price_per_m == Decimal("3.95")
    assert derby.session.document.undo_label.startswith("Cloth")


def test_a_usable_width_beyond_the_width_is_refused_and_leaves_the_field(derby, desk):
    before = desk.session.style.cloths[0].usable_width_mm
    field = desk.form._numbers["usable_width_mm"]
    write(field, "9000")
    assert desk.session.style.cloths[0].usable_width_mm == before
    assert field.value == before
    assert "usable width" in derby.statusBar().currentMessage()


def test_nonsense_is_no_price(derby, desk):
    before = desk.session.style.cloths[0].price_per_m
    write(desk.form.price, "cheap")
    assert desk.session.style.cloths[0].price_per_m == before
    assert desk.form.price.text() == str(before)


def test_a_flaw_is_drawn_selected_and_removed(derby, desk):
    drag(desk.view, (300, 400), (420, 520))
    (flaw,) = desk.session.style.cloths[0].flaws
    xs, ys = zip(*flaw.ring_mm, strict=True)
    assert (min(xs), max(xs)) == pytest.approx((300, 420), abs=6)
    assert (min(ys), max(ys)) == pytest.approx((400, 520), abs=6)
    click(desk.view, (1000, 400))
    assert desk.tool.chosen == -1
    click(desk.view, (360, 460))
    assert desk.tool.chosen == 0
    key(derby, Qt.Key.Key_Delete)
    assert desk.session.style.cloths[0].flaws == ()
    key(derby, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert len(desk.session.style.cloths[0].flaws) == 1


def test_a_cloth_is_copied_used_and_cannot_go_while_it_is_used(derby, desk):
    key(derby, Qt.Key.Key_Insert)
    copy = desk.session.style.cloths[-1]
    assert desk.cloth is copy
    box = next(b for b in desk.pieces.findChildren(QComboBox) if b.property("piece") == "Vamp")
    box.setCurrentIndex(box.findData(copy.id))
    box.activated.emit(box.currentIndex())
    assert desk.session.style.piece("Vamp").layers[0].cloth == copy.id
    key(derby, Qt.Key.Key_Delete, Qt.KeyboardModifier.ShiftModifier)
    assert copy in desk.session.style.cloths and "Vamp" in derby.statusBar().currentMessage()
    key(derby, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    key(derby, Qt.Key.Key_Delete, Qt.KeyboardModifier.ShiftModifier)
    assert copy not in desk.session.style.cloths


def test_a_piece_can_be_left_without_backing(derby, desk):
    box = next(b for b in desk.pieces.findChildren(QComboBox) if b.property("piece") == "Counter")
    box.setCurrentIndex(0)
    box.activated.emit(0)
    assert desk.session.style.piece("Counter").layers == ()
