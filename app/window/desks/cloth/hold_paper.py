"""The hold sheet, the field sheet, the test report and the trial report for the printer."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QCoreApplication

from app.errors import UsageError
from app.hold.materials import how_tested, strips_of
from app.papers.shown import Compared, Held, PulledOver, Tested
from app.window.desks.cloth.hold_page import HoldPage
from app.window.desks.cloth.strips.strips_page import StripsPage
from app.window.desks.cloth.trials.trials_page import TrialsPage
from app.window.printing.offer import Choice, Offer, offers
from app.window.running.pull_solver import solver_of
from app.window.session import Session
from app.workshop.trial_book import calibrations

translate = QCoreApplication.translate


def hold_papers(session: Session, page: HoldPage) -> list[Offer]:
    """Return the hold sheet of the open style, turned as its page shows it.

    Its page raises UsageError until the style is judged.
    """
    return offers(Held, partial(_held, session, page))


def _held(session: Session, page: HoldPage, choice: Choice) -> Callable[[], Held]:
    style = session.style
    found = page.as_turned(style) if style is not None else None
    if style is None or found is None:
        raise UsageError(
            translate("Cloth", "the hold is not judged yet"),
            remedy=translate("Cloth", "open the page Hold (Alt+3) and wait for its figures"),
        )
    return partial(
        Held,
        style,
        found,
        page.turned_deg,
        page.candidates_judged,
        calibrations(style),
        solver_of(session).beside_line(style),
    )


def field_papers(session: Session) -> list[Offer]:
    """Return the field sheet of the open style, as the page Pull shows it.

    Its pages raise UsageError until the pull is worked out.
    """
    return offers(PulledOver, partial(_pulled_over, session))


def _pulled_over(session: Session, choice: Choice) -> Callable[[], PulledOver]:
    style = session.style
    answer = solver_of(session).answer_for(style) if style is not None else None
    if style is None or answer is None or answer.pulled is None or answer.models is None:
        raise UsageError(
            translate("Cloth", "the pull is not worked out yet"),
            remedy=translate("Cloth", "open the page Pull (Alt+6) and wait for its figures"),
        )
    return partial(PulledOver, style, answer.pulled, answer.models)


def trial_papers(session: Session, page: TrialsPage) -> list[Offer]:
    """Return the report of line and field on the trials shown, where some hold both predictions."""
    if page.compared is None:
        return []
    return offers(Compared, partial(_compared, session, page))


def _compared(session: Session, page: TrialsPage, choice: Choice) -> Callable[[], Compared]:
    if page.compared is None or session.style is None:
        raise UsageError(
            translate("Cloth", "no trial holds both predictions"),
            remedy=translate("Cloth", "enter lasting trials on a hold line"),
        )
    return partial(Compared, session.style.name, page.compared)


def report_papers(page: StripsPage) -> list[Offer]:
    """Return the test report of the strips shown, where a sheet was fitted to them."""
    if page.fit is None or page.card is None:
        return []
    return offers(Tested, partial(_tested, page))


def _tested(page: StripsPage, choice: Choice) -> Callable[[], Tested]:
    if page.fit is None or page.card is None:
        raise UsageError(
            translate("Cloth", "there is no result to print"), remedy=translate("Cloth", "test more strips")
        )
    tests = page.card.tests
    return partial(Tested, page.called, strips_of(tests), page.fit, page.zero, how_tested(tests))
