"""The costing clerk's desk, by mouse and keys: order, widths, prices, results, export."""

from __future__ import annotations

from decimal import Decimal

import pytest
from openpyxl import load_workbook
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest

from app.cost.per_pair import ClothCost, cloth_width, nest_width, net_m2_per_pair
from app.cost.report import cost_object
from app.cost.sensitivity import sensitivity
from app.errors import UsageError
from app.style.orders import for_style, read_order
from app.window.desks.cost.side import ActionPush
from app.window.printing.offer import Choice
from app.window.widgets.lengths import Unit
from app.workshop.ledger import Ledger, ledger_path
from nesting.free import first_layout
from tests.app.window.hands import SAMPLES, answer, type_into

pytestmark = pytest.mark.slow


@pytest.fixture
def desk(shell, qtbot):
    window = shell.window
    assert window.files.open_paths([SAMPLES["court"]])
    shown = next(desk for desk in window.desks if desk.name == "cost")
    window.show_desk(window.desks.index(shown))
    qtbot.waitUntil(shown.isVisible)
    shown.side.seconds.set_value(1)
    yield shown
    shown.stop()


def untick_all_but(desk, rows):
    for row in range(desk.side.widths.rowCount()):
        if row not in rows:
            desk.side.widths.cell(row, 0).setCheckState(Qt.CheckState.Unchecked)


def small_order(desk):
    for row in range(desk.side.order.rowCount()):
        type_into(desk.side.order, row, 1, "2" if row < 2 else "0")


def test_the_order_beside_the_style_is_shown(desk):
    beside = read_order(SAMPLES["court"].with_name("order.csv"))
    assert desk.side.order.pairs == for_style(beside, desk.session.style)
    assert desk.side.total.text().startswith(str(sum(desk.side.order.pairs.values())))


def test_typed_pairs_count_and_nonsense_does_not(desk):
    type_into(desk.side.order, 0, 1, "7")
    size = desk.side.order.item(0, 0).text()
    assert desk.side.order.pairs[size] == 7
    type_into(desk.side.order, 0, 1, "many")
    assert desk.side.order.pairs[size] == 7
    assert desk.side.order.item(0, 1).text() == "7"


def test_widths_are_counted_one_after_another_and_a_price_moves_the_money(desk, qtbot, tmp_path):
    small_order(desk)
    untick_all_but(desk, (0, 1))
    QTest.keyClick(desk.window(), Qt.Key.Key_F9)
    assert desk.counting.widths.running and desk.busy()
    qtbot.waitUntil(lambda: len(desk.counting.widths.results) == 2)
    assert not desk.counting.widths.running
    assert desk.results.widths.rowCount() == 2
    own = desk.side.widths.widths[0]
    result = desk.counting.widths.results[own.width_mm]
    metres = Decimal(f"{result.row['metres_per_pair']:.6f}")
    assert result.cost_per_pair == (metres * own.price_per_m).quantize(Decimal("0.0001"))
    type_into(desk.side.widths, 0, 1, "10")
    assert desk.counting.widths.results[own.width_mm].cost_per_pair == (metres * 10).quantize(
        Decimal("0.0001")
    )
    desk.out.copy_tables()
    assert str(desk.counting.widths.results[own.width_mm].cost_per_pair) in QGuiApplication.clipboard().text()
    desk.out.export(tmp_path / "figures")
    assert {path.suffix for path in (tmp_path / "figures").iterdir()} == {".pdf", ".csv", ".xlsx"}
    rows = desk.results.sizes.as_text().splitlines()
    lines = [Decimal(row.split("\t")[8]) for row in rows[1:]]
    assert sum(lines[:-1]) == lines[-1] > 0, "the sizes add up to the order, to the cent"


def test_the_best_lay_so_far_is_shown_and_stopping_keeps_it(desk, qtbot):
    small_order(desk)
    desk.side.seconds.set_value(600)
    QTest.keyClick(desk.window(), Qt.Key.Key_F9)
    progress = desk.results.progress
    assert desk.counting.widths.running and progress.isVisible()
    assert progress.words.text().endswith("about 600 s expected")
    first = desk.counting.widths.waiting[0].key
    qtbot.waitUntil(lambda: "best so far" in progress.words.text())
    QTest.keyClick(desk.window(), Qt.Key.Key_F9, Qt.KeyboardModifier.ShiftModifier)
    qtbot.waitUntil(lambda: not desk.counting.widths.running)
    assert list(desk.counting.widths.results) == [first], "the widths not begun are left out"
    assert not progress.isVisible()


def test_leaving_the_style_ends_the_process_at_once(desk, qtbot):
    small_order(desk)
    QTest.keyClick(desk.window(), Qt.Key.Key_F9)
    assert desk.counting.widths.running
    desk.stop()
    assert not desk.counting.widths.running and not desk.results.progress.isVisible()
    assert desk.counting.widths.results == {}


