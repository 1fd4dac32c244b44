"""Every test of the window starts clean and must leave nothing behind: no warning of Qt, no
window, no running timer, no thread."""

from __future__ import annotations

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest

pytest.importorskip("PySide6.QtWidgets", exc_type=ImportError)

from PySide6.QtCore import (
    QCoreApplication,
    QEvent,
    QMessageLogContext,
    QSettings,
    QStandardPaths,
    QThread,
    QTimer,
    QtMsgType,
    qInstallMessageHandler,
)
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from shiboken6 import getAllValidWrappers

from app.window.application import Shell, make_application
from app.window.canvas.view import UNSEEN_PX_PER_MM
from app.window.shell.main_window import MainWindow
from tests.app.window.hands import HANG_MS, SAMPLES, end

HARMLESS = (
    "This plugin does not support propagateSizeHints",  # the offscreen platform, always
    "This plugin does not support raise",  # the same
    "This plugin does not support grabbing the keyboard",  # the same, for menus
    "setGrabbed",  # the same, for pop-ups
)


@pytest.fixture(scope="session")
def qapp_cls():
    return QApplication


@pytest.fixture(scope="module")
def shared(qapp, tmp_path_factory):
    """One window for all tests of a module: making one takes longer than most of them."""
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    folder = tmp_path_factory.mktemp("shared")
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(folder))
    shell = Shell(make_application(), folder / "recovery")
    shell.settings.light, shell.settings.language = "day", "en"
    shell.show().resize(1360, 860)
    yield shell
    end(shell)


@pytest.fixture(autouse=True)
def clean(qapp, tmp_path):
    """Settings of this test only; Qt's warnings and whatever is left alive fail it."""
    make_application()
    QStandardPaths.setTestModeEnabled(True)
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(tmp_path / "settings"))
    said: list[str] = []

    def listen(kind: QtMsgType, context: QMessageLogContext, message: str) -> None:
        if kind != QtMsgType.QtDebugMsg and not message.startswith(HARMLESS):
            said.append(message)

    before = {id(widget) for widget in QApplication.topLevelWidgets()}
    qInstallMessageHandler(listen)
    yield
    qInstallMessageHandler(None)
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    # a window shared by a module's tests was there before
    left = [w for w in QApplication.topLevelWidgets() if id(w) not in before and w.isVisible()]
    # asked of the binding, not of the garbage collector: that hands out tuples a thread is still making,
    # which then fail in that thread
    alive = [o for o in getAllValidWrappers() if type(o) in (QTimer, QThread)]
    timers = [timer for timer in alive if isinstance(timer, QTimer) and _runs(timer)]
    threads = [thread for thread in alive if isinstance(thread, QThread) and _is_running(thread)]
    assert not said, f"Qt said: {said}"
    assert not left, f"windows left open: {left}"
    assert not timers, f"timers left running: {timers}"
    assert not threads, f"threads left running: {threads}"


def _runs(timer: QTimer) -> bool:
    try:
        return timer.isActive()
    except RuntimeError:
        return False


def _is_running(thread: QThread) -> bool:
    try:
        return thread.isRunning() and thread is not QThread.currentThread()
    except RuntimeError:
        return False


class PatientBot(QtBot):
    """Waits for what is to happen, however slow the machine: the limit only ends a test that hangs."""

    def waitUntil(self, callback, *, timeout=HANG_MS):
        super().waitUntil(callback, timeout=max(timeout, HANG_MS))

    def waitSignal(self, signal, *, timeout=HANG_MS, **more):
        return super().waitSignal(signal, timeout=max(timeout, HANG_MS), **more)

    def waitExposed(self, widget, *, timeout=HANG_MS):
        return super().waitExposed(widget, timeout=max(timeout, HANG_MS))


@pytest.fixture
def qtbot(qapp, request):
    """Pytest-qt's hands, with patience."""
    return PatientBot(request)


@pytest.fixture
def shell(qapp, qtbot, tmp_path):
    """A running program with its own settings and recovery folder; ended after the test."""
    made = Shell(qapp, tmp_path / "recovery")
    made.settings.light = "day"
    made.settings.language = "en"
    window = made.show()
    window.resize(1360, 860)
    window.activateWindow()
    with qtbot.waitExposed(window):
        pass
    yield made
    end(made)


@pytest.fixture
def derby(shell) -> MainWindow:
    """The window with the derby sample open at the draft desk."""
    assert shell.window.files.open_paths([SAMPLES["derby"]])
    QApplication.processEvents()  # what the opening has asked for, laid out and painted
    return shell.window


@pytest.fixture
def lay_desk(shell, qtbot):
    """The lay desk on the court shoe: one pair, every piece laid by hand far apart."""
    assert shell.window.files.open_paths([SAMPLES["court"]])
    window = shell.window
    window.show_desk([desk.name for desk in window.desks].index("lay"))
    desk = window.desk
    while desk.table.missing:
        desk.moves.put_back(next(iter(desk.table.missing)))
    qtbot.waitUntil(lambda: desk.view.px_per_mm != UNSEEN_PX_PER_MM)
    desk.let_go()
    desk.fit()
    return desk
