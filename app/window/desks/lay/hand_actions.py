"""The lay desk's edits by key: nudge, slide, turn, pin, lift, swap; and the lays kept."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QCoreApplication, QObject

from app.style import edits
from app.tools.lay_table import LayTable, put_back, slid, swapped, turned
from app.window.desks.lay.interface import LayBench
from app.window.running.busy_hands import BusyHands
from app.window.wording.words import step_name
from nesting.lay import Placement

translate = QCoreApplication.translate
WAYS = {
    "left": (-1.0, 0.0, 180.0),
    "right": (1.0, 0.0, 0.0),
    "up": (0.0, 1.0, 90.0),
    "down": (0.0, -1.0, -90.0),
}
SLIDES_AT_ONCE = 600
"""Pieces that slide times pieces that lie there: up to this many the answer is there within some 50 ms (measured: 4 ms
a piece among 48); more are worked out beside the window."""

NUDGE_MM = 1.0
TURN_STEP_DEG = 1.0


class HandActions(QObject):
    """Turns keys into edits of the shown lay; holds nothing but its desk."""

    def __init__(self, desk: LayBench) -> None:
        super().__init__(desk)
        self._desk = desk
        self.sliding: BusyHands[tuple[Placement, ...]] = BusyHands(desk)
        self.sliding.changed.connect(self._sliding_changed)

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return the handler of each action."""
        return {
            **{f"lay.nudge.{way}": self._nudge for way in WAYS},
            **{f"lay.slide.{way}": self._slide for way in WAYS},
            "lay.turn": self.turn,
            "lay.turn_left": self.turn_left,
            "lay.turn_right": self.turn_right,
            "lay.pin": self.pin,
            "lay.lift": self.lift,
            "lay.swap": self.swap,
            "lay.all": self._all,
            "lay.next_fault": self._next_fault,
            "lay.another": self.another,
            "lay.remove": self.remove,
            "lay.next": self._next,
            "lay.previous": self._previous,
        }

    def _loose(self) -> list[int]:
        desk = self._desk
        if desk.table is None or desk.run.running or self.sliding.busy:
            return []
        loose = desk.hands.loose(desk.table)
        if not loose:
            desk.status.emit(translate("Lay", "Select a piece that is not pinned."))
        return loose

    def _nudge(self) -> None:
        dx, dy, _ = WAYS[self.sender().objectName().removeprefix("lay.nudge.")]
        if loose := self._loose():
            table = self._desk.table
            assert table is not None
            moved = table.moved(loose, dx * NUDGE_MM, dy * NUDGE_MM)
            self._desk.put("move pieces", moved, merge=f"nudge:{sorted(loose)}")

    def _slide(self) -> None:
        dx, dy, way_deg = WAYS[self.sender().objectName().removeprefix("lay.slide.")]
        loose = self._loose()
        table = self._desk.table
        if not loose or table is None:
            return
        if len(loose) * len(table.placements) <= SLIDES_AT_ONCE:
            self._slid(table, slid(table, loose, (dx, dy), way_deg))
            return
        words = translate("Lay", "Sliding {0} pieces… (Esc gives it up)").format(len(loose))
        self._desk.order.show_preparing(words)
        self._desk.status.emit(words)
        self.sliding.begin(
            "slide",
            lambda given_up: slid(table, loose, (dx, dy), way_deg, given_up),
            lambda placements: self._slid(table, placements),
        )

    def _slid(self, table: LayTable, placements: tuple[Placement, ...]) -> None:
        if table is not self._desk.table:
            return  # another lay is shown meanwhile
        if not self._desk.put("slide pieces", placements):
            self._desk.status.emit(translate("Lay", "It cannot slide that way."))

    def _sliding_changed(self) -> None:
        if not self.sliding.busy:
            self._desk.order.show_preparing("")
            self._desk.status.emit("")

    def turn(self) -> None:
        """Turn the selected pieces by 180 degrees, each about its own middle."""
        if loose := self._loose():
            assert self._desk.table is not None
            self._desk.put("turn pieces", turned(self._desk.table, loose, 180.0))

    def turn_left(self) -> None:
        """Turn the selected pieces by one degree, counter-clockwise."""
        self._turn_by(TURN_STEP_DEG)

    def turn_right(self) -> None:
        """Turn the selected pieces by one degree, clockwise."""
        self._turn_by(-TURN_STEP_DEG)

    def _turn_by(self, degrees: float) -> None:
        desk = self._desk
        loose = self._loose()
        if not loose or desk.table is None:
            return
        desk.put("turn pieces", turned(desk.table, loose, degrees), merge=f"turn:{sorted(loose)}")
        assert desk.table is not None
        off = max(desk.table.off_axis_deg(i) for i in loose)
        desk.status.emit(
            translate("Lay", "{0}° off the tight direction").format(desk.session.lengths.decimal(off))
        )

    def pin(self) -> None:
        """Pin the selected pieces; when all are pinned, unpin them."""
        table, chosen = self._desk.table, self._desk.hands.chosen
        if table is None or not chosen or self._desk.run.running:
            return
        on = not all(table.placements[i].pinned for i in chosen)
        made = tuple(replace(at, pinned=on) if i in chosen else at for i, at in enumerate(table.placements))
        self._desk.put("pin pieces", made)

    def lift(self) -> None:
        """Take the selected pieces off the roll."""
        if loose := self._loose():
            table = self._desk.table
            assert table is not None
            self._desk.hands.chosen = frozenset()
            self._desk.put(
                "lift pieces", tuple(at for i, at in enumerate(table.placements) if i not in loose)
            )

    def put_back(self, item_id: str, middle_mm: tuple[float, float] | None = None) -> None:
        """Lay one piece of the side table at a place or at the end of the lay, and select it."""
        table = self._desk.table
        if table is not None and not self._desk.run.running and table.missing.get(item_id):
            self._desk.hands.chosen = frozenset({len(table.placements)})
            self._desk.put("put back", put_back(table, item_id, middle_mm))

    def swap(self) -> None:
        """Exchange the places of two selected pieces."""
        loose = self._loose()
        if len(loose) == 2:
            assert self._desk.table is not None
            self._desk.put("swap pieces", swapped(self._desk.table, *loose))
        elif loose:
            self._desk.status.emit(translate("Lay", "Select two pieces to swap."))

    def _all(self) -> None:
        if self._desk.table is not None:
            self._desk.hands.chosen = frozenset(range(len(self._desk.table.placements)))
            self._desk.refresh()

    def _next_fault(self) -> None:
        judged = self._desk.judged
        if judged is None or not judged.shown:
            self._desk.status.emit(translate("Lay", "There is no fault."))
            return
        chosen = self._desk.hands.chosen
        places = [frozenset(fault.placements) for fault in judged.shown]
        at = places.index(chosen) + 1 if chosen in places else 0
        self._desk.show_fault(at % len(places))

    # -- lays kept --------------------------------------------------------------------------------
    def another(self) -> None:
        """Keep this lay and go on with a copy beside it."""
        desk = self._desk
        document, lay = desk.session.document, desk.lay
        if document is None or lay is None or desk.run.running:
            return
        names = {kept.name for kept in document.style.lays} | {lay.name}
        number = len(names) + 1
        while str(number) in names:
            number += 1
        style = edits.put_lay(document.style, desk.index, lay)
        style = edits.put_lay(style, len(style.lays), lay.model_copy(update={"name": str(number)}))
        desk.index = len(style.lays) - 1
        desk.session.apply(step_name("another lay", str(number)), style)

    def remove(self) -> None:
        """Remove the shown lay."""
        desk = self._desk
        document = desk.session.document
        if document is not None and document.style.lays and not desk.run.running:
            style = edits.remove_lay(document.style, desk.index)
            desk.session.apply(step_name("remove lay"), style)

    def _next(self) -> None:
        self._go(1)

    def _previous(self) -> None:
        self._go(-1)

    def _go(self, step: int) -> None:
        style = self._desk.session.style
        if style is not None and style.lays:
            self._desk.pick_lay((self._desk.index + step) % len(style.lays))
