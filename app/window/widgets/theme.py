"""The look of the window: two own palettes (day, night), fonts, and the style sheet.

Leather is warm, cloth is cool: uppers are filled in a tan, backings in a blue-grey, and the one
accent (indigo) is kept for what is selected or active. docs/window.md shows the colours.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication


@dataclass(frozen=True)
class Theme:
    """Colours by role, as #rrggbb."""

    name: str
    dark: bool
    canvas: str
    grid: str
    grid_strong: str
    panel: str
    panel_deep: str
    field: str
    line: str
    ink: str
    ink_soft: str
    ink_faint: str
    accent: str
    accent_ink: str
    accent_soft: str
    leather: str
    leather_line: str
    cloth: str
    cloth_line: str
    note: str
    warning: str
    question: str
    error: str
    good: str

    def colour(self, role: str, alpha: int = 255) -> QColor:
        """Return the colour of a role, with ``alpha`` 0..255."""
        colour = QColor(getattr(self, role))
        colour.setAlpha(alpha)
        return colour


DAY = Theme(
    name="day",
    dark=False,
    canvas="#fbfaf7",
    grid="#efece5",
    grid_strong="#e2ddd2",
    panel="#f3f0ea",
    panel_deep="#e9e5dc",
    field="#fffefc",
    line="#d5cfc3",
    ink="#24272e",
    ink_soft="#5a5e68",
    ink_faint="#8b8d94",
    accent="#3a4fb0",
    accent_ink="#ffffff",
    accent_soft="#dfe3f6",
    leather="#d9b48a",
    leather_line="#8a6a45",
    cloth="#7f97b2",
    cloth_line="#2f4a68",
    note="#4a6a8a",
    warning="#a8620a",
    question="#7a3f9d",
    error="#b3261e",
    good="#2a7a4b",
)

NIGHT = Theme(
    name="night",
    dark=True,
    canvas="#1b1d22",
    grid="#23262c",
    grid_strong="#2f333b",
    panel="#24272d",
    panel_deep="#1e2026",
    field="#16181c",
    line="#3b3f48",
    ink="#e9e6df",
    ink_soft="#b0aea8",
    ink_faint="#7f7f80",
    accent="#8ea2ff",
    accent_ink="#12141c",
    accent_soft="#333b63",
    leather="#a5835b",
    leather_line="#d2ab7c",
    cloth="#6f8bab",
    cloth_line="#a9c6e6",
    note="#8fb4d8",
    warning="#e5a54b",
    question="#c79be6",
    error="#ff8a80",
    good="#7fcf9f",
)

_current = DAY
ASSETS = Path(__file__).parents[1] / "assets"


def theme() -> Theme:
    """Return the theme in force."""
    return _current


def ui_font(points: float = 10.0, *, bold: bool = False) -> QFont:
    """Return the interface font: the system's, or a narrower cut where the default is very wide."""
    font = QFont(QApplication.font())
    if QFontDatabase.systemFont(QFontDatabase.SystemFont.GeneralFont).family() in (
        "DejaVu Sans",
        "Sans Serif",
    ):
        font.setFamilies(
            ["Inter", "Noto Sans", "Source Sans 3", "Open Sans", "DejaVu Sans Condensed", "DejaVu Sans"]
        )
    font.setPointSizeF(points)
    font.setBold(bold)
    return font


def apply_theme(app: QApplication, chosen: Theme) -> None:
    """Put ``chosen`` in force: Fusion, our palette, our style sheet."""
    global _current
    _current = chosen
    app.setStyle("Fusion")
    app.setFont(ui_font(9.5))
    app.setPalette(_palette(chosen))
    app.setStyleSheet(_sheet(chosen))


def _palette(t: Theme) -> QPalette:
    palette = QPalette()
    role = QPalette.ColorRole
    for key, value in (
        (role.Window, t.panel),
        (role.WindowText, t.ink),
        (role.Base, t.field),
        (role.AlternateBase, t.panel),
        (role.Text, t.ink),
        (role.PlaceholderText, t.ink_faint),
        (role.Button, t.panel),
        (role.ButtonText, t.ink),
        (role.BrightText, t.error),
        (role.Highlight, t.accent),
        (role.HighlightedText, t.accent_ink),
        (role.Link, t.accent),
        (role.ToolTipBase, t.field),
        (role.ToolTipText, t.ink),
        (role.Light, t.field),
        (role.Midlight, t.panel),
        (role.Mid, t.line),
        (role.Dark, t.line),
        (role.Shadow, t.ink_faint),
    ):
        palette.setColor(key, QColor(value))
    for key in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, key, QColor(t.ink_faint))
    return palette


