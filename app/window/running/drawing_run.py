"""A large drawing read in a process of its own: the window shows the step it is at, and Cancel ends it."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import Any

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication, QEventLoop, QProcess, Qt
from PySide6.QtWidgets import QApplication, QProgressDialog, QWidget

from app.window.running.environment import qt_environment
from geometry.dxf.child import answer_of
from geometry.dxf.read import ReadDrawing, read_drawing
from nesting.process import child_environment

translate = QCoreApplication.translate

SMALL_BYTES = 250_000
"""A drawing below this is read in the window itself, mostly within a tenth of a second; a process of its own
costs most of a second to start."""

GONE_WITHIN_MS = 3000
STEPS = (
    QT_TRANSLATE_NOOP("Import", "reading the file"),
    QT_TRANSLATE_NOOP("Import", "reading the blocks"),
    QT_TRANSLATE_NOOP("Import", "joining the lines"),
    QT_TRANSLATE_NOOP("Import", "sorting outlines and cut-outs"),
)
"""What the reader says of its steps."""


def read_with_progress(path: Path, parent: QWidget, **options: Any) -> ReadDrawing | None:
    """Read a drawing as ``read_drawing`` does; None when the person cancelled a long reading."""
    try:
        small = path.stat().st_size < SMALL_BYTES
    except OSError:
        small = True  # what is wrong with it the reader says best
    return read_drawing(path, **options) if small else _read_beside(path, parent, options)


def _read_beside(path: Path, parent: QWidget, options: dict[str, Any]) -> ReadDrawing | None:
    dialog = QProgressDialog(
        translate("Import", "Reading {0}").format(path.name), translate("Import", "Cancel"), 0, 0, parent
    )
    dialog.setWindowTitle(translate("Import", "Reading the drawing"))
    dialog.setWindowModality(Qt.WindowModality.WindowModal)
    dialog.setMinimumDuration(0)
    dialog.setMinimumWidth(380)
    process = QProcess(dialog)
    process.setProgram(sys.executable)
    process.setArguments(["-m", "geometry.dxf.child"])
    process.setProcessEnvironment(qt_environment(child_environment(os.environ)))
    loop = QEventLoop()

    def tell() -> None:
        lines = bytes(process.readAllStandardError().data()).decode("utf-8", "replace").splitlines()
        step = next((line for line in reversed(lines) if line in STEPS), "")
        if step:
            told = translate("Import", "Reading {0}: {1}")
            dialog.setLabelText(told.format(path.name, translate("Import", step)))

    process.readyReadStandardError.connect(tell)
    process.finished.connect(loop.quit)
    process.errorOccurred.connect(loop.quit)
    dialog.canceled.connect(loop.quit)
    process.start()
    process.write(json.dumps({"path": str(path), **options}).encode() + b"\n")
    cursors = 0
    while QApplication.overrideCursor() is not None:  # an hourglass over a button that can be pressed
        QApplication.restoreOverrideCursor()
        cursors += 1
    dialog.show()
    loop.exec()
    for _ in range(cursors):
        QApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
    cancelled = dialog.wasCanceled()
    process.readyReadStandardError.disconnect(tell)
    process.finished.disconnect(loop.quit)
    process.errorOccurred.disconnect(loop.quit)
    if process.state() != QProcess.ProcessState.NotRunning:
        process.kill()
        process.waitForFinished(GONE_WITHIN_MS)
    data = bytes(process.readAllStandardOutput().data())
    dialog.close()
    dialog.deleteLater()
    if cancelled:
        return None
    answer = answer_of(data, path.name)
    if isinstance(answer, ReadDrawing):
        return answer
    raise answer
