"""The hold sheet, the field sheet, the test report and the trial report for the printer."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QCoreApplication

from app.commands.hold import calibrations
from app.errors import UsageError
from app.hold.materials import how_tested, strips_of
from app.papers import trial_report
from app.papers.formats.drawing import Page
from app.papers.hold_sheet import sheet_pages
from app.papers.stretch_report import report_pages
from app.window.desks.cloth.hold_page import HoldPage
from app.window.desks.cloth.strips.strips_page import StripsPage
from app.window.desks.cloth.trials.trials_page import TrialsPage
from app.window.printing.offer import Choice, Paper
from app.window.running.pull_solver import solver_of
from app.window.session import Session

translate = QCoreApplication.translate


def hold_papers(session: Session, page: HoldPage) -> list[Paper]:
    """Return the hold sheet of the open style, turned as its page shows it.

    Its page raises UsageError until the style is judged.
    """
    return [Paper(translate("Cloth", "Hold sheet"), "hold-sheet", partial(_sheet, session, page))]


def _sheet(session: Session, page: HoldPage, choice: Choice) -> list[Page]:
    style = session.style
    found = page.as_turned(style) if style is not None else None
    if style is None or found is None:
        raise UsageError(
            translate("Cloth", "the hold is not judged yet"),
            remedy=translate("Cloth", "open the page Hold (Alt+3) and wait for its figures"),
        )
    return sheet_pages(
        style,
        found,
        turn_deg=page.turned_deg,
        candidates=page.candidates_judged,
        trials=calibrations(style),
        field=solver_of(session).beside_line(style),
    )


def field_papers(session: Session) -> list[Paper]:
    """Return the field sheet of the open style, as the page Pull shows it.

    Its pages raise UsageError until the pull is worked out.
    """
    return [Paper(translate("Cloth", "Field sheet"), "field-sheet", partial(_field_sheet, session))]


def _field_sheet(session: Session, choice: Choice) -> list[Page]:
    style = session.style
    answer = solver_of(session).answer_for(style) if style is not None else None
    if style is None or answer is None or answer.pulled is None or answer.models is None:
        raise UsageError(
            translate("Cloth", "the pull is not worked out yet"),
            remedy=translate("Cloth", "open the page Pull (Alt+6) and wait for its figures"),
        )
    from app.papers import field_sheet  # loads the finite elements

    return field_sheet.sheet_pages(style, answer.pulled, answer.models)


def trial_papers(session: Session, page: TrialsPage) -> list[Paper]:
    """Return the report of line and field on the trials shown, where some hold both predictions."""
    if page.compared is None:
        return []
    return [Paper(translate("Cloth", "Trial report"), "trial-report", partial(_trials, session, page))]


def _trials(session: Session, page: TrialsPage, choice: Choice) -> list[Page]:
    if page.compared is None or session.style is None:
        raise UsageError(
            translate("Cloth", "no trial holds both predictions"),
            remedy=translate("Cloth", "enter lasting trials on a hold line"),
        )
    return trial_report.report_pages(session.style.name, page.compared)


def report_papers(page: StripsPage) -> list[Paper]:
    """Return the test report of the strips shown, where a sheet was fitted to them."""
    if page.fit is None or page.card is None:
        return []
    return [Paper(translate("Cloth", "Stretch test"), "stretch-report", partial(_report, page))]


def _report(page: StripsPage, choice: Choice) -> list[Page]:
    if page.fit is None or page.card is None:
        raise UsageError(
            translate("Cloth", "there is no result to print"), remedy=translate("Cloth", "test more strips")
        )
    tests = page.card.tests
    return report_pages(page.called, strips_of(tests), page.fit, zero=page.zero, how=how_tested(tests))
