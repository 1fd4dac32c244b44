"""What the program is, under which licence, and whose authority its figures do not have."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QMessageBox, QWidget

from app.cautions import AUTHORITY
from app.window.wording.words import paper_language

translate = QCoreApplication.translate


def show_about(parent: QWidget) -> None:
    """Show it in a box."""
    QMessageBox.about(
        parent,
        "stayply",
        translate(
            "Shell",
            "Draft, grade, lay and cost the fabric that backs a shoe upper.\n\n"
            "Free software under the MIT licence. Uses Qt through PySide6 under the LGPL, and ezdxf, "
            "shapely, numpy, scipy, pydantic, openpyxl and reportlab under their own licences.",
        )
        + "\n\n"
        + str(getattr(AUTHORITY, paper_language())),
    )
