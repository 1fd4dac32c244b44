"""The right side of the cost desk: pages for roll widths, cloths and what moves the cost, sizes below."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSplitter, QVBoxLayout, QWidget

from app.cost.cloths import HoldVerdict
from app.cost.compare import ComparedWidth
from app.measures import Measures
from app.window.desks.cloth.pages import Pages
from app.window.desks.cost.charts import Bar, CostCharts
from app.window.desks.cost.result_tables import (
    ClothResults,
    ResultTable,
    SensitivityTable,
    SizeTable,
    eligible,
    verdict_word,
)
from app.window.desks.cost.run.run_progress import RunProgress
from app.window.desks.cost.run.runs_page import RunsPage
from app.window.desks.cost.what_if_charts import SensitivityCharts
from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths
from app.window.widgets.table import Table

translate = QCoreApplication.translate

Named = Sequence[tuple[str, ComparedWidth]]
Judged = Sequence[tuple[str, ComparedWidth, HoldVerdict]]


class Results(QWidget):
    """Three pages of comparisons over the figures by size of what is selected in them."""

    def __init__(self, lengths: Lengths) -> None:
        super().__init__()
        self._lengths = lengths
        self.widths = ResultTable()
        self.width_charts = CostCharts(
            translate("Cost", "Compare roll widths to see what a pair costs on each (F9)")
        )
        self.cloths = ClothResults()
        self.cloth_charts = CostCharts(
            translate("Cost", "Compare cloths to see what a pair costs in each, and whether it holds (F9)")
        )
        self.sensitivity = SensitivityTable()
        self.sensitivity_charts = SensitivityCharts()
        self.sizes = SizeTable()
        self.sizes_head = QLabel()
        self.sizes_head.setProperty("role", "heading")
        self.quick = QLabel()
        self.quick.setProperty("role", "soft")
        self.quick.setToolTip(
            translate(
                "Cost",
                "The trade's quick estimate: a piece and the same turned by 180° as close as they will go; half of the parallelogram that repeats is what one piece takes",
            )
        )
        self.runs = RunsPage()
        self.progress = RunProgress(lengths)
        self.progress.setContentsMargins(12, 0, 14, 0)
        self.pages = Pages()
        self._what_if = QSplitter()
        self._what_if.addWidget(self.sensitivity)
        self._what_if.addWidget(self.sensitivity_charts)
        self._what_if.setSizes([560, 500])
        self._below = QWidget()
        rows = QVBoxLayout(self._below)
        rows.setContentsMargins(12, 4, 14, 10)
        rows.setSpacing(6)
        head = QHBoxLayout()
        head.addWidget(self.sizes_head)
        head.addStretch(1)
        head.addWidget(self.quick)
        rows.addLayout(head)
        rows.addWidget(self.sizes)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.pages, 1)
        layout.addWidget(self.progress)
        layout.addWidget(self._below)

    def show_below(self, page: str) -> None:
        """Show the figures by size under the pages of what is counted."""
        self._below.setVisible(page != "runs")

    def add_pages(self) -> None:
        """Put the pages in; their actions are given to ``pages`` before."""
        self.pages.add("widths", _page(self.widths, self.width_charts))
        self.pages.add("cloths", _page(self.cloths, self.cloth_charts))
        self.pages.add("what_if", _page(self._what_if))
        self.pages.add("runs", self.runs)

    def show_widths(
        self, named: Named, currency: str, marked: str, measures: Measures, waiting: Sequence[str]
    ) -> None:
        """Show the widths counted and those still to come."""
        self.widths.show_results(named, self._lengths, measures, waiting)
        bars = [Bar(*each) for each in named]
        self.width_charts.show_bars(bars, currency, marked, measures, running=bool(waiting))

    def show_cloths(
        self, judged: Judged, currency: str, marked: str, measures: Measures, waiting: Sequence[str]
    ) -> None:
        """Show the cloths counted and those still to come."""
        self.cloths.show_results(judged, self._lengths, measures, waiting)
        verdicts = [verdict for _, _, verdict in judged]
        bars = [
            Bar(
                name,
                result,
                "" if verdict.holds else verdict_word(verdict),
                fails=verdict.holds is False,
                eligible=eligible(verdict, verdicts),
                holds=verdict.holds is True,
            )
            for name, result, verdict in judged
        ]
        self.cloth_charts.show_bars(bars, currency, marked, measures, running=bool(waiting))

    def show_what_if(self, told: Mapping[str, Any] | None, measures: Measures, *, running: bool) -> None:
        """Show what moves the cost."""
        hint = (
            translate("Cost", "Nesting several lays, one after another")
            if running
            else translate("Cost", "See how gap, end loss, plies and order affect the cost (F9)")
        )
        self.sensitivity.show_tables(told, self._lengths)
        self.sensitivity_charts.show_tables(told, self._lengths, hint)

    def show_sizes(
        self,
        name: str,
        result: ComparedWidth | None,
        quick: Mapping[str, Any] | None,
        pairs: Mapping[str, int],
        measures: Measures,
    ) -> None:
        """Show the figures by size, and how good the quick estimate proves against the lay shown."""
        self.sizes.show_figures(result, quick, pairs, measures)
        self.sizes_head.setText(
            translate("Cost", "By size, {0}").format(name) if name else translate("Cost", "By size")
        )
        if result is not None:
            share = result.cost["quick"][0]["nested_over_estimate"]
            told = translate("Cost", "the nested lay takes {0} times the quick estimate").format(
                localised(f"{share:.2f}")
            )
        elif quick is not None:
            told = quick_words(quick)
        else:
            told = translate("Cost", "working out the quick estimate …")
        self.quick.setText(told)

    def table(self) -> Table:
        """The table of the page in front."""
        tables: dict[str, Table] = {
            "widths": self.widths,
            "cloths": self.cloths,
            "what_if": self.sensitivity,
            "runs": self.runs.runs,
        }
        return tables[self.pages.page]


def quick_words(quick: Mapping[str, Any]) -> str:
    """Return what the quick estimate of a cloth promises, and what runs before say of it."""
    proved = quick["proved"]
    if proved is None:
        return translate("Cost", "quick estimate, before any lay; no run has shown yet how good it is")
    return translate(
        "Cost", "quick estimate, before any lay; the cloth of earlier runs was {1} times as much (runs: {0})"
    ).format(proved["runs"], localised(f"{proved['factor']:.2f}"))


def _page(*widgets: QWidget) -> QWidget:
    page = QWidget()
    rows = QVBoxLayout(page)
    rows.setContentsMargins(12, 8, 14, 4)
    rows.setSpacing(8)
    for widget in widgets:
        rows.addWidget(widget, 0 if isinstance(widget, Table) else 1, Qt.AlignmentFlag(0))
    return page
