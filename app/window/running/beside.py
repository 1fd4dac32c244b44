"""Work done in a thread beside the window; its result is taken in the window's own thread."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future
from threading import Thread
from typing import Generic, TypeVar

from PySide6.QtCore import QObject, QTimer

T = TypeVar("T")

LOOK_MS = 20
"""How often a result is asked for: shorter than anyone notices, and nothing beside the work itself."""


class WorkBeside(QObject, Generic[T]):
    """Runs one piece of work at a time.

    The thread touches nothing of Qt: it fills a future, and a timer of this object asks for it. A
    signal sent from the thread would reach for an object that the window may be deleting at that
    moment, which ends the program. Whoever goes away meanwhile is simply not told.
    """

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._future: Future[T] | None = None
        self._take: Callable[[T], None] | None = None
        self._failed: Callable[[], None] | None = None
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_MS)
        self._timer.timeout.connect(self._look)

    @property
    def busy(self) -> bool:
        """Whether work is on its way."""
        return self._future is not None

    def begin(
        self, name: str, work: Callable[[], T], take: Callable[[T], None], failed: Callable[[], None]
    ) -> None:
        """Run ``work`` in a thread called ``name``, then hand its result to ``take``.

        Where it raised, ``failed`` is called and the error goes where every unexpected error of the
        window's thread goes.
        """
        assert self._future is None, "one piece of work at a time"
        future: Future[T] = Future()
        self._future, self._take, self._failed = future, take, failed
        Thread(target=_fill, args=(future, work), name=name).start()
        self._timer.start()

    def _look(self) -> None:
        future, take, failed = self._future, self._take, self._failed
        if future is None or not future.done():
            return
        assert take is not None and failed is not None
        self._timer.stop()
        self._future = self._take = self._failed = None
        error = future.exception()
        if error is not None:
            failed()
            raise error
        take(future.result())


def _fill(future: Future[T], work: Callable[[], T]) -> None:
    try:
        future.set_result(work())
    except BaseException as error:  # whatever it is, it is raised again where it can be shown
        future.set_exception(error)
