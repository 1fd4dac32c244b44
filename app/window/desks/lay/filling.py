"""Filling the roll: the engine at work, its best lay so far on the board, stop and keep."""

from __future__ import annotations

import math
from collections.abc import Iterator

from PySide6.QtCore import QCoreApplication, QElapsedTimer, QObject, QTimer

from app.errors import AppError, DatabaseError
from app.lay.improving import rounds_s
from app.lay.kept import open_kept
from app.lay.longer import LEAST_GAIN
from app.lay.searching import LaySearch, search_for
from app.lay.with_style import fields_of, lay_of
from app.style.model import LayData
from app.tools.lay_table import LayTable
from app.window.desks.lay.interface import LayBench
from app.window.desks.lay.kept_lay import table_of
from app.window.running.solve_run import SolveRun
from app.window.widgets.figures import localised
from app.window.wording.core_words import told_text
from geometry.errors import GeometryError
from nesting.errors import NestingError
from nesting.expected import longer_search
from nesting.known.record import exact_key
from nesting.lay import Lay
from nesting.listen import Phase, PhaseCode
from nesting.problem import LayProblem
from nesting.verify import verify

translate = QCoreApplication.translate
TICK_MS = 250
LEAST_MM = 0.01
"""A lay this close to a proven bound is as short as it can be."""


def phase_names() -> dict[PhaseCode, str]:
    """Return the words of the window for what an engine is at."""
    return {
        PhaseCode.STARTING: translate("Lay", "Starting…"),
        PhaseCode.FIRST_LAYOUT: translate("Lay", "a first lay"),
        PhaseCode.ROWS: translate("Lay", "pieces in rows"),
        PhaseCode.ORDERS: translate("Lay", "pieces in other orders"),
        PhaseCode.SEARCH: translate("Lay", "searching for a shorter lay"),
        PhaseCode.OPENINGS: translate("Lay", "moving pieces from the end into gaps"),
        PhaseCode.WINDOWS: translate("Lay", "re-laying sections"),
        PhaseCode.SQUEEZE: translate("Lay", "compacting"),
        PhaseCode.SHORTEN: translate("Lay", "shortening the lay"),
        PhaseCode.AROUND_FIXED: translate("Lay", "shortening around what is pinned"),
    }


def phase_name(phase: Phase) -> str:
    """Return what the engine is at, in the words of the window."""
    name = phase_names()[phase.code]
    if phase.sections:
        part = translate("Lay", "part {0} of {1}").format(phase.section, phase.sections)
    elif phase.times:
        part = translate("Lay", "a section that repeats {0} times").format(phase.times)
    else:
        return name
    return f"{name}, {part}"


def end_text(lay: Lay) -> str:
    """Return why a search ended, and what a longer one may bring."""
    bounds = lay.bound.values_mm if lay.bound is not None else {}
    if bounds and lay.length_mm <= max(bounds.values()) + LEAST_MM:
        name = max(bounds, key=lambda each: bounds[each])
        reason = {
            "longest piece": translate("Lay", "the longest piece needs that length"),
            "widest pieces": translate("Lay", "pieces that cannot lie side by side need that length"),
        }.get(name, translate("Lay", "the area of its pieces needs that length"))
        return translate("Lay", "The lay cannot be shorter: {0}.").format(reason)
    ended = translate("Lay", "Time is up; filling again continues from this lay and may shorten it.")
    if lay.stopped == "finished":
        ended = translate("Lay", "The search has ended; filling again continues from this lay.")
    longer = longer_search(lay, len(lay.placements))
    if longer is None or longer.gain_share < LEAST_GAIN:
        return ended
    likely = translate("Lay", "A minute of search is likely to add {0} ± {1} points of yield.")
    return (
        f"{ended} {localised(likely.format(f'{100 * longer.gain_share:.1f}', f'{100 * longer.scatter:.1f}'))}"
    )


