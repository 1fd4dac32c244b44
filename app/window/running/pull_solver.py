"""The pull over the open style's upper, solved beside the window's own work."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QObject, QTimer, Signal

from app.errors import AppError
from app.hold.verdicts import FIELD_ELSEWHERE, hold_depends_on
from app.style.model import ClothData, Style
from app.window.running.beside import WorkBeside
from app.window.session import Session
from geometry.errors import GeometryError

if TYPE_CHECKING:  # finite elements are loaded when the pull is first asked for
    from app.hold.field import Pulled
    from app.hold.two_models import TwoModels
    from app.papers.pictures.strain_map import StrainMap

translate = QCoreApplication.translate

SOON_MS = 250
"""After the last change of the style, so that a drag is not solved step by step."""


@dataclass(frozen=True)
class PullAsked:
    """What is asked: the style, other cloths, and how the edges are held and pulled."""

    style: Style
    cloths: tuple[ClothData, ...] = ()
    turn_deg: float = 0.0
    sides_held: bool = False
    pincers: bool = False
    large: bool = False

    def same(self, other: PullAsked | None) -> bool:
        """Whether the other question has the same answer; notes, prices and lays do not move it."""
        return other is not None and _moved_by(self) == _moved_by(other)


def _moved_by(asked: PullAsked) -> tuple[object, ...]:
    return (
        *hold_depends_on(asked.style),
        asked.cloths,
        asked.turn_deg,
        asked.sides_held,
        asked.pincers,
        asked.large,
    )


@dataclass(frozen=True, eq=False)
class PullAnswer:
    """What the thread found: the field beside the line and its maps, or why there is none.

    ``maps`` are by case ('alone', 'backed', 'turned') and by ``cloth ID``, all on one scale of ``bounds``.
    """

    asked: PullAsked
    pulled: Pulled | None = None
    models: TwoModels | None = None
    maps: dict[str, StrainMap] = field(default_factory=dict)
    bounds: tuple[float, ...] = ()
    refusal: str = ""


class _Work:
    """One question on its way: the thread writes what it is at, the window's thread reads it."""

    def __init__(self, asked: PullAsked) -> None:
        self.asked = asked
        self.stop = threading.Event()
        self.at = ""

    def tell(self, what: str) -> None:
        self.at = what

    def __call__(self) -> PullAnswer:
        from app.hold.field import FieldOptions, pull_upper
        from app.hold.two_models import two_models
        from app.papers.pictures.strain_map import StrainMap, steps_over

        asked = self.asked
        options = FieldOptions(
            turn_deg=asked.turn_deg, sides_held=asked.sides_held, pincers=asked.pincers, large=asked.large
        )
        try:
            pulled = pull_upper(
                asked.style, options, cloths=asked.cloths, tell=self.tell, cancelled=self.stop.is_set
            )
            models = two_models(asked.style, pulled, options)
        except (AppError, GeometryError) as error:
            return PullAnswer(asked, refusal=str(error))
        self.tell("map")
        cases = {case.case: case for case in pulled.field.cases}
        named = cases | {f"cloth {each.cloth.id}": each.case for each in pulled.cloths}
        bounds = steps_over(list(named.values()))
        maps = {
            name: StrainMap(pulled.question.upper, pulled.field, case, bounds) for name, case in named.items()
        }
        return PullAnswer(asked, pulled, models, maps, bounds)


class PullSolver(QObject):
    """Solves the question asked last; ``solved`` when there is something new to show.

    A question that another one replaces is given up where it is. ``stopped`` is True after the person
    stopped it; then nothing is solved until it is asked again by ``again``.
    """

    solved = Signal()

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.answer: PullAnswer | None = None
        self.stopped = False
        self._asked: PullAsked | None = None
        self._work: _Work | None = None
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(SOON_MS)
        self._soon.timeout.connect(self._begin)
        self._beside: WorkBeside[PullAnswer] = WorkBeside(self)

    @property
    def waiting(self) -> bool:
        """Whether an answer is on its way."""
        return self._work is not None or self._soon.isActive()

    @property
    def at(self) -> str:
        """What is at work, as the model calls it; '' when nothing is."""
        return self._work.at if self._work is not None else ""

    def ask(self, asked: PullAsked) -> None:
        """Solve a question soon, unless it is the one asked already."""
        if asked.same(self._asked):
            return
        self._asked, self.stopped = asked, False
        if self._work is not None:
            self._work.stop.set()
        self._soon.start()

    def answer_for(self, style: Style) -> PullAnswer | None:
        """Return the answer for a style as it stands, as drafted; None while there is none."""
        answer = self.answer
        if answer is None or answer.asked.turn_deg or answer.pulled is None:
            return None
        asked = answer.asked
        same = PullAsked(style, asked.cloths, 0.0, asked.sides_held, asked.pincers, asked.large)
        return answer if asked.same(same) else None

    def beside_line(self, style: Style) -> str:
        """Return what a paper of the line's figures says of the field."""
        answer = self.answer_for(style)
        if answer is None or answer.pulled is None or answer.models is None:
            return FIELD_ELSEWHERE
        from app.hold.two_models import beside_line

        return beside_line(answer.pulled, answer.models)

    def stop(self) -> None:
        """Give up what is on its way."""
        self._soon.stop()
        self.stopped = True
        if self._work is not None:
            self._work.stop.set()

    def again(self) -> None:
        """Solve the question asked last once more, after it was stopped."""
        if self._asked is not None:
            self.stopped = False
            self._soon.start()

    def forget(self) -> None:
        """Give up what is on its way, and the question with it: another style is opened."""
        self.stop()
        self.stopped = False
        self._asked = self.answer = None

    def _begin(self) -> None:
        if self._asked is None or self._work is not None:
            return
        work = self._work = _Work(self._asked)
        self._beside.begin("pull", work, self._take, self._failed)

    def _failed(self) -> None:
        """After an unexpected fault (it is reported): nothing may wait for ever."""
        assert self._work is not None
        told = translate("Pull", "It could not be worked out; the problem was reported.")
        self._take(PullAnswer(self._work.asked, refusal=told))

    def _take(self, answer: PullAnswer) -> None:
        work, self._work = self._work, None
        if work is None or self._asked is None:
            return
        if not work.stop.is_set():
            self.answer = answer
        elif not self.stopped:
            self._soon.start()
        if not answer.asked.same(self._asked) and not self.stopped:
            self._soon.start()
        self.solved.emit()


def solver_of(session: Session) -> PullSolver:
    """Return the one solver that all pages of a session share."""
    return session.findChild(PullSolver) or PullSolver(session)
