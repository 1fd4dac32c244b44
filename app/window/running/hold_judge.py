"""The hold of the open style, judged beside the window's own work: drags stay fluid."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, QObject, Signal

from app.errors import AppError
from app.hold.cloth_choice import TriedCloth, compare
from app.hold.verdicts import StyleHold, hold_depends_on, style_hold
from app.style.model import ClothData, Style
from app.window.running.beside import WorkBeside
from app.window.session import Session
from geometry.errors import GeometryError

translate = QCoreApplication.translate


@dataclass(frozen=True, eq=False)
class _Judged:
    """What the thread found, or why there is nothing."""

    held: StyleHold | None
    candidates: tuple[TriedCloth, ...] = ()
    refusal: str = ""


def _judge(style: Style, cloths: tuple[ClothData, ...], size: str) -> _Judged:
    try:
        held = style_hold(style, size=size)
        return _Judged(held, compare(style, cloths) if cloths else ())
    except (AppError, GeometryError) as error:
        return _Judged(None, refusal=str(error))


class HoldJudge(QObject):
    """Judges the style asked for last; ``judged`` when there is something new to show.

    ``held`` is None where it could not be judged, ``refusal`` then says why. ``candidates`` are
    there for the cloths that were asked for.
    """

    judged = Signal()

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.held: StyleHold | None = None
        self.refusal = ""
        self.candidates: tuple[TriedCloth, ...] = ()
        self._asked: tuple[Style, tuple[ClothData, ...], str] | None = None
        self._shown: tuple[object, ...] | None = None
        self._working: tuple[object, ...] | None = None
        self._beside: WorkBeside[_Judged] = WorkBeside(self)

    @property
    def waiting(self) -> bool:
        """Whether a judgement is on its way."""
        return self._working is not None

    def ask(self, style: Style, cloths: tuple[ClothData, ...] = (), size: str = "") -> None:
        """Judge a style in a size ('' = base), and ``cloths`` in place of its first one."""
        self._asked = (style, cloths, size)
        key = (*hold_depends_on(style), size, cloths)
        if self._working is None and key != self._shown:
            self._working = key
            self._beside.begin("hold", lambda: _judge(style, cloths, size), self._take, self._failed)

    def held_for(self, style: Style, size: str = "") -> StyleHold | None:
        """Return the hold of a style as it stands; None while it is not judged, or cannot be."""
        return self.held if self.knows(style, size) else None

    def knows(self, style: Style, size: str = "") -> bool:
        """Whether the last judgement is of the style as it stands."""
        return self._shown is not None and self._shown[:-1] == (*hold_depends_on(style), size)

    def _failed(self) -> None:
        """After an unexpected fault (it is reported): nothing may wait for ever."""
        self._take(
            _Judged(None, refusal=translate("Hold", "It could not be judged; the problem was reported."))
        )

    def _take(self, found: _Judged) -> None:
        self.held, self.refusal, self.candidates = found.held, found.refusal, found.candidates
        self._shown, self._working = self._working, None
        self.judged.emit()
        if self._asked is not None:
            self.ask(*self._asked)


def judge_of(session: Session) -> HoldJudge:
    """Return the one judge that all desks of a session share."""
    return session.findChild(HoldJudge) or HoldJudge(session)