class Filling(QObject):
    """Runs the engine for its desk; ``live`` is the best lay so far while it runs, else None."""

    def __init__(self, desk: LayBench) -> None:
        super().__init__(desk)
        self._desk = desk
        self._phase = ""
        self._lay: LayData | None = None
        self._problem: LayProblem | None = None
        self._search: LaySearch | None = None
        self._clock = QElapsedTimer()
        self._ticks = QTimer(self)
        self._ticks.setInterval(TICK_MS)
        self._ticks.timeout.connect(self._tick)
        self._rounds: Iterator[float] | None = None
        self.live: LayTable | None = None
        self.run = SolveRun(self)
        self.run.better.connect(self._better)
        self.run.phase.connect(self._at_phase)
        self.run.ended.connect(self._ended)

    def fill(self) -> None:
        """Let the engine lay all pieces; pinned ones stay."""
        self._rounds = None
        self._begin()

    def improve(self) -> None:
        """Go on from the lay on the board, round after round behind all other work, until stopped."""
        self._rounds = rounds_s(math.inf)
        self._begin()

    def stop(self) -> None:
        """End the search at once; the best lay so far stays."""
        self._rounds = None
        self.run.stop()

    def _begin(self) -> None:
        desk = self._desk
        style, lay = desk.session.style, desk.lay
        if style is None or lay is None or self.run.running:
            return
        try:
            table = table_of(style, lay, only_pinned=True)
        except (AppError, GeometryError, NestingError) as error:
            desk.status.emit(told_text(str(error)))
            return
        self._lay, self._problem = lay, table.problem
        self._search = search = self._searched_for(table.problem)
        start = search.start
        if self._rounds is not None:
            start = self._shorter_of(start, lay, table.problem)
        desk.order.show_running(True)
        desk.order.show_progress(0.0, translate("Lay", "Starting…"))
        self._phase = ""
        self._clock.start()
        self._ticks.start()
        polite = self._rounds is not None
        seconds = next(self._rounds) if self._rounds is not None else desk.order.seconds.value or None
        self.run.start(
            table.problem,
            seconds=seconds,
            seed=search.searched,
            start=start,
            polite=polite,
            kept_in=search.kept_in,
        )

    def _shorter_of(self, known: Lay | None, shown: LayData, problem: LayProblem) -> Lay | None:
        """The lay on the board, if it is sound and shorter than what is known."""
        lay = lay_of(shown, problem)
        if known is not None and known.length_mm <= lay.length_mm:
            return known
        return lay if len(lay.placements) == problem.pieces and verify(problem, lay).ok else known

    def _searched_for(self, problem: LayProblem) -> LaySearch:
        """What the search goes on from: the best lay known for the problem, as for a command."""
        tell = self._desk.status.emit
        try:
            return search_for(problem, open_kept(tell))
        except DatabaseError as error:
            tell(told_text(str(error)))
            return LaySearch(problem, None)

    def _keep(self, lay: Lay) -> None:
        if self._search is not None:
            try:
                self._search.keep(lay)
            except DatabaseError as error:
                self._desk.status.emit(told_text(str(error)))

    def look_again(self) -> None:
        """The style changed: a search for what nobody asks any more ends, and says so."""
        if self.run.running and not self._still_asked():
            best = self.run.best
            self.abandon()
            self._give_up(best)

    def _still_asked(self) -> bool:
        """Whether the lay shown is still the one that is being filled, and asks for the same."""
        style, lay = self._desk.session.style, self._desk.lay
        if style is None or lay is None or self._lay is None or self._problem is None:
            return False
        try:
            now = table_of(style, lay, only_pinned=True).problem
        except (AppError, GeometryError, NestingError):
            return False
        if lay.name != self._lay.name or now.pinned != self._problem.pinned:
            return False
        if now.items is self._problem.items:
            return True
        names = [[item.id for item in each.items] for each in (now, self._problem)]
        return names[0] == names[1] and exact_key(now) == exact_key(self._problem)

    def _give_up(self, lay: Lay | None) -> None:
        """Keep for later what was found for a question that is no longer asked."""
        self._rounds = None
        if lay is not None and self._problem is not None and verify(self._problem, lay).ok:
            self._keep(lay)
        text = translate(
            "Lay", "What is to be laid has changed, so the search was stopped: fill the roll again."
        )
        self._desk.order.told.setText(text)
        self._desk.status.emit(text)

    def abandon(self) -> None:
        """End the engine and forget what it found."""
        self._ticks.stop()
        self._rounds = None
        self.run.abandon()
        self.live, self._lay = None, None
        self._desk.order.show_running(False)

    def _at_phase(self, phase: Phase) -> None:
        self._phase = phase_name(phase)

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
        if self._problem is None:
            return
        first = self.live is None
        self.live = LayTable(self._problem, lay.placements)  # the lay's own, whatever the desk shows by now
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
        desk.order.told.clear()  # the figures of the search: from now on the lay itself is shown
        if problem:
            desk.order.told.setText(problem)
            desk.status.emit(problem)
        if lay is not None and not self._still_asked():  # changed while another desk was in front
            self._give_up(lay)
        elif lay is not None:
            desk.hands.chosen = frozenset()
            if not problem and self._problem is not None and verify(self._problem, lay).ok:
                self._keep(lay)
                lay = lay if self._search is None else self._search.best_of(lay)
                desk.status.emit(end_text(lay))
            if self._rounds is None:
                desk.edit("fill", **fields_of(lay))
            elif desk.table is None or lay.length_mm < desk.table.length_mm - LEAST_MM:
                step = f"improve:{self._lay.name}" if self._lay is not None else ""
                desk.edit("fill", merge=step, **fields_of(lay))
        self._lay = None
        desk.refresh()
        if self._rounds is None:
            desk.fit()
        elif lay is not None and not problem:
            self._begin()
