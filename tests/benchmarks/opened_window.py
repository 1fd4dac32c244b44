"""The window as a benchmark opens it: settings of its own, no question when it closes."""

from __future__ import annotations

import resource
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from PySide6.QtCore import QStandardPaths
from PySide6.QtWidgets import QApplication

from app.window.application import Shell, make_application
from app.window.shell.main_window import MainWindow


@contextmanager
def opened_window() -> Iterator[tuple[QApplication, MainWindow]]:
    """Give the program and its window, painted; closed when the block ends."""
    QStandardPaths.setTestModeEnabled(True)
    app = make_application()
    with tempfile.TemporaryDirectory() as folder:
        shell = Shell(app, Path(folder))
        window = shell.show()
        window.resize(1600, 900)
        app.processEvents()
        yield app, window
        document = window.session.document
        if document is not None:
            document.mark_saved(Path("unused"), document.style)
        window.close()


def held_mb() -> float:
    """Return the memory that this process held at the most."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
