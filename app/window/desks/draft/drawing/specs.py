"""The drawing tools' part of the action table."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

from app.window.shell.actions import ActionSpec


def _spec(id: str, text: object, keys: tuple[str, ...], tip: object, *, tool: bool = True) -> ActionSpec:
    return ActionSpec(
        f"draft.{id}",
        "DraftAction",
        str(text),
        "piece",
        keys,
        tip=str(tip),
        checkable=tool,
        section=2 if tool else 3,
        submenu=str(QT_TRANSLATE_NOOP("DraftAction", "Draw")) if tool else "",
    )


DRAW = (
    _spec(
        "draw_cut",
        QT_TRANSLATE_NOOP("DraftAction", "Draw a cut line"),
        ("X",),
        QT_TRANSLATE_NOOP(
            "DraftAction",
            "Click the line across a piece, Enter or a double click ends it; then click the side of the backing that stays",
        ),
    ),
    _spec(
        "draw_region",
        QT_TRANSLATE_NOOP("DraftAction", "Draw a region"),
        ("R",),
        QT_TRANSLATE_NOOP("DraftAction", "A closed shape that a layer of backing stays inside, or outside"),
    ),
    _spec(
        "draw_split",
        QT_TRANSLATE_NOOP("DraftAction", "Split the backing"),
        ("W",),
        QT_TRANSLATE_NOOP(
            "DraftAction", "A line that divides the backing; its parts butt, or overlap by what is typed"
        ),
    ),
    _spec(
        "draw_change",
        QT_TRANSLATE_NOOP("DraftAction", "Change a stretch by hand"),
        ("J",),
        QT_TRANSLATE_NOOP(
            "DraftAction",
            "A line from one point of the backing's outline to another replaces what lies between",
        ),
    ),
    _spec(
        "draw_smooth",
        QT_TRANSLATE_NOOP("DraftAction", "Smooth a stretch"),
        ("Shift+C",),
        QT_TRANSLATE_NOOP(
            "DraftAction",
            "Click two points of the backing's outline: what lies between becomes one smooth curve",
        ),
    ),
    _spec(
        "draw_notch",
        QT_TRANSLATE_NOOP("DraftAction", "Set a notch"),
        ("Q",),
        QT_TRANSLATE_NOOP("DraftAction", "Click an edge: a notch on upper and backing"),
    ),
    _spec(
        "draw_drill",
        QT_TRANSLATE_NOOP("DraftAction", "Set a drill hole"),
        ("Y",),
        QT_TRANSLATE_NOOP("DraftAction", "Click inside a piece: a hole on upper and backing"),
    ),
    _spec(
        "draw_slit",
        QT_TRANSLATE_NOOP("DraftAction", "Draw a slit"),
        ("I",),
        QT_TRANSLATE_NOOP("DraftAction", "A line that is cut inside the piece, on the backing or the upper"),
    ),
    _spec(
        "draw_mark",
        QT_TRANSLATE_NOOP("DraftAction", "Draw a mark"),
        ("Shift+I",),
        QT_TRANSLATE_NOOP("DraftAction", "A line that is drawn and not cut, on the upper or the backing"),
    ),
    _spec(
        "new_rectangle",
        QT_TRANSLATE_NOOP("DraftAction", "New piece: rectangle"),
        ("T",),
        QT_TRANSLATE_NOOP(
            "DraftAction",
            "Drag from corner to corner or type the sides: an upper, or a backing without upper",
        ),
    ),
    _spec(
        "new_shape",
        QT_TRANSLATE_NOOP("DraftAction", "New piece: free shape"),
        ("Shift+O",),
        QT_TRANSLATE_NOOP(
            "DraftAction",
            "Click its corners, or type each step; Enter or a click on the first corner closes it",
        ),
    ),
    _spec(
        "taper",
        QT_TRANSLATE_NOOP("DraftAction", "Setback from one value to another…"),
        ("Shift+S",),
        QT_TRANSLATE_NOOP("DraftAction", "Along the selected edge, in proportion to its length"),
        tool=False,
    ),
    _spec(
        "beside",
        QT_TRANSLATE_NOOP("DraftAction", "End the backing parallel to the edge…"),
        ("Shift+X",),
        QT_TRANSLATE_NOOP("DraftAction", "On a line parallel to the selected edge, at a distance typed"),
        tool=False,
    ),
    _spec(
        "stay",
        QT_TRANSLATE_NOOP("DraftAction", "Stay along the edge…"),
        ("Shift+R",),
        QT_TRANSLATE_NOOP("DraftAction", "One more layer, of a width typed, along the selected edge"),
        tool=False,
    ),
    _spec(
        "relief",
        QT_TRANSLATE_NOOP("DraftAction", "Relief cuts along the edge…"),
        ("Shift+Q",),
        QT_TRANSLATE_NOOP("DraftAction", "V cuts at a pitch typed, so that a curved fold lies flat"),
        tool=False,
    ),
    _spec(
        "write_word",
        QT_TRANSLATE_NOOP("DraftAction", "Write on the piece…"),
        ("Shift+W",),
        QT_TRANSLATE_NOOP(
            "DraftAction", "A word in the middle of the selected piece, on its backing, its upper or both"
        ),
        tool=False,
    ),
    _spec(
        "same_kind",
        QT_TRANSLATE_NOOP("DraftAction", "All edges of this kind"),
        ("Shift+A",),
        QT_TRANSLATE_NOOP("DraftAction", "Select every edge of the piece that is of the kind selected"),
        tool=False,
    ),
    _spec(
        "break_corners",
        QT_TRANSLATE_NOOP("DraftAction", "Break at corners…"),
        ("Shift+B",),
        QT_TRANSLATE_NOOP("DraftAction", "End edges at every corner that turns by more than an angle typed"),
        tool=False,
    ),
    _spec(
        "join",
        QT_TRANSLATE_NOOP("DraftAction", "One backing for two pieces…"),
        ("Shift+J",),
        QT_TRANSLATE_NOOP(
            "DraftAction", "The backing runs on over the seam to a piece that lies against this one"
        ),
        tool=False,
    ),
    _spec(
        "take_back",
        QT_TRANSLATE_NOOP("DraftAction", "Remove what was drawn…"),
        ("Shift+Backspace",),
        QT_TRANSLATE_NOOP(
            "DraftAction", "A cut, region, split, change, join, layer, notch or mark of the selected piece"
        ),
        tool=False,
    ),
)
DRAW_MODES = ("cut", "region", "split", "change", "smooth", "notch", "drill", "slit", "mark")
SHAPE_MODES = ("rectangle", "shape")
