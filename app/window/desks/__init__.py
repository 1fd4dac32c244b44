"""The desks: each a package with a module ``desk`` that defines ``DESK``, a subclass of
``app.window.desks.base.Desk``. The shell shows those of ``ORDER`` that are there.

A desk is a widget over the shared ``Session``. It draws what the session's style says, and
changes it only through ``session.apply(label, edits.some_edit(style, ...))``; it computes
nothing itself. See ``base`` for the whole interface.
"""

from __future__ import annotations

import importlib
from pathlib import Path

from app.window.desks.base import Desk

ORDER = ("draft", "cloth", "lay", "cost")


def desk_types() -> list[type[Desk]]:
    """Return the desks that exist, in the order of the job."""
    found = []
    for name in ORDER:
        if Path(__file__).with_name(name).joinpath("desk.py").exists():
            found.append(importlib.import_module(f"app.window.desks.{name}.desk").DESK)
    return found
