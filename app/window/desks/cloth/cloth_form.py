"""The fields of a cloth."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from app.style.model import ClothData
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import ClothLengthField, LengthField, NumberField, TextField
from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths
from app.window.wording.cautions import caution_label

translate = QCoreApplication.translate


class ClothForm(QWidget):
    """``entered`` carries a dict of the fields of the cloth that a person changed."""

    entered = Signal(object)
    refused = Signal(str)

    def __init__(self, lengths: Lengths) -> None:
        super().__init__()
        self._lengths = lengths
        self._cloth: ClothData | None = None
        self._texts: dict[str, QLineEdit] = {}
        self._numbers: dict[str, NumberField] = {}
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 12, 12, 10)
        column.setSpacing(8)

        _heading(column, translate("Cloth", "Roll"))
        form = _form(column)
        self._text(form, "name", translate("Cloth", "Name"))
        self._length(
            form,
            "width_mm",
            translate("Cloth", "Width"),
            translate("Cloth", "From edge to edge, selvedges included"),
        )
        self._length(
            form,
            "usable_width_mm",
            translate("Cloth", "Usable width"),
            translate("Cloth", "Width between the selvedges; pieces are laid inside it"),
        )
        title = translate("Cloth", "Roll length")
        roll = ClothLengthField(title, lengths, optional=True)
        self._roll_unit = self._add(form, roll, "roll_length_m", title, lengths.measures.length_unit, "")
        self._number(
            form,
            "tight_direction_deg",
            translate("Cloth", "Tight direction"),
            "°",
            5.0,
            False,
            translate(
                "Cloth",
                "Direction in which the cloth gives least, from the roll's length: 0 along, 90 across",
            ),
        )
        self.how = Chooser()
        for value, text in (
            ("tested", translate("Cloth", "tested")),
            ("supplier", translate("Cloth", "stated by the supplier")),
            ("assumed", translate("Cloth", "assumed")),
            ("example", translate("Cloth", "example")),
        ):
            self.how.addItem(text, value)
        self.how.setAccessibleName(translate("Cloth", "How the tight direction is known"))
        self.how.activated.connect(self._how)
        form.addRow(translate("Cloth", "How known"), self.how)
        self.one_way = QCheckBox(translate("Cloth", "one-way only"))
        self.one_way.setToolTip(
            translate("Cloth", "For cloth with a nap or a one-way stretch: no piece is turned by 180°")
        )
        self.one_way.clicked.connect(self._one_way)
        form.addRow("", self.one_way)
        _heading(column, translate("Cloth", "Price"))
        form = _form(column)
        row = QHBoxLayout()
        self.price = TextField()
        self.price.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.price.editingFinished.connect(self._price)
        self.currency = TextField()
        self.currency.setFixedWidth(58)
        self.currency.setAccessibleName(translate("Cloth", "Currency"))
        self.currency.editingFinished.connect(self._currency)
        row.addWidget(self.price)
        row.addWidget(self.currency)
        self._price_of = QLabel()
        form.addRow(self._price_of, row)
        _heading(column, translate("Cloth", "Cloth"))
        form = _form(column)
        self._text(form, "fibre", translate("Cloth", "Fibre"))
        self._text(form, "weave", translate("Cloth", "Weave"))
        self._number(form, "mass_g_per_m2", translate("Cloth", "Mass"), "g/m²", 5.0, True)
        self._length(form, "thickness_mm", translate("Cloth", "Thickness"), "", optional=True, digits=2)
        self._text(form, "glue", translate("Cloth", "Glue"))
        self.coated = Chooser()
        for value, text in (
            ("back", translate("Cloth", "back")),
            ("face", translate("Cloth", "face")),
        ):
            self.coated.addItem(text, value)
        self.coated.setAccessibleName(translate("Cloth", "Coated side"))
        self.coated.activated.connect(self._coated)
        form.addRow(translate("Cloth", "Coated side"), self.coated)
        self._text(form, "lot", translate("Cloth", "Lot"))
        _heading(column, translate("Cloth", "Press"))
        form = _form(column)
        self._number(form, "press.temperature_c", translate("Cloth", "Temperature"), "°C", 5.0, True)
        self._number(form, "press.seconds", translate("Cloth", "Time"), "s", 1.0, True)
        self._number(form, "press.pressure_mpa", translate("Cloth", "Pressure"), "MPa", 0.01, True, digits=3)
        self._text(form, "press.source", translate("Cloth", "Source"))
        advice = QLabel(translate("Cloth", "The supplier's sheet and a trial on your own leather decide."))
        advice.setWordWrap(True)
        advice.setProperty("role", "soft")
        column.addWidget(advice)
        column.addWidget(caution_label("cloth"))
        column.addStretch(1)
        for box in self.findChildren(QComboBox):
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            box.setMinimumContentsLength(6)
        for edit in self.findChildren(QLineEdit):
            edit.setMinimumWidth(48)
        roles = QFormLayout.ItemRole.LabelRole
        items = [
            form.itemAt(row, roles)
            for form in self.findChildren(QFormLayout)
            for row in range(form.rowCount())
        ]
        labels = [label for item in items if item is not None and (label := item.widget()) is not None]
        wide = max(label.sizeHint().width() for label in labels)
        for label in labels:
            label.setMinimumWidth(wide)

    def show_cloth(self, cloth: ClothData) -> None:
        """Show a cloth."""
        self._cloth = cloth
        for name, edit in self._texts.items():
            text = str(_get(cloth, name))
            if edit.text() != text:
                edit.setText(text)
                edit.setCursorPosition(0)
        for name, number in self._numbers.items():
            number.set_value(_get(cloth, name))  # type: ignore[arg-type]
        self.how.setCurrentIndex(self.how.findData(cloth.how_known))
        self.coated.setCurrentIndex(self.coated.findData(cloth.coated_side))
        self.one_way.setChecked(cloth.one_way)
        self.price.setText(self._price_text(cloth))
        self.currency.setText(cloth.currency)

    def relook(self) -> None:
        """The unit of display changed."""
        self._roll_unit.setText(self._lengths.measures.length_unit)
        for number in self._numbers.values():
            number.set_value(number.value)
            number.update()
        if self._cloth is not None:
            self.show_cloth(self._cloth)

    def _price_text(self, cloth: ClothData) -> str:
        """The price by the metre, or by the yard beside inches; the label says which."""
        measures = self._lengths.measures
        yards = measures.length_unit == "yd"
        told = translate("Cloth", "Price per yard") if yards else translate("Cloth", "Price per metre")
        self._price_of.setText(told)
        self.price.setAccessibleName(told)
        return "" if cloth.price_per_m is None else localised(measures.price_text(cloth.price_per_m))

    def _text(self, form: QFormLayout, name: str, title: str) -> None:
        edit = TextField()
        edit.setObjectName(name)
        edit.setAccessibleName(title)
        edit.editingFinished.connect(self._text_entered)
        self._texts[name] = edit
        form.addRow(title, edit)

    def _length(
        self,
        form: QFormLayout,
        name: str,
        title: str,
        tip: str,
        *,
        optional: bool = False,
        digits: int = 1,
    ) -> None:
        step = 10.0 if digits == 1 else 0.05
        field = LengthField(title, self._lengths, step_mm=step, optional=optional, digits=digits)
        self._add(form, field, name, title, "", tip)

    def _number(
        self,
        form: QFormLayout,
        name: str,
        title: str,
        unit: str,
        step: float,
        optional: bool,
        tip: str = "",
        *,
        digits: int = 1,
    ) -> None:
        self._add(
            form, NumberField(title, step=step, optional=optional, digits=digits), name, title, unit, tip
        )

    def _add(
        self, form: QFormLayout, field: NumberField, name: str, title: str, unit: str, tip: str
    ) -> QLabel:
        """Put a field into a form; its ``unit`` stands behind it in the label returned."""
        field.setObjectName(name)
        field.setToolTip(tip)
        field.entered.connect(self._number_entered)
        field.refused.connect(self.refused)
        self._numbers[name] = field
        label = QLabel(unit)
        label.setProperty("role", "soft")
        if not unit:
            form.addRow(title, field)
            return label
        row = QHBoxLayout()
        row.addWidget(field, 1)
        row.addWidget(label)
        form.addRow(title, row)
        return label

    # -- entering -----------------------------------------------------------------------------
    def _text_entered(self) -> None:
        edit = self.sender()
        assert isinstance(edit, QLineEdit)
        if self._cloth is not None and edit.text() != str(_get(self._cloth, edit.objectName())):
            self._enter(edit.objectName(), edit.text())

    def _number_entered(self, value: object) -> None:
        self._enter(self.sender().objectName(), value)

    def _enter(self, name: str, value: object) -> None:
        if self._cloth is None:
            return
        if name.startswith("press."):
            press = self._cloth.press.model_copy(update={name.removeprefix("press."): value})
            self.entered.emit({"press": press})
        else:
            self.entered.emit({name: value})

    def _how(self, index: int) -> None:
        self.entered.emit({"how_known": self.how.itemData(index)})

    def _coated(self, index: int) -> None:
        self.entered.emit({"coated_side": self.coated.itemData(index)})

    def _one_way(self, on: bool) -> None:
        self.entered.emit({"one_way": on})

    def _price(self) -> None:
        text = self.price.text().strip().replace(",", ".")
        if self._cloth is not None and self.price.text() == self._price_text(self._cloth):
            return
        try:
            value = self._lengths.measures.price_per_metre(Decimal(text)) if text else None
            if value is not None and (not value.is_finite() or value < 0):
                raise InvalidOperation
        except InvalidOperation:
            self.refused.emit(translate("Cloth", "“{0}” is not a price").format(text))
            if self._cloth is not None:
                self.show_cloth(self._cloth)
            return
        if self._cloth is not None and value != self._cloth.price_per_m:
            self.entered.emit({"price_per_m": value})

    def _currency(self) -> None:
        text = self.currency.text().strip().upper()
        if self._cloth is not None and text and text != self._cloth.currency:
            self.entered.emit({"currency": text})


def _get(cloth: ClothData, name: str) -> object:
    value: object = cloth
    for part in name.split("."):
        value = getattr(value, part)
    return value


def _heading(column: QVBoxLayout, text: str) -> None:
    label = QLabel(text)
    label.setProperty("role", "heading")
    column.addSpacing(4)
    column.addWidget(label)


def _form(column: QVBoxLayout) -> QFormLayout:
    form = QFormLayout()
    form.setHorizontalSpacing(10)
    form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
    form.setVerticalSpacing(6)
    column.addLayout(form)
    return form
