"""Work done in a thread beside the window; its result is taken in the window's own thread."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future
from threading import Thread
from typing import Generic, TypeVar
from weakref import ref

import shiboken6
from PySide6.QtCore import QObject, Qt, Signal

T = TypeVar("T")


class _Relay(QObject):
    """Carries the news that a work ended from its thread to the window's.

    A thread may send a signal only of an object that nobody is deleting at that moment: anything else
    ends the program. This object lives as long as the program does, and threads touch no other of Qt.
    """

    ended = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.ended.connect(self._tell, Qt.ConnectionType.QueuedConnection)

    def _tell(self, asker: object) -> None:
        beside = asker() if isinstance(asker, ref) else None
        if beside is not None and shiboken6.isValid(beside):  # else it went away meanwhile
            beside.ended()


_relays: list[_Relay] = []
"""The one relay, made with the first work: there is no Qt application yet when this is imported."""


class WorkBeside(QObject, Generic[T]):
    """Runs one piece of work at a time; whoever goes away meanwhile is simply not told."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._future: Future[T] | None = None
        self._take: Callable[[T], None] | None = None
        self._failed: Callable[[], None] | None = None
        if not _relays:
            _relays.append(_Relay())

    @property
    def busy(self) -> bool:
        """Whether work is on its way."""
        return self._future is not None

    def begin(
        self, name: str, work: Callable[[], T], take: Callable[[T], None], failed: Callable[[], None]
    ) -> None:
        """Run ``work`` in a thread called ``name``, then hand its result to ``take``.

        Where it raised, ``failed`` is called and the error goes where every unexpected error of the
        window's thread goes. ``work`` must touch nothing of Qt.
        """
        assert self._future is None, "one piece of work at a time"
        future: Future[T] = Future()
        self._future, self._take, self._failed = future, take, failed
        Thread(target=_fill, args=(future, work, _relays[0], ref(self)), name=name).start()

    def ended(self) -> None:
        """Take the result; called by the relay, in the window's thread."""
        future, take, failed = self._future, self._take, self._failed
        assert future is not None and take is not None and failed is not None
        self._future = self._take = self._failed = None
        error = future.exception()
        if error is not None:
            failed()
            raise error
        take(future.result())


def _fill(future: Future[T], work: Callable[[], T], relay: _Relay, asker: object) -> None:
    try:
        future.set_result(work())
    except BaseException as error:  # whatever it is, it is raised again where it can be shown
        future.set_exception(error)
    relay.ended.emit(asker)
