"""The hold sheet for the printer."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QCoreApplication

from app.commands.hold import calibrations
from app.errors import UsageError
from app.papers.drawing import Page
from app.papers.hold_sheet import sheet_page
from app.window.hold_judge import HoldJudge
from app.window.printing.offer import Choice, Paper
from app.window.session import Session

translate = QCoreApplication.translate


def hold_papers(session: Session, judge: HoldJudge) -> list[Paper]:
    """Return the hold sheet of the open style; its page raises UsageError until it is judged."""
    return [Paper(translate("Cloth", "Hold sheet"), "hold-sheet", partial(_pages, session, judge))]


def _pages(session: Session, judge: HoldJudge, choice: Choice) -> list[Page]:
    style = session.style
    held = judge.held_for(style) if style is not None else None
    if style is None or held is None:
        raise UsageError(
            translate("Cloth", "the hold is not judged yet"),
            remedy=translate("Cloth", "open the page Hold (Alt+3) and wait for its figures"),
        )
    return [sheet_page(style, held, candidates=judge.candidates, trials=calibrations(style))]
