"""Icons drawn for this program: one stroke in ink, and one stitched stroke in the accent.

Each is a few SVG paths on a 24 x 24 grid. A path after a leading '*' is stitched (dashed, in the
accent), one after '.' is filled.
"""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from app.window.widgets.theme import Theme, theme

SHAPES: dict[str, tuple[str, ...]] = {
    # desks
    "draft": ("M4 18C4 10 10 5 20 5C20 13 15 19 4 18Z", "*M8 15.5C8.5 11.5 12 8.5 17 8"),
    "cloth": ("M6 5H20V17H6", "M6 5A2.5 6 0 1 0 6 17A2.5 6 0 1 0 6 5Z", "*M10 11H20"),
    "lay": ("M3 5H21V19H3Z", "M6 16C6 11 9 8 13 8C13 12 10 16 6 16Z", "*M18 8C18 13 15.5 15.5 12.5 16"),
    "cost": ("M4 20H20", "M6.5 20V13H9.5V20M14.5 20V7H17.5V20", "*M4 10L10 8L14 4L20 5"),
    # files
    "new": ("M6 3H14L18 7V21H6Z", "*M9 14C9 11 11 9.5 15 9.5C15 13 12.5 15 9 14Z"),
    "open": ("M3 19V6H9L11 8H19V11", "M3 19L6 11H22L19 19Z", "*M8.5 15H16.5"),
    "save": ("M4 4H17L20 7V20H4Z", "M8 4V9H15V4", "*M7.5 15H16.5"),
    "print": ("M7 9V3H17V9", "M7 17H4V9H20V17H17", "M7 14H17V21H7Z", "*M9.5 17.5H14.5"),
    "undo": ("M8 5L4 9L8 13", "M4 9H14A5 5 0 0 1 14 19H9"),
    "redo": ("M16 5L20 9L16 13", "M20 9H10A5 5 0 0 0 10 19H15"),
    # looking
    "fit": ("M4 9V4H9M15 4H20V9M20 15V20H15M9 20H4V15", "*M8.5 12H15.5"),
    "fit-piece": ("M4 9V4H9M15 4H20V9M20 15V20H15M9 20H4V15", ".M12 9A3 3 0 1 0 12 15A3 3 0 1 0 12 9Z"),
    "zoom-in": ("M10 4A6 6 0 1 0 10 16A6 6 0 1 0 10 4Z", "M14.5 14.5L20 20", "M7 10H13M10 7V13"),
    "zoom-out": ("M10 4A6 6 0 1 0 10 16A6 6 0 1 0 10 4Z", "M14.5 14.5L20 20", "M7 10H13"),
    "flip": ("M10 5L3 12L10 19Z", ".M14 5L21 12L14 19Z", "*M12 3V21"),
    "solo": ("M5 12C5 8 9 6 14 6C16 11 12 17 7 17C5.5 16 5 14 5 12Z", "*M18 5L20.5 3M19 10H22M17.5 16L20 18"),
    "overlay": ("M4 15C4 9 8 6 14 6C14 12 10 16 4 15Z", "*M8 19C8 12 13 8.5 21 8.5C21 16 16 20 8 19Z"),
    # tools
    "select": ("M6 3L18 13L12.5 13.8L15.5 20L13 21L10 14.8L6 18Z",),
    "sweep": ("M4 17C7 8 13 5 20 5", "*M4 20.5C9 20.5 16 17 20 10"),
    "break": (
        "M3 16C8 16 9 12 12 12C15 12 16 8 21 8",
        ".M12 9.6A2.4 2.4 0 1 0 12 14.4A2.4 2.4 0 1 0 12 9.6Z",
    ),
    "press": ("M4 3H20V7H4Z", "M12 7V11", "*M6 20C6 15 8 12 12 12C16 12 18 15 18 20Z"),
    "setbacks": (
        "M4 5C11 5 19 11 20 20",
        "*M4 11.5C8.5 11.5 13 15 13.5 20",
        "M10.5 6.8L8 12.2M15.5 11L11.5 14.6",
    ),
    "axis": ("M4 20L20 4M15 4H20V9M9 20H4V15",),
    "hold": ("M4 7V17M20 7V17", "M4 12H20", "*M8 8H16M8 16H16"),
    "measure": ("M3 15L15 3L21 9L9 21Z", "M7 11L9 13M10 8L13 11M13 5L15 7"),
    "confirm": ("M4 12.5L9.5 18L20 6",),
    "confirm-all": ("M2.5 12.5L7 17L15 7", "M11 16L12 17L21.5 6.5"),
    "mirror": (
        "M9 6C5 7 3.5 11 4 17C7 17 9 15 9 12Z",
        "*M12 3V21",
        "M15 6C19 7 20.5 11 20 17C17 17 15 15 15 12Z",
    ),
    "fill": ("M3 5H21V19H3Z", ".M8 8.5L15 12L8 15.5Z", "*M17.5 5V19"),
    "turn": ("M5 13A7 7 0 0 1 19 11", "M19 5V11H13", "*M19 14A7 7 0 0 1 6 17"),
    "pin": ("M9 4H15L14 11L17 14H7L10 11Z", "M12 14V20"),
    "lock": ("M5 11H19V20H5Z", "M8 11V8A4 4 0 0 1 16 8V11", "*M12 14V17"),
    "lift": ("M4 19H20", "M12 15V5M8 9L12 5L16 9"),
    "swap": ("M4 9H18L14.5 5.5", "M20 15H6L9.5 18.5"),
    "slide-left": ("M4 4V20", "M20 12H8M12.5 7.5L8 12L12.5 16.5"),
    "slide-right": ("M20 4V20", "M4 12H16M11.5 7.5L16 12L11.5 16.5"),
    "slide-up": ("M4 4H20", "M12 20V8M7.5 12.5L12 8L16.5 12.5"),
    "slide-down": ("M4 20H20", "M12 4V16M7.5 11.5L12 16L16.5 11.5"),
    # things
    "note": (
        "M12 3.5A8.5 8.5 0 1 0 12 20.5A8.5 8.5 0 1 0 12 3.5Z",
        "M12 11V16.5",
        ".M12 6.6A1.2 1.2 0 1 0 12 9A1.2 1.2 0 1 0 12 6.6Z",
    ),
    "warning": ("M12 4L21 19.5H3Z", "M12 10V14.5", ".M12 15.8A1 1 0 1 0 12 17.8A1 1 0 1 0 12 15.8Z"),
    "question": (
        "M5 4H19V16H13L9 20V16H5Z",
        "M9.8 8.6A2.3 2.3 0 1 1 12.6 11V12",
        ".M12.6 12.8A.9 .9 0 1 0 12.6 14.6A.9 .9 0 1 0 12.6 12.8Z",
    ),
    "error": ("M8 3.5H16L20.5 8V16L16 20.5H8L3.5 16V8Z", "M9 9L15 15M15 9L9 15"),
    "stop": ("M6 6H18V18H6Z", "*M9.5 12H14.5"),
    "copy": ("M8 8H20V20H8Z", "M16 8V4H4V16H8", "*M11 14H17"),
    "add": ("M12 5V19M5 12H19",),
    "remove": ("M5 12H19",),
    "flaw": ("M4 8C7 3 17 3 20 8C22 13 18 20 12 20C6 20 2 13 4 8Z", "*M9 9L15 15M15 9L9 15"),
    "keys": ("M3 6H21V18H3Z", "M6.5 9.5H8M11 9.5H12.5M15.5 9.5H17.5M6.5 14.5H17.5"),
    "trace": ("M3 5H8L9.5 3H14.5L16 5H21V19H3Z", "*M7 15C7 11 10 8.5 16 8.5C16 12.5 12.5 16 7 15Z"),
    "tour": ("M5 20V4L19 8L5 12", "*M9 16C13 14 17 16 20 13"),
}


