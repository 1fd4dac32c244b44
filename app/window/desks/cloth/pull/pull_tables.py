"""The tables of the pull: every case's figures, and where the backing is prone to peel."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QHeaderView

from app.window.desks.cloth.text_table import TextTable
from app.window.running.pull_solver import PullAnswer
from app.window.widgets.lengths import Lengths
from app.window.wording.pull_words import case_title, range_text

if TYPE_CHECKING:
    from app.hold.field import FieldQuestion
    from geometry.stretch.field.answers import FieldCase

translate = QCoreApplication.translate


class FigureTable(TextTable):
    """A row per case."""

    def __init__(self, lengths: Lengths) -> None:
        super().__init__(
            [
                translate("Pull", "Case"),
                translate("Pull", "Throat, field"),
                translate("Pull", "Throat, line"),
                translate("Pull", "Toe end"),
                translate("Pull", "Side edge"),
                translate("Pull", "Strain"),
                translate("Pull", "largest"),
                translate("Pull", "along"),
                translate("Pull", "across"),
                translate("Pull", "Compressed"),
            ],
            translate("Pull", "Figures of the cases"),
            words=(0,),
            wide=0,
        )
        self.horizontalHeader().setSectionResizeMode(0, QHeaderView.ResizeMode.ResizeToContents)
        self._lengths = lengths
        self.head(1).setToolTip(
            translate("Pull", "How far the throat moves along the pull, over the whole piece")
        )
        self.head(2).setToolTip(translate("Pull", "The same by the hold line, as the page Hold gives it"))
        self.head(5).setToolTip(translate("Pull", "Largest principal strain: median over the area"))
        self.head(6).setToolTip(
            translate("Pull", "Over 99 % of the area: at a sharp corner the peak has no limit")
        )
        self.head(7).setToolTip(translate("Pull", "Along the pull: median over the area"))
        self.head(8).setToolTip(translate("Pull", "Across the pull: median over the area"))
        self.head(9).setToolTip(translate("Pull", "Share of the area that is compressed in some direction"))

    def show_answer(self, answer: PullAnswer) -> None:
        """Show the cases of an answer, then the other cloths."""
        assert answer.pulled is not None and answer.models is not None
        titles = {f"cloth {each.cloth.id}": each.cloth.name for each in answer.pulled.cloths}
        rows = []
        for name, solved in answer.maps.items():
            case = solved.case
            strains = case.strains
            rows.append(
                [
                    titles.get(name, case_title(name)),
                    range_text(case.throat_mm, self._lengths),
                    range_text(answer.models.line_mm.get(name), self._lengths),
                    range_text(case.vamp_mm, self._lengths),
                    range_text(case.side_mm, self._lengths),
                    self._percent(strains.median_strain),
                    self._percent(strains.peak_strain),
                    self._percent(strains.along_strain),
                    self._percent(strains.across_strain),
                    self._percent(case.compressed_share, 0),
                ]
            )
        self.fill(rows)

    def _percent(self, share: float, digits: int = 1) -> str:
        return f"{self._lengths.decimal(100.0 * share, digits)} %"


class PeelTable(TextTable):
    """A row per place, numbered as on the map."""

    def __init__(self, lengths: Lengths) -> None:
        super().__init__(
            [
                translate("Pull", "Prone to peel"),
                translate("Pull", "Piece"),
                translate("Pull", "Position"),
                translate("Pull", "Length"),
                translate("Pull", "Force N/mm"),
                translate("Pull", "Shear N/mm"),
            ],
            translate("Pull", "Peel-prone places"),
            words=(0, 1),
            wide=1,
        )
        self.horizontalHeader().setSectionResizeMode(1, QHeaderView.ResizeMode.ResizeToContents)
        self._lengths = lengths
        self.head(4).setToolTip(translate("Pull", "What the glue passes per mm of the backing’s edge"))
        self.head(5).setToolTip(translate("Pull", "The part of it along the edge"))

    def show_case(self, question: FieldQuestion, case: FieldCase) -> None:
        """Show the places of a case."""
        rows = []
        for number, place in enumerate(case.peel, start=1):
            x, y = question.in_drawing(place.at_mm)
            layer = f" {place.layer}" if place.layer > 1 else ""
            rows.append(
                [
                    f"({number})",
                    place.piece + layer,
                    f"{self._lengths.number(x, 0)} / {self._lengths.number(y, 0)}",
                    self._lengths.text(place.length_mm, 0),
                    self._lengths.decimal(place.force_n_per_mm, 2),
                    self._lengths.decimal(place.shear_n_per_mm, 2),
                ]
            )
        self.fill(rows)
