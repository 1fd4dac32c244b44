"""The run plan on the cost desk: limits and rates, the lays, what stays and what is planned again."""

from __future__ import annotations

import json
import shutil
from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from app.cost.compare import priced
from app.measures import METRIC, YARD, Measures
from app.papers.shown import PlannedRun
from app.plan.history import planned_run
from app.plan.job import WORK_FOLDER, PlanJob
from app.plan.locked_lays import let_go
from app.style.model import ClothData, Style
from app.window.desks.cost.run.by_hand import (
    PUT_IN_S,
    HeldPlan,
    Locked,
    LockedBox,
    locked_in,
    new_folder,
    open_lay,
    takes_all,
)
from app.window.desks.cost.run.plan_charts import ClothBars, LayBars, LayPicture
from app.window.desks.cost.run.plan_limits import PlanLimits
from app.window.desks.cost.run.plan_print import shown_run
from app.window.desks.cost.run.plan_table import PlanTable
from app.window.desks.cost.run.run_progress import RunProgress
from app.window.desks.cost.side import ActionPush
from app.window.desks.draft.view_strip import action_button
from app.window.desks.order_box import OrderBox
from app.window.printing.offer import Offer, offers
from app.window.running.command_run import CommandRun
from app.window.session import Session
from app.window.widgets.figures import localised
from app.window.widgets.lengths import Unit
from app.window.wording.words import step_name
from app.workshop.ledger import Ledger, ledger_path

translate = QCoreApplication.translate


