"""Half patterns, twins, pieces, sizes and measures on the draft desk, by mouse and keys."""

from __future__ import annotations

import shutil

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.style.file import load_style, save_style
from app.style.whole import folding
from app.window.desks.order_box import open_order
from geometry.edge_kinds import EdgeKind
from tests.app.window.hands import ROOT, SAMPLES, answer, click, key, with_next_dialog

CTRL, SHIFT, ALT = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
)


@pytest.fixture
def desk(derby):
    return derby.desk


def middle(desk, piece, kind, number=0):
    shown = desk.board.piece(piece)
    edge = [e for e in shown.edges if e.kind is kind][number]
    return shown.to_board(edge.point_at(0.5)[0])


def typed(field, text) -> None:
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def choose(box, data) -> None:
    box.setCurrentIndex(box.findData(data))
    box.activated.emit(box.currentIndex())


def pieces(desk) -> list[str]:
    return [piece.name for piece in desk.session.style.pieces]


def test_a_piece_is_folded_unfolded_and_both_are_undone(derby, desk):
    desk.pick_piece("Counter")
    before = desk.session.style
    key(derby, Qt.Key.Key_F, SHIFT)
    assert any(e.kind is EdgeKind.CENTRE for e in desk.piece_data.edges)
    key(derby, Qt.Key.Key_U, SHIFT)
    assert not any(e.kind is EdgeKind.CENTRE for e in desk.piece_data.edges)
    assert desk.board.piece("Counter").outline.area_mm2 == pytest.approx(7419.4, abs=1.0)
    assert derby.session.document.labels == (
        "Fold to half pattern · Counter",
        "Unfold half pattern · Counter",
    )
    key(derby, Qt.Key.Key_Z, CTRL)
    key(derby, Qt.Key.Key_Z, CTRL)
    assert desk.session.style == before


def test_an_edge_that_is_clicked_is_the_fold(derby, desk):
    half = folding.fold(desk.session.style, "Counter")
    marked = [
        e.model_copy(update={"kind": EdgeKind.RAW}) if e.kind is EdgeKind.CENTRE else e
        for e in half.piece("Counter").edges
    ]
    piece = half.piece("Counter").model_copy(update={"edges": tuple(marked)})
    plain = half.model_copy(update={"pieces": (*half.pieces[:-1], piece)})
    derby.session.apply("by hand", plain)
    desk.fit()
    click(desk.view, middle(desk, "Counter", EdgeKind.RAW))
    key(derby, Qt.Key.Key_U, SHIFT)
    assert desk.board.piece("Counter").outline.area_mm2 == pytest.approx(7419.4, abs=1.0)


def test_a_mirrored_twin_follows_a_setback_that_is_typed(derby, desk):
    desk.pick_piece("Tongue")

    def name_it(dialog) -> None:
        dialog.name.setText("Tongue 2")
        dialog.accept()

    with_next_dialog(name_it)
    key(derby, Qt.Key.Key_M, SHIFT)
    assert pieces(desk)[3:5] == ["Tongue", "Tongue 2"] and desk.selecting.piece == "Tongue 2"
    click(desk.view, middle(desk, "Tongue 2", EdgeKind.UNDERLAY))
    typed(desk.inspector.setback, "6,5")
    for name in ("Tongue", "Tongue 2"):
        assert 6.5 in [e.setback_mm for e in desk.session.style.piece(name).edges]
    key(derby, Qt.Key.Key_L, SHIFT)
    assert desk.session.style.piece("Tongue").twin == ""


def test_all_is_copied_to_the_twin_by_one_key(derby, desk):
    click(desk.view, middle(desk, "Quarter outer", EdgeKind.SEAM))
    typed(desk.inspector.setback, "4,25")
    desk.select("Quarter outer")
    key(derby, Qt.Key.Key_T, SHIFT)
    assert 4.25 in [e.setback_mm for e in desk.session.style.piece("Quarter inner").edges]
    assert derby.session.document.undo_label == "Copy all to the twin · Quarter outer"


