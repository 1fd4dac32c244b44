"""The hold sheet and the test report for the printer."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QCoreApplication

from app.commands.hold import calibrations
from app.errors import UsageError
from app.hold.materials import strips_of
from app.papers.formats.drawing import Page
from app.papers.hold_sheet import sheet_pages
from app.papers.stretch_report import report_pages
from app.window.desks.cloth.hold_page import HoldPage
from app.window.desks.cloth.strips.strips_page import StripsPage
from app.window.printing.offer import Choice, Paper
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
    )


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
    return report_pages(page.called, strips_of(page.card.tests), page.fit, zero=page.zero)
