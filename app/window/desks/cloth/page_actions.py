"""What the cloth desk's pages of strips, hold, trials and register do to the style and to files."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtWidgets import QFileDialog, QMessageBox

from app.errors import AppError
from app.hold.materials import how_tested, strips_of
from app.papers import registry
from app.papers.shown import Tested
from app.style import edits
from app.style.model import ClothData, HoldChain, Style, UpperMaterial
from app.window.desks.cloth.interface import ClothBench
from app.window.wording.core_words import told_text
from app.window.wording.words import paper_language
from app.workshop.cloth_csv import cards_csv, read_cards, read_readings, readings_csv, write_table
from app.workshop.cloth_register import CardChanged, ClothRegister, card_id, use_cloth

translate = QCoreApplication.translate


class PageActions(QObject):
    """Holds nothing but its desk."""

    def __init__(self, desk: ClothBench) -> None:
        super().__init__(desk)
        self._desk = desk

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return the handlers of the pages' actions."""
        return {
            "cloth.add_strip": self._add_strip,
            "cloth.remove_strip": self._remove_strip,
            "cloth.read_strips": self._ask_strips,
            "cloth.export_strips": self._ask_report,
            "cloth.take_direction": self._take_direction,
            "cloth.export_hold": self._ask_hold_sheet,
            "cloth.read_cards": self._ask_cards,
            "cloth.export_cards": self._ask_card_table,
        }

    def connect_pages(self) -> None:
        """Let the pages edit the style."""
        desk = self._desk
        desk.strips.entered.connect(self.material_entered)
        desk.strips.turned.connect(desk.refresh)
        desk.strips.pull_entered.connect(self._pull)
        desk.strips.refused.connect(self._told)
        desk.hold.told.connect(desk.status)
        desk.hold.limit_entered.connect(self._limit)
        desk.hold.chain_made.connect(self._chain)
        desk.hold.chain_removed.connect(self._unchain)
        desk.hold.cloth_taken.connect(self.take_first)
        desk.trials.told.connect(desk.status)
        desk.register.told.connect(self._register_told)
        desk.register.taken.connect(self.take)
        desk.register.filed.connect(self.file)

    # -- strips -----------------------------------------------------------------------------------
    def material_entered(self, fields: object, step: str) -> None:
        """Change fields of the material on the strips page."""
        assert isinstance(fields, dict)
        if self._desk.strips.of_upper:
            self._desk.edit(step, edits.set_upper, **fields)
        else:
            self._desk.edit(step, edits.set_cloth, self._desk.tool.cloth, **fields)
        self._desk.refresh()

    def _pull(self, value: object) -> None:
        if isinstance(value, float):
            self._desk.edit("pull", edits.set_pull, value)

    def _add_strip(self) -> None:
        self._desk.strips.add_strip()

    def _remove_strip(self) -> None:
        self._desk.strips.remove_strip()

    def _take_direction(self) -> None:
        self._desk.strips.take_direction()

    def _ask_strips(self) -> None:
        name, _ = QFileDialog.getOpenFileName(
            self._desk,
            translate("Cloth", "Read strips from a table"),
            "",
            translate("Cloth", "Tables (*.csv)"),
        )
        if name:
            self.read_strips(Path(name))

    def read_strips(self, path: Path) -> None:
        """Add the strips of a table to the material shown."""
        try:
            readings = read_readings(path)
        except AppError as error:
            self._told(str(error))
            return
        self._desk.strips.add_strips(readings)
        self._told(translate("Cloth", "{0} strips added").format(len(readings)))

    def _ask_report(self) -> None:
        folder = QFileDialog.getExistingDirectory(self._desk, translate("Cost", "Export into a folder"))
        if folder:
            self.write_report(Path(folder))

    def write_report(self, folder: Path) -> None:
        """Write the strips as a table, and the test report where a sheet was fitted to them."""
        page, card = self._desk.strips, self._desk.strips.card
        if card is None:
            return
        try:
            files = [folder / "strips.csv"]
            write_table(files[0], readings_csv(card.tests))
            if page.fit is not None:
                how = how_tested(card.tests)
                shown = Tested(page.called, strips_of(card.tests), page.fit, page.zero, how)
                files += registry.write(shown, folder, paper_language())
        except (AppError, OSError) as error:
            self._told(str(error))
            return
        self._told(translate("Cost", "Written: {0}").format(", ".join(path.name for path in files)))

    # -- hold -------------------------------------------------------------------------------------
    def _ask_hold_sheet(self) -> None:
        folder = QFileDialog.getExistingDirectory(self._desk, translate("Cost", "Export into a folder"))
        if folder:
            self._desk.hold.export(Path(folder))

    def _limit(self, called: str, limit_mm: object) -> None:
        style = self._desk.session.style
        if style is None:
            return
        chain = next((c for c in style.hold_chains if c.name == called), None)
        if chain is not None:
            changed = chain.model_copy(update={"limit_mm": limit_mm})
            self._desk.edit("hold limit", edits.put_hold_chain, changed)
        else:
            self._desk.edit("hold limit", edits.set_hold_limit, called, limit_mm)
        self._desk.refresh()

    def _chain(self, pieces: object) -> None:
        assert isinstance(pieces, list)
        chain = HoldChain(name=" + ".join(pieces), pieces=tuple(pieces))
        self._desk.edit("hold chain", edits.put_hold_chain, chain)

    def _unchain(self, name: str) -> None:
        self._desk.edit("remove hold chain", edits.remove_hold_chain, name)

    # -- register ---------------------------------------------------------------------------------
    def take(self, card: object) -> None:
        """Copy a card of the register into the style."""
        if isinstance(card, UpperMaterial):
            self._desk.edit("upper material", _with_upper, card)
        elif isinstance(card, ClothData):
            self._desk.tool.cloth = card.id
            self._desk.edit("add cloth", use_cloth, card)

    def take_first(self, cloth: object) -> None:
        """Make a cloth the style's first one: the one of every layer that names none."""
        assert isinstance(cloth, ClothData)
        self._desk.tool.cloth = cloth.id
        self._desk.edit("add cloth", use_cloth, cloth, first=True)

    def file(self, card: object) -> None:
        """File a card of the style; where another desk changed it meanwhile, ask first."""
        assert isinstance(card, ClothData | UpperMaterial)
        try:
            entry = ClothRegister().file(card)
        except CardChanged as changed:
            told = told_text(str(changed))
            if not self._over(told):
                self._told(told)
                return
            try:
                entry = ClothRegister().file(card, over=True)
            except AppError as error:
                self._told(str(error))
                return
        except AppError as error:
            self._told(str(error))
            return
        if isinstance(card, UpperMaterial):
            self._desk.edit("filed", edits.set_upper, register_revision=entry.revision)
        else:
            self._desk.edit("filed", edits.set_cloth, card.id, register_revision=entry.revision)
        self._register_told(
            translate("Register", "{0} is filed, revision {1}").format(card_id(card), entry.revision)
        )

    def _over(self, told: str) -> bool:
        box = QMessageBox(self._desk)
        box.setIcon(QMessageBox.Icon.Warning)
        box.setWindowTitle(translate("Register", "The card has changed"))
        box.setText(told)
        over = box.addButton(
            translate("Register", "File mine as a new revision"), QMessageBox.ButtonRole.AcceptRole
        )
        keep = box.addButton(translate("Register", "Cancel"), QMessageBox.ButtonRole.RejectRole)
        box.setDefaultButton(keep)
        box.exec()
        return box.clickedButton() is over

    def _ask_cards(self) -> None:
        name, _ = QFileDialog.getOpenFileName(
            self._desk,
            translate("Cloth", "Read cards from a table"),
            "",
            translate("Cloth", "Tables (*.csv)"),
        )
        if name:
            self.read_cards(Path(name))

    def read_cards(self, path: Path) -> None:
        """File the cloths of a table, all or none; strips on file are kept."""
        try:
            register = ClothRegister()
            known = {entry.id: entry for entry in register.entries("cloth")}
            cards = [
                card.model_copy(update={"tests": known[card.id].cloth.tests}) if card.id in known else card
                for card in read_cards(path)
            ]
            register.save_all((card, known[card.id].revision if card.id in known else None) for card in cards)
        except AppError as error:
            self._told(str(error))
            return
        self._register_told(translate("Register", "{0} cards filed").format(len(cards)))

    def _ask_card_table(self) -> None:
        name, _ = QFileDialog.getSaveFileName(
            self._desk,
            translate("Cloth", "Save the cards as a table"),
            "cloths.csv",
            translate("Cloth", "Tables (*.csv)"),
        )
        if name:
            self.write_cards(Path(name))

    def write_cards(self, path: Path) -> None:
        """Write all cloths of the register as a table."""
        try:
            write_table(path, cards_csv(entry.cloth for entry in ClothRegister().entries("cloth")))
        except AppError as error:
            self._told(str(error))
            return
        self._told(translate("Cost", "Written: {0}").format(path.name))

    def _register_told(self, text: str) -> None:
        self._desk.refresh()
        self._told(text)

    def _told(self, text: str) -> None:
        self._desk.status.emit(told_text(text))


def _with_upper(style: Style, upper: UpperMaterial) -> Style:
    return style.model_copy(update={"upper_material": upper})
