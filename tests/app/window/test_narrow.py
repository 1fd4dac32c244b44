"""At 1024 x 700, the smallest window promised: what one decides by stays on the screen."""

import pytest
from PySide6.QtWidgets import QHeaderView

from app.window.desks.cost.result_tables import ClothResults
from app.window.shell.rail import Rail


@pytest.mark.parametrize("width", [690, 1050])
def test_a_narrow_table_of_cloths_keeps_cost_and_hold(qtbot, width):
    table = ClothResults()
    qtbot.addWidget(table)
    table.resize(width, 120)
    table.show()
    cells = ["Cotton twill 150, EVA dots", "1400 mm", "1360 mm", "3.905 m", "65.3 % (+3.6 ± 2.5)"]
    cells += ["62.1 %", "0.1184", "0.1424", "0.3459", "breaks: Quarter inner"]
    table.fill([cells])
    table.make_room()
    header = table.horizontalHeader()
    shown = [column for column in range(10) if not table.isColumnHidden(column)]
    assert {0, 4, 7, 8, 9} <= set(shown) and (len(shown) == 10) == (width == 1050)
    for column in shown[1:]:
        assert header.sectionSize(column) >= table.sizeHintForColumn(column), cells[column]
    assert header.sectionResizeMode(0) is QHeaderView.ResizeMode.Stretch


def test_long_facts_do_not_cover_the_desks(qtbot):
    names = ("Modello", "Tessuto", "Piazzamento", "Costo")
    rail = Rail([(name, "draft") for name in names], ["F5"] * 4, "desks", "home")
    qtbot.addWidget(rail)
    rail.resize(1024, 44)
    rail.show()
    rail.set_style_name("Derby D4", False, "")
    alone = rail.stations.width()
    rail.set_facts("0.1418 m² al paio  ·  0.3443 EUR  ·  come pianificato 0.1437 m² al paio")
    qtbot.waitExposed(rail)
    assert rail.stations.width() >= rail.stations.sizeHint().width() and rail.stations.width() >= alone
    assert "come pianificato" in rail._facts.toolTip()
