"""The run plan on the cost desk by mouse: a bar pulled for plies, a lay locked, the rest planned again.

The plan itself is a made-up answer of the command, so that the page is tried without nesting; the
whole way, with a real plan, stands in test_cost_desk.
"""

from __future__ import annotations

import json

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from app.window.desks.cost.run.plan_charts import PULL_PX
from app.window.widgets.lengths import Unit
from tests.app.window.hands import SAMPLES


def lay(name, plies, mode="face-up", cloth="twill-150"):
    return {
        "name": name,
        "cloth": cloth,
        "sets": {"36": 2, "37": 4},
        "plies": plies,
        "mode": mode,
        "length_mm": 1500.0,
        "yield": 0.64,
        "metres": 1.54 * plies,
        "pairs": {"36": 2 * plies, "37": 4 * plies},
        "lay_file": f"{cloth}-{name}/lay.json",
    }


def answer(*lays):
    return {
        "lays": list(lays),
        "pairs_ordered": {"36": 20, "37": 40},
        "pairs_cut": {"36": 20, "37": 40},
        "cloth_m": {"twill-150": 15.4},
        "lower_bound_m": {"twill-150": 9.8},
        "shares": {
            "twill-150": {"pieces": 0.6, "between_pieces": 0.33, "selvedge": 0.04, "ends_of_plies": 0.03}
        },
        "cost": {"priced": False},
    }


@pytest.fixture
def page(shell, qtbot):
    window = shell.window
    assert window.files.open_paths([SAMPLES["court"]])
    desk = next(desk for desk in window.desks if desk.name == "cost")
    window.show_desk(window.desks.index(desk))
    QTest.keyClick(window, Qt.Key.Key_Tab, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(desk.plan_page.isVisible)
    yield desk.plan_page
    desk.stop()


def show(page, *lays):
    placed = {"outline_mm": [[0, 0], [100, 0], [100, 60]], "hand": "left"}
    document = {"length_mm": 1500.0, "roll": {"usable_width_mm": 1360.0}, "placements": [placed]}
    for each in lays:
        path = page.folder / each["lay_file"]
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(json.dumps(document))
    page.run.done.emit(answer(*lays))


def middle(bars, row):
    """The middle of a lay's bar."""
    heights = [y for y in range(bars.height()) if bars.row_at(y) == row]
    return QPoint(bars.width() // 3, heights[len(heights) // 2])


def pull(bars, row, plies):
    at = middle(bars, row)
    QTest.mousePress(bars, Qt.MouseButton.LeftButton, pos=at)
    QTest.mouseMove(bars, at + QPoint(0, round(plies * PULL_PX) // 2))
    QTest.mouseMove(bars, at + QPoint(0, round(plies * PULL_PX)))
    QTest.mouseRelease(bars, Qt.MouseButton.LeftButton, pos=at + QPoint(0, round(plies * PULL_PX)))


def test_a_bar_pulled_down_gives_its_lay_more_plies_and_keeps_it(page):
    show(page, lay("A", 6), lay("B", 4))
    pull(page.bars, 1, 3)
    assert [each["plies"] for each in page.table.lays] == [6, 7]
    assert page.table.item(1, 1).text() == "7"
    assert page.table.kept(1) and not page.table.kept(0)
    assert page.table.keep_words == "twill-150-B=7"
    pull(page.bars, 1, -20)
    assert page.table.lays[1]["plies"] == 1


def test_no_bar_is_pulled_beyond_the_most_plies_and_face_to_face_goes_by_two(page):
    page.fields["plies"].set_value(9)
    show(page, lay("A", 6), lay("B", 4, "face-to-face"))
    pull(page.bars, 0, 30)
    pull(page.bars, 1, 3)
    pull(page.bars, 1, 30)
    assert [each["plies"] for each in page.table.lays] == [9, 8]


def test_a_click_on_a_bar_shows_its_lay_and_changes_nothing(page):
    show(page, lay("A", 6), lay("B", 4))
    QTest.mouseClick(page.bars, Qt.MouseButton.LeftButton, pos=middle(page.bars, 1))
    assert page.table.currentRow() == 1
    assert page.table.keep_words == ""


def test_a_lay_kept_by_a_tick_stays_kept_under_its_name(page):
    show(page, lay("A", 6), lay("B", 4))
    box = page.table.visualItemRect(page.table.item(1, 0))
    QTest.mouseClick(
        page.table.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(box.left() + 9, box.center().y())
    )
    assert page.table.keep_words == "twill-150-B=4"
    show(page, lay("A", 4), lay("B", 5), lay("C", 1))
    assert [page.table.kept(row) for row in range(3)] == [False, True, False]


def test_where_the_cloth_goes_is_drawn_and_told(page):
    show(page, lay("A", 6))
    assert "60.0 %" in page.cloth_bars.toolTip()
    assert page.cloth_bars.height() > 0
    page.forget()
    assert page.cloth_bars.height() == 0


def test_beside_inches_every_length_of_the_plan_is_in_yards_and_what_is_kept_stays_kept(page):
    show(page, lay("A", 6), lay("B", 4))
    pull(page.bars, 1, 3)
    page._session.lengths.unit = Unit.INCH
    page._session.lengths_changed.emit()
    assert page.summary.text().splitlines()[1].startswith(f"{15.4 / 0.9144:.3f} yd of cloth")
    assert page.table.item(0, 3).text() == f"{1.5 / 0.9144:.3f} yd"  # a yard is 0.9144 m (1959 agreement)
    assert page.table.kept(1) and page.table.lays[1]["plies"] == 7
