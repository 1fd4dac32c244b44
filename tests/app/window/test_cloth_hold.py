"""Stretch tests, hold, trials and register by mouse and keys; every figure is the core's."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from app.cloth_register import ClothRegister
from app.commands.stretch import direction_to_lay_by
from app.hold import span, style_hold
from app.style import edits
from app.trial_book import TrialBook
from tests.app.window.hands import SAMPLES, key

ALT, CTRL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def desk(shell, qtbot, tmp_path, monkeypatch):
    """The court shoe at the cloth desk, with a register and a trial book of this test only."""
    monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path / "workshop"))
    assert shell.window.files.open_paths([SAMPLES["court"]])
    key(shell.window, Qt.Key.Key_F6)
    yield shell.window.desk
    qtbot.waitUntil(lambda: not shell.window.desk.judge.waiting, timeout=20_000)


def page(shell, number: int) -> None:
    key(shell.window, getattr(Qt.Key, f"Key_{number}"), ALT)


def judged(desk, qtbot) -> None:
    qtbot.waitUntil(lambda: desk.judge.held_for(desk.session.style) is not None, timeout=20_000)
    qtbot.waitUntil(lambda: not desk.judge.waiting, timeout=20_000)


def type_into(table, row: int, column: int, text: str) -> None:
    table.setFocus()
    table.setCurrentCell(row, column)
    table.editItem(table.item(row, column))
    field = table.findChildren(QLineEdit)[-1]
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)
    QApplication.processEvents()  # the table takes a cell when the field has had its key


def readings(desk):
    return desk.session.style.cloths[0].tests


def test_a_strip_is_typed_over_and_each_entry_is_one_step(shell, desk):
    page(shell, 2)
    before = readings(desk)
    type_into(desk.strips.table, 0, 4, "2,9")
    assert readings(desk)[0].extensions_mm == (2.9,)
    key(shell.window, Qt.Key.Key_Z, CTRL)
    assert readings(desk) == before
    assert desk.strips.table.item(0, 4).text() == f"{before[0].extensions_mm[0]:g}"


def test_several_loads_of_a_strip_are_typed_as_pairs(shell, desk):
    page(shell, 2)
    type_into(desk.strips.table, 0, 3, "12,5=1.2; 25=2.5")
    assert readings(desk)[0].loads_n == (12.5, 25.0) and readings(desk)[0].extensions_mm == (1.2, 2.5)


def test_a_strip_is_added_and_removed_by_keys(shell, desk):
    page(shell, 2)
    count = len(readings(desk))
    key(shell.window, Qt.Key.Key_Insert, CTRL)
    assert len(readings(desk)) == count + 1 == desk.strips.table.rowCount()
    key(shell.window, Qt.Key.Key_Delete, CTRL)
    assert len(readings(desk)) == count


def test_nonsense_leaves_the_strip_and_a_bad_strip_is_refused_in_the_cores_words(shell, desk):
    page(shell, 2)
    before = readings(desk)
    type_into(desk.strips.table, 0, 0, "slanted")
    assert readings(desk) == before
    assert desk.strips.table.item(0, 0).text() == f"{before[0].angle_deg:g}"
    type_into(desk.strips.table, 0, 3, "-25")
    assert desk.strips.fit is None and "load" in desk.strips.words.text()
    assert not desk.actions_made["cloth.take_direction"].isEnabled()


def test_the_tested_direction_goes_to_the_card(shell, desk):
    cloth = desk.session.style.cloths[0].id
    desk.session.apply("turn", edits.set_cloth(desk.session.style, cloth, tight_direction_deg=90.0))
    page(shell, 2)
    key(shell.window, Qt.Key.Key_T, CTRL)
    card = desk.session.style.cloths[0]
    assert card.tight_direction_deg == direction_to_lay_by(desk.strips.fit) == 0.0
    assert card.how_known == "tested"


def test_the_hold_page_shows_what_the_core_says_and_what_a_turn_costs(shell, desk, qtbot):
    page(shell, 3)
    judged(desk, qtbot)
    table, held = desk.hold.table, style_hold(desk.session.style)
    assert [table.item(i, 2).text() for i in range(table.rowCount())] == [
        f"{span(piece.hold)} mm" for piece in held.pieces
    ]
    assert {table.item(i, 4).text() for i in range(table.rowCount())} == {"holds"}
    QTest.mouseClick(desk.hold.across, Qt.MouseButton.LeftButton)
    turned = style_hold(desk.session.style, turn_deg=90.0)
    assert [table.item(i, 2).text() for i in range(table.rowCount())] == [
        f"{span(piece.hold)} mm" for piece in turned.pieces
    ]
    assert "Breaks" in desk.hold.verdict.text() and turned.failing
    desk.hold.slider.setFocus()
    QTest.keyClick(desk.hold.slider, Qt.Key.Key_End)
    assert desk.hold.turned_deg == 20.0 and not desk.hold.across.isChecked()
    assert desk.hold.candidates.rowCount() == len(desk.judge.candidates) > 1


def test_the_hold_sheet_is_written(shell, desk, qtbot, tmp_path):
    page(shell, 3)
    judged(desk, qtbot)
    desk.hold.export(tmp_path)
    assert (tmp_path / "hold-sheet.pdf").read_bytes().startswith(b"%PDF")


def test_a_piece_that_breaks_its_limit_stands_among_the_findings_of_the_draft_desk(shell, desk, qtbot):
    cloth = desk.session.style.cloths[0].id
    desk.session.apply("turn", edits.set_cloth(desk.session.style, cloth, tight_direction_deg=90.0))
    key(shell.window, Qt.Key.Key_F5)
    draft = shell.window.desk
    qtbot.waitUntil(lambda: any(f.code == "HOLD_BROKEN" for f in draft.findings.model.rows), timeout=20_000)
    shell.session.document.undo()
    qtbot.waitUntil(
        lambda: (
            draft.judge.held_for(shell.session.style) is not None
            and not any(f.code == "HOLD_BROKEN" for f in draft.findings.model.rows)
        ),
        timeout=20_000,
    )


def test_a_lasting_trial_is_entered_with_the_prediction_beside_it(shell, desk):
    page(shell, 4)
    trials = desk.trials
    trials.piece.setCurrentIndex(trials.piece.findText("Vamp"))
    trials.mark.setFocus()
    QTest.keyClicks(trials.mark, "1,8")
    QTest.keyClick(trials.mark, Qt.Key.Key_Return)
    QTest.mouseClick(trials.add, Qt.MouseButton.LeftButton)
    (entry,) = TrialBook().entries()
    vamp = next(p for p in style_hold(desk.session.style).pieces if p.piece == "Vamp")
    assert entry.trial.mark_after_lasting_mm == 1.8
    assert entry.trial.predicted_mm == pytest.approx(vamp.hold.best_mm, abs=1e-3)
    assert trials.table.item(0, 5).text() == "1.8 mm"


def test_a_cloth_is_filed_and_taken_back_from_the_register(shell, desk):
    page(shell, 5)
    QTest.mouseClick(desk.register.file, Qt.MouseButton.LeftButton)
    cloth = desk.session.style.cloths[0]
    assert ClothRegister().entry("cloth", cloth.id).cloth.tests == cloth.tests
    desk.session.apply("name", edits.set_cloth(desk.session.style, cloth.id, name="Changed"))
    desk.register.table.setCurrentCell(0, 0)
    QTest.mouseClick(desk.register.take, Qt.MouseButton.LeftButton)
    assert desk.session.style.cloths[0].name == cloth.name
    key(shell.window, Qt.Key.Key_Z, CTRL)
    assert desk.session.style.cloths[0].name == "Changed"
