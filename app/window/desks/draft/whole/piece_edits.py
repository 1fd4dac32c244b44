"""The draft desk's edits of whole pieces: half patterns, twins, seams, pieces that come and go."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtWidgets import QDialog, QFileDialog

from app.errors import AppError
from app.style.model import Style
from app.style.whole import adding, drawn_shapes, folding, seams, twins
from app.window.desks.draft.interface import DraftBench
from app.window.desks.draft.whole.questions import PiecesQuestion, ShapeQuestion, TwinQuestion
from app.window.wording.core_words import told_text
from app.window.wording.words import step_name
from geometry.errors import GeometryError

translate = QCoreApplication.translate


class PieceEdits(QObject):
    """Turns actions into edits; ``first_edge`` is the edge that waits for the one it is sewn to."""

    def __init__(self, desk: DraftBench) -> None:
        super().__init__(desk)
        self._desk = desk
        self.first_edge: seams.SewnEdge | None = None

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return the handler of each action."""
        return {
            "draft.unfold": self.unfold,
            "draft.fold": self.fold,
            "draft.mirror_piece": self.mirror_piece,
            "draft.copy_twin": self.copy_twin,
            "draft.link_twin": self.link_twin,
            "draft.sew": self.sew,
            "draft.duplicate": self.duplicate,
            "draft.delete_piece": self.delete,
            "draft.add_drawn": self.add_drawn,
            "draft.add_shape": self.add_shape,
        }

    @property
    def _piece(self) -> str:
        return self._desk.selecting.piece

    def _selected(self) -> bool:
        if not self._piece:
            self._say(translate("Whole", "Select a piece first: click it on the board."))
        return bool(self._piece)

    def _say(self, text: str) -> None:
        self._desk.status.emit(text)

    def _style(self) -> Style | None:
        document = self._desk.session.document
        return None if document is None else document.style

    # -- half patterns ----------------------------------------------------------------------------
    def unfold(self) -> None:
        """Unfold the selected piece over the selected edge, or over its centre edge."""
        if not self._selected():
            return
        edges = sorted(self._desk.selecting.edges)
        if len(edges) > 1:
            self._say(translate("Whole", "Select one edge, the one along the fold, or none."))
            return
        if self._desk.edit("unfold", folding.unfold, self._piece, edges[0] if edges else None):
            self._show_anew(self._piece)

    def fold(self) -> None:
        """Fold the selected piece to its half."""
        if self._selected() and self._desk.edit("fold", folding.fold, self._piece):
            self._show_anew(self._piece)

    # -- twins ------------------------------------------------------------------------------------
    def mirror_piece(self) -> None:
        """Ask for a name, and add the mirror image of the selected piece."""
        style = self._style()
        if style is None or not self._selected():
            return
        piece = self._piece
        wanted = adding.free_name(style, translate("Whole", "{0} mirrored").format(piece))
        dialog = TwinQuestion(piece, wanted, self._desk.window())
        accepted = dialog.exec() == QDialog.DialogCode.Accepted
        name, linked = dialog.name.text(), dialog.linked.isChecked()
        dialog.deleteLater()
        if accepted and self._desk.edit("mirror piece", _mirrored, piece, name, linked):
            self._show_anew(" ".join(name.split()))

    def copy_twin(self) -> None:
        """Copy what is marked on the selected piece to its twin."""
        style = self._style()
        if style is None or not self._selected():
            return
        try:
            twin = twins.likely_twin(style, self._piece)
            if not twin:
                self._say(translate("Whole", "No piece is the mirror image of {0}.").format(self._piece))
                return
            copied = twins.copy_to_twin(style, self._piece, twin)
        except (AppError, GeometryError) as error:
            self._say(told_text(str(error)))
            return
        self._desk.session.apply(step_name("copy to twin", self._piece), copied.style)
        told = translate("Whole", "Copied to {0}; edges: {1}.").format(twin, copied.carried)
        if copied.asked:
            told += " " + translate("Whole", "Please check: {0}.").format(len(copied.asked))
        self._say(told)

    def link_twin(self) -> None:
        """Link the selected piece to its likely twin, or unlink it."""
        style = self._style()
        if style is None or not self._selected():
            return
        piece = self._piece
        if style.piece(piece).twin:
            if self._desk.edit("unlink twin", twins.unlink, piece):
                self._say(translate("Whole", "The twins are no longer linked."))
            return
        twin = twins.likely_twin(style, piece)
        if not twin:
            self._say(translate("Whole", "No piece is the mirror image of {0}.").format(piece))
        elif self._desk.edit("link twin", twins.link, piece, twin):
            self._say(translate("Whole", "{0} and {1} are kept alike from now on.").format(piece, twin))

    # -- seams ------------------------------------------------------------------------------------
    def sew(self) -> None:
        """Take the selected edge as one of a seam; the second one taken makes the seam."""
        edges = sorted(self._desk.selecting.edges)
        if len(edges) != 1:
            self._say(translate("Whole", "Select one edge to sew."))
            return
        edge = (self._piece, *edges[0])
        if self.first_edge is None or self.first_edge == edge:
            self.first_edge = edge
            self._say(
                translate("Whole", "Now select the edge that {0} is sewn to there, and sew again.").format(
                    edge[0]
                )
            )
            return
        first, self.first_edge = self.first_edge, None
        if self._desk.edit("sew", seams.sew, first, edge):
            self._desk.refresh()

    # -- pieces -----------------------------------------------------------------------------------
    def duplicate(self) -> None:
        """Add a copy of the selected piece."""
        style = self._style()
        if style is None or not self._selected():
            return
        name = adding.free_name(style, self._piece)
        if self._desk.edit("duplicate", adding.duplicate, self._piece, name):
            self._show_anew(name)

    def delete(self) -> None:
        """Take the selected piece away."""
        if self._selected():
            self._desk.edit("remove piece", adding.delete, self._piece)

    def add_drawn(self) -> None:
        """Ask for a drawing and for its pieces, and add them."""
        style = self._style()
        if style is None:
            return
        path, _ = QFileDialog.getOpenFileName(
            self._desk,
            translate("Whole", "Add pieces of a drawing"),
            "",
            translate("Whole", "Drawings (*.dxf)"),
        )
        if path:
            self.add_from(Path(path))

    def add_from(self, path: Path) -> None:
        """Add pieces of a drawing; those that come in are asked for."""
        style = self._style()
        if style is None:
            return
        from app.window.drawing_import import read_asking  # loads the reader of drawings

        try:
            drawing = read_asking(path, style.rules.chord_mm, self._desk.window())
        except (AppError, GeometryError) as error:
            self._say(told_text(str(error)))
            return
        if drawing is None:
            return
        names = list(dict.fromkeys(" ".join(piece.name.split()) or "piece" for piece in drawing.pieces))
        dialog = PiecesQuestion(path.name, names, self._desk.window())
        accepted, chosen = dialog.exec() == QDialog.DialogCode.Accepted, dialog.names
        dialog.deleteLater()
        added: list[str] = []

        def add(before: Style) -> Style:
            after, made = adding.add_drawn(before, drawing, chosen)
            added.extend(made)
            return after

        if accepted and chosen and self._desk.edit("add pieces", add):
            self._show_anew(added[0])
            self._say(translate("Whole", "Added: {0}").format(", ".join(added)))

    def add_shape(self) -> None:
        """Ask for a rectangle or a shape, and add it as a piece."""
        style = self._style()
        if style is None:
            return
        wanted = adding.free_name(style, translate("Whole", "New piece"))
        dialog = ShapeQuestion(wanted, self._desk.session.lengths, self._desk.window())
        accepted = dialog.exec() == QDialog.DialogCode.Accepted
        name, alone, points = dialog.name.text(), dialog.backing_only.isChecked(), dialog.points_mm()
        width, height = dialog.sides_mm()
        dialog.deleteLater()
        if not accepted:
            return

        def draw(before: Style) -> Style:
            if points:
                return drawn_shapes.add_shape(before, name, points, backing_only=alone)
            return drawn_shapes.add_rectangle(before, name, width, height, backing_only=alone)

        if self._desk.edit("add pieces", draw):
            self._show_anew(" ".join(name.split()))

    def _show_anew(self, piece: str) -> None:
        """Select a piece that is new or another shape, and show all."""
        self._desk.select(piece)
        self._desk.fit()


def _mirrored(style: Style, piece: str, name: str, linked: bool) -> Style:
    return twins.mirror_piece(style, piece, name, linked=linked)
