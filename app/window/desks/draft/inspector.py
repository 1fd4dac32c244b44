"""What is selected, in words and figures, and the fields to change it."""

from __future__ import annotations

import math

from PySide6.QtCore import QCoreApplication, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QAbstractButton,
    QFormLayout,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.style.model import PieceData
from app.tools.board import BoardEdge
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import LengthField, NumberField, TextField
from app.window.widgets.lengths import Lengths
from app.window.widgets.marks import edge_pen
from app.window.widgets.theme import theme, ui_font
from app.window.wording.core_words import told_text
from app.window.wording.edge_words import kind_meaning, kind_name
from app.window.wording.words import axis_source, hand_name
from geometry.backing.house_rules import DraftRules
from geometry.edge_kinds import EDGE_KINDS, EdgeKind

translate = QCoreApplication.translate


class KindButton(QAbstractButton):
    """A kind as its line, its name and its key; checked when the selected edges are of it."""

    def __init__(self, kind: EdgeKind) -> None:
        super().__init__()
        self.kind = kind
        self.setCheckable(True)
        self.setText(kind_name(kind))
        self.setToolTip(f"<b>{kind_name(kind)}</b>  ({EDGE_KINDS[kind].key})<br>{kind_meaning(kind)}")
        self.setAccessibleName(kind_name(kind))
        self.setAccessibleDescription(kind_meaning(kind))

    def sizeHint(self) -> QSize:
        return QSize(120, 30)

    def paintEvent(self, event: QPaintEvent) -> None:
        t = theme()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        enabled = self.isEnabled()
        line = "accent" if self.isChecked() or self.hasFocus() else "line"
        painter.setPen(QPen(t.colour(line), 1))
        fill = (
            "accent_soft"
            if self.isChecked()
            else ("panel_deep" if self.underMouse() and enabled else "field")
        )
        painter.setBrush(t.colour(fill))
        painter.drawRoundedRect(box, 5, 5)
        painter.setOpacity(1.0 if enabled else 0.45)
        pen = edge_pen(self.kind, t)
        painter.setPen(pen)
        y = box.center().y()
        painter.drawLine(int(box.left()) + 9, int(y), int(box.left()) + 41, int(y))
        painter.setPen(t.colour("ink"))
        painter.setFont(ui_font(9))
        painter.drawText(box.adjusted(48, 0, -18, 0), Qt.AlignmentFlag.AlignVCenter, self.text())
        painter.setPen(t.colour("ink_faint"))
        painter.setFont(ui_font(8))
        painter.drawText(
            box.adjusted(0, 0, -7, 0),
            Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight,
            EDGE_KINDS[self.kind].key,
        )


