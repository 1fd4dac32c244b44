"""When an engine must stop. An engine knows no clock: it asks ``stop()``, often."""

from __future__ import annotations

import threading
import time
from typing import Protocol


class Stop(Protocol):
    """Answers whether to stop now; may also say how much time is left."""

    def __call__(self) -> bool:
        """Return True when the engine must return its best lay at once."""
        ...

    @property
    def left_s(self) -> float:
        """Seconds left, infinity when there is no clock."""
        ...


class Never:
    """Never stops: the engine ends by its own budget."""

    left_s = float("inf")

    def __call__(self) -> bool:
        return False


class Deadline:
    """Stops after ``seconds`` from now, or once ``cancel`` was called (from any thread)."""

    def __init__(self, seconds: float) -> None:
        self._end_s = time.monotonic() + seconds
        self._cancelled = threading.Event()

    def cancel(self) -> None:
        """Stop at the next question."""
        self._cancelled.set()

    @property
    def cancelled(self) -> bool:
        """Whether a person stopped it."""
        return self._cancelled.is_set()

    @property
    def left_s(self) -> float:
        """Seconds until the deadline, 0 when cancelled."""
        return 0.0 if self.cancelled else max(0.0, self._end_s - time.monotonic())

    def __call__(self) -> bool:
        return self.left_s <= 0.0


class Share:
    """Stops ``seconds`` from now or with its parent, whichever comes first."""

    def __init__(self, parent: Stop, seconds: float) -> None:
        self._parent = parent
        self._end_s = time.monotonic() + seconds

    @property
    def left_s(self) -> float:
        """Seconds left to this share."""
        return min(self._parent.left_s, max(0.0, self._end_s - time.monotonic()))

    def __call__(self) -> bool:
        return self._parent() or self.left_s <= 0.0
