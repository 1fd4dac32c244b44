"""What leaves the draft desk: boards and backing as files, and the papers for the printer."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtWidgets import QFileDialog

from app.errors import UsageError
from app.papers.shown import Drafted, Reinforced
from app.style.model import Style
from app.style.pieces import uppers_and_backings
from app.window.desks.draft.interface import DraftBench
from app.window.printing.offer import Choice, Offer, offers
from app.window.problems import show_problem
from app.window.running.command_run import CommandRun

translate = QCoreApplication.translate


class DraftOut(QObject):
    """Writes in a process of its own, so that the board stays in hand; holds nothing but its desk."""

    def __init__(self, desk: DraftBench) -> None:
        super().__init__(desk)
        self._desk = desk
        self._folder = Path()
        self._style: Style | None = None
        self._next = ""
        self.run = CommandRun(self)
        self.run.done.connect(self._done)
        self.run.failed.connect(self._failed)

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return the handler of each action."""
        return {"draft.export": self.ask_export}

    # -- printer ----------------------------------------------------------------------------------
    def papers(self) -> list[Offer]:
        """Return the papers of the open style."""
        return [*offers(Drafted, self._drafted), *offers(Reinforced, self._reinforced)]

    def _drafted(self, choice: Choice) -> Callable[[], Drafted]:
        return partial(_drafted, self._open_style(), choice)

    def _reinforced(self, choice: Choice) -> Callable[[], Reinforced]:
        return partial(_reinforced, self._open_style())

    def _open_style(self) -> Style:
        style = self._desk.session.style
        if style is None:
            raise UsageError(translate("Draft", "no style is open"))
        return style

    # -- files ------------------------------------------------------------------------------------
    def ask_export(self) -> None:
        """Ask for a folder and write boards and backing into it."""
        desk = self._desk
        if self.run.running:
            desk.status.emit(translate("Draft", "The boards are being written."))
            return
        folder = QFileDialog.getExistingDirectory(
            desk, translate("Draft", "Folder for boards and backing"), desk.session.settings.folder
        )
        if folder:
            self.export(Path(folder))

    def export(self, folder: Path) -> None:
        """Write boards (PDF, DXF, HP-GL) and the backing (DXF) of all sizes and both hands."""
        document = self._desk.session.document
        if document is None:
            return
        self._style = document.style
        self._folder = folder / "boards"
        self._next = "backing"
        self._desk.status.emit(translate("Draft", "Writing the boards…"))
        self.run.start("boards", self._style, ["-o", str(self._folder)])

    def _done(self, payload: object) -> None:
        if self._next == "backing" and self._style is not None:
            self._next = ""
            self.run.start("backing", self._style, ["-o", str(self._folder / "backing.dxf")])
            return
        self._style = None
        self._desk.status.emit(
            translate("Draft", "Boards (PDF, DXF, HP-GL) and backing (DXF) written to {0}").format(
                self._folder
            )
        )

    def _failed(self, why: str) -> None:
        self._style = None
        self._desk.status.emit("")
        show_problem(UsageError(why), self._desk)


def _drafted(style: Style, choice: Choice) -> Drafted:
    pairs = uppers_and_backings(style, choice.sizes, choice.hands)
    return Drafted(style, pairs, choice.sheet, True)  # what does not fit the sheet is tiled


def _reinforced(style: Style) -> Reinforced:
    return Reinforced(style, uppers_and_backings(style, [style.size_run.base], ("left",)))
