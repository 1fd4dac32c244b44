"""Work beside the window ends while those who asked for it are being deleted, a few hundred times."""

from __future__ import annotations

import sys
from threading import Event

import shiboken6
from PySide6.QtCore import QCoreApplication, QObject

from app.window.running.beside import WorkBeside

ROUNDS = 300


def main() -> int:
    app = QCoreApplication(sys.argv)
    told: list[int] = []
    for number in range(ROUNDS):
        parent = QObject()
        beside: WorkBeside[int] = WorkBeside(parent)
        goes, here = Event(), Event()

        def work(number: int = number, goes: Event = goes, here: Event = here) -> int:
            here.set()
            goes.wait()
            return number

        beside.begin("gone", work, told.append, lambda: None)
        here.wait()
        goes.set()  # the thread ends now, while its asker goes
        shiboken6.delete(parent)
        QObject(app).deleteLater()
        app.processEvents()
    print(f"{ROUNDS} askers gone, {len(told)} told")
    return 0


if __name__ == "__main__":
    sys.exit(main())