def test_the_quick_estimate_stands_there_before_any_lay(desk, qtbot):
    assert desk.results.sizes.as_text().count("–") > 0
    qtbot.waitUntil(lambda: desk.counting.quick.told is not None)
    average = desk.results.sizes.as_text().splitlines()[-1].split("\t")
    net, quick = float(average[2]), float(average[3])
    assert 0.5 * quick < net < quick
    assert average[4:] == ["–"] * 5, "nothing is nested yet"
    assert "before any lay" in desk.results.quick.text()


def test_cloths_are_compared_with_their_hold_and_priced_by_the_yard(desk, qtbot, tmp_path):
    small_order(desk)
    QTest.keyClick(desk.window(), Qt.Key.Key_2, Qt.KeyboardModifier.AltModifier)
    assert desk.results.pages.page == "cloths" and desk.side.others.isVisible()
    QTest.keyClick(desk.window(), Qt.Key.Key_F9)
    assert desk.busy() == "comparing cloths"
    qtbot.waitUntil(lambda: len(desk.counting.judged) == 2)
    rows = [line.split("\t") for line in desk.results.cloths.as_text().splitlines()]
    assert rows[1][0].startswith("Cotton twill") and rows[1][9] == "holds"
    assert rows[2][9].startswith("breaks"), "the cheaper cloth gives too much"
    before = desk.counting.judged[0][1].cost_per_pair
    desk.session.lengths.unit = Unit.INCH
    desk.session.lengths_changed.emit()
    assert "yd per pair" in desk.results.cloths.as_text() and "ft²" in desk.results.sizes.as_text()
    assert desk.side.others.item(0, 1).text() == "3.1090", "3.40 a metre by the yard"
    type_into(desk.side.others, 0, 1, "6.2180")
    assert desk.side.others.item(0, 1).text() == "6.2180"
    after = desk.counting.judged[0][1].cost_per_pair
    assert abs(after - 2 * before) <= Decimal("0.0001")
    assert desk.side.widths.item(0, 1).text() == "6.2180", "one cloth, one price, on every page"
    desk.out.export(tmp_path / "yards")
    assert "Cloths" in load_workbook(tmp_path / "yards" / "fabric-per-pair.xlsx").sheetnames


def test_what_moves_the_cost_is_drawn_and_follows_the_price(desk, qtbot):
    small_order(desk)
    QTest.keyClick(desk.window(), Qt.Key.Key_3, Qt.KeyboardModifier.AltModifier)
    QTest.keyClick(desk.window(), Qt.Key.Key_F9)
    assert desk.counting.what_if.running and not desk.actions_made["cost.compare"].isEnabled()
    QTest.keyClick(desk.window(), Qt.Key.Key_F9, Qt.KeyboardModifier.ShiftModifier)
    assert not desk.counting.what_if.running
    style, order = desk.session.style, desk.side.order.pairs
    cloth = style.cloths[0]

    def engine(problem, label):
        return first_layout.solve(problem)

    nested = nest_width(style, cloth, order, cloth_width(cloth), engine)
    cost = ClothCost(cloth, nested, net_m2_per_pair(style, list(order), cloth.id))
    moved = sensitivity(style, order, cost, engine)
    desk.counting.what_if._counted({**cost_object(style, order, [cost], [nested]), "sensitivity": moved})
    told = desk.results.sensitivity.as_text()
    assert "gap 2 mm" in told and "pairs ordered: 4" in told and "as costed" in told
    own = next(line for line in told.splitlines() if "gap 2 mm" in line)
    type_into(desk.side.widths, 0, 1, "34")
    again = next(line for line in desk.results.sensitivity.as_text().splitlines() if "gap 2 mm" in line)
    ten_times = Decimal(again.split("\t")[4]) / Decimal(own.split("\t")[4])
    assert abs(ten_times - 10) < Decimal("0.05")
    drawn = desk.results.sensitivity_charts.grab().toImage()
    assert (
        len({drawn.pixel(x, y) for x in range(0, drawn.width(), 3) for y in range(0, drawn.height(), 3)}) > 3
    )


def test_an_order_of_other_sizes_is_refused_in_words(desk, qtbot, tmp_path):
    order = tmp_path / "order.csv"
    order.write_text("size,pairs\n99,4\n")
    said = []
    desk.status.connect(said.append)
    before = desk.side.order.pairs
    answer("Cancel")  # the sizes are offered to be added
    desk.side.box.open_file(order)
    assert "99" in said[-1]
    assert desk.side.order.pairs == before


