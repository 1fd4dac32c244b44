"""Lays of the plan that go to the Lay desk and come back locked, and the plans known by what is locked in them.

What is locked stands in the style, so that undo reaches it. A plan is remembered by the locked lays that it
holds: undone, the plan is again the one before, at once.
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.plan.job import PlanJob
from app.plan.locked_lays import opened
from app.style.model import Style
from app.window.desks.cost.run.plan_charts import lay_name
from app.window.desks.draft.view_strip import action_button
from app.window.session import Session
from app.window.wording.words import step_name
from nesting.files import lay_file

translate = QCoreApplication.translate

PUT_IN_S = 6.0
"""About how long it takes to put a lay given back into the plan: nothing is nested, papers are written."""

Locked = tuple[tuple[object, ...], ...]


@dataclass(frozen=True)
class HeldPlan:
    """A plan with its files: ``job`` is the question, ``words`` are those the command was asked with."""

    folder: tempfile.TemporaryDirectory[str]
    payload: dict[str, Any] | None = None
    job: PlanJob | None = None
    words: tuple[str, ...] = ()

    @property
    def path(self) -> Path:
        """Where its files stand."""
        return Path(self.folder.name)


class LockedBox(QWidget):
    """Names the lays that are locked, also while there is no plan that shows them; hidden without any."""

    def __init__(self, let_go: QAction) -> None:
        super().__init__()
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.button = action_button(let_go, words=True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 6, 0, 0)
        column.addWidget(self.words)
        column.addWidget(self.button)
        self.hide()

    def show_locked(self, style: Style | None) -> None:
        """Show what is locked in a style."""
        names = [lay.planned.name for lay in style.locked_lays if lay.planned] if style is not None else []
        self.words.setText(translate("Cost", "Locked by hand: {0}").format(", ".join(names)))
        self.setVisible(bool(names))


def new_folder(like: Path | None = None) -> tempfile.TemporaryDirectory[str]:
    """Return an empty folder for a plan, or one with what stands in another."""
    made = tempfile.TemporaryDirectory(prefix="stayply-plan-")
    if like is not None:
        shutil.copytree(like, made.name, dirs_exist_ok=True)
    return made


def locked_in(style: Style) -> Locked:
    """Return what is locked in a style, to be compared."""
    return tuple(
        (lay.planned.cloth, lay.planned.name, lay.planned.reason, tuple(lay.pairs.items()), lay.placements)
        for lay in style.locked_lays
        if lay.planned is not None
    )


def takes_all(payload: Mapping[str, Any], style: Style) -> bool:
    """Whether each locked lay has its place in the plan: opened out of it, not out of one before."""
    lays = {(lay["cloth"], lay["name"]): lay for lay in payload["lays"]}
    for locked in style.locked_lays:
        planned = locked.planned
        entry = None if planned is None else lays.get((planned.cloth, planned.name))
        if planned is None or entry is None or not (entry.get("locked") or entry["sets"] == planned.pairs):
            return False
    return True


def open_lay(session: Session, held: HeldPlan, entry: Mapping[str, Any]) -> int | None:
    """Open a lay of a plan among the style's lays; returns which one it is."""
    style = session.style
    if style is None or held.payload is None or held.job is None:
        return None
    _, lay = lay_file.read_lay(held.path / entry["lay_file"])
    shown = lay_name(entry, held.payload["lays"])
    name = translate("Cost", "run {0}").format(shown)
    made, index = opened(style, entry, lay, held.job.table.room_mm, name)
    session.apply(step_name("open planned lay", shown), made)
    return index
