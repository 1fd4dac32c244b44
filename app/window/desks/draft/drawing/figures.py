"""What keys and menus do on the draft desk to draw: tools taken up, figures asked for, things taken back."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QInputDialog,
    QLabel,
    QWidget,
)

from app.style.drafting import draw, where
from app.style.drafting.edges import break_at_corners, edges_of_kind, set_taper
from app.style.edits import EdgeName
from app.style.model import Style
from app.style.saved.drawn import ReliefDrawn, WordDrawn
from app.window.desks.draft.drawing.bar import on_words
from app.window.desks.draft.interface import DraftBench
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import LengthField, NumberField, TextField
from app.window.widgets.lengths import Lengths
from geometry.defaults import LETTERS_MM, RELIEF_WIDTH_MM
from geometry.tolerances import CORNER_DEG

translate = QCoreApplication.translate


class FiguresDialog(QDialog):
    """Asks for a few figures, and stays until each is one."""

    def __init__(self, title: str, fields: Sequence[NumberField], parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        form = QFormLayout(self)
        self.fields = fields
        for field in fields:
            form.addRow(field.accessibleName(), field)
        self.told = QLabel()
        self.told.setWordWrap(True)
        self.told.setProperty("role", "soft")
        self.told.hide()
        form.addRow(self.told)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        form.addRow(buttons)
        self.fields[0].setFocus()

    def values(self) -> list[float]:
        """What stands in the fields, mm."""
        values = (field.from_text(field.text()) for field in self.fields)
        return [value for value in values if value is not None]

    def accept(self) -> None:
        """Take the figures, or say which field holds none."""
        for field in self.fields:
            if field.from_text(field.text()) is None:
                words = translate("Draft", "{0}: type a length")
                if not isinstance(field, LengthField):
                    words = translate("Draft", "{0}: type a number")
                text = words.format(field.accessibleName())
                self.told.setText(text)
                self.told.show()
                field.setFocus()
                return
        super().accept()


class WordDialog(QDialog):
    """Asks for a word, how high it stands, how it is turned, and what it is written on."""

    def __init__(self, lengths: Lengths, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(translate("Draft", "Write on the piece"))
        form = QFormLayout(self)
        self.word = TextField()
        self.word.setAccessibleName(translate("Draft", "Word"))
        self.high = LengthField(translate("Draft", "Height of the letters"), lengths)
        self.high.set_value(LETTERS_MM.value)
        self.turn = NumberField(translate("Draft", "Angle"))
        self.turn.set_value(0.0)
        self.on = Chooser()
        for text, on in on_words():
            self.on.addItem(text, on)
        self.on.setCurrentIndex(self.on.findData("backing"))
        form.addRow(translate("Draft", "Word"), self.word)
        form.addRow(self.high.accessibleName(), self.high)
        form.addRow(f"{self.turn.accessibleName()} (°)", self.turn)
        form.addRow(translate("Draft", "Drawn on"), self.on)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        form.addRow(buttons)
        self.word.setFocus()

    def fields(self) -> dict[str, object]:
        """What a word is kept with, but its place; a figure that is none stays as it was."""
        high, turn = (each.from_text(each.text()) for each in (self.high, self.turn))
        return {
            "text": self.word.text().strip(),
            "height_mm": self.high.value if high is None else high,
            "angle_deg": self.turn.value if turn is None else turn,
            "on": self.on.currentData(),
        }


class DrawActions(QObject):
    """Holds nothing but its desk."""

    def __init__(self, desk: DraftBench) -> None:
        super().__init__(desk)
        self._desk = desk

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return the handler of each action."""
        return {
            "draft.taper": self.taper,
            "draft.beside": self.beside,
            "draft.stay": self.stay,
            "draft.relief": self.relief,
            "draft.write_word": self.write_word,
            "draft.same_kind": self.same_kind,
            "draft.break_corners": self.break_corners,
            "draft.join": self.join,
            "draft.take_back": self.take_back,
        }

    # -- edges ------------------------------------------------------------------------------------
    def taper(self) -> None:
        """Let the setback of the selected edge run from one value to another."""
        edge = self._edge()
        if edge is None:
            return
        names = self._end_names(edge)
        asked = self._ask(translate("Draft", "Setback along the edge"), names)
        if asked is not None:
            self._desk.edit("taper", set_taper, self._piece, edge, asked[0], asked[1])

    def beside(self) -> None:
        """End the backing on a line beside the selected edge."""
        edge = self._edge()
        if edge is None:
            return
        name = translate("Draft", "Distance from the net line")
        asked = self._ask(translate("Draft", "End the backing parallel to the edge"), [name])
        if asked is None:
            return

        def change(style: Style, piece: str) -> Style:
            line = where.beside(style, piece, edge, asked[0], from_net=True)
            return draw.add_cut(style, piece, 0, line, where.inner_side(style, piece, edge, line))

        self._desk.edit("draw cut", change, self._piece)

    def stay(self) -> None:
        """Put one more layer along the selected edge."""
        edge, style = self._edge(), self._desk.session.style
        if edge is None or style is None:
            return
        title = translate("Draft", "Stay along the edge")
        asked = self._ask(title, [translate("Draft", "Width from the cut edge")])
        if asked is None:
            return
        names = [cloth.name for cloth in style.cloths]
        chosen, ok = QInputDialog.getItem(self._desk, title, translate("Draft", "Cloth"), names, 0, False)
        if not ok:
            return
        cloth = style.cloths[names.index(chosen)].id

        def change(style: Style, piece: str) -> Style:
            area = where.band(style, piece, edge, asked[0])
            style = draw.add_layer(style, piece, cloth)
            return draw.add_region(style, piece, len(style.piece(piece).layers) - 1, area)

        self._desk.edit("draw region", change, self._piece)

    def relief(self) -> None:
        """Put relief cuts along the selected edge."""
        edge = self._edge()
        if edge is None:
            return
        names = [translate("Draft", "Pitch"), translate("Draft", "Depth")]
        asked = self._ask(translate("Draft", "Relief cuts along the edge"), names)
        if asked is None:
            return

        def change(style: Style, piece: str) -> Style:
            first, last = (where.at_edge(style, piece, edge, share) for share in (0.0, 1.0))
            fields = {"start": first, "stop": last, "pitch_mm": asked[0], "depth_mm": asked[1]}
            row = {"what": "relief", "width_mm": RELIEF_WIDTH_MM.value, **fields}
            return draw.add_detail(style, piece, where.valid(ReliefDrawn, piece, **row))

        self._desk.edit("draw relief", change, self._piece)

    def same_kind(self) -> None:
        """Select all edges of the kinds selected."""
        style, chosen = self._desk.session.style, self._desk.edges_selected
        if style is None or not chosen:
            self._say_select()
            return
        names = [edges_of_kind(style, self._piece, edge.kind) for edge in chosen]
        self._desk.select(self._piece, frozenset().union(*names))

    def break_corners(self) -> None:
        """End edges at corners of an angle typed."""
        if not self._piece:
            self._say_select()
            return
        turn = NumberField(translate("Draft", "Corners that turn by more than (degrees)"))
        turn.set_value(CORNER_DEG)
        title = translate("Draft", "Break at corners")
        dialog = FiguresDialog(title, [turn], self._desk)
        if dialog.exec() == QDialog.DialogCode.Accepted:
            self._desk.edit("break corners", break_at_corners, self._piece, dialog.values()[0])

    # -- pieces -----------------------------------------------------------------------------------
    def write_word(self) -> None:
        """Write a word on the selected piece, its backing or both."""
        shown = self._desk.board.piece(self._piece)
        if shown is None:
            self._say_select()
            return
        dialog = WordDialog(self._desk.session.lengths, self._desk)
        if dialog.exec() != QDialog.DialogCode.Accepted:
            return
        spot, fields = shown.outline.polygon.representative_point(), dialog.fields()

        def change(style: Style, piece: str) -> Style:
            at = where.in_frame((spot.x, spot.y))
            return draw.add_detail(style, piece, where.valid(WordDrawn, piece, what="text", at=at, **fields))

        self._desk.edit("draw text", change, self._piece)

    def join(self) -> None:
        """Back the selected piece together with another."""
        style = self._desk.session.style
        if style is None or not self._piece:
            self._say_select()
            return
        names = [piece.name for piece in style.pieces if piece.name != self._piece]
        if not names:
            self._desk.status.emit(translate("Draft", "There is no other piece to back it with."))
            return
        title = translate("Draft", "One backing for two pieces")
        name, ok = QInputDialog.getItem(self._desk, title, translate("Draft", "With piece"), names, 0, False)
        if ok:
            self._desk.edit("join", draw.join, self._piece, [name])

    def take_back(self) -> None:
        """Take back one of the things drawn on the selected piece."""
        found = self._drawn()
        if not found:
            self._desk.status.emit(translate("Draft", "Nothing is drawn on this piece."))
            return
        title = translate("Draft", "Remove what was drawn")
        names = [name for name, _ in found]
        name, ok = QInputDialog.getItem(
            self._desk, title, translate("Draft", "Drawn on the piece"), names, len(names) - 1, False
        )
        if ok:
            self._desk.edit("take back", found[names.index(name)][1])

    def _drawn(self) -> list[tuple[str, Callable[[Style], Style]]]:
        piece = self._desk.piece_data
        if piece is None:
            return []
        found: list[tuple[str, Callable[[Style], Style]]] = []
        words = {
            "cuts": translate("Draft", "cut or region"),
            "changes": translate("Draft", "change by hand"),
            "splits": translate("Draft", "split"),
        }
        for at, layer in enumerate(piece.layers):
            place = translate("Draft", "layer {0}").format(at + 1)
            if layer.keep is not None:
                found.append((f"{words['cuts']}, {place}", _taking(draw.remove_keep, piece.name, at)))
            for what in draw.DRAWN:
                for number in range(len(getattr(layer, what))):
                    name = f"{words[what]} {number + 1}, {place}"
                    found.append((name, _taking(draw.remove_drawn, piece.name, at, what, number)))
            if layer.joins:
                name = translate("Draft", "joined with {0}").format(", ".join(layer.joins))
                found.append((name, _taking(draw.unjoin, piece.name, at)))
            if at:
                found.append((place, _taking(draw.remove_layer, piece.name, at)))
        for number, detail in enumerate(piece.details):
            name = f"{detail_words()[detail.what]} {number + 1}"
            found.append((name, _taking(draw.remove_detail, piece.name, number)))
        return found

    # -- how --------------------------------------------------------------------------------------
    @property
    def _piece(self) -> str:
        return self._desk.selecting.piece

    def _edge(self) -> EdgeName | None:
        names = self._desk.selecting.edges
        if len(names) == 1:
            return next(iter(names))
        self._desk.status.emit(translate("Draft", "Select one edge first: click it."))
        return None

    def _end_names(self, edge: EdgeName) -> list[str]:
        """What the start and the end of an edge are called as they lie on the board."""
        shown = self._desk.board.piece(self._piece)
        held = None if shown is None else shown.edge(edge)
        if shown is None or held is None:
            return [translate("Draft", "At the edge's start"), translate("Draft", "At its end")]
        (ax, ay), (bx, by) = (shown.to_board(held.point_at(share)[0]) for share in (0.0, 1.0))
        if abs(bx - ax) >= abs(by - ay):
            names = [translate("Draft", "At its left end"), translate("Draft", "At its right end")]
            return names if ax <= bx else names[::-1]
        names = [translate("Draft", "At its lower end"), translate("Draft", "At its upper end")]
        return names if ay <= by else names[::-1]

    def _say_select(self) -> None:
        self._desk.status.emit(translate("Draft", "Select a piece or an edge first."))

    def _ask(self, title: str, names: list[str]) -> list[float] | None:
        lengths = self._desk.session.lengths
        fields = [LengthField(name, lengths) for name in names]
        dialog = FiguresDialog(title, fields, self._desk)
        return dialog.values() if dialog.exec() == QDialog.DialogCode.Accepted else None


def detail_words() -> dict[str, str]:
    """Return the words for details, by what they are."""
    return {
        "notch": translate("Draft", "notch"),
        "relief": translate("Draft", "relief cuts"),
        "slit": translate("Draft", "slit"),
        "drill": translate("Draft", "drill hole"),
        "mark": translate("Draft", "mark"),
        "text": translate("Draft", "word"),
    }


def _taking(change: Callable[..., Style], *args: object) -> Callable[[Style], Style]:
    return lambda style: change(style, *args)