class Inspector(QWidget):
    """Shows piece and edges. Signals carry what the person entered; the desk does the edit."""

    renamed = Signal(str)
    hand_chosen = Signal(str)
    per_shoe_entered = Signal(object)  # a typed number may be longer than a signal's own whole numbers
    axis_entered = Signal(float)
    axis_confirmed = Signal()
    hold_limit_entered = Signal(object)
    kind_chosen = Signal(object)
    setback_entered = Signal(object)
    allowance_entered = Signal(object)
    edges_confirmed = Signal()
    refused = Signal(str)

    def __init__(self, lengths: Lengths) -> None:
        super().__init__()
        self._lengths = lengths
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 12, 12, 10)
        layout.setSpacing(8)
        layout.addWidget(_heading(translate("Draft", "Piece")))
        layout.addLayout(self._piece_form())
        layout.addSpacing(6)
        self._edge_head = _heading(translate("Draft", "Edges"))
        layout.addWidget(self._edge_head)
        layout.addLayout(self._kind_grid())
        layout.addLayout(self._edge_form())
        layout.addStretch(1)

    def _piece_form(self) -> QFormLayout:
        form = QFormLayout()
        form.setHorizontalSpacing(10)
        form.setVerticalSpacing(6)
        self.name = TextField()
        self.name.setAccessibleName(translate("Draft", "Name"))
        self.name.editingFinished.connect(self._rename)
        form.addRow(translate("Draft", "Name"), self.name)
        row = QHBoxLayout()
        self.hand = Chooser()
        for hand in ("left", "right"):
            self.hand.addItem(hand_name(hand), hand)
        self.hand.setToolTip(
            translate("Draft", "The shoe that the piece is drawn for; the other gets the mirror image")
        )
        self.hand.setAccessibleName(translate("Draft", "Left or right"))
        self.hand.activated.connect(self._hand)
        self.per_shoe = NumberField(translate("Draft", "Pieces per shoe"), digits=0)
        self.per_shoe.setFixedWidth(52)
        self.per_shoe.entered.connect(self._per_shoe)
        row.addWidget(self.hand, 1)
        row.addSpacing(4)
        row.addWidget(QLabel(translate("Draft", "per shoe")))
        row.addSpacing(2)
        row.addWidget(self.per_shoe)
        form.addRow(translate("Draft", "Left or right"), row)
        axis = QHBoxLayout()
        self.axis = NumberField(translate("Draft", "Pull axis in degrees"))
        self.axis.setToolTip(
            translate(
                "Draft",
                "Heel to toe, the way lasting pulls this piece: degrees counter-clockwise from the drawing's x axis",
            )
        )
        self.axis.setFixedWidth(74)
        self.axis.entered.connect(self._axis)
        self.axis.refused.connect(self.refused)
        self.axis_from = QLabel()
        self.axis_from.setProperty("role", "soft")
        self.axis_from.setWordWrap(True)
        self.axis_confirm = QPushButton(translate("Draft", "Confirm"))
        self.axis_confirm.clicked.connect(self.axis_confirmed)
        axis.addWidget(self.axis)
        axis.addWidget(QLabel("°"))
        axis.addStretch(1)
        axis.addWidget(self.axis_confirm)
        form.addRow(translate("Draft", "Pull axis"), axis)
        form.addRow("", self.axis_from)
        self.hold_line = QLabel()
        self.hold_line.setToolTip(
            translate(
                "Draft",
                "The figure beside the line is that of a strip of constant width. The page Pull of the Cloth desk takes the whole piece, and says why its figure differs.",
            )
        )
        self.hold_limit = LengthField(translate("Draft", "Hold limit"), self._lengths, optional=True)
        self.hold_limit.setToolTip(
            translate("Draft", "How far the hold line may give under the pull. Empty: no limit.")
        )
        self.hold_limit.setFixedWidth(74)
        self.hold_limit.entered.connect(self.hold_limit_entered)
        self.hold_limit.refused.connect(self.refused)
        form.addRow(translate("Draft", "Hold line"), self.hold_line)
        form.addRow(translate("Draft", "Hold limit"), self.hold_limit)
        return form

    def _kind_grid(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setSpacing(5)
        self.kinds: dict[EdgeKind, KindButton] = {}
        for number, kind in enumerate(EDGE_KINDS):
            button = KindButton(kind)
            button.clicked.connect(self._kind)
            grid.addWidget(button, number // 2, number % 2)
            self.kinds[kind] = button
        return grid

    def _edge_form(self) -> QFormLayout:
        form = QFormLayout()
        form.setHorizontalSpacing(10)
        form.setVerticalSpacing(6)
        self.setback = LengthField(translate("Draft", "Setback"), self._lengths, optional=True)
        self.setback.setToolTip(
            translate(
                "Draft",
                "How far the backing stops short of this edge; negative runs past it. Empty takes the house rule.",
            )
        )
        self.setback.entered.connect(self.setback_entered)
        self.setback.refused.connect(self.refused)
        self.allowance = LengthField(translate("Draft", "Allowance"), self._lengths, optional=True)
        self.allowance.setToolTip(
            translate(
                "Draft",
                "Width outside the net line (lasting margin, fold, underlay); grading keeps it. Empty takes the house rule.",
            )
        )
        self.allowance.entered.connect(self.allowance_entered)
        self.allowance.refused.connect(self.refused)
        self.edges_confirm = QPushButton(translate("Draft", "Confirm as suggested"))
        self.edges_confirm.clicked.connect(self.edges_confirmed)
        form.addRow(translate("Draft", "Setback"), self.setback)
        form.addRow(translate("Draft", "Allowance"), self.allowance)
        form.addRow("", self.edges_confirm)
        self.rule = QLabel()
        self.rule.setProperty("role", "soft")
        self.rule.setWordWrap(True)
        form.addRow("", self.rule)
        return form

    # -- showing ------------------------------------------------------------------------------
    def show_piece(self, piece: PieceData | None) -> None:
        """Show a piece, or none."""
        for field in (self.name, self.hand, self.per_shoe, self.axis, self.axis_confirm):
            field.setEnabled(piece is not None)
        line = piece.hold_line if piece is not None else None
        self.hold_limit.setEnabled(line is not None)
        self.hold_limit.set_value(None if line is None else line.limit_mm)
        none = translate("Draft", "none (H draws it)") if piece is not None else ""
        self.hold_line.setText(
            none if line is None else self._lengths.text(math.dist(line.from_mm, line.to_mm))
        )
        if piece is None:
            self.name.setText("")
            self.per_shoe.set_value(None)
            self.axis.set_value(None)
            self.axis_from.setText(translate("Draft", "No piece is selected: click one on the board."))
            self.axis_confirm.setVisible(False)
            return
        if self.name.text() != piece.name:
            self.name.setText(piece.name)
        self.hand.setCurrentIndex(self.hand.findData(piece.hand))
        self.per_shoe.set_value(piece.per_shoe)
        self.axis.set_value(piece.pull_axis.axis_deg)
        source = axis_source(piece.pull_axis.source)
        if piece.pull_axis.confirmed:
            self.axis_from.setText(source)
        else:
            self.axis_from.setText(translate("Draft", "Proposed, {0}").format(source))
        self.axis_confirm.setVisible(not piece.pull_axis.confirmed)

    def show_edges(self, edges: list[BoardEdge], rules: DraftRules | None) -> None:
        """Show the selected edges; what differs among them stays empty."""
        some = bool(edges)
        kinds = {edge.kind for edge in edges}
        for kind, button in self.kinds.items():
            button.setEnabled(some)
            button.setChecked(kind in kinds)
        for widget in (self.setback, self.allowance, self.edges_confirm):
            widget.setEnabled(some)
        self.edges_confirm.setVisible(any(not edge.edge.confirmed for edge in edges))
        title = translate("Draft", "Edges")
        if not some or rules is None:
            self._edge_head.setText(title)
            self.setback.set_value(None)
            self.allowance.set_value(None)
            self.setback.setPlaceholderText("")
            self.allowance.setPlaceholderText("")
            self.rule.setText(translate("Draft", "Click an edge, or sweep over several."))
            return
        length = sum(edge.length_mm for edge in edges)
        self._edge_head.setText(f"{title}  ·  {len(edges)}  ·  {self._lengths.text(length)}")
        tapers = [edge.edge.setback_end_mm for edge in edges]
        alike = set(tapers) == {
            None
        }  # a field of one figure cannot say a setback that changes along the edge
        self.setback.set_value(_common([edge.edge.setback_mm for edge in edges]) if alike else None)
        self.allowance.set_value(_common([edge.edge.allowance_mm for edge in edges]))
        setback = _common([edge.setback_mm for edge in edges])
        said = "" if setback is None else self.setback.to_text(setback)
        if not alike:
            end = _common(tapers)
            said = f"{said} → {self.setback.to_text(end)}" if said and end is not None else ""
        self.setback.setPlaceholderText(said)
        allowance = _common([rules.edge_rules[edge.kind].allowance_mm for edge in edges])
        self.allowance.setPlaceholderText("" if allowance is None else self.allowance.to_text(allowance))
        if len(kinds) == 1:
            rule = rules.edge_rules[next(iter(kinds))]
            text = translate("Draft", "House rule {0}: {1}").format(
                self._lengths.text(rule.setback_mm), told_text(rule.reason)
            )
            self.rule.setText(text)
        else:
            self.rule.setText(translate("Draft", "Several kinds are selected."))

    def relook(self) -> None:
        """The unit of display changed."""
        self.hold_limit.relook()
        self.setback.relook()
        self.allowance.relook()

    # -- entering -----------------------------------------------------------------------------
    def _rename(self) -> None:
        if self.name.isModified():
            self.name.setModified(False)
            self.renamed.emit(self.name.text())

    def _hand(self, index: int) -> None:
        self.hand_chosen.emit(str(self.hand.itemData(index)))

    def _per_shoe(self, value: object) -> None:
        if isinstance(value, float):
            self.per_shoe_entered.emit(int(value))

    def _axis(self, value: object) -> None:
        if isinstance(value, float):
            self.axis_entered.emit(value)

    def _kind(self) -> None:
        self.kind_chosen.emit(self.sender().kind)  # type: ignore[attr-defined]


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("role", "heading")
    return label


def _common(values: list[float | None]) -> float | None:
    return values[0] if len(set(values)) == 1 else None
