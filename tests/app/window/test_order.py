"""The order belongs to the style: typed, pasted or opened on one desk, it stands on all of them."""

from __future__ import annotations

import openpyxl
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest

from app.style.file import load_style, save_style
from tests.app.window.hands import SAMPLES, answer, type_into


@pytest.fixture
def window(shell):
    assert shell.window.files.open_paths([SAMPLES["court"]])
    yield shell.window
    for desk in shell.window.desks:
        desk.stop()


def show(window, name):
    desk = next(desk for desk in window.desks if desk.name == name)
    window.show_desk(window.desks.index(desk))
    return next(desk for desk in window.desks if desk.name == name)


def paste(table, text):
    QGuiApplication.clipboard().setText(text)
    table.setFocus()
    QTest.keyClick(table, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)


def test_a_typed_order_is_kept_with_the_style_and_can_be_undone(window, tmp_path) -> None:
    cost = show(window, "cost")
    style = window.session.style
    size = style.size_run.sizes[0]
    before = cost.side.order.pairs
    type_into(cost.side.order, 0, 1, "7")
    assert window.session.style.order[size] == 7
    path = tmp_path / "kept.style.json"
    save_style(window.session.style, path)
    assert load_style(path).order == window.session.style.order
    window.session.document.undo()
    assert cost.side.order.pairs == before


def test_the_order_stands_on_the_run_plan_and_on_the_lay_desk(window) -> None:
    cost = show(window, "cost")
    type_into(cost.side.order, 0, 1, "7")
    assert cost.plan_page.box.table.pairs == cost.side.order.pairs
    total = sum(cost.side.order.pairs.values())
    lay = show(window, "lay")
    assert lay.order.ordered.text() == f"1 in this lay, {total} ordered"
    QTest.keyClick(
        window, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier
    )
    assert lay.lay.pairs == cost.side.order.pairs
    assert lay.order.ordered.text() == f"{total} in this lay, {total} ordered"


@pytest.mark.parametrize(
    "text", ["36\t20\n37\t40\n", "size\tpairs\n36\t20\n37\t40", "size\t36\t37\npairs\t20\t40\n"]
)
def test_sizes_and_pairs_are_pasted_from_a_spreadsheet(window, text) -> None:
    cost = show(window, "cost")
    paste(cost.side.order, text)
    assert cost.side.order.pairs == {"36": 20, "37": 40}


def test_what_is_pasted_and_makes_no_sense_is_refused_in_words(window) -> None:
    cost = show(window, "cost")
    before, said = cost.side.order.pairs, []
    cost.status.connect(said.append)
    answer("Cancel")  # sizes that the style lacks are offered to be added
    for text in ("99\t20\n98\t4", "36\t4\n37\tmany", "", "a picture"):
        paste(cost.side.order, text)
    assert len(said) == 4
    assert "whole number" in said[1] and "99 is not a size" in said[0]
    assert cost.side.order.pairs == before and not window.session.style.order


def test_an_order_is_opened_from_a_spreadsheet_on_the_lay_desk(window, tmp_path, monkeypatch) -> None:
    book = openpyxl.Workbook()
    for row in (("size", "pairs"), (36, 12), (38, 6)):
        book.active.append(row)
    path = tmp_path / "order.xlsx"
    book.save(path)
    lay = show(window, "lay")
    monkeypatch.setattr("app.window.desks.order_box.QFileDialog.getOpenFileName", lambda *_: (str(path), ""))
    lay.actions_made["lay.open_order"].trigger()
    assert {size: n for size, n in window.session.style.order.items() if n} == {"36": 12, "38": 6}


def test_the_maximum_length_of_a_lay_is_kept_and_goes_to_the_engine(window) -> None:
    lay = show(window, "lay")
    field = lay.order.longest
    field.setFocus()
    QTest.keyClicks(field, "1500")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert lay.lay.max_length_mm == 1500.0
    assert lay.table.problem.roll.length_mm == 1500.0
    said = []
    lay.status.connect(said.append)
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "-0.5")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert "leaves no room" in said[-1] and lay.lay.max_length_mm == 1500.0
    assert field.text() == "1500", "a refused value leaves its field"