def test_pieces_are_duplicated_deleted_and_drawn_from_nothing(derby, desk):
    desk.pick_piece("Tongue")
    key(derby, Qt.Key.Key_D, CTRL)
    assert "Tongue 2" in pieces(desk) and desk.selecting.piece == "Tongue 2"
    key(derby, Qt.Key.Key_Delete, SHIFT)
    assert "Tongue 2" not in pieces(desk)

    def rectangle(dialog) -> None:
        dialog.name.setText("Stay")
        dialog.backing_only.setChecked(True)
        dialog.width_field.setText("110")
        typed(dialog.height_field, "18,5")  # Enter draws

    with_next_dialog(rectangle)
    key(derby, Qt.Key.Key_G, SHIFT)
    stay = desk.board.piece("Stay")
    assert stay.outline.area_mm2 == pytest.approx(110 * 18.5)
    assert desk.view.visible_mm().contains(desk.scene_of.bounds("Stay"))


def test_corners_that_make_no_piece_are_refused_in_words(derby, desk):
    def crossed(dialog) -> None:
        dialog.corners.setText("0,0 10,10 10,0 0 10")
        dialog.accept()

    count = len(pieces(desk))
    with_next_dialog(crossed)
    key(derby, Qt.Key.Key_G, SHIFT)
    assert len(pieces(desk)) == count and "out of reach" in derby.statusBar().currentMessage()


def test_pieces_of_another_drawing_come_in(derby, desk):
    def only_the_cap(dialog) -> None:
        for row in range(dialog.list.count()):
            item = dialog.list.item(row)
            item.setCheckState(Qt.CheckState.Checked if item.text() == "Tongue" else Qt.CheckState.Unchecked)
        dialog.accept()

    with_next_dialog(only_the_cap)
    desk.whole.add_from(ROOT / "sample_styles/derby/derby.dxf")
    assert pieces(desk)[-1] == "Tongue 2" and desk.selecting.piece == "Tongue 2"


def test_sizes_are_added_kept_as_drawn_graded_again_and_removed(derby, desk):
    key(derby, Qt.Key.Key_2, CTRL)
    page = desk.side.sizes
    typed(page.new, "46-47")
    assert desk.session.style.size_run.sizes[-2:] == ("46", "47")
    assert desk.strip.size_box.findData("47") >= 0
    page.table.selectRow(7)
    QTest.mouseClick(page.draw, Qt.MouseButton.LeftButton)
    assert "47" in desk.session.style.piece("Vamp").drawings
    assert page.size_chosen == "47"
    QTest.mouseClick(page.grade, Qt.MouseButton.LeftButton)
    assert "47" not in desk.session.style.piece("Vamp").drawings
    QTest.mouseClick(page.remove, Qt.MouseButton.LeftButton)
    assert desk.session.style.size_run.sizes[-1] == "46" and desk.strip.size_box.findData("47") < 0
    typed(page.new, "large")
    assert "not a number" in derby.statusBar().currentMessage()


def test_the_run_is_read_in_another_system_and_a_wrong_girth_leaves_the_field(derby, desk):
    key(derby, Qt.Key.Key_2, CTRL)
    page = desk.side.sizes
    choose(page.system, "uk")
    assert desk.session.style.size_run.system == "uk"
    typed(page.girth, "9000")
    assert page.girth.value == desk.session.style.size_run.base_girth_mm
    typed(page.base, "43")
    assert desk.session.style.size_run.base == "43" and desk.on_base


def test_a_piece_grows_in_length_only_and_shares_a_shape(derby, desk):
    desk.pick_piece("Counter")
    key(derby, Qt.Key.Key_2, CTRL)
    page = desk.side.sizes
    choose(page.grading, "length")
    page.table.selectRow(3)
    choose(page.cut_as, "44")
    counter = desk.session.style.piece("Counter")
    assert counter.grading == "length" and counter.cut_as == {"43": "44"}
    choose(page.cut_as, "")
    assert desk.session.style.piece("Counter").cut_as == {}


