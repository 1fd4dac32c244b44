"""The workshop's register: take a card into the style, file the one shown, look at its revisions."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from app.errors import AppError
from app.style.model import ClothData, Style, UpperMaterial
from app.window.desks.cloth.text_table import TextTable, in_two_lines
from app.window.desks.draft.view_strip import action_button
from app.window.widgets.chooser import Chooser
from app.window.widgets.lengths import Lengths
from app.window.wording.core_words import told_text
from app.workshop.cloth_register import Card, ClothRegister, Entry, Kind, card_id

translate = QCoreApplication.translate
PRICE = 5
NOTHING = "–"
MOST_ROWS = 100
"""Cards shown at once; a register of thousands is looked through by name."""


class RegisterPage(QWidget):
    """``taken`` carries a card for the style, ``filed`` the style's card to be filed; ``told`` a line
    for the status bar."""

    taken = Signal(object)
    filed = Signal(object)
    told = Signal(str)

    def __init__(self, lengths: Lengths, actions: dict[str, QAction]) -> None:
        super().__init__()
        self._lengths = lengths
        self._style: Style | None = None
        self._cloth: ClothData | None = None
        self._entries: tuple[Entry, ...] = ()
        self._history: tuple[Entry, ...] = ()
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 10, 14, 12)
        column.setSpacing(8)
        row = QHBoxLayout()
        self.kind = Chooser()
        self.kind.setAccessibleName(translate("Register", "Kind of cards"))
        self.kind.addItem(translate("Register", "Cloths of the workshop"), "cloth")
        self.kind.addItem(translate("Register", "Upper materials of the workshop"), "upper")
        self.kind.activated.connect(self._turned)
        row.addWidget(self.kind)
        self.sought = QLineEdit()
        self.sought.setPlaceholderText(translate("Register", "Part of a name"))
        self.sought.setAccessibleName(translate("Register", "Cards whose name contains"))
        self.sought.setClearButtonEnabled(True)
        self.sought.setMaximumWidth(240)
        self.sought.textEdited.connect(self._turned)
        row.addWidget(self.sought)
        row.addStretch(1)
        for name in ("read_cards", "export_cards"):
            row.addWidget(action_button(actions[name], words=True))
        column.addLayout(row)
        self.table = TextTable(
            [
                translate("Register", "Name"),
                translate("Register", "Usable width"),
                translate("Register", "Tight direction"),
                translate("Register", "How known"),
                translate("Register", "Mass g/m²"),
                translate("Register", "Price per metre"),
                translate("Register", "Strips"),
                translate("Register", "Revision"),
                translate("Register", "In this style"),
                translate("Register", "Changed by"),
            ],
            translate("Register", "Cards of the register"),
            words=(0, 3, 8, 9),
            wide=0,
        )
        self.table.head(8).setToolTip(translate("Register", "Which revision the style holds a copy of"))
        self.table.itemSelectionChanged.connect(self._selected)
        column.addWidget(self.table, 3)
        self.hint = QLabel(
            translate(
                "Register",
                "No cards yet: file one of this style with the button at the right, or read a table.",
            )
        )
        self.hint.setProperty("role", "soft")
        column.addWidget(self.hint)
        self.more = QLabel()
        self.more.setProperty("role", "soft")
        self.more.hide()
        column.addWidget(self.more)
        row = QHBoxLayout()
        self.take = QPushButton(translate("Register", "Copy into the style"))
        self.take.setToolTip(
            translate("Register", "A copy: later changes in the register do not touch the style")
        )
        self.take.clicked.connect(self._take)
        self.out = QPushButton(translate("Register", "Remove from the register"))
        self.out.setToolTip(translate("Register", "Its revisions are kept and can be restored"))
        self.out.clicked.connect(self.take_out)
        self.file = QPushButton()
        self.file.clicked.connect(self.file_shown)
        row.addWidget(self.take)
        row.addWidget(self.out)
        row.addStretch(1)
        row.addWidget(self.file)
        column.addLayout(row)
        row = QHBoxLayout()
        head = QLabel(translate("Register", "Revisions"))
        head.setProperty("role", "heading")
        row.addWidget(head)
        row.addStretch(1)
        self.back = QPushButton(translate("Register", "Restore this revision"))
        self.back.setToolTip(translate("Register", "As a new revision: nothing is overwritten"))
        self.back.clicked.connect(self.bring_back)
        row.addWidget(self.back)
        column.addLayout(row)
        self.history = TextTable(
            [
                translate("Register", "Revision"),
                translate("Register", "When"),
                translate("Register", "By"),
                translate("Register", "What changed"),
            ],
            translate("Register", "Revisions"),
            words=(1, 2, 3),
            wide=3,
        )
        self.history.itemSelectionChanged.connect(self._revision_chosen)
        column.addWidget(self.history, 2)

    @property
    def card_kind(self) -> Kind:
        """Which cards are shown."""
        return "upper" if self.kind.currentData() == "upper" else "cloth"

    def show_style(self, style: Style, cloth: ClothData) -> None:
        """Show the register, read again, beside the cloth (or the upper) of the style."""
        self._style, self._cloth = style, cloth
        card = self._own()
        called = card_id(card) if isinstance(card, UpperMaterial) else card.name
        self.file.setText(translate("Register", "File {0} in the register").format(called or NOTHING))
        self.file.setEnabled(bool(called))
        try:
            register = ClothRegister()
            self._entries, count = register.find(self.card_kind, self.sought.text(), MOST_ROWS)
        except AppError as error:
            self._entries, count = (), 0
            self.told.emit(told_text(str(error)))
        more = translate("Register", "{0} of {1} cards are shown: write part of a name to find others.")
        self.more.setText(more.format(len(self._entries), count))
        self.more.setVisible(count > len(self._entries))
        chosen = self.table.currentRow()
        for column in (1, 2, 3, 4, 5):
            self.table.setColumnHidden(column, self.card_kind == "upper")
        self._name_price()
        self.table.fill([self._row(entry) for entry in self._entries])
        self.hint.setVisible(not self._entries and not self.sought.text().strip())
        if self._entries:
            self.table.setCurrentCell(min(max(chosen, 0), len(self._entries) - 1), 0)
        self._selected()

    def _own(self) -> Card:
        assert self._style is not None and self._cloth is not None
        return self._style.upper_material if self.card_kind == "upper" else self._cloth

    def _row(self, entry: Entry) -> list[str]:
        card = entry.card
        assert self._style is not None
        if card is None:
            gone = translate("Register", "removed")
            return [entry.id, *[NOTHING] * 6, str(entry.revision), gone, entry.who or NOTHING]
        held: tuple[Card, ...] = self._style.cloths
        if self.card_kind == "upper":
            held = (self._style.upper_material,)
        mine = next((own for own in held if card_id(own) == entry.id), None)
        return [card.name or entry.id, *self._figures(card), str(len(card.tests)), str(entry.revision),
                _copied(mine), entry.who or NOTHING]  # fmt: skip

    def _figures(self, card: Card) -> list[str]:
        if not isinstance(card, ClothData):
            return [NOTHING] * 5
        how = {
            "tested": translate("Cloth", "tested"),
            "supplier": translate("Cloth", "stated by the supplier"),
            "assumed": translate("Cloth", "assumed"),
            "example": translate("Cloth", "example"),
        }
        return [
            self._lengths.text(card.usable_width_mm, 0),
            f"{card.tight_direction_deg:g}°",
            how[card.how_known],
            NOTHING if card.mass_g_per_m2 is None else f"{card.mass_g_per_m2:g}",
            NOTHING
            if card.price_per_m is None
            else f"{self._lengths.measures.price_text(card.price_per_m)} {card.currency}",
        ]

    @property
    def chosen(self) -> Entry | None:
        """The card selected."""
        row = self.table.currentRow()
        return self._entries[row] if 0 <= row < len(self._entries) else None

    def _name_price(self) -> None:
        """The price goes by the yard beside inches; the head of its column says which."""
        yards = self._lengths.measures.length_unit == "yd"
        told = translate("Register", "Price per yard") if yards else translate("Register", "Price per metre")
        self.table.head(PRICE).setText(in_two_lines(told))

    def _turned(self, _: object) -> None:
        if self._style is not None and self._cloth is not None:
            self.show_style(self._style, self._cloth)

    def _selected(self) -> None:
        entry = self.chosen
        there = entry is not None and entry.card is not None
        self.take.setEnabled(there)
        self.out.setEnabled(there)
        self._history = ()
        if entry is not None:
            try:
                self._history = ClothRegister().history(entry.kind, entry.id)[::-1]
            except AppError as error:
                self.told.emit(told_text(str(error)))
        older: tuple[Entry | None, ...] = (*self._history[1:], None)[: len(self._history)]
        self.history.fill(
            [
                [
                    str(each.revision),
                    each.at.replace("T", " ")[:16],
                    each.who or NOTHING,
                    _change(before, each),
                ]
                for each, before in zip(self._history, older, strict=True)
            ]
        )
        self._revision_chosen()

    def _revision_chosen(self) -> None:
        row = self.history.currentRow()
        self.back.setEnabled(0 < row < len(self._history) and self._history[row].card is not None)

    def _take(self) -> None:
        if self.chosen is not None:
            self.taken.emit(self.chosen.copy)

    def file_shown(self) -> None:
        """File the cloth (or the upper) of the style."""
        if self._style is not None:
            self.filed.emit(self._own())

    def take_out(self) -> None:
        """Take the selected card out; told when another desk changed it meanwhile."""
        entry = self.chosen
        if entry is None:
            return
        try:
            ClothRegister().remove(entry.kind, entry.id, seen=entry.revision)
        except AppError as error:
            self.told.emit(told_text(str(error)))
            return
        self.told.emit(translate("Register", "{0} is removed; its revisions are kept").format(entry.id))

    def bring_back(self) -> None:
        """File an older revision again, as the newest."""
        row, entry = self.history.currentRow(), self.chosen
        if entry is None or not 0 < row < len(self._history):
            return
        card = self._history[row].card
        if card is None:
            return
        try:
            made = ClothRegister().save(card, seen=entry.revision)
        except AppError as error:
            self.told.emit(told_text(str(error)))
            return
        self.told.emit(translate("Register", "{0} is filed, revision {1}").format(entry.id, made.revision))


def _copied(mine: Card | None) -> str:
    if mine is None:
        return NOTHING
    if not mine.register_revision:
        return translate("Register", "its own")
    return translate("Register", "revision {0}").format(mine.register_revision)


def _change(before: Entry | None, entry: Entry) -> str:
    """The fields that differ from the revision before."""
    if entry.card is None:
        return translate("Register", "removed")
    if before is None or before.card is None:
        return translate("Register", "filed")
    old, new = before.card.model_dump(), entry.card.model_dump()
    changed = [name for name in new if old.get(name) != new[name]]
    said = _fields()
    return (
        ", ".join(f"{said.get(name, name)} {_short(old.get(name))} → {_short(new[name])}" for name in changed)
        or NOTHING
    )


def _fields() -> dict[str, str]:
    """Names of a card's fields, as its form has them."""
    return {
        "name": translate("Cloth", "Name"),
        "fibre": translate("Cloth", "Fibre"),
        "weave": translate("Cloth", "Weave"),
        "mass_g_per_m2": translate("Cloth", "Mass"),
        "thickness_mm": translate("Cloth", "Thickness"),
        "glue": translate("Cloth", "Glue"),
        "coated_side": translate("Cloth", "Coated side"),
        "width_mm": translate("Cloth", "Width"),
        "usable_width_mm": translate("Cloth", "Usable width"),
        "roll_length_m": translate("Cloth", "Roll length"),
        "tight_direction_deg": translate("Cloth", "Tight direction"),
        "how_known": translate("Cloth", "How known"),
        "one_way": translate("Cloth", "one-way only"),
        "price_per_m": translate("Cloth", "Price per metre"),
        "currency": translate("Cloth", "Currency"),
        "press": translate("Cloth", "Press"),
        "tests": translate("Register", "Strips"),
        "sheet": translate("Register", "Constants"),
        "lot": translate("Cloth", "Lot"),
        "note": translate("Trials", "Note"),
    }


def _short(value: object) -> str:
    if isinstance(value, list | tuple):
        return str(len(value))
    if isinstance(value, dict):
        return "…"
    return NOTHING if value in (None, "") else str(value)
