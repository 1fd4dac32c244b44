"""What an engine tells while it works."""

from __future__ import annotations

from typing import Protocol

from nesting.lay import Lay


class Listener(Protocol):
    """Hears of phases and of better lays."""

    def phase(self, name: str) -> None:
        """The engine now does ``name``."""

    def better(self, lay: Lay) -> None:
        """A complete lay shorter than any before (not yet verified)."""


class Silent:
    """Hears nothing."""

    def phase(self, name: str) -> None:
        """Ignore."""

    def better(self, lay: Lay) -> None:
        """Ignore."""
