"""Filling the roll: the engine at work, its best lay so far on the board, stop and keep."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QElapsedTimer, QObject, QTimer

from app.errors import AppError
from app.style.model import LayData
from app.tools.lay_table import LayTable
from app.window.desks.lay.kept_lay import data_of, table_of
from app.window.running.solve_run import SolveRun
from geometry.errors import GeometryError
from nesting.errors import NestingError
from nesting.lay import Lay

if TYPE_CHECKING:
    from app.window.desks.lay.desk import LayDesk

translate = QCoreApplication.translate
TICK_MS = 250


def phase_name(phase: str) -> str:
    """Return what the engine is at, in the words of the window."""
    head, _, tail = phase.partition(", ")
    name = {
        "first layout": translate("Lay", "a first lay"),
        "rows": translate("Lay", "pieces in rows"),
        "search": translate("Lay", "searching for a shorter lay"),
        "openings": translate("Lay", "moving pieces from the end into openings"),
        "windows": translate("Lay", "laying stretches anew"),
        "squeeze": translate("Lay", "pulling together"),
        "shorten around what is fixed": translate("Lay", "shortening around what is pinned"),
    }.get(head, head)
    numbers = re.findall(r"\d+", tail)
    if len(numbers) == 2:
        part = translate("Lay", "part {0} of {1}").format(*numbers)
    elif numbers:
        part = translate("Lay", "a part that repeats {0} times").format(*numbers)
    else:
        part = tail
    return f"{name}, {part}" if part else name


class Filling(QObject):
    """Runs the engine for its desk; ``live`` is the best lay so far while it runs, else None."""

    def __init__(self, desk: LayDesk) -> None:
        super().__init__(desk)
        self._desk = desk
        self._phase = ""
        self._lay: LayData | None = None
        self._clock = QElapsedTimer()
        self._ticks = QTimer(self)
        self._ticks.setInterval(TICK_MS)
        self._ticks.timeout.connect(self._tick)
        self.live: LayTable | None = None
        self.run = SolveRun(self)
        self.run.better.connect(self._better)
        self.run.phase.connect(self._at_phase)
        self.run.ended.connect(self._ended)

    def fill(self) -> None:
        """Let the engine lay all pieces; pinned ones stay."""
        desk = self._desk
        style, lay = desk.session.style, desk.lay
        if style is None or lay is None or self.run.running:
            return
        try:
            table = table_of(style, lay, only_pinned=True)
        except (AppError, GeometryError, NestingError) as error:
            desk.status.emit(str(error))
            return
        self._lay = lay
        desk.order.show_running(True)
        desk.order.show_progress(0.0, translate("Lay", "Starting…"))
        self._phase = ""
        self._clock.start()
        self._ticks.start()
        self.run.start(table.problem, seconds=desk.order.seconds.value or None)

    def abandon(self) -> None:
        """End the engine and forget what it found."""
        self._ticks.stop()
        self.run.abandon()
        self.live, self._lay = None, None
        self._desk.order.show_running(False)

    def _at_phase(self, name: str) -> None:
        self._phase = phase_name(name)

    def _tick(self) -> None:
        """Show how far the engine is, whether it found something or not."""
        elapsed_s = self._clock.elapsed() / 1000
        parts = [f"{elapsed_s:.0f} s"]
        if self.live is not None:
            share = self._desk.session.lengths.percent(self.live.yield_share)
            parts += [self._desk.length_text(self.live.length_mm), share]
        self._desk.order.show_progress(elapsed_s, "  ·  ".join(parts) + f"\n{self._phase}")

    def _better(self, lay: Lay, elapsed_s: float) -> None:
        desk = self._desk
        if desk.table is None:
            return
        first = self.live is None
        self.live = LayTable(desk.table.problem, lay.placements)
        desk.show_live(self.live)
        if first:
            desk.fit()
        self._tick()

    def _ended(self, lay: Lay | None, problem: str) -> None:
        desk = self._desk
        self.live = None
        self._ticks.stop()
        desk.order.show_running(False)
        desk.scene_of.end_drag()
        if problem:
            desk.order.told.setText(problem)
            desk.status.emit(problem)
        if lay is not None and self._lay is not None:
            desk.hands.chosen = frozenset()
            seconds = round(lay.seconds, 1)
            desk.edit("fill", placements=data_of(lay.placements), engine=lay.engine, seconds=seconds)
        self._lay = None
        desk.refresh()
        desk.fit()
