"""The layout of a strip above the board: two rows, since all in one would not go into a narrow window."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget


def two_rows(strip: QWidget) -> tuple[QHBoxLayout, QHBoxLayout]:
    """Give a strip its two rows and return them."""
    rows = QVBoxLayout(strip)
    rows.setContentsMargins(10, 2, 10, 4)
    rows.setSpacing(3)
    made = QHBoxLayout(), QHBoxLayout()
    for row in made:
        row.setSpacing(6)
        rows.addLayout(row)
    return made
