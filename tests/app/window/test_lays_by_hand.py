"""Lays of a run plan opened on the Lay desk, worked on by hand and given back, by mouse and keys.

The command that plans is stood in for by the same steps in this process, with quick lays; what the command
makes of a locked lay is tried in tests/app/plan/test_locked_lays.py.
"""

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from app.plan.job import LayStore, plan_cloth
from app.plan.kept_lays import read_kept, with_locked
from app.plan.locked_lays import locked_kept
from app.plan.report import plan_object, write_plan
from app.window.printing.offer import Choice
from nesting.files import lay_file
from nesting.free import first_layout
from nesting.lay import Lay
from nesting.stop import Never
from nesting.verify import verify_document
from tests.app.window.hands import SAMPLES, drag, key

CTRL = Qt.KeyboardModifier.ControlModifier


NESTED: dict[tuple[tuple[str, int], ...], Lay] = {}


def quick(problem, seconds, label):
    asked = tuple((item.id, item.demand) for item in problem.items)
    if asked not in NESTED:
        NESTED[asked] = first_layout.solve(problem)
    return NESTED[asked]


class QuickPlan:
    """Stands in for the command: plans in this process when asked to go on."""

    def __init__(self, page):
        self.page, self.asked = page, []

    def start(self, command, style, words, *, expected_s=0.0):
        assert command == "plan"
        self.asked.append((style, list(words)))

    def go_on(self):
        style, words = self.asked.pop(0)
        value = {word: words[i + 1] for i, word in enumerate(words[:-1])}
        folder = Path(value["-o"])
        kept = read_kept(folder, value["--keep"]) if "--keep" in words else {}
        if "--locked" in words:
            kept = with_locked(kept, locked_kept(style, style.order))
        job = replace(self.page._asking[1].job, styles=(style,), kept=kept)
        plans = [
            plan_cloth(
                job,
                used,
                quick,
                LayStore(folder / "work"),
                seconds=1.0,
                stop=Never(),
                tell=lambda text: None,
            )
            for used in (style.cloths[0].id,)
        ]
        payload = plan_object(job, plans, 0.1)
        write_plan(payload, plans, folder)
        self.page.run.done.emit(payload)


@pytest.fixture
def cost(shell, monkeypatch):
    """The run plan's page on the court shoe, with a plan of several lays."""
    assert shell.window.files.open_paths([SAMPLES["court"]])
    style = shell.session.style
    order = {"36": 9, "37": 20, "38": 11}
    shell.session.apply("order", style.model_copy(update={"order": order}))
    window = shell.window
    window.show_desk(3)
    QTest.keyClick(window, Qt.Key.Key_Tab, CTRL)
    desk = window.desk
    page = desk.plan_page
    plan = QuickPlan(page)
    monkeypatch.setattr(page.run, "start", plan.start)
    for name, value in (("table", 700), ("plies", 4), ("seconds", 3)):
        page.fields[name].set_value(value)
    QTest.keyClick(window, Qt.Key.Key_F10)
    plan.go_on()
    yield desk, plan
    desk.stop()


def click_row(table, row, column=2):
    at = table.visualItemRect(table.item(row, column)).center()
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)


def open_row(desk, row, qtbot):
    """Choose a lay in the table and press the button; returns the Lay desk."""
    click_row(desk.plan_page.table, row)
    window = desk.window()
    for button in desk.plan_page.findChildren(type(window.desks[2].planned.button)):
        if button.defaultAction() is desk.actions_made["cost.open_lay"]:
            QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    lay = window.desk
    assert lay.name == "lay"
    qtbot.waitUntil(lay.view.isVisible)
    lay.fit()
    return lay


def give_back(lay):
    QTest.mouseClick(lay.planned.button, Qt.MouseButton.LeftButton)


def move_last_piece(lay, by_mm=(14.0, 0.0)):
    """Drag the piece that lies farthest along the roll a little further; returns its item."""
    ends = [polygon.bounds[2] for polygon in lay.table.polygons]
    index = ends.index(max(ends))
    at = lay.table.polygons[index].representative_point()
    drag(lay.view, (at.x, at.y), (at.x + by_mm[0], at.y + by_mm[1]))
    return lay.table.placements[index].item_id


def test_a_planned_lay_is_opened_with_all_that_it_has_and_going_back_opens_it_no_second_time(cost, qtbot):
    desk, _ = cost
    page = desk.plan_page
    entry = page.payload["lays"][1]
    lay = open_row(desk, 1, qtbot)
    shown = lay.lay
    assert (shown.cloth, shown.pairs, shown.mode) == (entry["cloth"], entry["sets"], entry["mode"])
    assert shown.max_length_mm == page._held.job.table.room_mm and shown.planned.plies == entry["plies"]
    assert lay.table.length_mm == pytest.approx(entry["length_mm"], abs=0.01) and lay.judged.faults == ()
    assert lay.planned.isVisible() and "not given back" in lay.planned.words.text()
    lays = len(desk.session.style.lays)
    desk.window().show_desk(3)
    open_row(desk, 1, qtbot)
    assert len(desk.session.style.lays) == lays


