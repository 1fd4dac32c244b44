"""The desks of a window, each made when it is first asked for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import overload

from PySide6.QtWidgets import QWidget

from app.window.desks import ORDER, desk_type
from app.window.desks.base import Desk
from app.window.session import Session


class DeskRow(Sequence[Desk]):
    """A sequence of all desks; ``made`` are those that somebody has looked at.

    Each is made inside ``place``: put in afterwards, all its widgets would be dressed once more.
    """

    def __init__(self, session: Session, place: QWidget, on_made: Callable[[int, Desk], None]) -> None:
        self._session, self._place = session, place
        self._on_made = on_made
        self._desks: dict[int, Desk] = {}

    @property
    def made(self) -> list[Desk]:
        """The desks made so far, in the order of the job."""
        return [self._desks[number] for number in sorted(self._desks)]

    def __len__(self) -> int:
        return len(ORDER)

    @overload
    def __getitem__(self, index: int) -> Desk: ...
    @overload
    def __getitem__(self, index: slice) -> Sequence[Desk]: ...

    def __getitem__(self, index: int | slice) -> Desk | Sequence[Desk]:
        if isinstance(index, slice):
            return [self[number] for number in range(*index.indices(len(self)))]
        if not 0 <= index < len(self):
            raise IndexError(index)
        if index not in self._desks:
            self._desks[index] = desk_type(ORDER[index])(self._session, self._place)
            self._on_made(index, self._desks[index])
        return self._desks[index]
