"""Stretch tests, hold, trials and register by mouse and keys; every figure is the core's."""

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from app.hold.field import predicted_throat_mm
from app.hold.materials import direction_to_lay_by
from app.hold.verdicts import span, style_hold
from app.style import edits
from app.style.document import Document
from app.style.file import load_style
from app.window.desks.cloth import register_page
from app.workshop.cloth_register import ClothRegister
from app.workshop.trial_book import TrialBook
from tests.app.window.hands import SAMPLES, answer, key, with_next_dialog

ALT, CTRL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def desk(shared, qtbot, tmp_path, monkeypatch):
    """The court shoe at the cloth desk, with a register and a trial book of this test only."""
    monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path / "workshop"))
    window = shared.window
    window.session.open(Document(load_style(SAMPLES["court"])))
    key(window, Qt.Key.Key_F6)
    desk = window.desk
    for box in (desk.strips.of, desk.register.kind, desk.trials.form.kind):
        box.setCurrentIndex(0)
        box.activated.emit(0)
    desk.hold.across.setChecked(False)
    desk.hold.slider.setValue(0)
    desk.hold.of_register.setChecked(False)
    yield desk
    qtbot.waitUntil(lambda: not desk.judge.waiting)
    page(shared, 1)
    window.session.open(None)
    for each in window.desks:
        each.stop()
    qtbot.waitUntil(lambda: not desk.solver.waiting)  # what it was at ends first


def page(shared, number: int) -> None:
    key(shared.window, getattr(Qt.Key, f"Key_{number}"), ALT)


def judged(desk, qtbot) -> None:
    qtbot.waitUntil(lambda: desk.judge.held_for(desk.session.style) is not None)
    qtbot.waitUntil(lambda: not desk.judge.waiting)


def type_into(table, row: int, column: int, text: str) -> None:
    table.setFocus()
    table.setCurrentCell(row, column)
    table.editItem(table.item(row, column))
    field = table.findChildren(QLineEdit)[-1]
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)
    QApplication.processEvents()  # the table takes a cell when the field has had its key


def words_of(pdf) -> str:
    return " ".join(page.extract_text() for page in PdfReader(pdf).pages)


def readings(desk):
    return desk.session.style.cloths[0].tests


def test_a_strip_is_typed_over_and_each_entry_is_one_step(shared, desk):
    page(shared, 2)
    before = readings(desk)
    type_into(desk.strips.table, 0, 4, "2,9")
    assert readings(desk)[0].extensions_mm == (2.9,)
    key(shared.window, Qt.Key.Key_Z, CTRL)
    assert readings(desk) == before
    assert desk.strips.table.item(0, 4).text() == f"{before[0].extensions_mm[0]:g}"


def test_several_loads_of_a_strip_are_typed_as_pairs(shared, desk):
    page(shared, 2)
    type_into(desk.strips.table, 0, 3, "12,5=1.2; 25=2.5")
    assert readings(desk)[0].loads_n == (12.5, 25.0) and readings(desk)[0].extensions_mm == (1.2, 2.5)


def test_a_strip_is_added_and_removed_by_keys(shared, desk):
    page(shared, 2)
    count = len(readings(desk))
    key(shared.window, Qt.Key.Key_Insert, CTRL)
    assert len(readings(desk)) == count + 1 == desk.strips.table.rowCount()
    key(shared.window, Qt.Key.Key_Delete, CTRL)
    assert len(readings(desk)) == count


def test_nonsense_leaves_the_strip_and_a_bad_strip_is_refused_in_the_cores_words(shared, desk):
    page(shared, 2)
    before = readings(desk)
    type_into(desk.strips.table, 0, 0, "slanted")
    assert readings(desk) == before
    assert desk.strips.table.item(0, 0).text() == f"{before[0].angle_deg:g}"
    type_into(desk.strips.table, 0, 3, "-25")
    assert desk.strips.fit is None and "load" in desk.strips.words.text()
    assert not desk.actions_made["cloth.take_direction"].isEnabled()


def test_the_tested_direction_goes_to_the_card(shared, desk):
    cloth = desk.session.style.cloths[0].id
    desk.session.apply("turn", edits.set_cloth(desk.session.style, cloth, tight_direction_deg=90.0))
    page(shared, 2)
    key(shared.window, Qt.Key.Key_T, CTRL)
    card = desk.session.style.cloths[0]
    assert card.tight_direction_deg == direction_to_lay_by(desk.strips.fit) == 0.0
    assert card.how_known == "example"


