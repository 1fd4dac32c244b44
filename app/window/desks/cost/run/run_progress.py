"""What a command at work shows: how long it has been at it, what it does, the best lay so far as it grows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from PySide6.QtCore import QCoreApplication, QElapsedTimer, QTimer
from PySide6.QtWidgets import QLabel, QProgressBar, QVBoxLayout, QWidget

from app.window.desks.cost.run.plan_charts import LayPicture
from app.window.running.command_run import CommandRun
from app.window.widgets.lengths import Lengths

translate = QCoreApplication.translate
TICK_MS = 500


class RunProgress(QWidget):
    """Watches runs and shows the one at work; hidden while none is."""

    def __init__(self, lengths: Lengths, *, picture: bool = True) -> None:
        super().__init__()
        self._lengths = lengths
        self._runs: list[CommandRun] = []
        self._clock = QElapsedTimer()
        self._said = self._lay = ""
        self._tick = QTimer(self)
        self._tick.setInterval(TICK_MS)
        self._tick.timeout.connect(self._show)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 6, 0, 0)
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setFixedHeight(6)
        self.words = QLabel()
        self.words.setProperty("role", "soft")
        self.words.setWordWrap(True)
        self.picture = LayPicture()
        for widget in (self.bar, self.words, self.picture):
            column.addWidget(widget)
        self.picture.setHidden(not picture)  # only now: shown without a parent it were a window of its own
        self.hide()

    def watch(self, run: CommandRun) -> None:
        """Show this run's progress while it is at work."""
        self._runs.append(run)
        run.begun.connect(self._begun)
        run.told.connect(self._told)
        run.live.connect(self._live)
        run.over.connect(self._over)

    def _begun(self) -> None:
        self._clock.start()
        self._said = self._lay = ""
        self.picture.show_document(None)
        self._tick.start()
        self._show()
        self.show()

    def _told(self, text: str) -> None:
        self._said = text
        self._show()

    def _live(self, event: Mapping[str, Any]) -> None:
        length = self._lengths.roll_text(event["length_mm"])
        share = self._lengths.percent(event["yield"])
        words = (
            translate("Cost", "{0}, yield {1}")
            if event.get("done")
            else translate("Cost", "best so far {0}, yield {1}")
        )
        best = words.format(length, share)
        self._lay = f"{event['label']}: {best}" if event["label"] else best
        self._said = ""
        self.picture.show_document(event)
        self._show()

    def _over(self) -> None:
        if not any(run.running for run in self._runs):
            self._tick.stop()
            self.hide()

    def _show(self) -> None:
        expected_s = next((run.expected_s for run in self._runs if run.running), 0.0)
        gone = self._clock.elapsed() / 1000.0 if self._clock.isValid() else 0.0
        of = translate("Cost", "{0} s, about {1} s expected").format(f"{gone:.0f}", f"{expected_s:.0f}")
        time = of if expected_s else translate("Cost", "{0} s").format(f"{gone:.0f}")
        self.words.setText("\n".join(filter(None, [time, self._lay, self._said])))
        self.bar.setMaximum(1000 if expected_s else 0)
        self.bar.setValue(min(int(1000 * gone / expected_s), 1000) if expected_s else 0)