def test_a_lay_moved_by_hand_is_given_back_locked_and_the_plan_counts_its_length(cost, qtbot):
    desk, plan = cost
    page = desk.plan_page
    before, metres = page.payload["lays"], sum(page.payload["cloth_m"].values())
    lay = open_row(desk, 1, qtbot)
    move_last_piece(lay)
    give_back(lay)
    assert "locked in the plan" in lay.planned.words.text()
    plan.go_on()
    entry = page.payload["lays"][1]
    assert [each["name"] for each in page.payload["lays"]] == [each["name"] for each in before]
    assert entry["locked"] and entry["length_mm"] == pytest.approx(before[1]["length_mm"] + 14.0, abs=1.0)
    assert sum(page.payload["cloth_m"].values()) > metres
    document = lay_file.read(page.folder / entry["lay_file"])
    assert verify_document(document).ok
    desk.window().show_desk(3)
    assert page.table.kept(1) and not page.table.item(1, 0).icon().isNull()
    printed = next(paper for paper in desk.papers() if paper.file == "run-plan").pages(Choice("A4", (), ()))
    assert printed, "the papers are made of the plan as it is now"


def test_undo_takes_the_lay_out_of_the_plan_and_redo_puts_it_in_without_planning(cost, qtbot):
    desk, plan = cost
    page = desk.plan_page
    before = page.payload
    lay = open_row(desk, 0, qtbot)
    move_last_piece(lay)
    give_back(lay)
    plan.go_on()
    with_it = page.payload
    key(desk.window(), Qt.Key.Key_Z, CTRL)
    assert page.payload is before and not page.table.lays[0]["locked"] and plan.asked == []
    first = page.folder / before["lays"][0]["lay_file"]
    assert lay_file.read(first)["length_mm"] == pytest.approx(before["lays"][0]["length_mm"], abs=0.01)
    key(desk.window(), Qt.Key.Key_Y, CTRL)
    assert page.payload is with_it and plan.asked == []


def test_planned_again_a_locked_lay_stays_as_it_lies(cost, qtbot):
    desk, plan = cost
    page = desk.plan_page
    lay = open_row(desk, 1, qtbot)
    name = lay.lay.planned.name
    move_last_piece(lay)
    give_back(lay)
    plan.go_on()
    locked = next(each for each in page.payload["lays"] if each["locked"])
    desk.window().show_desk(3)
    page.fields["plies"].set_value(5)
    QTest.keyClick(desk.window(), Qt.Key.Key_F10)
    plan.go_on()
    again = next(each for each in page.payload["lays"] if each["locked"])
    assert (again["name"], again["sets"], again["length_mm"]) == (name, locked["sets"], locked["length_mm"])
    assert all(page.payload["pairs_cut"][size] >= n for size, n in desk.session.style.order.items())


def test_a_tick_taken_away_lets_the_lay_go_and_undo_locks_it_again(cost, qtbot):
    desk, plan = cost
    page = desk.plan_page
    lay = open_row(desk, 0, qtbot)
    move_last_piece(lay)
    give_back(lay)
    plan.go_on()
    with_it = page.payload
    desk.window().show_desk(3)
    box = page.table.visualItemRect(page.table.item(0, 0))
    QTest.mouseClick(
        page.table.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(box.left() + 9, box.center().y())
    )
    assert desk.session.style.locked_lays == ()
    plan.go_on()
    assert not page.payload["lays"][0]["locked"]
    assert page.payload["lays"][0]["length_mm"] == with_it["lays"][0]["length_mm"], "it lies as it lay"
    key(desk.window(), Qt.Key.Key_Z, CTRL)
    assert page.payload is with_it and page.table.kept(0)


def test_a_lay_that_lacks_a_piece_is_refused_and_says_which(cost, qtbot):
    desk, plan = cost
    told = []
    lay = open_row(desk, 0, qtbot)
    lay.status.connect(told.append)
    item = move_last_piece(lay)
    key(desk.window(), Qt.Key.Key_Delete)
    give_back(lay)
    assert "needs" in told[-1] and f"1 × {item} missing" in told[-1]
    assert desk.session.style.locked_lays == () and plan.asked == []


def test_giving_back_is_offered_for_lays_of_a_plan_only(cost, qtbot):
    desk, _ = cost
    window = desk.window()
    window.show_desk(2)
    lay = window.desk
    assert not lay.actions_made["lay.give_back"].isEnabled() and not lay.planned.isVisible()
    window.show_desk(3)
    lay = open_row(desk, 0, qtbot)
    assert lay.actions_made["lay.give_back"].isEnabled()


def test_a_lay_of_an_earlier_plan_is_locked_and_the_person_is_told_to_plan_again(cost, qtbot):
    desk, plan = cost
    page = desk.plan_page
    told = []
    lay = open_row(desk, 0, qtbot)
    page.told.connect(told.append)
    other = {**page.payload, "lays": [{**each, "sets": {"41": 9}} for each in page.payload["lays"]]}
    page._held = replace(page._held, payload=other)
    give_back(lay)
    assert plan.asked == [] and "plan again" in told[-1]
    assert len(desk.session.style.locked_lays) == 1


def test_locked_lays_are_named_and_let_go_also_when_the_plan_is_gone(cost, qtbot):
    desk, plan = cost
    page = desk.plan_page
    lay = open_row(desk, 0, qtbot)
    give_back(lay)
    plan.asked.clear()
    desk.window().show_desk(3)
    page.forget()
    page.look_again()
    assert page.locked.isVisible() and page.locked.words.text().endswith(": A")
    QTest.mouseClick(page.locked.button, Qt.MouseButton.LeftButton)
    assert desk.session.style.locked_lays == () and not page.locked.isVisible()
    key(desk.window(), Qt.Key.Key_Z, CTRL)
    assert len(desk.session.style.locked_lays) == 1 and page.locked.isVisible()
