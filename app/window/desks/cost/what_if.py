"""The figures that a command works out beside the comparisons: the quick estimate and what moves the cost."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from app.style.model import Style
from app.window.running.command_run import CommandRun

SOON_MS = 350
"""The quick estimate waits this long for the next change of the order or the style."""


def order_words(cloth_id: str, pairs: dict[str, int]) -> list[str]:
    """Return the words of the ``cost`` command for an order on one cloth."""
    return ["--cloth", cloth_id, "--pairs", ",".join(f"{size}:{count}" for size, count in pairs.items())]


class QuickFigures(QObject):
    """The quick estimate of the order on one cloth, worked out again a moment after it is asked for."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.told: dict[str, Any] | None = None
        self._asked: tuple[Style, str, dict[str, int]] | None = None
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(SOON_MS)
        self._soon.timeout.connect(self._start)
        self._run = CommandRun(self)
        self._run.done.connect(self._counted)
        self._run.failed.connect(self._failed)

    def ask(self, style: Style, cloth_id: str, pairs: dict[str, int]) -> None:
        """Ask for the estimate, unless it is the one that is there or on its way."""
        if self._asked is not None and self._asked[0] is style and self._asked[1:] == (cloth_id, pairs):
            return
        self.stop()
        self.told = None
        self._asked = (style, cloth_id, dict(pairs))
        self._soon.start()

    def stop(self) -> None:
        """Ask for nothing any more; what is there stays."""
        self._soon.stop()
        if self._run.running:
            self._run.stop()
        if self.told is None:
            self._asked = None

    def _start(self) -> None:
        if self._asked is not None:
            style, cloth_id, pairs = self._asked
            self._run.start("cost", style, [*order_words(cloth_id, pairs), "--quick"])

    def _counted(self, told: object) -> None:
        assert isinstance(told, dict)
        self.told = told["cloths"][0]
        self.changed.emit()

    def _failed(self, why: str) -> None:
        self.changed.emit()


class Sensitivity(QObject):
    """What moves the cost: ``tables`` as ``cost --sensitivity`` gives them, None until worked out."""

    changed = Signal()
    told = Signal(str)
    failed = Signal(str)
    finished = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.cost: dict[str, Any] | None = None
        self.counted_for: tuple[Style, str] | None = None
        self._words: list[str] = []
        self._again = False
        self.run = CommandRun(self)
        self.run.told.connect(self.told)
        self.run.done.connect(self._counted)
        self.run.failed.connect(self._refused)

    @property
    def running(self) -> bool:
        """Whether it is being worked out."""
        return self.run.running

    def start(self, style: Style, cloth_id: str, pairs: dict[str, int], seconds: float) -> None:
        """Work it out again, each lay given this many seconds."""
        self.cost, self.counted_for = None, (style, cloth_id)
        self._words = [*order_words(cloth_id, pairs), "--sensitivity", "--seconds", f"{seconds:g}"]
        self._again = False
        self.run.start("cost", style, self._words)
        self.changed.emit()

    def work_out_again(self) -> None:
        """Work it out on the best lays known by now: another page may have found better ones."""
        if not self.run.running and self.cost is not None and self.counted_for is not None:
            self._again = True
            self.run.start("cost", self.counted_for[0], [*self._words, "--known"])

    def stop(self) -> None:
        """End the work."""
        self.run.stop()

    def forget(self) -> None:
        """End the work and let go of what was found."""
        self.stop()
        self.cost, self.counted_for = None, None
        self.changed.emit()

    def _counted(self, cost: object) -> None:
        assert isinstance(cost, dict)
        self.cost = cost
        self.changed.emit()
        if not self._again:
            self.finished.emit()

    def _refused(self, why: str) -> None:
        self.failed.emit(why)
        self.changed.emit()
