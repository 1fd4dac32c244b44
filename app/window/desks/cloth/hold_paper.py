"""The hold sheet and the test report for the printer."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QCoreApplication

from app.commands.hold import calibrations
from app.errors import UsageError
from app.hold.materials import strips_of
from app.papers.shown import Held, Tested
from app.window.desks.cloth.hold_page import HoldPage
from app.window.desks.cloth.strips.strips_page import StripsPage
from app.window.printing.offer import Choice, Offer, offers
from app.window.session import Session

translate = QCoreApplication.translate


def hold_papers(session: Session, page: HoldPage) -> list[Offer]:
    """Return the hold sheet of the open style, turned as its page shows it.

    Its page raises UsageError until the style is judged.
    """
    return offers(Held, partial(_held, session, page))


def _held(session: Session, page: HoldPage, choice: Choice) -> Held:
    style = session.style
    found = page.as_turned(style) if style is not None else None
    if style is None or found is None:
        raise UsageError(
            translate("Cloth", "the hold is not judged yet"),
            remedy=translate("Cloth", "open the page Hold (Alt+3) and wait for its figures"),
        )
    return Held(
        style,
        found,
        turn_deg=page.turned_deg,
        candidates=page.candidates_judged,
        trials=calibrations(style),
    )


def report_papers(page: StripsPage) -> list[Offer]:
    """Return the test report of the strips shown, where a sheet was fitted to them."""
    if page.fit is None or page.card is None:
        return []
    return offers(Tested, partial(_tested, page))


def _tested(page: StripsPage, choice: Choice) -> Tested:
    if page.fit is None or page.card is None:
        raise UsageError(
            translate("Cloth", "there is no fit to print"), remedy=translate("Cloth", "pull more strips")
        )
    return Tested(page.called, strips_of(page.card.tests), page.fit, zero=page.zero)
