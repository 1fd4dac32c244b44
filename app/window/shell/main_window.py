"""The shell: menus, the rail of desks, the start page, and the keys that work everywhere."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication, QEvent, QTimer, Signal
from PySide6.QtGui import QAction, QCloseEvent, QDragEnterEvent, QDropEvent, QIcon, QStatusTipEvent
from PySide6.QtWidgets import (
    QApplication,
    QMainWindow,
    QMessageBox,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.errors import AppError
from app.window.desks import ORDER, desk_title, desk_type
from app.window.desks.base import Desk
from app.window.files import Files, dropped_files
from app.window.problems import show_problem
from app.window.session import Session
from app.window.shell.about import show_about
from app.window.shell.actions import Actions
from app.window.shell.desk_row import DeskRow
from app.window.shell.key_list import KeyList
from app.window.shell.looks import Looks
from app.window.shell.menus import Menus
from app.window.shell.rail import Rail
from app.window.shell.shell_actions import DESK_KEYS, SHELL
from app.window.shell.start_page import StartPage
from app.window.shell.status_line import StatusLine
from app.window.shell.tour import Tour
from app.window.widgets.icons import icon_pixmap
from app.window.widgets.theme import theme

translate = QCoreApplication.translate


class MainWindow(QMainWindow):
    """The window over one session.

    Signal ``rebuild_asked``: light or language changed; the application makes a new window over
    the same session (texts, colours and icons are taken while widgets are made). What the desks of
    the window before ``carried``, the desks of this one take over when they are made; ``front`` is the desk
    to begin with (None: the start page), so that no other desk is made for nothing.
    """

    rebuild_asked = Signal()

    def __init__(
        self,
        session: Session,
        carried: Mapping[str, Mapping[str, Any]] | None = None,
        front: int | None = None,
    ) -> None:
        super().__init__()
        self.session = session
        self._carried = dict(carried or {})
        self.files = Files(session, self)
        self.actions_made = Actions(self)
        self.line = StatusLine(self.statusBar(), session.said)
        self.stack = QStackedWidget()
        self.desks = DeskRow(session, self.stack, self._desk_made)
        self._desk_actions: list[QAction] = []
        self._tour: Tour | None = None
        self.setAcceptDrops(True)
        self.setMinimumSize(880, 560)
        self.setWindowIcon(QIcon(icon_pixmap("draft", 64, theme().ink, theme().accent)))
        self._make_actions()
        self._make_body()
        self.menus = Menus(self, self.session.settings, self._desk_actions)
        self.menus.opened.connect(self.open_path)
        self._fill_menus()
        session.opened.connect(self._opened)
        session.changed.connect(self._changed)
        self._show_open(0 if carried is None else front)
        self._restore_place()

    # -- making -------------------------------------------------------------------------------
    def _make_actions(self) -> None:
        self._looks = Looks(self, self.session, self.actions_made)
        self._looks.rebuild_asked.connect(self.rebuild_asked)
        handlers = self._looks.handlers() | {
            "file.new": self.files.ask_new,
            "file.open": self.files.ask_open,
            "file.revise": self.files.ask_revise,
            "file.trace": self._trace,
            "file.save": self.files.save,
            "file.save_as": self.files.save_as,
            "file.close": self.files.close_style,
            "file.quit": self.close,
            "file.print": self.print_papers,
            "edit.undo": self._undo,
            "edit.redo": self._redo,
            "edit.rules": self.files.edit_rules,
            "help.keys": self.show_keys,
            "help.said": self.line.show_last,
            "help.tour": self.start_tour,
            "help.about": self._about,
        }
        for spec in SHELL:
            self.actions_made.add(spec, handlers[spec.id])
        self._looks.mark()

    def _make_body(self) -> None:
        self._rail = Rail(
            [(name, desk_title(name)) for name in ORDER],
            list(DESK_KEYS),
            translate("Shell", "Desks"),
            translate("Shell", "Start page"),
        )
        self.start_page = StartPage(self.session.settings)
        self.stack.addWidget(self.start_page)
        for number, name in enumerate(ORDER):
            action = QAction(desk_title(name), self)
            action.setShortcut(DESK_KEYS[number])
            action.setData(number)
            action.triggered.connect(self._desk_action)
            self.addAction(action)
            self._desk_actions.append(action)
        body = QWidget()
        layout = QVBoxLayout(body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self._rail)
        layout.addWidget(self.stack, 1)
        self.setCentralWidget(body)
        self.line.button.setDefaultAction(self.actions_made["help.said"])
        self._rail.stations.chosen.connect(self.show_desk)
        self._rail.home.connect(self.show_start)
        self.start_page.chosen.connect(self.open_path)
        self.start_page.sample.connect(self.open_path)
        self.start_page.open_asked.connect(self.files.ask_open)
        self.start_page.new_asked.connect(self.files.ask_new)
        self.start_page.trace_asked.connect(self._trace)
        self.start_page.tour_asked.connect(self.start_tour)

    def _fill_menus(self) -> None:
        made = [pair for desk in self.desks.made for pair in desk.menu_actions()]
        self.menus.fill(self.actions_made.all() + made)

    # -- desks --------------------------------------------------------------------------------
    def _desk_made(self, number: int, desk: Desk) -> None:
        self.stack.addWidget(desk)
        desk.status.connect(self.line.say)
        desk.passing.connect(self.line.pass_by)
        desk.facts.connect(self._desk_facts)
        desk.asks_for.connect(self._desk_asked)
        desk.actions_made.show(False)
        self._fill_menus()
        if self.session.document is not None:
            desk.opened()
            if desk.name in self._carried:
                desk.take_over(self._carried.pop(desk.name))

    def carried(self) -> dict[str, Mapping[str, Any]]:
        """What the desks of the next window must take over; also of desks that this one never made."""
        return {**self._carried, **{desk.name: desk.carried() for desk in self.desks.made}}

    @property
    def desk(self) -> Desk | None:
        """The desk in front, or None on the start page."""
        shown = self.stack.currentWidget()
        return shown if isinstance(shown, Desk) else None

    def show_desk(self, index: int) -> None:
        """Bring a desk to the front."""
        if self.session.document is None or not 0 <= index < len(self.desks):
            return
        before = self.desk
        if before is self.desks[index]:  # made now, if nobody has looked at it yet
            return
        if before is not None:
            before.left()
        self._front(index)
        self.desks[index].entered()

    def _desk_asked(self, name: str, what: object) -> None:
        self.show_desk(ORDER.index(name))
        if self.desk is not None:
            self.desk.show_asked(what)

    def show_start(self) -> None:
        """Bring the start page to the front (the open style stays open)."""
        if self.desk is not None:
            self.desk.left()
        self.start_page.refresh()
        self._front(-1)

    def _front(self, index: int) -> None:
        front = self.desks[index] if index >= 0 else self.start_page
        self.stack.setCurrentWidget(front)
        self._rail.stations.set_current(index)
        self._rail.set_facts("")
        self.line.pass_by("")  # where the pointer was on the desk before
        for desk in self.desks.made:
            desk.actions_made.show(desk is front)

    def _desk_action(self) -> None:
        self.show_desk(self.sender().data())  # type: ignore[attr-defined]

    # -- what is open -------------------------------------------------------------------------
    def _trace(self) -> None:
        if self.files.ask_trace():
            self._show_new_pieces()

    def _show_new_pieces(self) -> None:
        self.show_desk(0)
        self.desks[0].actions_made["draft.fit"].trigger()

    def open_path(self, path: Path) -> None:
        """Open a style file or a drawing."""
        self.files.open_paths([path])

    def _opened(self) -> None:
        self._carried.clear()  # of another style
        for desk in self.desks.made:
            desk.opened()
        self._show_open()

    def _show_open(self, front: int | None = 0) -> None:
        """Show whether a style is open: a style just opened begins at the first desk."""
        is_open = self.session.document is not None
        self._rail.stations.set_open(is_open)
        for name in ("file.revise", "file.save", "file.save_as", "file.close", "file.print", "edit.rules"):
            self.actions_made[name].setEnabled(is_open)
        if not is_open or front is None:
            self.show_start()
        elif self.desk is self.desks[front]:
            self.desks[front].entered()
        else:
            self.show_desk(front)
        self._changed()

    def _changed(self) -> None:
        document = self.session.document
        undo, redo = self.actions_made["edit.undo"], self.actions_made["edit.redo"]
        undo_label = document.undo_label if document else ""
        redo_label = document.redo_label if document else ""
        undo.setEnabled(bool(undo_label))
        redo.setEnabled(bool(redo_label))
        undo.setText(
            translate("Shell", "&Undo: {0}").format(undo_label) if undo_label else translate("Shell", "&Undo")
        )
        redo.setText(
            translate("Shell", "&Redo: {0}").format(redo_label) if redo_label else translate("Shell", "&Redo")
        )
        if document is None:
            self.setWindowTitle("stayply")
            self.setWindowModified(False)
            self._rail.set_style_name("", False, "")
            return
        file = document.path.name if document.path else translate("Shell", "not saved yet")
        self.setWindowTitle(f"{document.style.name} ({file})[*] - stayply")
        self.setWindowModified(document.dirty)
        self._rail.set_style_name(
            document.style.name, document.dirty, translate("Shell", "There are unsaved changes")
        )

    def _undo(self) -> None:
        self._step(back=True)

    def _redo(self) -> None:
        self._step(back=False)

    def _step(self, *, back: bool) -> None:
        document = self.session.document
        if document is None:
            return
        if self.desk is not None:
            self.desk.left()  # ends a running gesture
        label = document.undo_label if back else document.redo_label
        if document.undo() if back else document.redo():
            text = translate("Shell", "Undone: {0}") if back else translate("Shell", "Redone: {0}")
            self.line.say(text.format(label))

    # -- printing -------------------------------------------------------------------------------
    def print_papers(self) -> None:
        """Offer the papers of the desk in front."""
        from app.window.printing.dialog import PrintDialog  # and with it all that writes papers

        desk, style = self.desk, self.session.style
        if desk is None or style is None:
            return
        try:
            papers = desk.papers()
        except AppError as error:
            show_problem(error, self)
            return
        if not papers:
            self.line.say(translate("Shell", "There is nothing to print here yet."))
            return
        dialog = PrintDialog(papers, style, self.session, self)
        dialog.exec()
        self.line.say(dialog.told)
        dialog.deleteLater()

    def _desk_facts(self, text: str) -> None:
        if self.sender() is self.desk:  # a desk behind may count on; the rail is the front one's
            self._rail.set_facts(text)

    # -- help ---------------------------------------------------------------------------------
    def show_keys(self) -> None:
        """Show the list of keys."""
        groups = [(translate("Shell", "Everywhere"), list(SHELL))]
        groups += [(desk_title(name), list(desk_type(name).specs())) for name in ORDER]
        dialog = KeyList(groups, self)
        dialog.exec()
        dialog.deleteLater()

    def start_tour(self) -> None:
        """Walk through the job on a sample style."""
        if self._tour is None:
            self._tour = Tour(self)
        self._tour.begin()

    def _about(self) -> None:
        show_about(self)

    # -- the file of the open style -----------------------------------------------------------
    def event(self, event: QEvent) -> bool:
        if isinstance(event, QStatusTipEvent):  # Qt would wipe out the message for it
            self.line.pass_by(event.tip())
            return True
        return super().event(event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            QTimer.singleShot(0, self._look_at_file)  # a dialog must not run inside the event

    def _look_at_file(self) -> None:
        document = self.session.document
        if document is not None and document.overtaken and QApplication.activeModalWidget() is None:
            self.files.settle_overtaken()

    # -- drop and close -----------------------------------------------------------------------
    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if dropped_files(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        self._dropped = dropped_files(event.mimeData())
        event.acceptProposedAction()
        QTimer.singleShot(0, self._open_dropped)  # dialogs must not run inside the drop itself

    def _open_dropped(self) -> None:
        before = self.session.document
        if self._dropped and self.files.open_paths(self._dropped) and self.session.document is before:
            self._show_new_pieces()  # of a picture that was dropped

    def closeEvent(self, event: QCloseEvent) -> None:
        running = self.running
        if running and not self._may_stop(running):
            event.ignore()
            return
        if not self.files.may_close():
            event.ignore()
            return
        self.let_go()
        self.session.close()
        event.accept()

    @property
    def running(self) -> list[str]:
        """What is at work on any desk, in words."""
        return [text for text in (desk.busy() for desk in self.desks.made) if text]

    def say_later(self) -> None:
        """Say that light and language wait for the work that runs."""
        self.line.say(translate("Shell", "The window will change when the running work has finished."))

    def let_go(self) -> None:
        """Remember the place of everything and stop all work."""
        for desk in self.desks.made:
            desk.left()
            desk.stop()
            desk.keep_place()
        self.session.settings.keep_state("window", self.saveGeometry())
        self.session.settings.flush()

    def _may_stop(self, running: list[str]) -> bool:
        answer = QMessageBox.question(
            self,
            translate("Shell", "Work is running"),
            "\n".join(running) + "\n\n" + translate("Shell", "Stop it and close?"),
        )
        return answer == QMessageBox.StandardButton.Yes

    def _restore_place(self) -> None:
        place = self.session.settings.state("window")
        if place is None or not self.restoreGeometry(place):
            self.resize(1360, 860)
