"""A finding that was clicked: its place on the board; of a step of the setback the edges along which it can run."""

from __future__ import annotations

from collections.abc import Collection

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from app.style.drafting.edges import set_taper
from app.style.drafting.steps import StepChoice, step_choices
from app.style.model import Style
from app.window.desks.draft.interface import DraftBench
from app.window.widgets.marks import SEVERITY_ROLE
from app.window.widgets.theme import theme
from app.window.wording.edge_words import kind_name
from geometry.findings import Finding

translate = QCoreApplication.translate
MOST_PLACES = 3
"""Steps offered at once; the others come when these are settled."""


class StepOffer(QWidget):
    """Lets the setback of the edge chosen run, as one step; hidden for every other finding."""

    def __init__(self, desk: DraftBench) -> None:
        super().__init__()
        self._desk = desk
        self._choices: list[StepChoice] = []
        self.finding: Finding | None = None
        self.words = QLabel(translate("Draft", "Instead of the step, the setback can run evenly along"))
        self.words.setWordWrap(True)
        self.buttons = [QPushButton() for _ in range(2 * MOST_PLACES)]
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 6, 12, 8)
        column.setSpacing(4)
        column.addWidget(self.words)
        for number, button in enumerate(self.buttons):
            button.setObjectName(str(number))
            button.clicked.connect(self._clicked)
            column.addWidget(button)
        self.hide()

    def show_place(self, finding: Finding) -> None:
        """Go to the place that a finding speaks of, and offer what can be done there."""
        desk = self._desk
        shown = desk.board.piece(finding.piece) if finding.piece else None
        if shown is not None:
            desk.select(finding.piece)
        points = [shown.to_board(point) if shown is not None else point for point in finding.where_mm]
        desk.scene_of.show_rings(points, theme().colour(SEVERITY_ROLE[finding.severity]))
        box = desk.scene_of.bounds(finding.piece if shown is not None else "")
        for x, y in points:
            box = box.united(box.__class__(x - 5, y - 5, 10, 10))
        desk.view.look_at(box)
        self.show_finding(desk.session.style, finding)

    def look_again(self, style: Style | None, found: Collection[Finding]) -> None:
        """Offer what is left to choose of the finding shown, nothing once it is gone."""
        self.show_finding(style, self.finding if self.finding in found else None)

    def show_finding(self, style: Style | None, finding: Finding | None) -> None:
        """Offer the edges at the steps that a finding names."""
        self.finding, self._choices = finding, []
        if style is not None and finding is not None and finding.code == "SETBACK_STEP":
            for place in finding.where_mm:
                if len(self._choices) < len(self.buttons):
                    self._choices += step_choices(style, finding.piece, place)
        for number, button in enumerate(self.buttons):
            button.setVisible(number < len(self._choices))
            if number < len(self._choices):
                choice = self._choices[number]
                side = (
                    translate("Draft", "{0} before it: {1} to {2}")
                    if number % 2 == 0
                    else translate("Draft", "{0} behind it: {1} to {2}")
                )
                first, last = (
                    self._desk.session.lengths.text(each) for each in (choice.from_mm, choice.to_mm)
                )
                button.setText(side.format(kind_name(choice.kind), first, last))
        self.setVisible(bool(self._choices))

    def _clicked(self) -> None:
        if self.finding is not None:
            choice = self._choices[int(self.sender().objectName())]
            piece = self.finding.piece
            self._desk.edit("taper", set_taper, piece, choice.edge, choice.from_mm, choice.to_mm)
