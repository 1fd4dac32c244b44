"""The cost desk: the order and the widths at the left, what they cost at the right.

Each width is nested by the ``cost`` command in a process of its own, one after another; results
appear as they come. A changed price moves the money at once, without nesting again.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.cost import Width
from app.cost_compare import ComparedWidth, merged, widths_to_compare
from app.errors import AppError, UsageError
from app.papers import fabric_per_pair
from app.papers.drawing import Page
from app.style.model import ClothData, Style
from app.style.orders import for_style, read_order
from app.style.pieces import used_cloths
from app.window.actions import ActionSpec
from app.window.desks.base import Desk
from app.window.desks.cost.charts import WidthCharts
from app.window.desks.cost.comparison import Comparison
from app.window.desks.cost.cost_actions import COST
from app.window.desks.cost.plan_page import PlanPage
from app.window.desks.cost.tables import OrderTable, ResultTable, SizeTable, WidthTable
from app.window.desks.draft.view_strip import action_button
from app.window.fields import NumberField
from app.window.printing.offer import Choice, Paper
from app.window.session import Session

translate = QCoreApplication.translate

SECONDS = 10.0
"""Time given to each width's lay unless another is typed."""


class CostDesk(Desk):
    """Fabric per pair of the open style."""

    name = "cost"

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self.comparison = Comparison(self)
        self.comparison.told.connect(self.status)
        self.comparison.changed.connect(self._refresh)
        self.comparison.refused.connect(self._refused)
        self.comparison.finished.connect(self._finished)
        self._planned_for: Style | None = None
        self._chosen = 0.0
        self._make_actions()
        self._make_widgets()
        session.opened.connect(self._opened)
        session.changed.connect(self._changed)
        session.lengths_changed.connect(self._changed)

    @classmethod
    def title(cls) -> str:
        return translate("Desk", "Cost")

    @classmethod
    def specs(cls) -> tuple[ActionSpec, ...]:
        return COST

    def _make_actions(self) -> None:
        handlers: dict[str, Callable[..., object]] = {
            "cost.compare": self.compare,
            "cost.stop": self.stop_comparing,
            "cost.plan": self.plan,
            "cost.stop_plan": self.stop_planning,
            "cost.export_plan": self.ask_export_plan,
            "cost.turn_page": self.turn_page,
            "cost.order": self.ask_order,
            "cost.copy": self.copy_tables,
            "cost.export": self.ask_export,
        }
        for spec in COST:
            self.actions_made.add(spec, handlers[spec.id])

    def _make_widgets(self) -> None:
        self.order = OrderTable()
        self.order.changed.connect(self._order_changed)
        self.cloths = QComboBox()
        self.cloths.setAccessibleName(translate("Cost", "Cloth"))
        self.cloths.activated.connect(self._cloth_chosen)
        self.widths = WidthTable(self.session.lengths)
        self.widths.priced.connect(self._priced)
        self.seconds = NumberField(translate("Cost", "Seconds for a lay"), step=5.0, digits=0)
        self.seconds.setToolTip(translate("Cost", "How long the engine works on the lay of a width"))
        self.seconds.set_value(SECONDS)
        self.seconds.setMaximumWidth(64)
        self.total = QLabel()
        self.total.setProperty("role", "soft")
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(12, 10, 10, 10)
        column.setSpacing(7)
        column.addLayout(_head(translate("Cost", "Order"), action_button(self.actions_made["cost.order"])))
        column.addWidget(self.order, 3)
        column.addWidget(self.total)
        column.addLayout(_head(translate("Cost", "Cloth")))
        column.addWidget(self.cloths)
        column.addWidget(self.widths, 2)
        time = QHBoxLayout()
        time.addWidget(QLabel(translate("Cost", "Seconds for a lay")))
        time.addStretch(1)
        time.addWidget(self.seconds)
        column.addLayout(time)
        buttons = QHBoxLayout()
        buttons.addWidget(action_button(self.actions_made["cost.compare"], words=True))
        buttons.addWidget(action_button(self.actions_made["cost.stop"], words=True))
        buttons.addStretch(1)
        column.addLayout(buttons)
        self.result_table = ResultTable()
        self.result_table.chosen.connect(self._row_chosen)
        self.charts = WidthCharts()
        self.sizes = SizeTable()
        self.sizes_head = QLabel()
        self.sizes_head.setProperty("role", "heading")
        right = QWidget()
        rows = QVBoxLayout(right)
        rows.setContentsMargins(12, 10, 14, 10)
        rows.setSpacing(8)
        rows.addLayout(
            _head(
                translate("Cost", "By roll width"),
                action_button(self.actions_made["cost.turn_page"], words=True),
                action_button(self.actions_made["cost.copy"]),
                action_button(self.actions_made["cost.export"]),
            )
        )
        rows.addWidget(self.result_table, 3)
        rows.addWidget(self.charts, 4)
        rows.addWidget(self.sizes_head)
        rows.addWidget(self.sizes, 4)
        self._across = QSplitter()
        self._across.addWidget(left)
        self._across.addWidget(right)
        self._across.setStretchFactor(1, 1)
        self._across.setSizes([290, 1000])
        kept = self.session.settings.state("cost.across")
        if kept is not None:
            self._across.restoreState(kept)
        actions = self.actions_made
        self.plan_page = PlanPage(
            self.session,
            actions["cost.turn_page"],
            actions["cost.plan"],
            actions["cost.stop_plan"],
            actions["cost.export_plan"],
        )
        self.plan_page.told.connect(self.status)
        self.plan_page.changed.connect(self._refresh)
        self.pages = QStackedWidget()
        self.pages.addWidget(self._across)
        self.pages.addWidget(self.plan_page)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.pages)

    # -- the shell's calls ----------------------------------------------------------------------
    def entered(self) -> None:
        self._refresh()
        self.order.setFocus()

    def busy(self) -> str:
        if self.plan_page.run.running:
            return translate("Cost", "planning the run")
        return translate("Cost", "comparing roll widths") if self.comparison.running else ""

    def stop(self) -> None:
        self.comparison.stop()
        self.plan_page.stop()

    def papers(self) -> list[Paper]:
        return [Paper(translate("Cost", "Fabric per pair"), "fabric-per-pair", self._fabric_pages)]

    def _fabric_pages(self, choice: Choice) -> list[Page]:
        counted_for, results = self.comparison.counted_for, self.comparison.results
        if counted_for is None or not results:
            raise UsageError(
                translate("Cost", "nothing is counted yet"),
                remedy=translate("Cost", "compare roll widths first (F9)"),
            )
        style, cloth_id = counted_for
        paper = merged(results, self._chosen)
        return fabric_per_pair.fabric_pages(style, paper, cloth_id=cloth_id)

    def keep_place(self) -> None:
        self.session.settings.keep_state("cost.across", self._across.saveState())

    # -- what is counted --------------------------------------------------------------------------
    @property
    def cloth(self) -> ClothData | None:
        """The cloth that is costed."""
        style = self.session.style
        chosen = str(self.cloths.currentData() or "")
        return style.cloth(chosen) if style is not None and chosen else None

    def compare(self) -> None:
        """Nest and count every ticked width that is not counted yet."""
        style, cloth = self.session.style, self.cloth
        if style is None or cloth is None or self.comparison.running:
            return
        if not self.order.pairs:
            self.status.emit(translate("Cost", "The order has no pairs: type some, or open an order"))
            return
        ticked = self.widths.ticked
        if not ticked:
            self.status.emit(translate("Cost", "No roll width is ticked"))
            return
        seconds = self.seconds.value or SECONDS
        self.comparison.start(style, cloth.id, self.order.pairs, ticked, seconds)

    def stop_comparing(self) -> None:
        """End the comparison; what is counted stays."""
        self.stop()
        self.status.emit(translate("Cost", "Stopped; what is counted stays"))
        self._refresh()

    def plan(self) -> None:
        """Plan the order's lays; lays that are kept stay."""
        self.plan_page.plan(self.order.pairs)

    def stop_planning(self) -> None:
        """End the planning; the plan before stays."""
        self.plan_page.stop()

    def turn_page(self, on: bool) -> None:
        """Show the run plan, or the cost of a pair."""
        self.pages.setCurrentIndex(1 if on else 0)

    def _refused(self, width: Width, why: str) -> None:
        name = self.widths.name(width)
        self.status.emit(translate("Cost", "{0} could not be counted: {1}").format(name, why))

    def _finished(self) -> None:
        self.status.emit(translate("Cost", "All widths are counted; every lay was verified"))

    # -- showing --------------------------------------------------------------------------------
    def _opened(self) -> None:
        self.stop()
        self.plan_page.forget()
        self.comparison.forget()
        self._chosen = 0.0
        style = self.session.style
        self.cloths.clear()
        if style is None:
            return
        for cloth_id in used_cloths(style):
            self.cloths.addItem(style.cloth(cloth_id).name, cloth_id)
        self.order.show_pairs(self._order_beside(style))
        self._show_widths()
        self._changed()

    def _order_beside(self, style: Style) -> dict[str, int]:
        """The order that lies beside the style's file, else one pair of every size."""
        source = self.session.document.source if self.session.document is not None else None
        if source is not None:
            with contextlib.suppress(AppError):  # no order there, or one of another style
                order = for_style(read_order(source.with_name("order.csv")), style)
                return dict.fromkeys(style.size_run.sizes, 0) | order
        return dict.fromkeys(style.size_run.sizes, 1)

    def _changed(self) -> None:
        style = self.session.style
        counted_for = self.comparison.counted_for
        if style is not None and counted_for is not None and counted_for[0] is not style:
            self.comparison.forget()
        if style is not self._planned_for:
            self._planned_for = style
            self.plan_page.forget()
        if self.isVisible():
            self._refresh()

    def _cloth_chosen(self) -> None:
        self._show_widths()
        self.comparison.forget()

    def _show_widths(self) -> None:
        cloth = self.cloth
        if cloth is not None:
            widths = widths_to_compare(cloth)
            self.widths.show_widths(widths, [width.width_mm for width in widths])

    def _order_changed(self) -> None:
        self.plan_page.forget()
        self.comparison.forget()

    def _priced(self, width_mm: float) -> None:
        self.comparison.price(next(width for width in self.widths.widths if width.width_mm == width_mm))

    def _row_chosen(self, row: int) -> None:
        known = sorted(self.comparison.results)
        if row < len(known):
            self._chosen = known[row]
            self._refresh()

    def _named(self) -> list[tuple[str, ComparedWidth]]:
        results = self.comparison.results
        return [(self.widths.name(results[width].width), results[width]) for width in sorted(results)]

    def _refresh(self) -> None:
        cloth = self.cloth
        named = self._named()
        results = self.comparison.results
        if results and self._chosen not in results:
            self._chosen = next(iter(results))
        shown = results.get(self._chosen)
        name = self.widths.name(shown.width) if shown is not None else ""
        self.result_table.show_results(
            named, self.session.lengths, [self.widths.name(width) for width in self.comparison.waiting]
        )
        self.charts.show_results(named, cloth.currency if cloth else "", name)
        self.sizes.show_result(shown, self.order.pairs)
        self.sizes_head.setText(
            translate("Cost", "By size, roll width {0}").format(name)
            if name
            else translate("Cost", "By size")
        )
        self.total.setText(translate("Cost", "{0} pairs").format(sum(self.order.pairs.values())))
        self.actions_made["cost.compare"].setEnabled(cloth is not None and not self.comparison.running)
        self.actions_made["cost.stop"].setEnabled(self.comparison.running)
        self.actions_made["cost.plan"].setEnabled(cloth is not None and not self.plan_page.run.running)
        self.actions_made["cost.stop_plan"].setEnabled(self.plan_page.run.running)
        self.actions_made["cost.export_plan"].setEnabled(self.plan_page.payload is not None)
        for each in ("copy", "export"):
            self.actions_made[f"cost.{each}"].setEnabled(bool(named))
        facts = []
        if shown is not None:
            facts.append(translate("Cost", "{0} m² a pair").format(f"{shown.row['m2_per_pair']:.4f}"))
            if shown.cost_per_pair is not None and cloth is not None:
                facts.append(f"{shown.cost_per_pair} {cloth.currency}")
        self.facts.emit("  ·  ".join(facts))

    # -- in and out -------------------------------------------------------------------------------
    def ask_order(self) -> None:
        """Ask for an order's file and show it."""
        path, _ = QFileDialog.getOpenFileName(
            self, translate("Cost", "Open an order"), "", translate("Cost", "Orders (*.csv *.xlsx *.txt)")
        )
        if path:
            self.open_order(Path(path))

    def open_order(self, path: Path) -> None:
        """Show the order of a file; says what is wrong with it in the status line."""
        style = self.session.style
        if style is None:
            return
        try:
            pairs = for_style(read_order(path), style, source=str(path))
        except AppError as error:
            self.status.emit(str(error))
            return
        self.order.show_pairs(dict.fromkeys(style.size_run.sizes, 0) | pairs)
        self._order_changed()

    def copy_tables(self) -> None:
        """Put both tables on the clipboard."""
        QGuiApplication.clipboard().setText(f"{self.result_table.as_text()}\n\n{self.sizes.as_text()}\n")
        self.status.emit(translate("Cost", "Both tables are on the clipboard"))

    def ask_export(self) -> None:
        """Ask for a folder and write the fabric per pair into it."""
        folder = QFileDialog.getExistingDirectory(self, translate("Cost", "Export into a folder"))
        if folder:
            self.export(Path(folder))

    def ask_export_plan(self) -> None:
        """Ask for a folder and put the plan, its papers and its lays there."""
        folder = QFileDialog.getExistingDirectory(self, translate("Cost", "Export into a folder"))
        if folder:
            try:
                self.plan_page.export(Path(folder))
            except OSError as error:
                self.status.emit(f"{folder}: {error.strerror or error}")

    def export(self, folder: Path) -> None:
        """Write fabric-per-pair as PDF, CSV and XLSX."""
        counted_for, results = self.comparison.counted_for, self.comparison.results
        if counted_for is None or not results:
            return
        style, cloth_id = counted_for
        paper = merged(results, self._chosen)
        try:
            files = fabric_per_pair.write(style, paper, folder, cloth_id=cloth_id)
        except (AppError, OSError) as error:
            self.status.emit(str(error))
            return
        self.status.emit(translate("Cost", "Written: {0}").format(", ".join(path.name for path in files)))


def _head(text: str, *widgets: QWidget) -> QHBoxLayout:
    row = QHBoxLayout()
    label = QLabel(text)
    label.setProperty("role", "heading")
    row.addWidget(label)
    row.addStretch(1)
    for widget in widgets:
        row.addWidget(widget)
    return row


DESK = CostDesk