def _sheet(t: Theme) -> str:
    check = (ASSETS / f"check-{t.name}.svg").as_posix()
    arrow = (ASSETS / f"chevron-{t.name}.svg").as_posix()
    return f"""
    QDialogButtonBox {{ dialogbuttonbox-buttons-have-icons: 0; }}
    QMainWindow, QDialog {{ background: {t.panel}; }}
    QMenuBar {{ background: {t.panel_deep}; padding: 1px 6px; }}
    QMenuBar::item {{ padding: 4px 9px; border-radius: 4px; background: transparent; }}
    QMenuBar::item:selected {{ background: {t.accent_soft}; }}
    QMenu {{ background: {t.field}; border: 1px solid {t.line}; padding: 4px; }}
    QMenu::item {{ padding: 5px 26px 5px 24px; border-radius: 4px; }}
    QMenu::item:selected {{ background: {t.accent_soft}; color: {t.ink}; }}
    QMenu::item:disabled {{ color: {t.ink_faint}; }}
    QMenu::separator {{ height: 1px; background: {t.line}; margin: 4px 8px; }}
    QStatusBar {{ background: {t.panel_deep}; color: {t.ink_soft}; }}
    QStatusBar::item {{ border: 0; }}
    QToolTip {{ background: {t.field}; color: {t.ink}; border: 1px solid {t.line}; padding: 5px; }}
    QSplitter::handle {{ background: {t.line}; }}
    QSplitter::handle:horizontal {{ width: 1px; }}
    QSplitter::handle:vertical {{ height: 1px; }}
    QListView, QTreeView, QTableView, QPlainTextEdit, QTextBrowser {{
        background: {t.field}; border: 1px solid {t.line}; border-radius: 5px; outline: 0; }}
    QListView::item:selected, QTreeView::item:selected, QTableView::item:selected {{
        background: {t.accent_soft}; color: {t.ink}; }}
    QHeaderView::section {{ background: {t.panel}; color: {t.ink_soft}; border: 0;
        border-bottom: 1px solid {t.line}; padding: 4px 6px; }}
    QLineEdit, QComboBox, QAbstractSpinBox {{ background: {t.field}; border: 1px solid {t.line};
        border-radius: 5px; padding: 3px 6px; min-height: 18px;
        selection-background-color: {t.accent}; selection-color: {t.accent_ink}; }}
    QLineEdit:focus, QComboBox:focus, QAbstractSpinBox:focus {{ border: 1px solid {t.accent}; }}
    QLineEdit:disabled, QComboBox:disabled {{ color: {t.ink_faint}; background: {t.panel}; }}
    QCheckBox::indicator, QTableView::indicator, QListView::indicator {{ width: 13px; height: 13px;
        background: {t.field}; border: 1px solid {t.ink_faint}; border-radius: 3px; }}
    QCheckBox::indicator:checked, QTableView::indicator:checked, QListView::indicator:checked {{
        image: url({check}); }}
    QCheckBox::indicator:focus {{ border: 1px solid {t.accent}; }}
    QAbstractSpinBox::up-button, QAbstractSpinBox::down-button {{ width: 0; border: 0; }}
    QComboBox::drop-down {{ border: 0; width: 18px; }}
    QComboBox::down-arrow {{ image: url({arrow}); width: 12px; height: 12px; }}
    QComboBox QAbstractItemView {{ background: {t.field}; border: 1px solid {t.line};
        selection-background-color: {t.accent_soft}; selection-color: {t.ink}; }}
    QPushButton {{ background: {t.field}; border: 1px solid {t.line}; border-radius: 5px;
        padding: 4px 12px; min-height: 18px; }}
    QPushButton:hover {{ border-color: {t.ink_faint}; }}
    QPushButton:pressed {{ background: {t.panel_deep}; }}
    QPushButton:focus {{ border: 1px solid {t.accent}; }}
    QPushButton:default {{ background: {t.accent}; color: {t.accent_ink}; border-color: {t.accent}; }}
    QPushButton:disabled {{ color: {t.ink_faint}; background: {t.panel}; }}
    QToolButton {{ background: transparent; border: 1px solid transparent; border-radius: 5px; padding: 3px; }}
    QToolButton[role="worded"] {{ background: {t.field}; border-color: {t.line}; padding: 4px 10px; }}
    QToolButton[role="worded"]:disabled {{ color: {t.ink_faint}; background: {t.panel}; }}
    QToolButton:hover, QToolButton[role="worded"]:hover {{ background: {t.panel_deep}; }}
    QToolButton:checked, QToolButton[role="worded"]:checked {{ background: {t.accent_soft};
        border-color: {t.accent}; }}
    QToolButton:focus, QToolButton[role="worded"]:focus {{ border-color: {t.accent}; }}
    QListWidget::item {{ padding: 7px 12px; }}
    QScrollBar:vertical {{ background: transparent; width: 10px; margin: 0; }}
    QScrollBar:horizontal {{ background: transparent; height: 10px; margin: 0; }}
    QScrollBar::handle {{ background: {t.line}; border-radius: 4px; min-height: 24px; min-width: 24px;
        margin: 2px; }}
    QScrollBar::handle:hover {{ background: {t.ink_faint}; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
    QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
    QLabel[role="heading"] {{ color: {t.ink_soft}; font-weight: 600; letter-spacing: 0.4px; }}
    QLabel[role="soft"] {{ color: {t.ink_soft}; }}
    QFrame[role="card"] {{ background: {t.field}; border: 1px solid {t.line}; border-radius: 8px; }}
    QFrame[role="panel"] {{ background: {t.panel}; }}
    """