def test_the_size_nest_lies_over_every_piece(derby, desk):
    key(derby, Qt.Key.Key_N, SHIFT)
    smaller, larger = desk.scene_of._drawn["Vamp"].shown.nest
    uppers = (*(n.upper for n in smaller), desk.board.piece("Vamp").upper, *(n.upper for n in larger))
    areas = [upper.outline.area_mm2 for upper in uppers]
    assert len(areas) == 6 and areas == sorted(areas)
    key(derby, Qt.Key.Key_N, SHIFT)
    assert desk.scene_of._drawn["Vamp"].shown.nest == ((), ())


def test_edges_are_sewn_by_two_clicks_and_the_difference_is_told(derby, desk, qtbot):
    key(derby, Qt.Key.Key_3, CTRL)
    click(desk.view, middle(desk, "Quarter outer", EdgeKind.SEAM))
    key(derby, Qt.Key.Key_E, SHIFT)
    click(desk.view, middle(desk, "Quarter inner", EdgeKind.SEAM))
    key(derby, Qt.Key.Key_E, SHIFT)
    (seam,) = desk.session.style.seams
    assert {seam.first[0], seam.second[0]} == {"Quarter outer", "Quarter inner"}
    page = desk.side.measures
    page.seams.selectRow(0)
    typed(page.ease, "5")
    assert desk.session.style.seams[0].ease_mm == 5.0
    qtbot.waitUntil(lambda: any(f.code == "SEAM_DIFFERS" for f in desk.findings.model.rows))
    QTest.mouseClick(page.apart, Qt.MouseButton.LeftButton)
    assert desk.session.style.seams == ()
    page.seams.selectRow(0)
    QTest.mouseClick(page.pair, Qt.MouseButton.LeftButton)
    assert len(desk.session.style.seams) == 1


def test_two_sizes_and_two_versions_are_laid_over_each_other(derby, desk, qtbot, tmp_path):
    key(derby, Qt.Key.Key_3, CTRL)
    page = desk.side.measures
    desk.select("")
    choose(page.with_box, "45")
    qtbot.waitUntil(lambda: not desk.size_on_board.waiting)
    over = desk.scene_of._drawn["Vamp"].shown.over
    assert over is not None and over.area_mm2 > desk.board.piece("Vamp").outline.area_mm2
    assert page.differences.rowCount() == 5
    other = folding.fold(load_style(SAMPLES["derby"]), "Counter")
    save_style(other, tmp_path / "older.style.json")
    page.compare_with(tmp_path / "older.style.json")
    assert desk.scene_of._drawn["Counter"].shown.over.area_mm2 < 4000
    choose(page.with_box, "")
    assert desk.scene_of._drawn["Counter"].shown.over is None
    shutil.copy(SAMPLES["boot"], tmp_path / "boot.style.json")
    page.compare_with(tmp_path / "boot.style.json")
    assert "no piece of these names" in derby.statusBar().currentMessage()
    assert not derby.isWindowModified()


def test_measures_are_shown_in_inches(derby, desk):
    key(derby, Qt.Key.Key_3, CTRL)
    desk.select("Vamp")
    desk.session.lengths.unit = type(desk.session.lengths.unit).INCH
    desk.session.lengths_changed.emit()
    assert "in²" in desk.side.measures.head.text() and desk.side.measures.head.text().endswith(" in")
    desk.session.lengths.unit = type(desk.session.lengths.unit).MM
    desk.session.lengths_changed.emit()


def test_an_order_with_unknown_sizes_offers_to_add_them(derby, tmp_path):
    order = tmp_path / "order.csv"
    order.write_text("size,pairs\n42,10\n46,5\n", encoding="utf-8")
    derby.show_desk(2)
    told = []
    answer("Cancel")
    open_order(derby.session, order, told.append)
    assert "46" in told[0] and "46" not in derby.session.style.size_run.sizes
    answer("Add the sizes")
    open_order(derby.session, order, told.append)
    assert len(told) == 1 and derby.session.style.order["46"] == 5
    assert "46" in derby.session.style.size_run.sizes
    assert derby.session.document.undo() and "46" not in derby.session.style.size_run.sizes


def test_a_desk_made_anew_has_the_page_it_had(derby, desk):
    key(derby, Qt.Key.Key_2, CTRL)
    assert desk.side.page == "sizes"
    carried = desk.carried()
    assert carried["checked"]["draft.page_sizes"]
