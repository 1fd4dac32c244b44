"""An order with sizes that the style does not have: they are offered to be added."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QApplication, QMainWindow, QMessageBox

from app.style.model import Style
from app.style.whole.sizes import add_sizes, missing_sizes

translate = QCoreApplication.translate


def with_sizes_offered(style: Style, pairs: Mapping[str, int]) -> Style:
    """Return the style, with the sizes of an order that it lacks where the person wants them added.

    Raises SizeError and EditError when such a size cannot be graded.
    """
    missing = missing_sizes(style, [size for size, count in pairs.items() if count])
    if not missing:
        return style
    windows = (w for w in QApplication.topLevelWidgets() if isinstance(w, QMainWindow) and w.isVisible())
    box = QMessageBox(next(windows, None))
    box.setIcon(QMessageBox.Icon.Question)
    box.setWindowTitle(translate("Sizes", "Sizes of the order"))
    box.setText(
        translate("Sizes", "The order has sizes that {0} lacks: {1}.").format(style.name, ", ".join(missing))
    )
    box.setInformativeText(translate("Sizes", "Add them? They are graded from the base size."))
    yes = box.addButton(translate("Sizes", "Add the sizes"), QMessageBox.ButtonRole.AcceptRole)
    box.addButton(QMessageBox.StandardButton.Cancel)
    box.exec()
    added = box.clickedButton() is yes
    box.deleteLater()
    return add_sizes(style, ",".join(missing)) if added else style
