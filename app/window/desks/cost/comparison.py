"""Roll widths counted one after another, each by the ``cost`` command in a process of its own."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QObject, Signal

from app.cost import Width
from app.cost_compare import ComparedWidth, style_on_width
from app.style.model import Style
from app.window.command_run import CommandRun


class Comparison(QObject):
    """``changed`` when a width is counted, refused or let go; ``told`` carries progress in words,
    ``refused`` a width and why it could not be counted, ``finished`` that none is left."""

    changed = Signal()
    told = Signal(str)
    refused = Signal(object, str)
    finished = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.results: dict[float, ComparedWidth] = {}
        self.waiting: list[Width] = []
        self.counted_for: tuple[Style, str] | None = None
        self._words: list[str] = []
        self._run = CommandRun(self)
        self._run.told.connect(self.told)
        self._run.done.connect(self._counted)
        self._run.failed.connect(self._failed)

    @property
    def running(self) -> bool:
        """Whether a width is being counted."""
        return self._run.running

    def start(
        self, style: Style, cloth_id: str, pairs: dict[str, int], widths: Sequence[Width], seconds: float
    ) -> None:
        """Count widths anew for an order on one cloth."""
        self.results.clear()
        self.counted_for = (style, cloth_id)
        self.waiting = list(widths)
        order = ",".join(f"{size}:{count}" for size, count in pairs.items())
        self._words = ["--cloth", cloth_id, "--pairs", order, "--seconds", f"{seconds:g}"]
        self._next()

    def stop(self) -> None:
        """End the counting; what is counted stays."""
        self.waiting.clear()
        self._run.stop()

    def forget(self) -> None:
        """End the counting and let go of all results."""
        self.stop()
        self.results.clear()
        self.counted_for = None
        self.changed.emit()

    def price(self, width: Width) -> None:
        """Put a width's price in force, in results and in what is still to come."""
        if width.width_mm in self.results:
            self.results[width.width_mm] = self.results[width.width_mm].priced(width.price_per_m)
        self.waiting = [width if w.width_mm == width.width_mm else w for w in self.waiting]
        self.changed.emit()

    def _next(self) -> None:
        if self.waiting and self.counted_for is not None:
            style, cloth_id = self.counted_for
            self._run.start("cost", style_on_width(style, cloth_id, self.waiting[0]), self._words)
        self.changed.emit()

    def _counted(self, cost: object) -> None:
        assert isinstance(cost, dict)
        if self.waiting:
            width = self.waiting.pop(0)
            self.results[width.width_mm] = ComparedWidth(width, cost)
            self._next()
            if not self.waiting:
                self.finished.emit()

    def _failed(self, why: str) -> None:
        if self.waiting:
            width = self.waiting.pop(0)
            self._next()
            self.refused.emit(width, why)
