"""The lettering of all papers: one embedded typeface, measured the same for every format.

Source Sans Pro (SIL Open Font License 1.1) comes with a package of its own and covers Latin,
Greek, Cyrillic and Vietnamese. A character it lacks is never dropped: it is shown as its code
point in angle brackets, as <U+5C0F>, on every paper alike.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from pathlib import Path

import font_source_sans_pro
import numpy as np
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from app.papers.formats.drawing import Box, Drawing, Text
from app.words import lettered
from geometry.outline import rotation

REGULAR = "SourceSansPro"
BOLD = "SourceSansPro-Bold"

CAP_HEIGHT = 0.66
"""Height of a capital over the font size (the typeface's own cap height, 660 of 1000 units)."""


@cache
def _font(name: str) -> TTFont:
    folder = Path(font_source_sans_pro.font_directory)
    file = "SourceSansPro-Bold.ttf" if name == BOLD else "SourceSansPro-Regular.ttf"
    font = TTFont(name, str(folder / file))
    pdfmetrics.registerFont(font)
    return font


def font_name(bold: bool) -> str:
    """Return the PDF name of the typeface, registered."""
    name = BOLD if bold else REGULAR
    _font(name)
    return name


def tidy(text: str) -> str:
    """Return ``text`` in one line, composed, without the control characters no file may hold."""
    line = unicodedata.normalize("NFC", " ".join(text.split()))
    return "".join(char for char in line if not unicodedata.category(char).startswith("C"))


def shown(text: str) -> str:
    """Return ``text`` as the papers can show it; what the typeface lacks becomes <U+XXXX>."""
    covered = _font(REGULAR).face.charWidths
    return "".join(char if ord(char) in covered else f"<U+{ord(char):04X}>" for char in tidy(text))


def plain(text: str) -> str:
    """Return ``text`` in the letters a plotter draws: ASCII, accents dropped, others <U+XXXX>."""
    out = []
    for char in unicodedata.normalize("NFKD", tidy(text).translate(_PLAIN)):
        if " " <= char <= "~":
            out.append(char)
        elif not unicodedata.combining(char):
            out.append(f"<U+{ord(char):04X}>")
    return "".join(out)


_PLAIN = str.maketrans(
    {"·": "-", "–": "-", "—": "-", "−": "-", "×": "x", "°": " deg", "±": "+/-", "ß": "ss", "ø": "o"}
    | {"Ø": "O", "æ": "ae", "Æ": "AE", "œ": "oe", "ł": "l", "Ł": "L", "ı": "i", "đ": "d", "Đ": "D"}
    | {"’": "'", "‘": "'", "“": '"', "”": '"', "→": "->", "≤": "<=", "≥": ">=", "µ": "u"}
)


_BREAK = re.compile(r"(?<!\d) | (?!(?:%|°|mm|cm|m|N/mm|s|min|kg|g|bar|yd|in|€|EUR)(?!\w))")
"""Where a line may end."""


def width_mm(text: str, size_mm: float, *, bold: bool = False) -> float:
    """Return how wide a line of lettering is."""
    return _wide(lettered(text), size_mm, bold)


def _wide(text: str, size_mm: float, bold: bool) -> float:
    return float(pdfmetrics.stringWidth(shown(text), font_name(bold), size_mm))


def fitted(text: str, size_mm: float, room_mm: float, *, bold: bool = False) -> str:
    """Return ``text``, shortened with an ellipsis where it is wider than the room."""
    text = shown(lettered(text))
    if _wide(text, size_mm, bold) <= room_mm:
        return text
    while text and _wide(text + "…", size_mm, bold) > room_mm:
        text = text[:-1]
    return text.rstrip() + "…"


def wrapped(text: str, size_mm: float, room_mm: float, *, bold: bool = False) -> list[str]:
    """Return ``text`` broken into lines no wider than the room; no figure is parted from its unit."""
    lines: list[str] = []
    line = ""
    for word in _BREAK.split(shown(lettered(text))):
        longer = f"{line} {word}" if line else word
        if line and _wide(longer, size_mm, bold) > room_mm:
            lines.append(line)
            line = word
        else:
            line = longer
    return [*lines, line]


def extent_mm(drawing: Drawing) -> Box:
    """Return the extent of a drawing with its lettering; zeros if it is empty."""
    boxes = [] if not drawing.marks else [drawing.bounds_mm()]
    if boxes == [(0.0, 0.0, 0.0, 0.0)]:
        boxes = []
    for mark in drawing.walk():
        if isinstance(mark, Text):
            boxes.append(text_box(mark))
    if not boxes:
        return 0.0, 0.0, 0.0, 0.0
    low, high = np.array(boxes)[:, :2].min(axis=0), np.array(boxes)[:, 2:].max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def text_box(mark: Text) -> Box:
    """Return the upright box around one line of lettering."""
    wide = width_mm(mark.text, mark.size_mm, bold=mark.bold)
    start = {"left": 0.0, "middle": -wide / 2.0, "right": -wide}[mark.anchor]
    low, high = -0.22 * mark.size_mm, 0.75 * mark.size_mm
    corners = np.array([(start, low), (start + wide, low), (start + wide, high), (start, high)])
    corners = corners @ rotation(mark.angle_deg).T + (mark.x_mm, mark.y_mm)
    (x0, y0), (x1, y1) = corners.min(axis=0).tolist(), corners.max(axis=0).tolist()
    return x0, y0, x1, y1