def test_the_hold_page_shows_what_the_core_says_and_what_a_turn_costs(shared, desk, qtbot):
    page(shared, 3)
    judged(desk, qtbot)
    table, held = desk.hold.table, style_hold(desk.session.style)
    assert [table.item(i, 3).text() for i in range(table.rowCount())] == [
        f"{span(each.hold).replace('-', '–')} mm" for each in held.judged
    ]
    assert {table.item(i, 5).text() for i in range(table.rowCount())} == {"holds"}
    QTest.mouseClick(desk.hold.across, Qt.MouseButton.LeftButton)
    turned = style_hold(desk.session.style, turn_deg=90.0)
    assert [table.item(i, 3).text() for i in range(table.rowCount())] == [
        f"{span(each.hold).replace('-', '–')} mm" for each in turned.judged
    ]
    assert "Breaks" in desk.hold.verdict.text() and turned.failing
    desk.hold.slider.setFocus()
    QTest.keyClick(desk.hold.slider, Qt.Key.Key_End)
    assert desk.hold.turned_deg == 20.0 and not desk.hold.across.isChecked()
    assert desk.hold.candidates.rowCount() == len(desk.judge.candidates) > 1


def test_the_hold_sheet_is_written(shared, desk, qtbot, tmp_path):
    page(shared, 3)
    judged(desk, qtbot)
    desk.hold.export(tmp_path)
    assert (tmp_path / "hold-sheet.pdf").read_bytes().startswith(b"%PDF")
    assert "TURNED" not in words_of(tmp_path / "hold-sheet.pdf")
    QTest.mouseClick(desk.hold.across, Qt.MouseButton.LeftButton)
    desk.hold.export(tmp_path)
    said = words_of(tmp_path / "hold-sheet.pdf")
    assert "ALL BACKING TURNED BY 90 DEG" in said and "BREAKS ITS LIMIT" in said


def test_a_piece_that_breaks_its_limit_stands_among_the_findings_of_the_draft_desk(shared, desk, qtbot):
    cloth = desk.session.style.cloths[0].id
    desk.session.apply("turn", edits.set_cloth(desk.session.style, cloth, tight_direction_deg=90.0))
    key(shared.window, Qt.Key.Key_F5)
    draft = shared.window.desk
    qtbot.waitUntil(lambda: any(f.code == "HOLD_BROKEN" for f in draft.findings.model.rows))
    shared.session.document.undo()
    qtbot.waitUntil(
        lambda: (
            draft.judge.held_for(shared.session.style) is not None
            and not any(f.code == "HOLD_BROKEN" for f in draft.findings.model.rows)
        ),
    )


def field_typed(field, text: str) -> None:
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def choose(box, text: str) -> None:
    box.setCurrentIndex(box.findText(text))
    box.activated.emit(box.currentIndex())


def test_a_lasting_trial_is_entered_with_both_predictions_beside_it(shared, desk, qtbot, tmp_path):
    page(shared, 4)
    form = desk.trials.form
    choose(form.piece, "Vamp")
    field_typed(form.results["mark_after_lasting_mm"], "1,8")
    field_typed(form.results["mark_after_delasting_mm"], "1.5")
    field_typed(form.results["side_length_mm"], "231")
    form.set_photos((str(tmp_path / "throat.jpg"),))
    QTest.mouseClick(form.add, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not desk.trials.busy and form.isEnabled())
    (entry,) = TrialBook().entries()
    vamp = next(p for p in style_hold(desk.session.style).pieces if p.piece == "Vamp")
    trial = entry.trial
    assert (trial.mark_after_lasting_mm, trial.mark_after_delasting_mm, trial.side_length_mm) == (
        1.8,
        1.5,
        231,
    )
    assert trial.predicted_mm == pytest.approx(vamp.hold.best_mm, abs=1e-3)
    assert trial.photos == (str(tmp_path / "throat.jpg"),) and form.photos == ()
    assert desk.trials.table.item(0, 4).text() == "1.8 mm off the mark, delasted 1.5 mm, side 231.0 mm"
    assert trial.predicted_field_mm == pytest.approx(
        predicted_throat_mm(desk.session.style, "Vamp"), abs=1e-3
    )
    assert desk.trials.table.item(0, 6).text() == f"{trial.predicted_field_mm:.1f} mm"
    assert desk.trials.plot.isVisible() and "3 trials with both predictions" in desk.trials.words.text()
    assert "trial-report" in [paper.file for paper in desk.papers()]


def test_a_trial_that_waits_for_the_field_is_not_lost_when_the_window_closes(shared, desk, qtbot):
    page(shared, 4)
    form = desk.trials.form
    choose(form.piece, "Vamp")
    field_typed(form.results["mark_after_lasting_mm"], "1,8")
    QTest.mouseClick(form.add, Qt.MouseButton.LeftButton)
    desk.trials.stop()
    (entry,) = TrialBook().entries()
    assert entry.trial.predicted_mm is not None and entry.trial.mark_after_lasting_mm == 1.8
    qtbot.waitUntil(lambda: not desk.trials.busy)
    assert len(TrialBook().entries()) == 1


