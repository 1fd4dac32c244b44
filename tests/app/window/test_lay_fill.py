"""The roll filled by the engine: one step, stopped, gone on, ended by what changes meanwhile."""

from itertools import chain, repeat

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.style import edits
from app.window.desks.lay.filling import end_text, phase_name, phase_names
from nesting.lay import Bound, Lay
from nesting.listen import Phase, PhaseCode
from tests.app.window.hands import (
    SAMPLES,
    answer,
    centre,
    click,
    drag,
    faults_of_handlers,
    key,
    verified_lay,
)

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def desk(lay_desk):
    return lay_desk


def test_fill_lays_everything_without_a_fault_in_one_step(shell, desk, qtbot):
    before = desk.table.length_mm
    steps = len(shell.session.document.labels)
    desk.order.seconds.set_value(3)
    key(shell.window, Qt.Key.Key_Return, CTRL)
    assert desk.run.running and desk.busy()
    qtbot.waitUntil(lambda: not desk.run.running)
    assert desk.table.missing == {} and desk.table.length_mm < before
    verified_lay(desk)
    assert len(shell.session.document.labels) == steps + 1
    assert shell.session.document.undo_label.startswith("Fill lay")
    key(shell.window, Qt.Key.Key_Z, CTRL)
    assert desk.table.length_mm == before


def test_an_order_changed_while_the_roll_is_filled_ends_the_search_and_says_so(
    shell, desk, qtbot, monkeypatch
):
    faults = faults_of_handlers(monkeypatch)
    asked = next(field for field in desk.order._fields.values() if field.value == 1)
    asked.setFocus()
    for _ in range(5):  # of one pair the first layout is as short as can be, and the search ends
        QTest.keyClick(asked, Qt.Key.Key_Up)
    desk.order.seconds.set_value(600)
    desk.fill()
    qtbot.waitUntil(lambda: desk.filling.live is not None)
    pairs = next(field for field in desk.order._fields.values() if field.value == 0)
    pairs.setFocus()
    QTest.keyClick(pairs, Qt.Key.Key_Up)
    assert not desk.run.running and desk.filling.live is None
    assert "changed" in desk.order.told.text() and desk.order.fill_button.isVisible()
    assert len(desk.table.placements) == 6, "what was laid by hand is still there"
    assert faults == []


def test_a_piece_renamed_while_the_roll_is_filled_gets_no_lay_of_the_old_name(
    shell, desk, qtbot, monkeypatch
):
    faults = faults_of_handlers(monkeypatch)
    desk.order.seconds.set_value(3)
    desk.fill()
    shell.window.show_desk(0)
    style = shell.session.style
    old = style.pieces[0].name
    shell.session.apply("rename", edits.rename_piece(style, piece=old, name="Renamed"))
    laid = shell.session.style.lays
    qtbot.waitUntil(lambda: not desk.run.running)
    assert shell.session.style.lays == laid, "nothing was put into a lay that asks for something else"
    assert "changed" in desk.order.told.text()
    shell.window.show_desk(2)
    assert faults == []


def test_stop_keeps_the_best_at_once(shell, desk, qtbot):
    desk.order.seconds.set_value(600)
    desk.fill()
    qtbot.waitUntil(lambda: desk.run.best is not None)
    best = desk.run.best.length_mm
    qtbot.mouseClick(desk.order.stop_button, Qt.MouseButton.LeftButton)
    assert not desk.run.running
    assert desk.table.length_mm <= best + 1e-6
    verified_lay(desk)


def test_closing_while_it_fills_asks_and_cleans_up(shell, desk, qtbot):
    shell.session.document.mark_saved(SAMPLES["court"], shell.session.document.style)
    desk.order.seconds.set_value(600)
    desk.fill()
    process = desk.run._run._child._process
    answer("No")
    assert not shell.window.close() and desk.run.running
    answer("Yes")
    assert shell.window.close()
    assert not desk.run.running and process.poll() is not None


def test_a_pinned_piece_stays_through_a_fill(shell, desk, qtbot):
    click(desk.view, centre(desk, 3))
    key(shell.window, Qt.Key.Key_P)
    at = desk.table.placements[3]
    assert at.pinned
    drag(desk.view, centre(desk, 3), centre(desk, 0))
    assert desk.table.placements[3] == at
    desk.order.seconds.set_value(2)
    desk.fill()
    qtbot.waitUntil(lambda: not desk.run.running)
    assert at in desk.table.placements
    verified_lay(desk)


def test_a_search_that_ended_leaves_no_figures_of_its_own(shell, desk, qtbot):
    desk.order.seconds.set_value(2)
    desk.fill()
    qtbot.waitUntil(lambda: not desk.run.running)
    assert desk.order.told.text() == ""
    shell.session.document.undo()
    assert desk.order.told.text() == ""


def test_filling_again_goes_on_from_the_lay_that_is_known(shell, desk, qtbot):
    lengths = []
    for _ in range(2):
        desk.order.seconds.set_value(2)
        desk.fill()
        qtbot.waitUntil(lambda: not desk.run.running)
        lengths.append(desk.table.length_mm)
        assert desk.judged.faults == ()
    assert lengths[1] <= lengths[0] + 1e-6


def test_it_says_why_a_search_ended():
    bound = Bound({"area": 80.0, "longest piece": 120.0})
    assert "longest piece" in end_text(Lay((), 120.0, stopped="finished", bound=bound))
    assert "may shorten" in end_text(Lay((), 150.0, stopped="time", bound=bound))


def test_going_on_improving_shortens_the_lay_round_after_round_in_one_step_and_leaves_what_is_pinned(
    desk, shell, qtbot, monkeypatch
):
    # rounds as many as a busy machine needs to find something shorter, and one that is stopped
    monkeypatch.setattr("app.window.desks.lay.filling.rounds_s", lambda _: chain((2.0, 2.0), repeat(20.0)))
    desk.hands.chosen = frozenset({0})
    desk.moves.pin()
    pinned = desk.table.placements[0]
    before, steps = desk.table.length_mm, len(shell.session.document.labels)
    shell.window.desk.actions_made["lay.improve"].trigger()
    rounds = []
    desk.run.ended.connect(lambda *_: rounds.append(desk.table.length_mm))
    qtbot.waitUntil(lambda: len(rounds) >= 2 and rounds[-1] < before and desk.run.running)
    shortened = desk.table.length_mm
    shell.window.desk.actions_made["lay.stop"].trigger()
    assert not desk.run.running
    assert desk.table.length_mm <= shortened < before
    assert pinned in desk.table.placements
    verified_lay(desk)
    assert len(shell.session.document.labels) == steps + 1
    key(shell.window, Qt.Key.Key_Z, CTRL)
    assert desk.table.length_mm == before


def test_what_the_engine_is_at_is_said_with_its_section():
    assert set(phase_names()) == set(PhaseCode)
    search = Phase(PhaseCode.SEARCH)
    assert phase_name(search.of_section(2, 3, 1)) == "searching for a shorter lay, part 2 of 3"
    assert "repeats 4 times" in phase_name(search.of_section(1, 1, 4))
    assert phase_name(search.of_section(1, 1, 1)) == phase_name(search)
