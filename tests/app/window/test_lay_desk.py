"""The cutter's work by mouse and keys: drag, slide, turn, pin, lift, swap, compare."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QInputDialog, QMenu

from app.errors import UsageError
from app.hold.verdicts import style_hold
from app.style.file import load_style, save_style
from app.window.desks.lay.kept_lay import judged_lay
from app.window.printing.offer import Choice
from app.window.printing.onto_sheets import onto_sheets
from nesting.free import first_layout
from nesting.verify import words
from tests.app.window.hands import (
    centre,
    click,
    drag,
    faults_of_handlers,
    key,
    on_view,
    verified_lay,
)

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def desk(lay_desk):
    return lay_desk


def test_pieces_put_back_lie_apart_and_the_judge_finds_no_fault(desk):
    assert len(desk.table.placements) == 6 and desk.judged.faults == ()
    verified_lay(desk)


@pytest.mark.parametrize("typed", ["-3", "1e9"])
def test_a_gap_that_would_let_pieces_overlap_is_refused(shell, desk, monkeypatch, typed):
    faults, told = faults_of_handlers(monkeypatch), []
    desk.status.connect(told.append)
    steps = shell.session.document.labels
    gap = desk.order.gap
    gap.setFocus()
    gap.selectAll()
    QTest.keyClicks(gap, typed)
    QTest.keyClick(gap, Qt.Key.Key_Return)
    assert shell.session.document.labels == steps and desk.lay.gap_mm is None
    assert gap.text() == "" and any("gap" in line for line in told)
    desk.hands.chosen = frozenset({0})
    desk.refresh()
    key(shell.window, Qt.Key.Key_Up, CTRL)
    verified_lay(desk)
    assert faults == []


def test_a_piece_is_dragged_over_another_and_back_again(shell, desk):
    x, y = centre(desk, 1)
    start = centre(desk, 0)
    drag(desk.view, start, (x, y), let_go=False)
    assert "Overlaps by" in shell.window.line.passing.text()
    QTest.mouseRelease(desk.view.viewport(), Qt.MouseButton.LeftButton, pos=on_view(desk.view, (x, y)))
    assert desk.judged.bad == {0, 1}
    assert any("overlap" in desk.side.faults.item(i).text() for i in range(desk.side.faults.count()))
    key(shell.window, Qt.Key.Key_Z, CTRL)
    assert desk.judged.faults == ()


def fill_with_pairs(desk, count):
    """Lay so many pairs by the quick layout, as the engine would."""
    size = next(iter(desk.lay.pairs))
    desk.edit("order", pairs={size: count})
    lay = first_layout.solve(desk.table.problem)
    desk.put("fill", tuple(replace(at, x_mm=at.x_mm + 200.0) for at in lay.placements))


def test_48_pieces_slide_beside_the_window_and_keys_typed_meanwhile_are_dropped(shell, desk, qtbot):
    fill_with_pairs(desk, 8)
    assert len(desk.table.placements) == 48
    before, steps = desk.table.placements, len(shell.session.document.labels)
    key(shell.window, Qt.Key.Key_A, CTRL)
    key(shell.window, Qt.Key.Key_Left, CTRL)
    assert desk.moves.sliding.busy and desk.order.progress.isVisible() and "48" in desk.order.told.text()
    assert desk.table.placements == before, "the window went on at once"
    key(shell.window, Qt.Key.Key_Z, CTRL)
    key(shell.window, Qt.Key.Key_Delete)
    QTest.mouseClick(desk.view.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(5, 5))
    qtbot.waitUntil(lambda: not desk.moves.sliding.busy)
    assert len(desk.table.placements) == 48 and len(desk.hands.chosen) == 48
    assert len(shell.session.document.labels) == steps + 1 and not desk.order.progress.isVisible()
    assert min(polygon.bounds[0] for polygon in desk.table.polygons) < 200.0
    verified_lay(desk)
    key(shell.window, Qt.Key.Key_Z, CTRL)
    assert desk.table.placements == before, "afterwards keys count again"


def test_escape_gives_a_long_slide_up(shell, desk, qtbot):
    fill_with_pairs(desk, 8)
    before = desk.table.placements
    key(shell.window, Qt.Key.Key_A, CTRL)
    key(shell.window, Qt.Key.Key_Left, CTRL)
    key(shell.window, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: not desk.moves.sliding.busy)
    assert desk.table.placements == before


def test_slide_until_it_touches_then_the_gap_is_exact(shell, desk):
    key(shell.window, Qt.Key.Key_Escape)
    click(desk.view, centre(desk, 0))
    for _ in range(30):
        key(shell.window, Qt.Key.Key_Up)
    assert shell.session.document.labels[-1].startswith("Move pieces")
    moved = desk.table.placements[0].y_mm
    key(shell.window, Qt.Key.Key_Down, CTRL)
    assert desk.table.placements[0].y_mm == pytest.approx(moved - 30, abs=0.01)
    verified_lay(desk)


def test_yield_and_length_stay_in_view_whatever_the_other_desks_count(shell, desk):
    click(desk.view, centre(desk, 0))
    key(shell.window, Qt.Key.Key_Right)
    for other in shell.window.desks:
        if other is not desk:
            other.facts.emit("counted elsewhere")
    facts = shell.window._rail._facts.text()
    assert "yield" in facts and f"{desk.table.length_mm / 1000:.3f} m" in facts


def test_nudges_of_one_piece_are_one_step(shell, desk):
    click(desk.view, centre(desk, 2))
    steps = len(shell.session.document.labels)
    for _ in range(5):
        key(shell.window, Qt.Key.Key_Up)
    assert len(shell.session.document.labels) == steps + 1


def test_turn_keeps_the_pull_axis_and_the_hand(shell, desk):
    click(desk.view, centre(desk, 1))
    item = desk.table.placements[1].item_id
    key(shell.window, Qt.Key.Key_R)
    assert desk.table.placements[1].turn_deg == 180.0 and desk.table.placements[1].item_id == item
    assert desk.table.off_axis_deg(1) == pytest.approx(0.0)


def test_lifted_to_the_side_table_and_put_back(shell, desk):
    click(desk.view, centre(desk, 0))
    item = desk.table.placements[0].item_id
    key(shell.window, Qt.Key.Key_Delete)
    assert desk.table.missing == {item: 1} and desk.side.side.count() == 1
    desk.side.side.itemActivated.emit(desk.side.side.item(0))
    assert desk.table.missing == {}
    verified_lay(desk)


def test_two_pieces_are_swapped(shell, desk):
    click(desk.view, centre(desk, 0))
    click(desk.view, centre(desk, 1), Qt.KeyboardModifier.ShiftModifier)
    a, b = centre(desk, 0), centre(desk, 1)
    key(shell.window, Qt.Key.Key_X)
    assert centre(desk, 0)[0] == pytest.approx(b[0], abs=3) and centre(desk, 1)[0] == pytest.approx(
        a[0], abs=3
    )


def test_lays_are_kept_side_by_side_and_saved_with_the_style(shell, desk, tmp_path):
    key(shell.window, Qt.Key.Key_D, CTRL)
    assert desk.side.lays.rowCount() == 2 and desk.index == 1
    click(desk.view, centre(desk, 0))
    key(shell.window, Qt.Key.Key_Delete)
    key(shell.window, Qt.Key.Key_PageUp)
    assert desk.index == 0 and desk.table.missing == {}
    path = tmp_path / "with-lays.style.json"
    save_style(shell.session.style, path)
    again = load_style(path)
    assert [len(lay.placements) for lay in again.lays] == [6, 5]
    assert judged_lay(again, again.lays[0]).faults == ()


def test_more_pairs_go_to_the_side_table(shell, desk):
    field = desk.order._fields[shell.session.style.size_run.base]
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "2")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert sum(desk.table.missing.values()) == 6


def test_a_lay_is_written_only_without_a_fault(shell, desk, tmp_path, monkeypatch):
    from PySide6.QtWidgets import QFileDialog

    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *a, **k: str(tmp_path))
    drag(desk.view, centre(desk, 0), centre(desk, 1))
    key(shell.window, Qt.Key.Key_E, CTRL)
    assert list(tmp_path.glob("lay-*")) == []
    key(shell.window, Qt.Key.Key_Z, CTRL)
    key(shell.window, Qt.Key.Key_E, CTRL)
    names = {path.name for path in (tmp_path / "lay-1").iterdir()}
    assert "lay.json" in names and any(name.endswith(".pdf") for name in names)


def test_a_piece_is_dragged_from_the_side_table_to_its_place(shell, desk, qtbot):
    item = desk.table.placements[0].item_id
    desk.hands.chosen = frozenset({0})
    desk.moves.lift()
    assert desk.table.missing == {item: 1}
    data = desk.side.side.mimeData([desk.side.side.item(0)])
    at = QPointF(on_view(desk.view, (900.0, 1000.0)))
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    over = QDragEnterEvent(at.toPoint(), Qt.DropAction.CopyAction, data, left, none)
    QApplication.sendEvent(desk.view.viewport(), over)
    assert over.isAccepted()
    QApplication.sendEvent(desk.view.viewport(), QDropEvent(at, Qt.DropAction.CopyAction, data, left, none))
    assert desk.table.missing == {} and desk.hands.chosen == {len(desk.table.placements) - 1}
    x0, y0, x1, y1 = desk.table.polygons[-1].bounds
    assert ((x0 + x1) / 2, (y0 + y1) / 2) == pytest.approx((900.0, 1000.0), abs=1.0 / desk.view.px_per_mm)
    key(shell.window, Qt.Key.Key_Z, CTRL)
    assert desk.table.missing == {item: 1}


def test_a_piece_turned_off_the_tight_direction_says_so_and_is_a_fault(shell, desk, qtbot):
    click(desk.view, centre(desk, 0))
    for _ in range(3):
        key(shell.window, Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier)
    qtbot.waitUntil(lambda: "predicted" in desk.side.picked.text())
    item = desk.table.problem.by_id[desk.table.placements[0].item_id]
    held = next(p for p in style_hold(desk.session.style, size=item.size).pieces if p.piece == item.piece)
    assert f"{held.extra_mm(3.0):+.1f} mm along the pull" in desk.side.picked.text()
    assert held.extra_mm(3.0) > 0 and "BREAKS" not in desk.side.picked.text()
    assert desk.table.off_axis_deg(0) == pytest.approx(3.0)
    assert "3.0°" in shell.window.statusBar().currentMessage()
    faults = [desk.side.faults.item(i).text() for i in range(desk.side.faults.count())]
    assert "3.0°" in desk.side.picked.text() and any("3.0°" in text for text in faults)
    assert shell.session.document.undo_label.startswith("Turn pieces")
    key(shell.window, Qt.Key.Key_Z, CTRL)
    assert desk.table.off_axis_deg(0) == 0.0 and desk.judged.faults == ()


def test_the_right_button_takes_the_piece_and_offers_what_can_be_done(shell, desk, qtbot):
    at = on_view(desk.view, centre(desk, 2))
    QTest.mouseClick(desk.view.viewport(), Qt.MouseButton.RightButton, pos=at)
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)  # there at once: no loop of its own that a rebuilt window could fall into
    seen = {action.text(): action for action in menu.actions()}
    assert desk.hands.chosen == {2} and "Next lay" not in seen
    with qtbot.waitSignal(menu.destroyed):
        pin = menu.actionGeometry(seen["Pin or unpin"]).center()
        QTest.mouseClick(menu, Qt.MouseButton.LeftButton, pos=pin)
    assert desk.table.placements[2].pinned


def test_in_inches_a_roll_is_measured_in_yards(shell, desk):
    shell.window.actions_made["look.inch"].trigger()
    expected = f"{desk.table.length_mm / 914.4:.3f} yd"
    assert desk.side.lays.item(0, 1).text() == expected


def test_a_verified_lay_has_its_plan_ticket_and_full_size_to_print_and_a_faulty_one_none(desk, monkeypatch):
    monkeypatch.setattr(QInputDialog, "getText", lambda *a, **k: ("trial lay", True))
    choice = Choice("A4", ("37",), ("left",))
    plan, ticket, full = desk.papers()
    assert (plan.true_size, ticket.true_size, full.true_size) == (False, False, True)
    assert plan.pages(choice) and ticket.pages(choice)
    assert words(desk.out.outgoing().verdict).startswith("verified: gap ")
    (page,) = full.pages(choice)
    assert page.width_mm > desk.table.length_mm
    assert page.height_mm > desk.table.problem.roll.usable_width_mm
    tiles = onto_sheets([page], 210.0, 297.0, true_size=True)
    assert len(tiles) >= page.width_mm * page.height_mm / (210.0 * 297.0)
    desk.hands.chosen = frozenset({0})
    desk.moves.turn_left()
    with pytest.raises(UsageError, match="faults"):
        desk.papers()


def test_the_place_of_a_piece_is_its_place_on_the_roll(shell, desk):
    desk.hands.chosen = frozenset({0})
    desk.refresh()
    x, y, _, _ = desk.table.polygons[0].bounds
    lengths = shell.session.lengths
    assert f"x {lengths.text(x)}   y {lengths.text(y)}" in desk.side.picked.text()