def test_fused_samples_and_skiving_checks_are_entered_too(shared, desk):
    page(shared, 4)
    form = desk.trials.form
    QTest.mouseClick(form.add, Qt.MouseButton.LeftButton)
    assert TrialBook().entries() == ()  # nothing was measured
    choose(form.kind, "fused sample")
    assert form.results["ridge"].isVisible() and not form.results["skive_mm"].isVisible()
    field_typed(form.results["peel_n_per_mm"], "1.2")
    field_typed(form.results["composite_percent"], "2.4")
    choose(form.results["show_through"], "in raking light")
    choose(form.verdict, "doubtful")
    QTest.mouseClick(form.add, Qt.MouseButton.LeftButton)
    choose(form.kind, "skiving check")
    field_typed(form.results["skive_mm"], "0,45")
    QTest.mouseClick(form.add, Qt.MouseButton.LeftButton)
    fused, skived = (entry.trial for entry in TrialBook().entries())
    assert (fused.kind, fused.peel_n_per_mm, fused.composite_percent) == ("fused-sample", 1.2, 2.4)
    assert (fused.show_through, fused.ridge, fused.verdict) == (1, None, "doubtful")
    assert (skived.kind, skived.skive_mm, skived.predicted_mm) == ("skiving", 0.45, None)


def test_a_cloth_is_filed_and_taken_back_from_the_register(shared, desk):
    page(shared, 5)
    QTest.mouseClick(desk.register.file, Qt.MouseButton.LeftButton)
    cloth = desk.session.style.cloths[0]
    assert ClothRegister().entry("cloth", cloth.id).cloth.tests == cloth.tests
    assert cloth.register_revision == 1
    desk.session.apply("name", edits.set_cloth(desk.session.style, cloth.id, name="Changed"))
    desk.register.table.setCurrentCell(0, 0)
    QTest.mouseClick(desk.register.take, Qt.MouseButton.LeftButton)
    assert desk.session.style.cloths[0].name == cloth.name
    key(shared.window, Qt.Key.Key_Z, CTRL)
    assert desk.session.style.cloths[0].name == "Changed"


def test_filing_a_cloth_does_not_undo_what_another_desk_filed(shared, desk):
    page(shared, 5)
    register = ClothRegister()
    QTest.mouseClick(desk.register.file, Qt.MouseButton.LeftButton)
    name = desk.session.style.cloths[0].id
    theirs = register.entry("cloth", name).cloth
    register.save(theirs.model_copy(update={"lot": "THEIRS"}), seen=1)
    desk.session.apply("lot", edits.set_cloth(desk.session.style, name, lot="MINE"))
    said = []

    def leave(box) -> None:
        said.append(box.text())
        next(b for b in box.buttons() if b.text() == "Cancel").click()

    with_next_dialog(leave)
    QTest.mouseClick(desk.register.file, Qt.MouseButton.LeftButton)
    assert "was changed in the register" in said[0] and "revision 2" in said[0]
    assert register.entry("cloth", name).cloth.lot == "THEIRS"
    answer("File mine as a new revision")
    QTest.mouseClick(desk.register.file, Qt.MouseButton.LeftButton)
    assert register.entry("cloth", name).cloth.lot == "MINE"
    assert desk.session.style.cloths[0].register_revision == 3
    desk.register.history.setCurrentCell(1, 0)
    QTest.mouseClick(desk.register.back, Qt.MouseButton.LeftButton)
    assert register.entry("cloth", name).cloth.lot == "THEIRS"
    QTest.mouseClick(desk.register.out, Qt.MouseButton.LeftButton)
    assert register.entries("cloth") == () and len(register.history("cloth", name)) == 5


def test_uppers_have_cards_too(shared, desk):
    page(shared, 5)
    choose(desk.register.kind, "Upper materials of the workshop")
    QTest.mouseClick(desk.register.file, Qt.MouseButton.LeftButton)
    upper = desk.session.style.upper_material
    assert upper.register_revision == 1
    assert ClothRegister().entry("upper", upper.name).upper.tests == upper.tests
    desk.session.apply("upper", edits.set_upper(desk.session.style, tests=(), name="another"))
    QTest.mouseClick(desk.register.take, Qt.MouseButton.LeftButton)
    assert desk.session.style.upper_material == upper


def test_the_uppers_own_strips_are_typed_with_narrowing_and_note(shared, desk):
    page(shared, 2)
    choose(desk.strips.of, desk.strips.of.itemText(1))
    table = desk.strips.table
    before = desk.session.style.upper_material.tests
    assert table.rowCount() == len(before) > 0 and not desk.strips.ranking.isVisible()
    type_into(table, 0, 5, "1,2")
    type_into(table, 0, 7, "slipped once")
    strip = desk.session.style.upper_material.tests[0]
    assert (strip.narrowings_mm, strip.note) == ((1.2,), "slipped once")
    key(shared.window, Qt.Key.Key_Insert, CTRL)
    assert len(desk.session.style.upper_material.tests) == len(before) + 1
    field_typed(desk.strips.thickness, "1,1")
    assert desk.session.style.upper_material.thickness_mm == 1.1
    assert readings(desk) is not None and len(readings(desk)) == 12


