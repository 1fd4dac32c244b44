"""The commands, one module each with ``add_arguments(parser)`` and ``run(args) -> Outcome``.

A module is imported only when its command is called, so that each starts fast and none but
``window`` needs a display library. Messages and progress go to standard error.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Outcome:
    """What a command gives back: the JSON object, the same as text, and the exit status."""

    payload: dict[str, Any]
    text: str
    status: int = 0


@dataclass(frozen=True)
class Command:
    """Where a command lives and what it does."""

    module: str
    help: str


COMMANDS: dict[str, Command] = {
    "pieces": Command("pieces", "read a drawing and report its pieces"),
}