class PlanPage(QWidget):
    """Plans the open style's order with the ``plan`` command, in a process of its own.

    ``told`` carries a line for the status bar, ``entered`` says that runs stand in the history; ``lay_opened``
    which of the style's lays is to be worked on by hand. The desk hands in the order and the cloth.
    """

    told = Signal(str)
    changed = Signal()
    entered = Signal()
    lay_opened = Signal(int)

    def __init__(
        self,
        session: Session,
        order: QAction,
        back: QAction,
        plan: QAction,
        stop: QAction,
        export: QAction,
        press: QAction,
        open_lay: QAction,
        let_go: QAction,
    ) -> None:
        super().__init__()
        self._session = session
        self._held = HeldPlan(new_folder())
        self._known: dict[Locked, HeldPlan] = {}  # plans by the lays that are locked in them
        self._locked: Locked = ()  # what is locked in the plan shown
        self._asking: tuple[Locked, HeldPlan] | None = None
        self._settled: Locked | None = None  # what is locked in the style but not in this plan, and was told
        self.run = CommandRun(self)
        self.run.told.connect(self.told)
        self.run.live.connect(self.show_live)
        self.run.done.connect(self._planned)
        self.run.failed.connect(self._failed)
        self.limits = PlanLimits(session.lengths)
        self.fields = self.limits.fields
        self.table = PlanTable(session.lengths)
        self.table.edited.connect(self._edited)
        self.table.chosen.connect(self._show)
        self.table.let_go.connect(self._let_go)
        self.bars = LayBars(session.lengths)
        session.lengths_changed.connect(self._measured_anew)
        self.bars.chosen.connect(self.table.selectRow)
        self.bars.pulled.connect(self.table.set_plies)
        self.cloth_bars = ClothBars()
        self.picture = LayPicture()
        self.summary = QLabel()
        self.summary.setWordWrap(True)
        self.summary.setProperty("role", "soft")
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(12, 10, 10, 10)
        self.box = OrderBox(session, order)
        self.box.told.connect(self.told)
        column.addWidget(self.box)
        column.addSpacing(6)
        head = QLabel(translate("Cost", "Limits and rates"))
        head.setProperty("role", "heading")
        column.addWidget(head)
        column.addLayout(self.limits.form)
        row = QHBoxLayout()
        begin = ActionPush(plan)
        begin.setDefault(True)
        row.addWidget(begin, 1)
        row.addWidget(ActionPush(stop, translate("Cost", "Stop")), 1)
        column.addLayout(row)
        self.locked = LockedBox(let_go)
        column.addWidget(self.locked)
        self.progress = RunProgress(session.lengths, picture=False)
        self.progress.watch(self.run)
        column.addWidget(self.progress)
        column.addStretch(1)
        column.addWidget(self.summary)
        right = QWidget()
        rows = QVBoxLayout(right)
        rows.setContentsMargins(12, 10, 14, 10)
        top = QHBoxLayout()
        title = QLabel(translate("Cost", "Lays"))
        title.setProperty("role", "heading")
        top.addWidget(title)
        top.addStretch(1)
        top.addWidget(action_button(back, words=True))
        top.addWidget(action_button(open_lay, words=True))
        top.addWidget(action_button(press, words=True))
        top.addWidget(action_button(export))
        rows.addLayout(top)
        rows.addWidget(self.table, 3)
        rows.addWidget(self.bars, 2)
        rows.addWidget(self.cloth_bars)
        rows.addWidget(self.picture, 4)
        across = QSplitter()
        across.addWidget(left)
        across.addWidget(right)
        across.setStretchFactor(1, 1)
        across.setSizes([290, 1000])
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(across)

    @property
    def payload(self) -> dict[str, Any] | None:
        """The plan as the command told it; None while there is none."""
        return self._held.payload

    @property
    def folder(self) -> Path:
        """Where the plan's files stand."""
        return self._held.path

    def carried(self) -> dict[str, Any]:
        """The plan with its files and what is typed beside it, for a page made again."""
        return {
            "plan": (self._held, self._locked, self._known, self.table.lays),
            "typed": {name: field.value for name, field in self.fields.items()},
        }

    def take_over(self, carried: Mapping[str, Any]) -> None:
        """Take over the plan of the page before."""
        for name, value in carried["typed"].items():
            self.fields[name].set_value(value)
        self._held, self._locked, self._known, lays = carried["plan"]
        self.table.show_lays(lays if self.payload is not None else [])
        if lays:
            self.table.selectRow(0)
        self._show()

    def priced_anew(self) -> None:
        """A cloth's price was typed: what the plan costs is of the price before."""
        if self.payload is not None and not self.run.running:
            self.told.emit(translate("Cost", "The plan is costed at the prices before: plan again"))

    def plan(self, pairs: Mapping[str, int], prices: Mapping[str, Decimal | None]) -> None:
        """Plan the order; lays that are kept stay. ``prices`` are those typed for cloths, by id."""
        style = self._session.style if self._session.style is None else priced(self._session.style, prices)
        if style is None or self.run.running:
            return
        if not pairs:
            self.told.emit(translate("Cost", "The order has no pairs: type some, or open an order"))
            return
        missing = self.limits.missing(style)
        if missing:
            self.told.emit(missing)
            return
        words = [
            "--pairs",
            ",".join(f"{size}:{n}" for size, n in pairs.items()),
            "--no-history",
            "--keep-work",
        ]
        words += self.limits.words()
        words += ["--units", self.measures.name]
        keep = self.table.keep_words if self.payload is not None else ""
        self._begin(style, self.limits.job(style, pairs), words, keep, self.limits.seconds)

    def _begin(self, style: Style, job: PlanJob, words: Sequence[str], keep: str, seconds: float) -> None:
        """Ask the command; where other lays are locked than in the plan shown, that plan stays as it is."""
        locked = locked_in(style)
        other = self.payload is not None and locked != self._locked
        folder = new_folder(self.folder) if other else self._held.folder
        self._asking = (locked, HeldPlan(folder, None, job, tuple(words)))
        asked = [*words, *(["--keep", keep] if keep else []), *(["--locked"] if locked else [])]
        self.run.start("plan", style, [*asked, "-o", folder.name], expected_s=seconds)
        self.changed.emit()

    # -- lays worked on by hand -------------------------------------------------------------------
    def open_chosen(self) -> None:
        """Open the selected lay of the plan on the Lay desk."""
        row = max(self.table.currentRow(), 0)
        if self.payload is None or row >= len(self.payload["lays"]):
            return
        index = open_lay(self._session, self._held, self.payload["lays"][row])
        if index is not None:
            self.lay_opened.emit(index)

    def look_again(self) -> None:
        """A lay was given back, let go or taken back by undo: the plan follows."""
        style = self._session.style
        self.locked.show_locked(style)
        if style is None or self.payload is None or self.run.running:
            return
        locked = locked_in(style)
        if locked in (self._locked, self._settled):
            return
        known = self._known.get(locked)
        if known is not None:
            self._show_plan(locked, known)
            self.told.emit(translate("Cost", "The plan is the one that holds these lays"))
        elif self._held.job is None or not takes_all(self.payload, style):
            self._settled = locked
            self.told.emit(
                translate(
                    "Cost", "The lay is locked, but of an earlier plan: plan again to fit the rest round it"
                )
            )
        else:
            lays = self.payload["lays"]
            every = ",".join(f"{lay['cloth']}-{lay['name']}={lay['plies']}" for lay in lays)
            typed = {cloth.id: cloth.price_per_m for cloth in self._held.job.styles[0].cloths}
            self._begin(priced(style, typed), self._held.job, self._held.words, every, PUT_IN_S)

    def let_all_go(self) -> None:
        """Lock no lay any more; those of the plan shown stay as they lie until it is planned again."""
        style = self._session.style
        if style is None or self.run.running:
            return
        free = style.model_copy(update={"locked_lays": ()})
        self._known.pop((), None)
        self._session.apply(step_name("let planned lay go"), free)

    def _let_go(self, cloth: str, name: str) -> None:
        style = self._session.style
        if style is None or self.run.running:
            self._show_plan(self._locked, self._held)
            return
        free = let_go(style, cloth, name)
        self._known.pop(
            locked_in(free), None
        )  # the lay stays as it lies; only undo brings back the one before
        self._session.apply(step_name("let planned lay go", name), free)

    @property
    def measures(self) -> Measures:
        """Metres with millimetres, yards with inches."""
        return YARD if self._session.lengths.unit is Unit.INCH else METRIC

    def m2_per_pair(self, cloth: ClothData | None) -> float | None:
        """The cloth a pair takes by the plan: its lays and plies are others than those costed."""
        metres = None if self.payload is None or cloth is None else self.payload["cloth_m"].get(cloth.id)
        if metres is None or self.payload is None or cloth is None:
            return None
        pairs = sum(self.payload["pairs_cut"].values())
        return float(metres) * cloth.width_mm / 1000.0 / pairs if pairs else None

    def papers(self) -> list[Offer]:
        """What of the plan can be printed."""
        return offers(
            PlannedRun,
            lambda choice: partial(shown_run, self._held.job, self.payload, self.folder, self.measures),
        )

    def forget(self) -> None:
        """Let go of the plan: the style, its order or its cloth is another one."""
        self.stop()
        self._held = HeldPlan(self._held.folder)
        self._known, self._locked, self._settled = {}, (), None
        self.table.show_lays([])
        self._show()

    def stop(self) -> None:
        """End the planning."""
        self.run.stop()
        self.changed.emit()

    def export(self, folder: Path) -> None:
        """Copy the plan's papers and lays into a folder and enter its runs in the history.

        Raises OSError, DatabaseError.
        """
        folder.mkdir(parents=True, exist_ok=True)
        for path in self.folder.iterdir():
            if path.name.startswith(".") or path.name == WORK_FOLDER:
                continue
            if path.is_dir():
                shutil.copytree(path, folder / path.name, dirs_exist_ok=True)
            else:
                shutil.copy2(path, folder / path.name)
        assert self.payload is not None
        ledger = Ledger(ledger_path())
        for told in self.payload["runs_not_entered"]:
            ledger.plan(planned_run(told))
        self.entered.emit()

    def finish(self) -> None:
        """End the planning with the best lays found so far."""
        if self.run.running:
            self.told.emit(translate("Cost", "Stopping; the best plan so far is kept"))
            self.run.finish()

    def show_live(self, event: object) -> None:
        """Show the lay in work, in place of the one chosen."""
        assert isinstance(event, dict)
        self.picture.show_document(event)

    def show_chosen(self) -> None:
        """Show the lay chosen again."""
        self._show(max(0, self.table.currentRow()))

    def _planned(self, payload: object) -> None:
        assert isinstance(payload, dict)
        locked, asked = self._asking or ((), self._held)
        self._show_plan(locked, replace(asked, payload=payload))
        self.told.emit(translate("Cost", "The plan is ready; every lay was verified"))
        self.look_again()

    def _show_plan(self, locked: Locked, held: HeldPlan) -> None:
        assert held.payload is not None
        row = max(self.table.currentRow(), 0)
        self._held, self._locked, self._known[locked], self._settled = held, locked, held, None
        self.table.show_lays(held.payload["lays"])
        if held.payload["lays"]:
            self.table.selectRow(min(row, len(held.payload["lays"]) - 1))
        self._show(max(self.table.currentRow(), 0))
        self.changed.emit()

    def _failed(self, why: str) -> None:
        self._settled = self._asking[0] if self._asking is not None else None
        self.show_chosen()
        self.told.emit(why)
        self.changed.emit()

    def _edited(self) -> None:
        self.show_chosen()
        self.told.emit(translate("Cost", "Plan again to fit the rest round the lays that are kept"))

    def _measured_anew(self) -> None:
        self.limits.relook()
        self.table.measure_anew()
        self.show_chosen()

    def _show(self, row: int = 0) -> None:
        payload = self.payload
        lays = self.table.lays if payload is not None else []
        most = int(self.fields["plies"].value or 0)
        self.bars.show_lays(lays, self.fields["table"].value or 0.0, row, most)
        self.cloth_bars.show_shares(payload["shares"] if payload is not None else {})
        document = None
        if row < len(lays):
            document = json.loads((self.folder / lays[row]["lay_file"]).read_text("utf-8"))
        self.picture.show_document(document)
        if payload is None:
            self.summary.setText("")
            return
        cost = payload["cost"]
        lines = [
            translate("Cost", "{0} pairs ordered, {1} cut").format(
                sum(payload["pairs_ordered"].values()), sum(payload["pairs_cut"].values())
            ),
            translate("Cost", "{0} of cloth; no plan takes less than {1}").format(
                self._session.lengths.roll_text(1000.0 * sum(payload["cloth_m"].values())),
                self._session.lengths.roll_text(1000.0 * sum(payload["lower_bound_m"].values())),
            ),
        ]
        if cost["priced"]:
            lines.append(
                translate("Cost", "{0} {1} in total, {2} per pair").format(
                    localised(cost["total"]), cost["currency"], localised(cost["per_pair"])
                )
            )
        self.summary.setText("\n".join(lines))
