"""What leaves the lay desk: cutter files and papers, only of a lay without faults."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication, QObject, Qt
from PySide6.QtWidgets import QApplication, QFileDialog, QInputDialog, QWidget

from app.errors import AppError, UsageError
from app.hold.on_lay import hold_notes, record_hold
from app.lay.job import LayJob, document_of
from app.lay.job import judged as judge_lay
from app.lay.with_style import lay_of
from app.papers.lay_folder import write_lay_files
from app.papers.shown import Laid
from app.papers.ticket_figures import CutTicket, TicketLay
from app.style.model import Style
from app.window.desks.lay.interface import LayBench
from app.window.desks.lay.kept_lay import job_of, judged_lay
from app.window.printing.offer import Offer, offers
from app.window.problems import show_problem
from app.window.wording.core_words import told_text
from geometry.errors import GeometryError
from nesting.errors import NestingError
from nesting.verify.fault import Verdict

translate = QCoreApplication.translate


@dataclass(frozen=True)
class Outgoing:
    """A lay that may leave: verified, its hold on record."""

    style: Style
    job: LayJob
    document: dict[str, Any]
    verdict: Verdict
    name: str

    def shown(self) -> Laid:
        """Return what the lay's papers show."""
        lay = TicketLay(self.name, self.document, self.verdict, self.job.plies, self.job.mode)
        ticket = CutTicket(
            style=self.style,
            pairs=self.job.pairs_cut,
            lays=(lay,),
            cloth_id=self.job.cloth.id,
            notes=hold_notes(self.document),
        )
        return Laid(self.document, self.verdict, self.style, ticket)


def limits_broken(style: Style, document: dict[str, Any]) -> list[str]:
    """Put the hold on record in a lay's document; returns the limits that it breaks, in words."""
    return [told_text(str(placed)) for placed in record_hold([style], document) if placed.breaks]


def ask_reason(parent: QWidget, weak: list[str]) -> str | None:
    """Ask why a lay that breaks hold limits is cut all the same; None where nobody says."""
    reason, given = QInputDialog.getText(
        parent,
        translate("Lay", "This lay breaks a hold limit"),
        "\n".join(weak[:6])
        + "\n"
        + translate("Lay", "Reason for cutting it all the same (printed on the papers):"),
    )
    return reason.strip() or None if given else None


class LayOut(QObject):
    """Export and printing of the shown lay; holds nothing but its desk."""

    def __init__(self, desk: LayBench) -> None:
        super().__init__(desk)
        self._desk = desk

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return the handler of each action."""
        return {"lay.export": self.export}

    def outgoing(self) -> Outgoing | None:
        """Return the shown lay if it may leave.

        Asks for a reason when it breaks a hold limit; None when none is given. Raises UsageError
        when the lay has a fault or nothing is laid.
        """
        desk = self._desk
        style, lay = desk.session.style, desk.lay
        if style is None or lay is None or desk.table is None:
            return None
        if lay.stale:
            raise UsageError(
                translate("Lay", "the lay is older than its pieces ({0})").format(lay.stale),
                remedy=translate("Lay", "fill the roll again"),
            )
        judged = judged_lay(style, lay)
        if not judged.table.placements:
            raise UsageError(
                translate("Lay", "Nothing is laid yet"), remedy=translate("Lay", "fill the roll first")
            )
        if judged.faults:
            raise UsageError(
                translate("Lay", "the lay has {0} faults").format(len(judged.faults)),
                remedy=translate(
                    "Lay", "correct them (listed beside the roll); a lay with faults is never exported"
                ),
            )
        job = job_of(style, lay)
        kept = lay_of(lay, judged.table.problem)
        document = document_of(job, judged.table.problem, kept)
        weak = limits_broken(style, document)
        if weak:
            reason = ask_reason(desk, weak)
            if reason is None:
                return None
            record_hold([style], document, reason)
        return Outgoing(style, job, document, judge_lay(judged.table.problem, kept), lay.name)

    def papers(self) -> list[Offer]:
        """Return the papers of the shown lay; raises UsageError as ``outgoing``."""
        out = self.outgoing()
        return [] if out is None else offers(Laid, lambda choice: out.shown, called=out.name)

    def export(self) -> None:
        """Write the lay's papers and cutter files; a lay with a fault is not written."""
        desk = self._desk
        try:
            out = self.outgoing()
        except UsageError as error:
            desk.status.emit(translate("Lay", "Not written: {0}").format(error))
            return
        if out is None:
            return
        folder = QFileDialog.getExistingDirectory(
            desk, translate("Lay", "Folder for the lay's files"), desk.session.settings.folder
        )
        if not folder:
            return
        target = Path(folder) / f"lay-{out.name}"
        QApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
        try:
            files = write_lay_files(out.style, out.job, out.document, out.verdict, target)
        except (AppError, GeometryError, NestingError) as error:
            QApplication.restoreOverrideCursor()
            show_problem(error, desk)
            return
        QApplication.restoreOverrideCursor()
        desk.status.emit(translate("Lay", "{0} files written to {1}").format(len(files), target))
