"""What the lay desk's helpers may use of it."""

from __future__ import annotations

from typing import Protocol

from app.style.model import LayData
from app.tools.lay_hands import LayHands
from app.tools.lay_table import LayTable
from app.window.desks.board_desk import BoardDesk
from app.window.desks.lay.kept_lay import Judged
from app.window.desks.lay.lay_scene import LayScene
from app.window.desks.lay.order_panel import OrderPanel
from app.window.running.solve_run import SolveRun
from nesting.lay import Placement


class PutsBack(Protocol):
    """Puts a piece of the side table back on the roll."""

    def put_back(self, item_id: str, near_mm: tuple[float, float] | None = None) -> None:
        """Put it near a place, or where there is room."""
        ...


class LayBench(BoardDesk):
    """The roll with the lay shown on it; ``LayDesk`` is the one that does it."""

    scene_of: LayScene
    order: OrderPanel
    hands: LayHands
    run: SolveRun
    moves: PutsBack
    index: int
    table: LayTable | None
    judged: Judged | None

    @property
    def lay(self) -> LayData | None:
        """The lay shown."""
        raise NotImplementedError

    def fit(self) -> None:
        """Show the whole lay."""
        raise NotImplementedError

    def show_live(self, table: LayTable) -> None:
        """Show the best lay that the engine has found so far."""
        raise NotImplementedError

    def show_fault(self, number: int) -> None:
        """Select the pieces of a fault and go there."""
        raise NotImplementedError

    def pick_lay(self, index: int) -> None:
        """Show another of the lays kept."""
        raise NotImplementedError

    def length_text(self, length_mm: float) -> str:
        """Return a length of roll as it is shown."""
        raise NotImplementedError

    def edit(self, step: str, *, merge: str = "", **fields: object) -> bool:
        """Commit the shown lay with some fields changed."""
        raise NotImplementedError

    def put(self, step: str, placements: tuple[Placement, ...], *, merge: str = "") -> bool:
        """Commit other placements."""
        raise NotImplementedError