def icon_svg(name: str, ink: str, accent: str, fill: str | None = None) -> bytes:
    """Return the SVG of an icon in the given colours."""
    parts = []
    for shape in SHAPES[name]:
        if shape[0] == "*":
            parts.append(
                f'<path d="{shape[1:]}" fill="none" stroke="{accent}" stroke-width="1.7" '
                'stroke-linecap="round" stroke-dasharray="2.6 2.4"/>'
            )
        elif shape[0] == ".":
            parts.append(f'<path d="{shape[1:]}" fill="{fill or ink}"/>')
        else:
            parts.append(
                f'<path d="{shape}" fill="none" stroke="{ink}" stroke-width="1.5" '
                'stroke-linecap="round" stroke-linejoin="round"/>'
            )
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24">{"".join(parts)}</svg>'.encode()


@lru_cache(maxsize=1024)
def icon_pixmap(name: str, size_px: int, ink: str, accent: str, ratio: float = 1.0) -> QPixmap:
    """Return an icon as a pixmap of ``size_px`` at a device pixel ratio."""
    pixmap = QPixmap(round(size_px * ratio), round(size_px * ratio))
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    QSvgRenderer(QByteArray(icon_svg(name, ink, accent))).render(painter, QRectF(pixmap.rect()))
    painter.end()
    pixmap.setDevicePixelRatio(ratio)
    return pixmap


def icon(name: str, colours: Theme | None = None, role: str = "ink") -> QIcon:
    """Return an icon in the theme's colours (sharp at 1x, 2x and 3x)."""
    t = colours or theme()
    made = QIcon()
    for ratio in (1.0, 2.0, 3.0):
        made.addPixmap(icon_pixmap(name, 20, getattr(t, role), t.accent, ratio))
        made.addPixmap(icon_pixmap(name, 20, t.ink_faint, t.ink_faint, ratio), QIcon.Mode.Disabled)
    return made
