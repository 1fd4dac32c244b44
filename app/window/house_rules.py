"""The house rules of the open style: setbacks and allowances by edge kind, gap, margins, knife."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.style.model import EdgeRuleData, HouseRules, Style
from app.style.pieces import draft_rules
from app.window.widgets.fields import LengthField, NumberField, TextField
from app.window.widgets.lengths import Lengths
from app.window.widgets.theme import ui_font
from app.window.wording.core_words import told_text
from app.window.wording.edge_words import kind_meaning, kind_name
from geometry.edge_kinds import EdgeKind

translate = QCoreApplication.translate


class HouseRulesDialog(QDialog):
    """``rules`` are the rules as entered; ``for_workshop`` says to keep them for new styles too."""

    def __init__(self, style: Style, lengths: Lengths, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(translate("Rules", "House rules"))
        self._start = style.rules
        self._edges: dict[EdgeKind, tuple[LengthField, LengthField, TextField]] = {}
        self._fields: dict[str, NumberField] = {}
        column = QVBoxLayout(self)
        column.setContentsMargins(22, 18, 22, 16)
        column.setSpacing(10)
        head = QLabel(translate("Rules", "Used wherever an edge or a lay has no value of its own"))
        head.setFont(ui_font(11, bold=True))
        column.addWidget(head)
        column.addLayout(self._edge_grid(style, lengths))
        column.addSpacing(4)
        column.addLayout(self._numbers(style.rules, lengths))
        self._workshop = QCheckBox(translate("Rules", "Use these for new styles of this workshop too"))
        column.addWidget(self._workshop)
        buttons = QDialogButtonBox()
        take = QPushButton(translate("Rules", "Apply"))
        take.setDefault(True)
        leave = QPushButton(translate("Rules", "Cancel"))
        buttons.addButton(take, QDialogButtonBox.ButtonRole.AcceptRole)
        buttons.addButton(leave, QDialogButtonBox.ButtonRole.RejectRole)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column.addWidget(buttons)

    def accept(self) -> None:
        """Take the figures, that of the field being typed in too."""
        for field in self.findChildren(NumberField):
            field.enter()
        super().accept()

    @property
    def for_workshop(self) -> bool:
        """Whether the rules are to be kept as the workshop's own."""
        return self._workshop.isChecked()

    @property
    def fields(self) -> dict[str, Any]:
        """What was entered, as fields of the style's rules."""
        entered: dict[str, Any] = {name: field.value for name, field in self._fields.items()}
        edge_rules = dict(self._start.edge_rules)
        for kind, (setback, allowance, reason) in self._edges.items():
            was = self._shown[kind].reason
            why = was if reason.text() == told_text(was) else reason.text()
            rule = EdgeRuleData(
                setback_mm=setback.value or 0.0, allowance_mm=allowance.value or 0.0, reason=why
            )
            if kind in edge_rules or rule != self._shown[kind]:
                edge_rules[kind] = rule
        return entered | {"edge_rules": edge_rules}

    def _edge_grid(self, style: Style, lengths: Lengths) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(4)
        titles = (
            translate("Rules", "Edge"),
            translate("Rules", "Setback"),
            translate("Rules", "Allowance"),
            translate("Rules", "Why"),
        )
        for at, title in enumerate(titles):
            label = QLabel(title)
            label.setProperty("role", "soft")
            grid.addWidget(label, 0, at)
        self._shown: dict[EdgeKind, EdgeRuleData] = {}
        for row, (kind, rule) in enumerate(draft_rules(style).edge_rules.items(), start=1):
            name = QLabel(kind_name(kind))
            name.setToolTip(kind_meaning(kind))
            setback = LengthField(f"{kind_name(kind)}: {titles[1]}", lengths)
            allowance = LengthField(f"{kind_name(kind)}: {titles[2]}", lengths)
            reason = TextField(told_text(rule.reason))
            reason.setAccessibleName(f"{kind_name(kind)}: {titles[3]}")
            reason.setMinimumWidth(330)
            reason.setCursorPosition(0)
            setback.set_value(rule.setback_mm)
            allowance.set_value(rule.allowance_mm)
            for field in (setback, allowance):
                field.setFixedWidth(96)
            for at, widget in enumerate((name, setback, allowance, reason)):
                grid.addWidget(widget, row, at)
            self._edges[kind] = setback, allowance, reason
            self._shown[kind] = EdgeRuleData(
                setback_mm=rule.setback_mm, allowance_mm=rule.allowance_mm, reason=rule.reason
            )
        return grid

    def _numbers(self, rules: HouseRules, lengths: Lengths) -> QHBoxLayout:
        row = QHBoxLayout()
        groups = (
            (
                ("gap_mm", translate("Rules", "Gap between pieces")),
                ("edge_margin_mm", translate("Rules", "Margin at the selvedges")),
                ("end_margin_mm", translate("Rules", "Margin at the ends of a lay")),
            ),
            (
                ("end_loss_mm", translate("Rules", "End loss at each end of a ply")),
                ("knife_radius_mm", translate("Rules", "Minimum knife corner radius")),
                ("turn_tolerance_deg", translate("Rules", "Permitted tilt, degrees")),
            ),
            (
                ("roll_end_percent", translate("Rules", "Ends of rolls, %")),
                ("splice_percent", translate("Rules", "Splices, %")),
                ("reject_percent", translate("Rules", "Rejects, %")),
            ),
        )
        for group in groups:
            form = QFormLayout()
            form.setVerticalSpacing(4)
            for name, title in group:
                field = LengthField(title, lengths) if name.endswith("_mm") else NumberField(title, step=0.5)
                field.setFixedWidth(96)
                field.set_value(getattr(rules, name))
                form.addRow(title, field)
                self._fields[name] = field
            row.addLayout(form)
            row.addSpacing(16)
        row.addStretch(1)
        return row
