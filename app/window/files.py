"""Opening, making, saving and restoring styles from the window."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from pydantic import ValidationError
from PySide6.QtCore import QCoreApplication, QMimeData, QObject, Qt
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QMessageBox, QWidget

from app.errors import AppError
from app.style import edits
from app.style.document import Document
from app.style.file import EXTENSION, load_style, save_style
from app.style.recovery import left_behind
from app.style.rules_store import save_rules
from app.window.house_rules import HouseRulesDialog
from app.window.problems import show_problem
from app.window.session import Session
from app.window.shell.start_page import SAMPLES
from app.window.whose_version import Whose, ask_whose
from app.window.wording.words import step_name
from geometry.errors import GeometryError
from nesting.system.files import safe_name

translate = QCoreApplication.translate
PICTURES = (".jpg", ".jpeg", ".png", ".tif", ".tiff", ".bmp")
"""Endings of pictures that card patterns are traced from."""


class Files(QObject):
    """File commands over a session; every failure is shown and leaves the open style as it was."""

    def __init__(self, session: Session, window: QWidget) -> None:
        super().__init__(window)
        self._session = session
        self._window = window
        self._settling = False

    # -- open and new -------------------------------------------------------------------------
    def ask_open(self) -> None:
        """Ask for a style file and open it."""
        name, _ = QFileDialog.getOpenFileName(
            self._window,
            translate("Files", "Open a style"),
            self._session.settings.folder,
            translate("Files", "Styles (*{0});;Drawings (*.dxf);;All files (*)").format(EXTENSION),
        )
        if name:
            self.open_paths([Path(name)])

    def ask_new(self) -> None:
        """Ask for drawings and make a style of them."""
        names, _ = QFileDialog.getOpenFileNames(
            self._window,
            translate("Files", "New style from drawings"),
            self._session.settings.folder,
            translate("Files", "Drawings (*.dxf);;All files (*)"),
        )
        if names:
            self.open_paths([Path(name) for name in names])

    def ask_revise(self) -> None:
        """Ask for a revised drawing and bring it in, piece by piece."""
        document = self._session.document
        if document is None:
            return
        name, _ = QFileDialog.getOpenFileName(
            self._window,
            translate("Files", "Revised drawing"),
            self._session.settings.folder,
            translate("Files", "Drawings (*.dxf);;All files (*)"),
        )
        if name:
            self.revise(Path(name))

    def revise(self, path: Path) -> bool:
        """Bring a revised drawing into the open style as one step; returns whether it was taken."""
        from app.window.drawing_import import read_asking
        from app.window.revised_drawing import RevisedDrawing

        document = self._session.document
        if document is None:
            return False
        try:
            drawing = read_asking(path, document.style.rules.chord_mm, self._window)
            if drawing is None:
                return False
            dialog = RevisedDrawing(document.style, drawing, path, self._session.lengths, self._window)
            accepted = dialog.exec() == QDialog.DialogCode.Accepted
            revision = dialog.taken() if accepted else None
            dialog.deleteLater()
        except (AppError, GeometryError) as error:
            show_problem(error, self._window)
            return False
        return revision is not None and self._session.apply(step_name("revise"), revision.style)

    def ask_trace(self) -> bool:
        """Ask for a picture of card patterns and trace them; returns whether cards were taken."""
        name, _ = QFileDialog.getOpenFileName(
            self._window,
            translate("Files", "Picture of card patterns"),
            self._session.settings.folder,
            translate("Files", "Pictures ({0});;All files (*)").format(
                " ".join(f"*{ending}" for ending in PICTURES)
            ),
        )
        return bool(name) and self.trace(Path(name))

    def trace(self, path: Path) -> bool:
        """Trace a picture's cards into the open style, as one step, or into a new one; returns whether."""
        from app.style.whole.traced import add_traced, traced_style
        from app.window.tracing.dialog import TraceDialog

        document = self._session.document
        dialog = TraceDialog(path, self._session.lengths, self._window, asks_size=document is None)
        accepted = dialog.exec() == QDialog.DialogCode.Accepted
        cards, size, system = dialog.taken, dialog.size, dialog.system.currentData()
        dialog.deleteLater()
        if not accepted:
            return False
        try:
            if document is not None:
                style, _ = add_traced(document.style, cards)
                return self._session.apply(step_name("add pieces"), style)
            style = traced_style(cards, name=path.stem, source=path.name, base=size, system=system)
        except (AppError, GeometryError) as error:
            show_problem(error, self._window)
            return False
        self._session.open(Document(style, unsaved=True))
        return True

    def open_paths(self, paths: Sequence[Path]) -> bool:
        """Open a style file, make a style of drawings, or trace a picture; returns whether one is open now."""
        pictures = [path for path in paths if path.suffix.lower() in PICTURES]
        if pictures:
            return self.trace(pictures[0])
        drawings = [path for path in paths if path.suffix.lower() == ".dxf"]
        if not self.may_close():
            return False
        QApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
        try:
            if drawings:
                # what reads drawings takes longer to load than the rest of the window together
                from app.window.drawing_import import import_drawings

                imported = import_drawings(drawings, self._window)
                if imported is None:
                    return False
                style, findings = imported
                document = Document(style, unsaved=True)
            else:
                path = paths[0]
                sample = SAMPLES in path.resolve().parents
                style, findings = load_style(path), ()
                # a sample opens as an unnamed copy, so that the sample stays as it is
                document = Document(style, None if sample else path, source=path)
                if not sample:
                    self._session.settings.add_recent(path)
        except (AppError, GeometryError) as error:
            self._plain_cursor()
            show_problem(error, self._window)
            return False
        finally:
            self._plain_cursor()
        self._session.open(document, tuple(findings))
        return True

    # -- save ---------------------------------------------------------------------------------
    def save(self) -> bool:
        """Save under the style's own name, or ask for one; returns whether it is saved."""
        document = self._session.document
        if document is None:
            return False
        if document.path is None:
            return self.save_as()
        if document.overtaken:
            return self.settle_overtaken(saving=True)
        return self._write(document, document.path, document.on_disk)

    def save_as(self) -> bool:
        """Ask for a name and save; returns whether it is saved."""
        document = self._session.document
        if document is None:
            return False
        start = (
            document.path
            or Path(self._session.settings.folder) / f"{safe_name(document.style.name, 'style')}{EXTENSION}"
        )
        name, _ = QFileDialog.getSaveFileName(
            self._window,
            translate("Files", "Save the style as"),
            str(start),
            translate("Files", "Styles (*{0})").format(EXTENSION),
        )
        if not name:
            return False
        path = Path(name)
        if not path.name.endswith(EXTENSION):
            path = path.with_name(path.name.removesuffix(".json") + EXTENSION)
        return self._write(document, path)

    def _write(self, document: Document, path: Path, known: str | None = None) -> bool:
        style = document.style
        try:
            save_style(style, path, known=known)
        except AppError as error:
            show_problem(error, self._window)
            return False
        document.mark_saved(path, style)
        self._session.settings.add_recent(path)
        return True

    # -- the file was written by somebody else ---------------------------------------------------
    def settle_overtaken(self, *, saving: bool = False) -> bool:
        """Ask whose version of the open file counts; returns whether this style is saved now.

        Nothing is lost by any answer: taking the file's version is a step that undo takes back.
        """
        document = self._session.document
        if document is None or document.path is None or self._settling:
            return False
        try:
            theirs = load_style(document.path)
        except AppError as error:
            show_problem(error, self._window)
            document.let_overtake()
            return False
        if theirs == document.style:
            document.mark_saved(document.path, document.style)
            return True
        self._settling = True
        try:
            answer = ask_whose(document, theirs, saving=saving, parent=self._window)
        finally:
            self._settling = False
        if answer is Whose.THEIRS:
            self._session.apply(step_name("theirs"), theirs)
            document.mark_saved(document.path, theirs)
            return True
        if answer is Whose.MINE:
            if saving:
                return self._write(document, document.path)
            document.let_overtake()
        if answer is Whose.BESIDE:
            return self.save_as()
        return False

    # -- house rules ----------------------------------------------------------------------------
    def edit_rules(self) -> None:
        """Show the style's house rules; what is taken is one step."""
        document = self._session.document
        if document is None:
            return
        dialog = HouseRulesDialog(document.style, self._session.lengths, self._window)
        taken = dialog.exec() == QDialog.DialogCode.Accepted
        fields, for_workshop = dialog.fields, dialog.for_workshop
        dialog.deleteLater()
        if not taken:
            return
        try:
            style = edits.set_rules(document.style, **fields)
            if for_workshop:
                save_rules(style.rules)
        except (AppError, ValidationError) as error:
            show_problem(error, self._window)
            return
        self._session.apply(step_name("rules"), style)

    # -- close --------------------------------------------------------------------------------
    def may_close(self) -> bool:
        """Ask about unsaved work; returns whether the open style may go."""
        document = self._session.document
        if document is None or not document.dirty:
            return True
        box = QMessageBox(self._window)
        box.setIcon(QMessageBox.Icon.NoIcon)
        box.setWindowTitle(translate("Files", "Unsaved changes"))
        box.setText(translate("Files", "“{0}” has changes that are not saved.").format(document.style.name))
        steps = document.labels[-3:]
        box.setInformativeText(
            translate("Files", "The last steps: {0}").format("; ".join(steps)) if steps else ""
        )
        save = box.addButton(translate("Files", "Save"), QMessageBox.ButtonRole.AcceptRole)
        discard = box.addButton(translate("Files", "Do not save"), QMessageBox.ButtonRole.DestructiveRole)
        cancel = box.addButton(translate("Files", "Cancel"), QMessageBox.ButtonRole.RejectRole)
        box.setDefaultButton(save)
        box.setEscapeButton(cancel)
        box.exec()
        clicked = box.clickedButton()
        box.deleteLater()
        if clicked is save:
            return self.save()
        return clicked is discard

    def close_style(self) -> None:
        """Close the open style and go back to the start page."""
        if self.may_close():
            self._session.open(None)

    # -- recovery -----------------------------------------------------------------------------
    def offer_recovery(self, folder: Path) -> bool:
        """Offer what a killed program left behind; returns whether something was restored."""
        restored = False
        for left in left_behind(folder):
            box = QMessageBox(self._window)
            box.setIcon(QMessageBox.Icon.NoIcon)
            box.setWindowTitle(translate("Files", "Unsaved work was found"))
            box.setText(
                translate("Files", "The program ended before “{0}” was saved.").format(left.style.name)
            )
            where = str(left.path) if left.path else translate("Files", "not saved in a file yet")
            when = left.written.astimezone().strftime("%Y-%m-%d %H:%M:%S")
            box.setInformativeText(
                translate(
                    "Files",
                    "Last change: {0}\nFile: {1}\nRestoring opens it unsaved; the file stays as it is.",
                ).format(when, where)
            )
            restore = box.addButton(translate("Files", "Restore"), QMessageBox.ButtonRole.AcceptRole)
            later = box.addButton(translate("Files", "Ask again later"), QMessageBox.ButtonRole.RejectRole)
            discard = box.addButton(translate("Files", "Discard"), QMessageBox.ButtonRole.DestructiveRole)
            box.setDefaultButton(restore)
            box.setEscapeButton(later)
            box.exec()
            clicked = box.clickedButton()
            box.deleteLater()
            if clicked is discard:
                left.discard()
            elif clicked is restore:
                if not self.may_close():
                    continue
                self._session.open(Document(left.style, left.path, unsaved=True))
                left.discard()  # by now this program's own copy holds it
                restored = True
        return restored

    def _plain_cursor(self) -> None:
        while QApplication.overrideCursor() is not None:
            QApplication.restoreOverrideCursor()


def dropped_files(data: QMimeData) -> list[Path]:
    """Local style files, drawings and pictures among what is dragged."""
    paths = [Path(url.toLocalFile()) for url in data.urls() if url.isLocalFile()]
    return [path for path in paths if path.suffix.lower() in (".dxf", ".json", *PICTURES)]