def test_a_pull_by_hand_sets_the_direction_as_assumed(shared, desk):
    page(shared, 2)
    desk.strips.ranking.setFocus()
    QTest.keyClicks(desk.strips.ranking, "90<0<45")
    QTest.mouseClick(desk.strips.take_hand, Qt.MouseButton.LeftButton)
    card = desk.session.style.cloths[0]
    assert (card.tight_direction_deg, card.how_known) == (90.0, "assumed") and "90<0<45" in card.note
    QTest.keyClicks(desk.strips.ranking, "0=90<45")
    QTest.mouseClick(desk.strips.take_hand, Qt.MouseButton.LeftButton)
    assert desk.session.style.cloths[0] == card  # alike: nothing was told


def test_strips_and_report_go_out_and_come_in(shared, desk, tmp_path):
    page(shared, 2)
    before = readings(desk)
    desk.page_actions.write_report(tmp_path)
    assert "E1, along it" in words_of(tmp_path / "stretch-report.pdf")
    desk.page_actions.read_strips(tmp_path / "strips.csv")
    assert readings(desk) == (*before, *before)
    desk.page_actions.read_strips(tmp_path / "missing.csv")
    assert len(readings(desk)) == 2 * len(before)


def test_limits_are_typed_and_pieces_are_chained_on_the_hold_page(shared, desk, qtbot):
    page(shared, 3)
    judged(desk, qtbot)
    table = desk.hold.table
    type_into(table, 0, 4, "1,4")
    qtbot.waitUntil(lambda: desk.session.style.piece("Vamp").hold_line.limit_mm == 1.4)
    judged(desk, qtbot)
    assert table.item(0, 5).text() == "BREAKS"
    type_into(table, 3, 4, "6")
    qtbot.waitUntil(lambda: desk.session.style.hold_chains[0].limit_mm == 6.0)
    judged(desk, qtbot)
    table.setCurrentCell(3, 0)
    QTest.mouseClick(desk.hold.unchain, Qt.MouseButton.LeftButton)
    judged(desk, qtbot)
    assert [c.name for c in desk.session.style.hold_chains] == ["Inner side"]
    table.clearSelection()
    table.selectRow(0)
    table.selectionModel().select(
        table.model().index(1, 0),
        QItemSelectionModel.SelectionFlag.Select | QItemSelectionModel.SelectionFlag.Rows,
    )
    QTest.mouseClick(desk.hold.chain, Qt.MouseButton.LeftButton)
    judged(desk, qtbot)
    assert desk.session.style.hold_chains[-1].pieces == ("Vamp", "Quarter outer")
    assert desk.judge.held.chains[-1].hold.distance_mm == pytest.approx(208.0)


def test_cloths_of_the_register_are_compared_and_taken(shared, desk, qtbot):
    twill = desk.session.style.cloths[0]
    heavy = twill.model_copy(update={"id": "twill-190", "name": "Twill 190", "mass_g_per_m2": 190.0})
    ClothRegister().save(heavy, seen=0)
    page(shared, 3)
    judged(desk, qtbot)
    assert desk.hold.candidates.rowCount() == 2
    QTest.mouseClick(desk.hold.of_register, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: desk.hold.candidates.rowCount() == 3)
    names = [desk.hold.candidates.item(i, 0).text() for i in range(3)]
    desk.hold.candidates.setCurrentCell(names.index("Twill 190"), 0)
    QTest.mouseClick(desk.hold.take, Qt.MouseButton.LeftButton)
    assert desk.session.style.cloths[0].id == "twill-190"
    judged(desk, qtbot)


def test_cards_of_a_large_register_are_found_by_part_of_their_name(shared, desk, monkeypatch):
    monkeypatch.setattr(register_page, "MOST_ROWS", 3)
    cloth = desk.session.style.cloths[0]
    ClothRegister().save_all(
        (cloth.model_copy(update={"id": f"c{k}", "name": name}), None)
        for k, name in enumerate(["Drill", "Twill 1", "Twill 2", "Canvas"])
    )
    page(shared, 5)
    cards = desk.register
    assert cards.table.rowCount() == 3 and "3 of 4" in cards.more.text() and not cards.more.isHidden()
    QTest.keyClicks(cards.sought, "twill")
    assert [cards.table.cell(row, 0).text() for row in range(cards.table.rowCount())] == [
        "Twill 1",
        "Twill 2",
    ]
    assert cards.more.isHidden()
    cards.sought.clear()
