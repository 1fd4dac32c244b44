"""Fields for lengths and angles: typed with point or comma, in mm or inch, stepped by arrow keys."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QAbstractItemView, QApplication, QLineEdit

from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths, read_number
from app.window.widgets.theme import theme

translate = QCoreApplication.translate


class TextField(QLineEdit):
    """A line of text whose Enter, Escape and arrows are its own, not the window's short cuts.

    ``done``: Enter or Escape was pressed; the desk takes the keyboard back to its board.
    """

    done = Signal()

    OWN_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape, Qt.Key.Key_Up, Qt.Key.Key_Down)

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.ShortcutOverride:
            plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
            if plain and event.key() in self.OWN_KEYS:
                event.accept()
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        super().keyPressEvent(event)
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape):
            self.done.emit()


class NumberField(TextField):
    """A number, possibly empty. ``entered`` carries the new float, or None for an emptied field.

    Enter or leaving the field enters it; Escape takes the typing back; arrow keys step it.
    A text that is not a number is refused: the field keeps its value and says so.
    """

    entered = Signal(object)
    refused = Signal(str)

    def __init__(self, name: str, *, step: float = 1.0, optional: bool = False, digits: int = 1) -> None:
        super().__init__()
        self._value: float | None = None
        self._shown = ""
        self._step, self._optional, self._digits = step, optional, digits
        self.setAccessibleName(name)
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.editingFinished.connect(self.enter)

    def set_value(self, value: float | None) -> None:
        """Show a value without entering it."""
        self._value = value
        self._shown = "" if value is None else self.to_text(value)
        if self.text() != self._shown:
            self.setText(self._shown)

    @property
    def value(self) -> float | None:
        """The value last shown or entered."""
        return self._value

    def to_text(self, value: float) -> str:
        """Return a value as it is shown."""
        text = f"{value:.{self._digits}f}"
        return localised(text.rstrip("0").rstrip(".") if "." in text else text)

    def from_text(self, text: str) -> float | None:
        """Return the value of a text, None if it is none."""
        return read_number(text.rstrip("°").strip())

    def enter(self) -> None:
        """Enter what stands typed, as leaving the field does.

        A button that reads the field asks for this first: on macOS a click gives a button no focus, so the
        field is not left.
        """
        text = self.text().strip()
        if text == self._shown:
            return
        value = self.from_text(text) if text else None
        if value is None and (text or not self._optional):
            self.refused.emit(translate("Field", "“{0}” is not a number").format(text))
            self.setText(self._shown)
            return
        self.set_value(value)
        self.entered.emit(value)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Up: 1, Qt.Key.Key_Down: -1}.get(Qt.Key(event.key()), 0)
        if step:
            fine = 0.2 if event.modifiers() & Qt.KeyboardModifier.ControlModifier else 1.0
            value = self.from_text(self.text()) if self.text().strip() else self._value
            base = value if value is not None else self.stepping_base()
            new = round(base + step * self._step * fine, 6)
            self.set_value(new)
            self.entered.emit(new)
        elif event.key() == Qt.Key.Key_Escape and self.text() != self._shown:
            self.setText(self._shown)
        else:
            super().keyPressEvent(event)

    def stepping_base(self) -> float:
        """Return where stepping starts when the field is empty."""
        return self.from_text(self.placeholderText()) or 0.0

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()  # the wheel scrolls the panel; it must not change numbers unasked


UNIT_FROM_PX = 88
"""A length field at least so wide letters its unit; in a narrower one the figure needs the room."""


class LengthField(NumberField):
    """A length: shown in the unit of display, which stands behind it where there is room; its value in mm."""

    def __init__(
        self,
        name: str,
        lengths: Lengths,
        *,
        step_mm: float = 0.5,
        optional: bool = False,
        digits: int = 1,
        on_entered: Callable[[object], None] | None = None,
    ) -> None:
        super().__init__(name, step=step_mm, optional=optional, digits=digits)
        self._lengths = lengths
        if on_entered is not None:
            self.entered.connect(on_entered)

    def to_text(self, value: float) -> str:
        return self._lengths.short(value, self._digits)

    def from_text(self, text: str) -> float | None:
        return self._lengths.read_mm(text)

    def relook(self) -> None:
        """Show the value again, after the unit of display changed."""
        self.set_value(self._value)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        room = self.fontMetrics().horizontalAdvance("mm") + 4 if self.width() >= UNIT_FROM_PX else 0
        if self.textMargins().right() != room:
            self.setTextMargins(0, 0, room, 0)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.textMargins().right():
            painter = QPainter(self)
            painter.setPen(theme().colour("ink_soft" if self.isEnabled() else "ink_faint"))
            at = self.rect().adjusted(0, 0, -8, 0)
            painter.drawText(
                at, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, self._lengths.unit.value
            )


class ClothLengthField(NumberField):
    """A length of cloth: its value in metres, shown in metres, or in yards beside inches.

    With ``rate`` it is what is paid per metre: a yard costs less.
    """

    def __init__(
        self,
        name: str,
        lengths: Lengths,
        *,
        step: float = 1.0,
        optional: bool = False,
        digits: int = 1,
        rate: bool = False,
    ) -> None:
        super().__init__(name, step=step, optional=optional, digits=digits)
        self._lengths, self._rate = lengths, rate

    def _times(self) -> float:
        yard_m = float(self._lengths.measures.length_unit_m)
        return yard_m if self._rate else 1.0 / yard_m

    def to_text(self, value: float) -> str:
        return super().to_text(value * self._times())

    def from_text(self, text: str) -> float | None:
        typed = super().from_text(text)
        return None if typed is None else round(typed / self._times(), 6)


def enter_typed() -> None:
    """Enter what is being typed: an action called by its key or from the tool bar does not leave the field."""
    field = QApplication.focusWidget()
    if not isinstance(field, QLineEdit):
        return
    around = field.parentWidget()
    if around is not None and isinstance(around.parentWidget(), QAbstractItemView):
        field.clearFocus()  # the editor of a cell hands over its text and closes
    else:
        field.editingFinished.emit()