def test_an_edit_of_the_style_lets_go_of_old_figures(desk, qtbot):
    small_order(desk)
    untick_all_but(desk, (0,))
    desk.compare()
    qtbot.waitUntil(lambda: len(desk.counting.widths.results) == 1)
    style = desk.session.style
    desk.session.apply(
        "gap", style.model_copy(update={"rules": style.rules.model_copy(update={"gap_mm": 3.0})})
    )
    assert desk.counting.widths.results == {}


def test_a_run_is_planned_a_lay_kept_in_other_plies_and_the_rest_planned_anew(desk, qtbot, tmp_path):
    small_order(desk)
    for row in range(3):
        type_into(desk.side.order, row, 1, "6")
    QTest.keyClick(desk.window(), Qt.Key.Key_Tab, Qt.KeyboardModifier.ControlModifier)
    assert desk.pages.currentIndex() == 1
    page = desk.plan_page
    for name, value in (("table", 900), ("plies", 3), ("seconds", 3)):
        page.fields[name].set_value(value)
    QTest.keyClick(desk.window(), Qt.Key.Key_F10)
    assert page.run.running and desk.busy()
    qtbot.waitUntil(lambda: page.payload is not None)
    first = page.payload["lays"][0]
    assert sum(page.payload["pairs_cut"].values()) >= 18
    type_into(page.table, 0, 1, str(first["plies"] - 1))
    assert page.table.kept(0)
    before = page.payload
    QTest.keyClick(desk.window(), Qt.Key.Key_F10)
    qtbot.waitUntil(lambda: page.payload is not before)
    again = page.payload["lays"][0]
    assert again["plies"] == first["plies"] - 1
    assert again["sets"] == first["sets"]
    page.export(tmp_path / "plan")
    entered = Ledger(ledger_path()).history(desk.session.style.name)[-1]
    assert entered.name == desk.session.style.name and entered.planned_m > 0
    on_screen = {paper.file: paper.pages(Choice("A4", (), ())) for paper in desk.papers()[:2]}
    assert len(on_screen["run-plan"]) == len(PdfReader(tmp_path / "plan" / "run-plan.pdf").pages)
    assert len(on_screen["cut-tickets"]) >= len(page.payload["lays"])


def test_planning_shows_the_lay_as_it_grows_and_stop_keeps_the_best_plan(desk, qtbot):
    """By mouse: planned, looked at while it is at work, stopped."""
    small_order(desk)
    QTest.keyClick(desk.window(), Qt.Key.Key_Tab, Qt.KeyboardModifier.ControlModifier)
    page = desk.plan_page
    for name, value in (("table", 1500), ("plies", 2), ("seconds", 600)):
        page.fields[name].set_value(value)
    empty = page.picture.grab().toImage()
    plan, stop = (
        next(b for b in page.findChildren(ActionPush) if b.text() == text)
        for text in ("Plan the run", "Stop")
    )
    QTest.mouseClick(plan, Qt.MouseButton.LeftButton)
    assert page.progress.isVisible() and "about 600 s expected" in page.progress.words.text()
    qtbot.waitUntil(lambda: "best so far" in page.progress.words.text())
    assert page.picture.grab().toImage() != empty
    QTest.mouseClick(stop, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not page.run.running)
    assert not page.progress.isVisible() and page.payload is not None
    ordered, cut = page.payload["pairs_ordered"], page.payload["pairs_cut"]
    assert all(cut[size] >= pairs for size, pairs in ordered.items())
    assert page.picture.grab().toImage() != empty, "the first lay of the plan"


def test_a_run_plan_is_printed_only_once_there_is_one(desk):
    with pytest.raises(UsageError, match="plan the run first"):
        desk.papers()[1].pages(Choice("A4", (), ()))


def test_one_cloth_and_width_have_one_figure_on_every_page(desk, qtbot):
    """Each page searches for itself; whatever any of them finds is what all of them show in the end."""
    small_order(desk)
    untick_all_but(desk, [0])
    cloth = desk.cloth

    def count(page):
        desk.actions_made[f"cost.page_{page}"].trigger()
        desk.compare()
        qtbot.waitUntil(lambda: not desk.counting.running)

    for row in range(desk.side.others.rowCount()):
        ticked = Qt.CheckState.Checked if row == 0 else Qt.CheckState.Unchecked
        desk.side.others.cell(row, 0).setCheckState(ticked)
    for page in ("widths", "cloths", "what_if"):
        count(page)
    by_width = desk.counting.widths.results[cloth.width_mm].row["metres_per_pair"]
    by_cloth = desk.counting.cloths.results[cloth.id].row["metres_per_pair"]
    moved = desk.counting.what_if.cost
    assert by_width == by_cloth == moved["widths"][0]["metres_per_pair"]
    for table in ("gap", "end_loss", "plies", "order"):
        (own,) = [row for row in moved["sensitivity"][table] if row["own"]]
        assert own["metres_per_pair"] == by_width, table
