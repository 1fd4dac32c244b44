"""Runs on the Cost desk: what lays really used is typed there and stands in the workshop's history."""

from __future__ import annotations

import json
from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from app.plan.history import planned_run, run_object
from app.window.desks.cost.run.runs_page import USED
from app.window.widgets.lengths import Unit
from app.workshop.ledger import Ledger, LedgerLay, LedgerRun, ledger_path
from tests.app.window.hands import SAMPLES, type_into


@pytest.fixture
def page(shell, qtbot, tmp_path, monkeypatch):
    monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path / "data"))
    assert shell.window.files.open_paths([SAMPLES["court"]])
    style = shell.session.style
    run = LedgerRun(
        name="spring",
        style=style.name,
        cloth=style.cloths[0].id,
        usable_width_mm=Decimal(1360),
        mode="face-up",
        pairs=100,
        net_m2_per_pair=Decimal("0.045"),
        cost=Decimal("20.40"),
        currency="EUR",
        lays=(
            LedgerLay("A", {"37": 10}, 8, 80, Decimal("4.800")),
            LedgerLay("B", {"38": 10}, 2, 20, Decimal("1.200")),
        ),
    )
    ledger = Ledger(ledger_path())
    ledger.plan(run)
    ledger.plan(replace(run, style="Another", pairs=50))
    window = shell.window
    window.show_desk(3)
    desk = window.desks[3]
    desk.actions_made["cost.page_runs"].trigger()
    yield desk.results.runs
    desk.stop()


def test_the_styles_own_runs_are_listed_and_all_on_demand(page) -> None:
    assert [page.runs.cell(row, 3).text() for row in range(page.runs.rowCount())] == ["Court C12"]
    QTest.mouseClick(page.whole, Qt.MouseButton.LeftButton, pos=QPoint(8, page.whole.height() // 2))
    assert {page.runs.cell(row, 3).text() for row in range(page.runs.rowCount())} == {"Court C12", "Another"}


def test_used_metres_are_typed_and_the_difference_shown(page) -> None:
    type_into(page.lays, 0, USED, "5,04")
    assert page.lays.cell(0, 4).text() == "+0.24" and page.lays.cell(0, 5).text() == "+5.0 %"
    assert page.runs.cell(0, 7).text() == "–", "lay B is not cut yet"
    type_into(page.lays, 1, USED, "1.20")
    assert page.runs.cell(0, 7).text() == "6.24" and page.runs.cell(0, 8).text() == "+4.0 %"
    kept = Ledger(ledger_path()).run(1)
    assert [lay.used_m for lay in kept.lays] == [Decimal("5.04"), Decimal("1.20")]
    assert "by 2 similar runs" in page.expected.text()


def test_a_planned_run_told_as_json_is_read_back_whole() -> None:
    lays = (LedgerLay("A", {"37": 10}, 8, 80, Decimal("4.800")),)
    exact = (Decimal("0.045"), Decimal("20.40"))
    run = LedgerRun("spring", "Court", "twill", Decimal(1360), "face-up", 80, *exact, "EUR", lays, exact[0])
    assert planned_run(json.loads(json.dumps(run_object(run)))) == run


def test_what_is_no_length_is_refused_and_the_cell_keeps_its_figure(page) -> None:
    said = []
    page.told.connect(said.append)
    type_into(page.lays, 0, USED, "a lot")
    type_into(page.lays, 0, USED, "-3")
    assert said == ["a lot is not a length of cloth", "-3 is not a length of cloth"]
    assert page.lays.cell(0, USED).text() == "–"
    assert Ledger(ledger_path()).run(1).used_m is None


def test_in_inches_the_history_speaks_of_yards(page, shell) -> None:
    shell.session.lengths.unit = Unit.INCH
    shell.session.lengths_changed.emit()
    assert page.lays.head(2).text() == "Planned yd"
    assert page.lays.cell(0, 2).text() == f"{4.8 / 0.9144:.2f}"
    type_into(page.lays, 0, USED, "5")
    assert Ledger(ledger_path()).run(1).lays[0].used_m == Decimal(5) * Decimal("0.9144")
