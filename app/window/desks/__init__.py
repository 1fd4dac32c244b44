"""The desks: each a package with a module ``desk`` that defines ``DESK``, a subclass of
``app.window.desks.base.Desk``. The shell shows them in ``ORDER``, each made when first shown.

A desk is a widget over the shared ``Session``. It draws what the session's style says, and
changes it only through ``session.apply(label, edits.some_edit(style, ...))``; it computes
nothing itself. See ``base`` for the whole interface.
"""

from __future__ import annotations

import importlib

from app.window.desks.base import Desk, desk_title

__all__ = ["ORDER", "desk_title", "desk_type", "desk_types"]

ORDER = ("draft", "cloth", "lay", "cost")


def desk_type(name: str) -> type[Desk]:
    """Load a desk: what it needs is imported when it is first shown, not when the program starts."""
    found: type[Desk] = importlib.import_module(f"app.window.desks.{name}.desk").DESK
    return found


def desk_types() -> list[type[Desk]]:
    """Return all desks, in the order of the job."""
    return [desk_type(name) for name in ORDER]
