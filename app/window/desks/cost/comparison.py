"""Roll widths or cloths counted one after another, each by the ``cost`` command in its own process."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from PySide6.QtCore import QObject, Signal

from app.cost.compare import ComparedWidth
from app.cost.per_pair import Width
from app.style.model import Style
from app.window.running.command_run import CommandRun


@dataclass(frozen=True)
class Candidate:
    """What is counted: the style as it would be cut so. ``key`` (whole width in mm, or a cloth's id)
    and ``name`` tell it from the others."""

    key: Any
    name: str
    style: Style
    width: Width


class Comparison(QObject):
    """``changed`` when one is counted, refused or let go; ``told`` carries progress in words,
    ``refused`` a name and why it could not be counted, ``finished`` that none is left."""

    changed = Signal()
    told = Signal(str)
    refused = Signal(str, str)
    finished = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.results: dict[Any, ComparedWidth] = {}
        self.waiting: list[Candidate] = []
        self.counted_for: tuple[Style, str] | None = None
        self.failed: dict[str, str] = {}
        self._words: list[str] = []
        self._seconds = 0.0
        self._counted_on: list[Candidate] = []
        self._again = False
        self.ended_early = False
        self.run = CommandRun(self)
        self.run.told.connect(self.told)
        self.run.done.connect(self._counted)
        self.run.failed.connect(self._failed)

    @property
    def running(self) -> bool:
        """Whether one is being counted."""
        return self.run.running

    def start(
        self,
        style: Style,
        cloth_id: str,
        pairs: dict[str, int],
        candidates: Sequence[Candidate],
        seconds: float,
    ) -> None:
        """Count candidates again for an order, each in place of one cloth of the style.

        On each the same pairs are laid, those that suit the cloth as the style has it.
        """
        self.results.clear()
        self.failed.clear()
        self._counted_on, self._again, self.ended_early = [], False, False
        self.counted_for = (style, cloth_id)
        self.waiting = list(candidates)
        order = ",".join(f"{size}:{count}" for size, count in pairs.items())
        as_on = repr(style.cloth(cloth_id).usable_width_mm)
        self._words = ["--cloth", cloth_id, "--pairs", order, "--lay-as-on", as_on]
        self._words += ["--seconds", f"{seconds:g}"]
        self._seconds = seconds
        self._next()

    def count_again(self) -> None:
        """Count what is there on the best lays known by now: another page may have found better ones."""
        if not self.run.running and self._counted_on:
            self.waiting, self._again = list(self._counted_on), True
            self._next()

    def finish(self) -> None:
        """End the counting with the best lay found so far; what is counted stays."""
        self.ended_early = self.run.running
        del self.waiting[1:]
        self.run.finish()

    def stop(self) -> None:
        """End the counting at once; what is counted stays."""
        self.waiting.clear()
        self.run.stop()

    def forget(self) -> None:
        """End the counting and let go of all results."""
        self.stop()
        self.results.clear()
        self.failed.clear()
        self._counted_on = []
        self.counted_for = None
        self.changed.emit()

    def price(self, key: object, width: Width) -> None:
        """Put a price in force, in results and in what is still to come."""
        if key in self.results:
            self.results[key] = self.results[key].priced(width.price_per_m)
        for candidates in (self.waiting, self._counted_on):
            candidates[:] = [replace(each, width=width) if each.key == key else each for each in candidates]
        self.changed.emit()

    def _next(self) -> None:
        if self.waiting:
            known = ["--known"] if self._again else []
            expected_s = 0.0 if self._again else self._seconds
            self.run.start("cost", self.waiting[0].style, [*self._words, *known], expected_s=expected_s)
        self.changed.emit()

    def _counted(self, cost: object) -> None:
        assert isinstance(cost, dict)
        if self.waiting:
            counted = self.waiting.pop(0)
            self.results[counted.key] = ComparedWidth(counted.width, cost)
            if not self._again:
                self._counted_on.append(counted)
            self._then()

    def _failed(self, why: str) -> None:
        if self.waiting:
            refused = self.waiting.pop(0)
            self.failed[refused.name] = why
            self.refused.emit(refused.name, why)
            self._then()

    def _then(self) -> None:
        self._next()
        if not self.waiting and not self._again:
            self.finished.emit()
