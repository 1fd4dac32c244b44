"""The cost desk: the order and what is compared at the left, what a pair costs at the right.

Every lay is nested by the ``cost`` command in a process of its own, one after another; results
appear as they come. A changed price moves the money at once, without nesting again.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QStackedWidget, QWidget

from app.cost.compare import ComparedWidth, cost_depends_on
from app.cost.per_pair import Width
from app.errors import AppError
from app.measures import Measures
from app.style.model import ClothData, Style
from app.style.pieces import used_cloths
from app.window.desks.cost.cost_actions import COST
from app.window.desks.cost.cost_out import CostOut
from app.window.desks.cost.counting import Counting
from app.window.desks.cost.interface import CostBench
from app.window.desks.cost.press_out import PressOut
from app.window.desks.cost.results import Results
from app.window.desks.cost.run.plan_page import PlanPage
from app.window.desks.cost.side import SECONDS, CostSide
from app.window.desks.draft.view_strip import action_button
from app.window.printing.offer import Offer
from app.window.session import Session
from app.window.shell.actions import ActionSpec
from app.window.wording.core_words import told_text
from app.workshop.cloth_register import ClothRegister

translate = QCoreApplication.translate


class CostDesk(CostBench):
    """Fabric per pair of the open style."""

    name = "cost"

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self.counting = Counting(self)
        self.counting.told.connect(self.status)
        self.counting.changed.connect(self._refresh)
        self._depends_on: tuple[object, ...] = ()
        self._chosen = 0.0
        self._chosen_cloth = ""
        self._make_widgets()
        session.changed.connect(self._changed)
        session.lengths_changed.connect(self._units_changed)

    @classmethod
    def specs(cls) -> tuple[ActionSpec, ...]:
        return COST

    def _make_widgets(self) -> None:
        self.results = Results(self.session.lengths)
        self.out, self.press = CostOut(self), PressOut(self)
        self.press.changed.connect(self._refresh)
        handlers: dict[str, Callable[..., object]] = {
            "cost.compare": self.compare,
            "cost.stop": self.stop_comparing,
            "cost.plan": self.plan,
            "cost.stop_plan": self.stop_planning,
            "cost.turn_page": self.turn_page,
            "cost.open_lay": self._open_lay,
            "cost.let_go": self._let_go,
            "cost.order": self._ask_order,
            **self.out.handlers(),
            **self.press.handlers(),
        }
        actions = self.actions_made
        for spec in COST:
            if spec.id.startswith("cost.page_"):
                self.results.pages.action(actions.add(spec, self.results.pages.chosen))
            else:
                actions.add(spec, handlers[spec.id])
        self.results.add_pages()
        self.results.pages.turned.connect(self._page_turned)
        for name, words in (("turn_page", True), ("copy", False), ("export", False)):
            self.results.pages.end(action_button(actions[f"cost.{name}"], words=words))
        self.results.widths.chosen.connect(self._width_row_chosen)
        self.results.cloths.chosen.connect(self._cloth_row_chosen)
        self.side = CostSide(
            self.session, actions["cost.order"], (actions["cost.compare"], actions["cost.stop"])
        )
        self.side.box.told.connect(self.status)
        self.side.cloths.activated.connect(self._cloth_chosen)
        self.side.widths.priced.connect(self._priced)
        self.side.others.priced.connect(self._cloth_priced)
        self.plan_page = PlanPage(
            self.session,
            actions["cost.order"],
            actions["cost.turn_page"],
            actions["cost.plan"],
            actions["cost.stop_plan"],
            actions["cost.export_plan"],
            actions["cost.press"],
            actions["cost.open_lay"],
            actions["cost.let_go"],
        )
        self.plan_page.lay_opened.connect(self._lay_opened)
        self.plan_page.told.connect(self.status)
        for run in (self.counting.widths.run, self.counting.cloths.run, self.counting.what_if.run):
            self.results.progress.watch(run)
        for progress in (self.results.progress, self.plan_page.progress):
            progress.watch(self.press.run)
        self.press.run.live.connect(self.plan_page.show_live)
        self.press.run.over.connect(self.plan_page.show_chosen)
        self.plan_page.changed.connect(self._refresh)
        self.plan_page.entered.connect(self.results.runs.look)
        self.results.runs.told.connect(self.status)
        self.pages = QStackedWidget()
        self.pages.addWidget(self.beside("across", (self.side, self.results), [290, 1000]))
        self.pages.addWidget(self.plan_page)
        self.fill_with(self.pages)

    # -- the shell's calls ----------------------------------------------------------------------
    def entered(self) -> None:
        self._show_others()
        self._refresh()
        self.side.order.setFocus()

    def left(self) -> None:
        self.counting.quick.stop()

    def busy(self) -> str:
        if self.plan_page.run.running:
            return translate("Cost", "planning the run")
        if self.press.run.running:
            return translate("Cost", "setting out the dies")
        return self.counting.busy()

    def stop(self) -> None:
        self.counting.stop()
        self.plan_page.stop()
        self.press.run.stop()

    def papers(self) -> list[Offer]:
        return self.out.papers()

    def carried(self) -> dict[str, Any]:
        return {
            "cloth": str(self.side.cloths.currentData() or ""),
            "chosen": (self._chosen, self._chosen_cloth),
            "page": self.results.pages.page,
            "typed": self.side.carried(),
            "on_plan": self.actions_made["cost.turn_page"].isChecked(),
            "counted": self.counting.carried(),
            "plan": self.plan_page.carried(),
        }

    def take_over(self, carried: Mapping[str, Any]) -> None:
        self.side.cloths.setCurrentIndex(self.side.cloths.findData(carried["cloth"]))
        self.side.take_over(carried["typed"])
        self._show_widths()
        self._show_others()
        self._chosen, self._chosen_cloth = carried["chosen"]
        self.counting.take_over(carried["counted"])
        self.plan_page.take_over(carried["plan"])
        self.actions_made[f"cost.page_{carried['page']}"].trigger()
        self.actions_made["cost.turn_page"].setChecked(carried["on_plan"])
        self._refresh()

    # -- what is counted --------------------------------------------------------------------------
    @property
    def measures(self) -> Measures:
        """Metres with millimetres, yards with inches."""
        return self.session.lengths.measures

    def counted(self) -> tuple[Style, str, dict[str, Any]] | None:
        """The style, the cloth and the cost object of all that is counted; None while nothing is."""
        return self.counting.all(self._own_width, self._chosen)

    @property
    def cloth(self) -> ClothData | None:
        """The cloth that is costed."""
        style = self.session.style
        chosen = str(self.side.cloths.currentData() or "")
        return None if style is None else next((c for c in style.cloths if c.id == chosen), None)

    def compare(self) -> None:
        """Nest and count what the page in front is about."""
        style, cloth, counting = self.session.style, self.cloth, self.counting
        if style is None or cloth is None or counting.running:
            return
        pairs = self.side.order.pairs
        if not pairs:
            self.status.emit(translate("Cost", "The order has no pairs: type some, or open an order"))
            return
        seconds = self.side.seconds.value or SECONDS
        page = self.results.pages.page
        if page == "what_if":
            counting.what_if.start(style, cloth.id, pairs, seconds)
        elif page == "cloths":
            ticked = self.side.others.ticked
            if not ticked:
                self.status.emit(translate("Cost", "No cloth is ticked"))
                return
            counting.start_cloths(style, cloth.id, pairs, ticked, seconds)
        else:
            widths = self.side.widths_ticked(style, cloth)
            if not widths:
                self.status.emit(translate("Cost", "No roll width is ticked"))
                return
            counting.widths.start(style, cloth.id, pairs, widths, seconds)

    def stop_comparing(self) -> None:
        """End the comparison with the best lay so far; what is counted stays."""
        self.counting.finish()
        self.status.emit(translate("Cost", "Stopped; what has been costed is kept"))
        self._refresh()

    def plan(self) -> None:
        """Plan the order's lays; lays that are kept stay."""
        self.plan_page.plan(self.side.order.pairs, self.side.others.typed)

    def stop_planning(self) -> None:
        """End the planning with the best lays so far, or the setting out of dies."""
        if self.plan_page.run.running:
            self.plan_page.finish()
        elif self.press.run.running:
            self.press.give_up()

    def turn_page(self, on: bool) -> None:
        """Show the run plan, or the cost of a pair."""
        self.pages.setCurrentIndex(1 if on else 0)

    # -- showing --------------------------------------------------------------------------------
    def opened(self) -> None:
        self.stop()
        self.side.cloths.clear()  # first of all: what is chosen there is a cloth of the style before
        self._forget()
        self._chosen, self._chosen_cloth = 0.0, ""
        self.side.let_go()
        style = self.session.style
        if style is None:
            return
        for cloth_id in used_cloths(style):
            self.side.cloths.addItem(style.cloth(cloth_id).name, cloth_id)
        self._show_widths()
        self._show_others()
        self._changed()

    def _forget(self) -> None:
        self.plan_page.forget()
        self.counting.forget()

    def _changed(self) -> None:
        style = self.session.style
        now = () if style is None else cost_depends_on(style)
        if now != self._depends_on:
            self._depends_on = now
            self._forget()
        self.plan_page.look_again()
        self._refresh()

    def _units_changed(self) -> None:
        self._show_widths()
        self._show_others()
        self._refresh()

    def _page_turned(self, page: str) -> None:
        self.side.show_page(page)
        self.results.show_below(page)
        if page == "runs":
            self.results.runs.look()
        self._refresh()

    def _cloth_chosen(self) -> None:
        self.side.widths.let_go()
        self._show_widths()
        self._show_others()
        self.counting.forget()

    def _show_widths(self) -> None:
        cloth = self.cloth
        if cloth is not None:
            self.side.widths.show_widths(cloth, self.measures)

    def _show_others(self) -> None:
        """Offer the style's cloths, the costed one first, and those of the workshop's register."""
        style, cloth = self.session.style, self.cloth
        if style is None or cloth is None:
            return
        others = {each.id: each for each in (cloth, *style.cloths)}
        try:
            others = {**{e.id: e.cloth for e in ClothRegister().entries("cloth")}, **others}
        except AppError as error:
            self.status.emit(told_text(str(error)))
        first = sorted(others.values(), key=lambda each: (each.id != cloth.id, each.name))
        own = [each.id for each in (cloth, *style.cloths)]
        self.side.others.show_cloths(first, own, self.measures)

    def _priced(self, key: float) -> None:
        """A width's price was typed; the cloth's own width and the cloth have one price."""
        width, cloth = self.side.widths.width_of(key), self.cloth
        if cloth is not None and key == cloth.width_mm:
            self.side.others.set_price(cloth.id, width.price_per_m)
            self.counting.cloths.price(cloth.id, self.side.others.width_of(cloth.id))
            self._own_price_typed()
        else:
            self.counting.widths.price(key, width)

    def _own_price_typed(self) -> None:
        """Widths without a price of their own follow that of the cloth, and so does the next plan."""
        self._show_widths()
        for width in self.side.widths.widths:
            self.counting.widths.price(width.width_mm, width)
        self.plan_page.priced_anew()

    def _cloth_priced(self, key: str) -> None:
        width, cloth = self.side.others.width_of(key), self.cloth
        if cloth is not None and key == cloth.id:
            self.side.widths.set_price(cloth.width_mm, width.price_per_m)
            self._own_price_typed()
        self.counting.cloths.price(key, width)

    def _width_row_chosen(self, row: int) -> None:
        known = sorted(self.counting.widths.results)
        if row < len(known):
            self._chosen = known[row]
            self._refresh()

    def _cloth_row_chosen(self, row: int) -> None:
        known = list(self.counting.cloths.results)
        if row < len(known):
            self._chosen_cloth = known[row]
            self._refresh()

    def _named(self) -> list[tuple[str, ComparedWidth]]:
        results = self.counting.widths.results
        return [(self.side.widths.name(results[key].width), results[key]) for key in sorted(results)]

    @property
    def _own_width(self) -> Width:
        """The costed cloth's own width, at the price typed for it."""
        return self.side.widths.widths[0] if self.side.widths.widths else Width(1.0, 1.0)

    def _shown(self) -> tuple[str, ComparedWidth | None]:
        """The result whose sizes are listed, and what it is called."""
        page, results, cloths = self.results.pages.page, self.counting.widths.results, self.counting.judged
        if page == "cloths":
            for cloth, result, _ in cloths:
                if self._chosen_cloth in (cloth.id, "") or cloth is cloths[-1][0]:
                    return cloth.name, result
            return "", None
        if page == "what_if":
            shown = self.counting.sensitivity(self._own_width)
            return "" if shown is None else self.side.widths.name(shown.width), shown
        if results and self._chosen not in results:
            self._chosen = next(iter(results))
        shown = results.get(self._chosen)
        return "" if shown is None else self.side.widths.name(shown.width), shown

    def _refresh(self) -> None:
        if not self.isVisible():
            return  # it is brought up to date when it comes to the front
        style, cloth, pairs, counting = self.session.style, self.cloth, self.side.order.pairs, self.counting
        if style is not None and cloth is not None and pairs:
            counting.quick.ask(style, cloth.id, pairs)
        name, shown = self._shown()
        measures, currency = self.measures, cloth.currency if cloth else ""
        waiting = [each.name for each in counting.widths.waiting]
        self.results.show_widths(self._named(), currency, name, measures, waiting)
        judged = [(each.name, result, verdict) for each, result, verdict in counting.judged]
        money = {each.currency for each, _, _ in counting.judged}
        waiting = [each.name for each in counting.cloths.waiting]
        self.results.show_cloths(judged, "".join(money) if len(money) == 1 else "", name, measures, waiting)
        moved = counting.sensitivity(self._own_width)
        tables = None if moved is None else moved.paper()["sensitivity"]
        self.results.show_what_if(tables, measures, running=counting.what_if.running)
        self.results.show_sizes(name, shown, counting.quick.told, pairs, measures)
        self.results.runs.show_style(style, measures)
        planning = self.plan_page.run.running
        for key, enabled in (
            ("compare", cloth is not None and not counting.running and self.results.pages.page != "runs"),
            ("stop", counting.running),
            ("plan", cloth is not None and not planning),
            ("stop_plan", planning or self.press.run.running),
            ("export_plan", self.plan_page.payload is not None and not planning),
            ("let_go", style is not None and bool(style.locked_lays) and not planning),
            ("open_lay", self.plan_page.payload is not None and not planning),
            ("press", cloth is not None and not self.press.run.running),
            ("copy", shown is not None),
            ("export", shown is not None),
        ):
            self.actions_made[f"cost.{key}"].setEnabled(enabled)
        facts = []
        if shown is not None:
            told = measures.area_text(shown.row["m2_per_pair"])
            facts.append(translate("Cost", "{0} per pair").format(told))
            if shown.cost_per_pair is not None:
                facts.append(f"{shown.cost_per_pair} {shown.cost['currency']}")
        planned = self.plan_page.m2_per_pair(cloth)
        if planned is not None:
            facts.append(translate("Cost", "as planned: {0} per pair").format(measures.area_text(planned)))
        self.facts.emit("  ·  ".join(facts))

    def _open_lay(self) -> None:
        self.plan_page.open_chosen()

    def _let_go(self) -> None:
        self.plan_page.let_all_go()

    def _lay_opened(self, index: int) -> None:
        self.asks_for.emit("lay", index)

    def _ask_order(self) -> None:
        self.side.box.ask_file()


DESK = CostDesk
