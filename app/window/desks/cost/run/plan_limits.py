"""The limits and rates of a run plan as they are typed, and what the command and the plan make of them."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QFormLayout, QLabel

from app.defaults.work import WINDOW_PLAN_SECONDS
from app.plan.job import HEIGHT_DECIDES, PlanJob
from app.style.model import Style
from app.style.orders import for_style
from app.window.widgets.fields import ClothLengthField, LengthField, NumberField
from app.window.widgets.lengths import Lengths
from nesting.planning.run_plan import CuttingTable as CutTable
from nesting.planning.run_plan import Rates

translate = QCoreApplication.translate

STARTS = {"setup": 0.0, "spreading": 0.0, "cutting": 0.0, "seconds": WINDOW_PLAN_SECONDS.value}
"""What the fields begin with. The table and the plies are the workshop's and are asked for, as the command does."""


class PlanLimits:
    """A field for each option of the ``plan`` command, by its name, and the ``form`` they stand in."""

    def __init__(self, lengths: Lengths) -> None:
        self._lengths = lengths
        titles = self._titles()
        spreading, cutting = (
            ClothLengthField(titles[name], lengths, step=step, digits=digits, rate=True)
            for name, step, digits in (("spreading", 0.01, 3), ("cutting", 0.1, 2))
        )
        self.fields: dict[str, NumberField] = {
            "table": LengthField(titles["table"], lengths, step_mm=100.0, digits=0, optional=True),
            "plies": NumberField(titles["plies"], digits=0, optional=True),
            "setup": NumberField(titles["setup"], digits=2),
            "spreading": spreading,
            "cutting": cutting,
            "seconds": NumberField(titles["seconds"], step=30.0, digits=0),
        }
        self.form = QFormLayout()
        self.form.setLabelAlignment(Qt.AlignmentFlag.AlignLeft)
        for name, field in self.fields.items():
            field.set_value(STARTS.get(name))
            field.setMinimumWidth(88)
            field.setMaximumWidth(92)
            self.form.addRow(field.accessibleName(), field)

    def _titles(self) -> dict[str, str]:
        yards = self._lengths.measures.length_unit == "yd"
        return {
            "table": translate("Cost", "Table length"),
            "plies": translate("Cost", "Maximum plies"),
            "setup": translate("Cost", "Set-up cost per lay"),
            "spreading": translate("Cost", "Spreading cost per ply-yard")
            if yards
            else translate("Cost", "Spreading cost per ply-metre"),
            "cutting": translate("Cost", "Cutting cost per lay-yard")
            if yards
            else translate("Cost", "Cutting cost per lay-metre"),
            "seconds": translate("Cost", "Seconds for the plan"),
        }

    def relook(self) -> None:
        """The unit of display changed."""
        for name, title in self._titles().items():
            field = self.fields[name]
            field.setAccessibleName(title)
            label = self.form.labelForField(field)
            assert isinstance(label, QLabel)
            label.setText(title)
            field.set_value(field.value)

    @property
    def seconds(self) -> float:
        """How long the plan may take."""
        return self.fields["seconds"].value or STARTS["seconds"]

    def missing(self, style: Style) -> str:
        """Return what must be entered first, with the keyboard in its field; '' when nothing is missing."""
        if self.fields["table"].value is None:
            self.fields["table"].setFocus()
            return translate("Cost", "Enter the length of the cutting table first")
        if self.fields["plies"].value is None and not (
            style.rules.max_plies or style.rules.cutting_height_mm
        ):
            self.fields["plies"].setFocus()
            return translate("Cost", "Enter how many plies may be cut at once")
        return ""

    def words(self) -> list[str]:
        """Return the options of the command."""
        words = []
        for name, field in self.fields.items():
            value = STARTS.get(name) if field.value is None else field.value
            words += [] if value is None else [f"--{name}", f"{value:g}"]
        return words

    def job(self, style: Style, pairs: Mapping[str, int]) -> PlanJob:
        """Return the job that the fields and the order say, as the command makes it of its words."""
        value = {name: Decimal(f"{field.value or 0.0:g}") for name, field in self.fields.items()}
        return PlanJob(
            (style,),
            (for_style(dict(pairs), style),),
            CutTable(
                float(value["table"]),
                int(value["plies"]) or style.rules.max_plies or HEIGHT_DECIDES,
                style.rules.end_loss_mm,
            ),
            Rates(Decimal(0), value["setup"], value["spreading"], value["cutting"]),
        )
