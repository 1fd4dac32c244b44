"""What leaves the cost desk: the fabric per pair and the run plan, as files, on paper, by the clipboard."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog

from app.errors import AppError, UsageError
from app.papers import registry
from app.papers.shown import Costed
from app.window.desks.cost.interface import CostBench
from app.window.printing.offer import Choice, Offer, offers
from app.window.wording.core_words import told_text
from app.window.wording.words import paper_language

translate = QCoreApplication.translate


class CostOut(QObject):
    """Hands out what the desk shows; holds nothing but its desk."""

    def __init__(self, desk: CostBench) -> None:
        super().__init__(desk)
        self._desk = desk

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return the handler of each action."""
        return {
            "cost.copy": self.copy_tables,
            "cost.export": self.ask_export,
            "cost.export_plan": self.ask_export_plan,
        }

    def papers(self) -> list[Offer]:
        """Return what can be printed, that of the page in front first."""
        page = self._desk.plan_page
        fabric = offers(Costed, self._costed)
        planned = page.papers()
        return [*planned, *fabric] if self._desk.pages.currentWidget() is page else [*fabric, *planned]

    def _costed(self, choice: Choice) -> Callable[[], Costed]:
        counted = self._desk.counted()
        if counted is None:
            raise UsageError(
                translate("Cost", "nothing has been costed yet"),
                remedy=translate("Cost", "compare roll widths first (F9)"),
            )
        style, cloth_id, paper = counted
        return partial(Costed, style, paper, cloth_id, self._desk.measures)

    def copy_tables(self) -> None:
        """Put the table of the page in front and the one by size on the clipboard."""
        results = self._desk.results
        tables: Sequence[str] = (results.table().as_text(), results.sizes.as_text())
        QGuiApplication.clipboard().setText("\n\n".join(tables) + "\n")
        self._desk.status.emit(translate("Cost", "Both tables are on the clipboard"))

    def ask_export(self) -> None:
        """Ask for a folder and write the fabric per pair into it."""
        folder = QFileDialog.getExistingDirectory(self._desk, translate("Cost", "Export into a folder"))
        if folder:
            self.export(Path(folder))

    def export(self, folder: Path) -> None:
        """Write fabric-per-pair as PDF, CSV and XLSX."""
        counted = self._desk.counted()
        if counted is None:
            return
        style, cloth_id, paper = counted
        try:
            files = registry.write(
                Costed(style, paper, cloth_id, self._desk.measures), folder, paper_language()
            )
        except (AppError, OSError) as error:
            self._desk.status.emit(told_text(str(error)))
            return
        names = ", ".join(path.name for path in files)
        self._desk.status.emit(translate("Cost", "Written: {0}").format(names))

    def ask_export_plan(self) -> None:
        """Ask for a folder and put the plan, its papers and its lays there."""
        folder = QFileDialog.getExistingDirectory(self._desk, translate("Cost", "Export into a folder"))
        if folder:
            try:
                self._desk.plan_page.export(Path(folder))
                told = translate("Cost", "The plan, its papers and lays are written to {0}")
                self._desk.status.emit(told.format(folder))
            except OSError as error:
                self._desk.status.emit(f"{folder}: {error.strerror or error}")
            except AppError as error:
                self._desk.status.emit(str(error))
