"""Start-up: the QApplication, language, light, problem watch, one window over one session."""

from __future__ import annotations

import faulthandler
import importlib
import sys
import threading
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from PySide6.QtCore import (
    QCoreApplication,
    QEvent,
    QLibraryInfo,
    QLocale,
    QObject,
    Qt,
    QTimer,
    QTranslator,
    Signal,
)
from PySide6.QtGui import QFileOpenEvent, QIcon
from PySide6.QtWidgets import QApplication, QDialog

from app.shortcuts import linux
from app.window.canvas.pens import set_pixel_ratio
from app.window.desks import ORDER
from app.window.problems import ProblemWatch
from app.window.session import Session
from app.window.settings import APPLICATION, ORGANISATION, Settings, state_folder
from app.window.shell.main_window import MainWindow
from app.window.widgets.theme import DAY, NIGHT, apply_theme

TRANSLATIONS = Path(__file__).with_name("translations")
LANGUAGES = ("en", "it")
AHEAD = (
    "app.window.desks.cloth.desk",
    "app.window.desks.lay.desk",
    "app.window.desks.cost.desk",
    "app.window.printing.dialog",
    "nesting.contact.slide",
)
"""Modules loaded in the background, in the order in which they are likely to be needed."""

WAIT_MS = 50
"""How often a change of light or language looks whether it may happen now."""


class Application(QApplication):
    """Tells what the desktop hands over while the program runs (macOS, on a double click).

    The application's own events come here only; a filter would see those of all widgets, which costs a desk
    that is made 50 ms.
    """

    file_asked = Signal(str)

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QFileOpenEvent) and event.file():
            self.file_asked.emit(event.file())
            return True
        return super().event(event)


SWITCH_S = 0.0005
"""A thread that works beside the window gives way after so long (5 ms in Python's own default): between two
events the window asks for its turn some dozens of times, which came to 0.4 s of waiting (measured)."""


def make_application() -> QApplication:
    """Return the QApplication with our names set (made once per process)."""
    app = QApplication.instance() or Application(sys.argv[:1])
    assert isinstance(app, QApplication)
    sys.setswitchinterval(SWITCH_S)
    app.setOrganizationName(ORGANISATION)
    app.setApplicationName(APPLICATION)
    app.setDesktopFileName(linux.NAME)  # by it a desktop knows which entry, and so which icon, a window is of
    app.setWindowIcon(QIcon(str(linux.ICON)))
    return app


class Shell(QObject):
    """The running program: holds the session and makes its window, again when texts or light change."""

    def __init__(self, app: QApplication, recovery_folder: Path | None = None) -> None:
        super().__init__()
        self._app = app
        self._translators: list[QTranslator] = []
        self.settings = Settings()
        self.recovery_folder = recovery_folder or state_folder() / "recovery"
        self.session = Session(self.settings, self.recovery_folder, self)
        self.window: MainWindow | None = None
        self._first: list[Path] = []
        self._rebuild_soon = QTimer(self)
        self._rebuild_soon.setSingleShot(True)
        self._rebuild_soon.timeout.connect(self.rebuild)
        if isinstance(app, Application):
            app.file_asked.connect(self._open_asked)

    def _open_asked(self, name: str) -> None:
        if self.window is not None:
            self.window.files.open_paths([Path(name)])

    def show(
        self, carried: Mapping[str, Mapping[str, Any]] | None = None, desk: int | None = None
    ) -> MainWindow:
        """Make the window in the language and light of the settings, and show it.

        Of a window that is made again, ``desk`` is the one to be in front (None: the start page).
        """
        self._translate()
        dark = self.settings.light == "night" or (
            self.settings.light == "system" and self._app.styleHints().colorScheme() == Qt.ColorScheme.Dark
        )
        apply_theme(self._app, NIGHT if dark else DAY)
        set_pixel_ratio(self._app.primaryScreen().devicePixelRatio())
        window = MainWindow(self.session, carried, desk)
        window.rebuild_asked.connect(self._ask_rebuild)
        self.window = window
        window.show()
        return window

    def begin(self, paths: list[Path]) -> None:
        """After the window is up: offer recovery, open what was named on the command line.

        What the desks and the reader of drawings need is loaded meanwhile, in a thread.
        """
        self._first = paths
        QTimer.singleShot(0, self._begin)
        threading.Thread(target=warm_up, name="warm-up", daemon=True).start()

    def _begin(self) -> None:
        assert self.window is not None
        restored = self.window.files.offer_recovery(self.recovery_folder)
        document = self.session.document
        shown = document.path if document is not None and restored else None
        waiting = [path for path in self._first if shown is None or path.resolve() != shown.resolve()]
        if waiting:  # what was named is opened all the same; restored work is asked about before it goes
            self.window.files.open_paths(waiting)

    def _ask_rebuild(self) -> None:
        self._rebuild_soon.start(0)  # the menu that asked belongs to the old window

    def rebuild(self) -> None:
        """Make the window again over the same session: the same desk in front, everything as it was.

        While something runs it waits: light and language are not worth a lay. It waits for an open
        dialog or menu too, which would go with the old window while it still answers, and for a drag.
        """
        old = self.window
        assert old is not None
        running = old.running
        if running or hands_are_busy():
            if running:
                old.say_later()
            self._rebuild_soon.start(WAIT_MS)
            return
        desk = None if old.desk is None else ORDER.index(old.desk.name)
        old.let_go()
        carried = old.carried()
        self.session.opened.disconnect()
        self.session.changed.disconnect()
        old.hide()
        old.deleteLater()  # now, or every widget of it is dressed in the new colours once more
        QCoreApplication.sendPostedEvents(old, QEvent.Type.DeferredDelete.value)
        self.show(carried, desk)

    def _translate(self) -> None:
        for translator in self._translators:
            self._app.removeTranslator(translator)
        self._translators.clear()
        wanted = self.settings.language or QLocale.system().name()[:2]
        language = wanted if wanted in LANGUAGES else "en"
        QLocale.setDefault(QLocale(language) if self.settings.language else QLocale.system())
        self.session.lengths.decimal_point = QLocale().decimalPoint()
        if language == "en":
            return
        qt = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
        for folder, name in ((qt, f"qtbase_{language}"), (str(TRANSLATIONS), f"stayply_{language}")):
            translator = QTranslator(self)
            if translator.load(name, folder):
                self._app.installTranslator(translator)
                self._translators.append(translator)


def hands_are_busy() -> bool:
    """Whether a dialog or menu is open, or a mouse button is held.

    A dialog that is just closed still has its own loop of events on the stack until ``exec`` returns.
    """
    answering = Qt.WidgetAttribute.WA_ShowModal
    return (
        QApplication.activeModalWidget() is not None
        or any(isinstance(w, QDialog) and w.testAttribute(answering) for w in QApplication.topLevelWidgets())
        or QApplication.activePopupWidget() is not None
        or QApplication.mouseButtons() != Qt.MouseButton.NoButton
    )


def warm_up() -> None:
    """Load ahead what the desks need when they are first shown: nothing waits for it but what needs it."""
    for name in ("app.window.desks.draft.desk", "app.window.drawing_import", *AHEAD):
        importlib.import_module(name)


def run(paths: list[Path]) -> int:
    """Open the window and run until it is closed; returns the exit status."""
    app = make_application()
    watch = ProblemWatch(state_folder() / "stayply.log")
    watch.install()
    if sys.stderr is not None:
        faulthandler.enable()
    shell = Shell(app)
    shell.show()
    shell.begin(paths)
    status = app.exec()
    watch.remove()
    return int(status)
