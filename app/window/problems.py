"""Errors as people need them: what, in which file and piece, what to do; details to copy."""

from __future__ import annotations

import logging
import platform
import sys
import threading
import traceback
from logging.handlers import RotatingFileHandler
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import (
    QCoreApplication,
    QMessageLogContext,
    QObject,
    Qt,
    QtMsgType,
    Signal,
    qInstallMessageHandler,
    qVersion,
)
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.window.widgets.icons import icon
from app.window.widgets.theme import theme, ui_font
from app.window.wording.core_words import told_text

translate = QCoreApplication.translate
log = logging.getLogger("stayply")


class ProblemDialog(QDialog):
    """One problem: message, file, piece, remedy; the details fold out and can be copied."""

    def __init__(
        self,
        message: str,
        *,
        remedy: str = "",
        file: str = "",
        piece: str = "",
        details: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(translate("Problem", "This could not be done"))
        self.setMinimumWidth(480)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(22, 20, 22, 16)
        layout.setSpacing(12)
        head = QLabel(message[:1].upper() + message[1:])
        head.setFont(ui_font(11.5, bold=True))
        head.setWordWrap(True)
        head.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        layout.addWidget(head)
        form = QFormLayout()
        form.setHorizontalSpacing(14)
        for name, value in (
            (translate("Problem", "File"), file),
            (translate("Problem", "Piece"), piece),
            (translate("Problem", "Remedy"), remedy),
        ):
            if value:
                label = QLabel(value)
                label.setWordWrap(True)
                label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
                title = QLabel(name)
                title.setProperty("role", "soft")
                form.addRow(title, label)
        layout.addLayout(form)
        self.details = details
        buttons = QDialogButtonBox()
        close = buttons.addButton(QDialogButtonBox.StandardButton.Close)
        close.setText(translate("Problem", "Close"))
        close.setDefault(True)
        if details:
            self._more = QPlainTextEdit(details)
            self._more.setReadOnly(True)
            self._more.setVisible(False)
            self._more.setMinimumHeight(160)
            self._more.setAccessibleName(translate("Problem", "Details"))
            layout.addWidget(self._more)
            show = QPushButton(translate("Problem", "Details"))
            show.setCheckable(True)
            show.setAutoDefault(False)  # Enter closes
            show.toggled.connect(self._fold)
            buttons.addButton(show, QDialogButtonBox.ButtonRole.ActionRole)
            copy = QPushButton(translate("Problem", "Copy details"))
            copy.setAutoDefault(False)
            copy.clicked.connect(self.copy_details)
            buttons.addButton(copy, QDialogButtonBox.ButtonRole.ActionRole)
        buttons.rejected.connect(self.reject)
        layout.addWidget(buttons)
        self.setWindowIcon(icon("error", theme(), "error"))

    def _fold(self, out: bool) -> None:
        """Show or hide the details; the dialog grows with them, so that nothing lies over its buttons."""
        self._more.setVisible(out)
        layout = self.layout()
        if layout is not None:
            layout.activate()
            self.resize(
                self.width(), max(layout.totalHeightForWidth(self.width()), layout.minimumSize().height())
            )

    def copy_details(self) -> None:
        """Put the details on the clipboard."""
        QGuiApplication.clipboard().setText(self.details)


def problem_of(error: BaseException) -> dict[str, str]:
    """Return the parts of an error for a ``ProblemDialog``."""
    text = "".join(traceback.format_exception(error))
    known = hasattr(error, "remedy")
    return {
        "message": told_text(getattr(error, "message", ""))
        or translate("Problem", "the program met something it did not expect: {0}").format(
            f"{type(error).__name__}: {error}"
        ),
        "remedy": told_text(getattr(error, "remedy", ""))
        if known
        else translate(
            "Problem", "Your work is kept and you can go on. Please copy the details into a report."
        ),
        "file": getattr(error, "file", ""),
        "piece": getattr(error, "piece", ""),
        "details": f"stayply, Python {platform.python_version()}, Qt {qVersion()}, {platform.platform()}\n\n{text}",
    }


def show_problem(error: BaseException, parent: QWidget | None = None) -> None:
    """Log an error and show it; returns when the person closes the dialog."""
    log.error("%s", error, exc_info=error)
    dialog = ProblemDialog(**problem_of(error), parent=parent or QApplication.activeWindow())
    dialog.exec()
    dialog.deleteLater()


class ProblemWatch(QObject):
    """Catches what no one else caught: exceptions in slots and in threads, and Qt's own messages."""

    _from_thread = Signal(object)

    def __init__(self, log_file: Path) -> None:
        super().__init__()
        self._from_thread.connect(self._shown)
        log_file.parent.mkdir(parents=True, exist_ok=True)
        self._handler = RotatingFileHandler(
            log_file, maxBytes=500_000, backupCount=2, delay=True, encoding="utf-8"
        )
        self._handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(message)s"))
        self._showing = False

    def install(self) -> None:
        """Start watching."""
        log.addHandler(self._handler)
        log.setLevel(logging.INFO)
        sys.excepthook = self._caught
        threading.excepthook = self._caught_in_thread
        qInstallMessageHandler(self._qt_message)

    def remove(self) -> None:
        """Stop watching."""
        sys.excepthook = sys.__excepthook__
        threading.excepthook = threading.__excepthook__
        qInstallMessageHandler(None)
        log.removeHandler(self._handler)
        self._handler.close()

    def _caught(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            QApplication.quit()
            return
        self._shown(error)

    def _caught_in_thread(self, caught: threading.ExceptHookArgs) -> None:
        if caught.exc_value is not None:
            self._from_thread.emit(caught.exc_value)  # dialogs belong to the main thread

    def _shown(self, error: BaseException) -> None:
        if self._showing:  # a fault while showing a fault must not pile up dialogs
            log.error("%s", error, exc_info=error)
            return
        self._showing = True
        try:
            show_problem(error)
        finally:
            self._showing = False

    def _qt_message(self, kind: QtMsgType, context: QMessageLogContext, message: str) -> None:
        if kind in (QtMsgType.QtCriticalMsg, QtMsgType.QtFatalMsg):
            log.error("Qt: %s", message)
        elif kind == QtMsgType.QtWarningMsg:
            log.warning("Qt: %s", message)
