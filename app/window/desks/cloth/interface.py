"""What the cloth desk's helpers may use of it."""

from __future__ import annotations

from app.tools.flaw import FlawTool
from app.window.desks.board_desk import BoardDesk
from app.window.desks.cloth.hold_page import HoldPage
from app.window.desks.cloth.register_page import RegisterPage
from app.window.desks.cloth.strips.strips_page import StripsPage
from app.window.desks.cloth.trials.trials_page import TrialsPage


class ClothBench(BoardDesk):
    """The cloth shown and its pages; ``ClothDesk`` is the one that does it."""

    tool: FlawTool
    strips: StripsPage
    hold: HoldPage
    trials: TrialsPage
    register: RegisterPage

    def edit(self, step: str, change, *args: object, merge: str = "", **fields: object) -> bool:
        """Commit ``change(style, *args, **fields)`` as a step; returns whether the style changed."""
        raise NotImplementedError
