"""All that the cost desk lets commands count: widths, cloths, what moves the cost, the quick estimate."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import QCoreApplication, QObject, Signal

from app.cost.cloths import HoldVerdict, hold_verdict, in_place
from app.cost.compare import ComparedWidth, cloth_row, merged
from app.cost.per_pair import Width, cloth_width
from app.style.model import ClothData, Style
from app.window.desks.cost.comparison import Candidate, Comparison
from app.window.desks.cost.what_if import QuickFigures, Sensitivity
from app.window.running.beside import WorkBeside

translate = QCoreApplication.translate


class Counting(QObject):
    """``changed`` when figures came or went; ``told`` carries a line for the status bar."""

    changed = Signal()
    told = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.widths = Comparison(self)
        self.cloths = Comparison(self)
        for comparison in (self.widths, self.cloths):
            comparison.told.connect(self.told)
            comparison.changed.connect(self.changed)
            comparison.refused.connect(self._refused)
            comparison.finished.connect(self._finished)
        self.what_if = Sensitivity(self)
        self.what_if.told.connect(self.told)
        self.what_if.failed.connect(self.told)
        self.what_if.changed.connect(self.changed)
        self.what_if.finished.connect(self._finished)
        self.quick = QuickFigures(self)
        self.quick.changed.connect(self.changed)
        self._compared: dict[str, ClothData] = {}
        self._verdicts: dict[str, HoldVerdict] = {}
        self._judging: WorkBeside[dict[str, HoldVerdict]] | None = None

    @property
    def running(self) -> bool:
        """Whether lays are being nested for one of the pages."""
        return self.widths.running or self.cloths.running or self.what_if.running

    def carried(self) -> dict[str, Any]:
        """What is counted, for a desk made again."""
        return {
            "widths": (dict(self.widths.results), dict(self.widths.failed), self.widths.counted_for),
            "cloths": (dict(self.cloths.results), dict(self.cloths.failed), self.cloths.counted_for),
            "compared": (dict(self._compared), dict(self._verdicts)),
            "what_if": (self.what_if.cost, self.what_if.counted_for),
        }

    def take_over(self, carried: dict[str, Any]) -> None:
        """Take over what the desk before has counted."""
        for comparison, name in ((self.widths, "widths"), (self.cloths, "cloths")):
            comparison.results, comparison.failed, comparison.counted_for = carried[name]
        self._compared, self._verdicts = carried["compared"]
        self.what_if.cost, self.what_if.counted_for = carried["what_if"]
        self.changed.emit()

    def busy(self) -> str:
        """What is at work, in words; '' when nothing is."""
        if self.what_if.running:
            return translate("Cost", "working out the sensitivity of the cost")
        if self.cloths.running:
            return translate("Cost", "comparing cloths")
        return translate("Cost", "comparing roll widths") if self.widths.running else ""

    def finish(self) -> None:
        """End the counting with the best lay found so far; a second time, at once."""
        for comparison in (self.widths, self.cloths):
            comparison.finish()
        self.what_if.stop()

    def stop(self) -> None:
        """End all counting at once; what is counted stays."""
        self.widths.stop()
        self.cloths.stop()
        self.what_if.stop()
        self.quick.stop()

    def forget(self) -> None:
        """End the counting and let go of what was counted with lays."""
        self.widths.forget()
        self.cloths.forget()
        self.what_if.forget()

    def start_cloths(
        self, style: Style, cloth_id: str, pairs: dict[str, int], cloths: Sequence[ClothData], seconds: float
    ) -> None:
        """Count cloths in place of one of the style, each on its own width; judge beside whether each holds."""
        self._compared = {cloth.id: cloth for cloth in cloths}
        placed = {cloth.id: in_place(style, cloth_id, cloth) for cloth in cloths}
        candidates = [Candidate(each.id, each.name, placed[each.id], cloth_width(each)) for each in cloths]
        self._judge(placed)
        self.cloths.start(style, cloth_id, pairs, candidates, seconds)

    def _judge(self, placed: Mapping[str, Style]) -> None:
        """Judge in a thread whether each style holds; what is judged for an earlier question is let go."""
        if self._judging is not None:
            self._judging.deleteLater()
        self._verdicts = {}
        self._judging = WorkBeside(self)
        self._judging.begin(
            "hold of cloths",
            lambda: {cloth_id: hold_verdict(style) for cloth_id, style in placed.items()},
            partial(self._take_verdicts, self._judging),
            self.changed.emit,
        )

    def _take_verdicts(self, judging: object, verdicts: dict[str, HoldVerdict]) -> None:
        if judging is self._judging:
            self._verdicts = verdicts
            self.changed.emit()

    @property
    def judged(self) -> list[tuple[ClothData, ComparedWidth, HoldVerdict]]:
        """The cloths counted, with the verdict of the hold."""
        found = []
        for key, result in self.cloths.results.items():
            found.append((self._compared[key], result, self._verdicts.get(key, HoldVerdict(None))))
        return found

    def sensitivity(self, width: Width) -> ComparedWidth | None:
        """What moves the cost, at the price typed for the cloth's own width."""
        return None if self.what_if.cost is None else ComparedWidth(width, self.what_if.cost)

    def all(self, width: Width, chosen_mm: float) -> tuple[Style, str, dict[str, Any]] | None:
        """The style, the cloth and the cost object of all that is counted; None while nothing is.

        ``width`` is the cloth's own; ``chosen_mm`` the width whose sizes are told.
        """
        what_if = self.sensitivity(width)
        results: dict[float, ComparedWidth] = dict(self.widths.results)
        counted_for = self.widths.counted_for or self.what_if.counted_for or self.cloths.counted_for
        if not results and what_if is not None:
            results = {what_if.width.width_mm: what_if}
        if not results and self.cloths.results:
            first = next(iter(self.cloths.results.values()))
            results = {first.width.width_mm: first}
        if counted_for is None or not results:
            return None
        moved = None if what_if is None else what_if.paper()["sensitivity"]
        return *counted_for, merged(results, chosen_mm, [cloth_row(*each) for each in self.judged], moved)

    def _refused(self, name: str, why: str) -> None:
        self.told.emit(translate("Cost", "{0} could not be costed: {1}").format(name, why))

    def _finished(self) -> None:
        """One page is counted: the others count again on the best lays known, so that all agree."""
        for comparison in (self.widths, self.cloths):
            if comparison is not self.sender():
                comparison.count_again()
        if self.sender() is not self.what_if:
            self.what_if.work_out_again()
        failed = {**self.widths.failed, **self.cloths.failed}
        if failed:
            self._refused(*next(iter(failed.items())))
            return
        if self.widths.ended_early or self.cloths.ended_early:
            self.told.emit(translate("Cost", "Stopped; what has been costed is kept"))
        else:
            self.told.emit(translate("Cost", "Finished; every lay was verified"))
