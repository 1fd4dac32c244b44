"""What keys and menus do with whole pieces, sizes and measures on the draft desk."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

from app.window.shell.actions import ActionSpec


def _spec(id: str, text: object, menu: str, *keys: str, **more: object) -> ActionSpec:
    return ActionSpec(f"draft.{id}", "DraftAction", str(text), menu, keys, **more)  # type: ignore[arg-type]


PAGES = (
    _spec(
        "page_piece", QT_TRANSLATE_NOOP("DraftAction", "Piece"), "look", "Ctrl+1", checkable=True, section=3
    ),
    _spec(
        "page_sizes",
        QT_TRANSLATE_NOOP("DraftAction", "Sizes"),
        "look",
        "Ctrl+2",
        checkable=True,
        section=3,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "System, base size, sizes added and removed, how each comes about"
        ),
    ),
    _spec(
        "page_measures",
        QT_TRANSLATE_NOOP("DraftAction", "Measures"),
        "look",
        "Ctrl+3",
        checkable=True,
        section=3,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "Lengths along edges, seams, areas of all pieces; two sizes or versions compared"
        ),
    ),
)

TWINS = str(QT_TRANSLATE_NOOP("DraftAction", "Half patterns and twins"))

WHOLE = (
    _spec(
        "unfold",
        QT_TRANSLATE_NOOP("DraftAction", "Unfold over the centre line"),
        "piece",
        "Shift+U",
        section=5,
        submenu=TWINS,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction",
            "A half pattern becomes the whole piece, over the selected edge or the one marked centre",
        ),
    ),
    _spec(
        "fold",
        QT_TRANSLATE_NOOP("DraftAction", "Fold to a half pattern"),
        "piece",
        "Shift+F",
        section=5,
        submenu=TWINS,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "Over the piece's axis of symmetry; the fold is its centre edge"
        ),
    ),
    _spec(
        "mirror_piece",
        QT_TRANSLATE_NOOP("DraftAction", "Mirror to a new twin…"),
        "piece",
        "Shift+M",
        icon="mirror",
        section=5,
        submenu=TWINS,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "The mirror image as another piece of the same shoe, kept like this one or not"
        ),
    ),
    _spec(
        "copy_twin",
        QT_TRANSLATE_NOOP("DraftAction", "Copy all to the twin"),
        "piece",
        "Shift+T",
        section=5,
        submenu=TWINS,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction",
            "Break points, kinds, setbacks, pull axis, hold line and layers, to the mirrored piece",
        ),
    ),
    _spec(
        "link_twin",
        QT_TRANSLATE_NOOP("DraftAction", "Link or unlink twins"),
        "piece",
        "Shift+L",
        section=5,
        submenu=TWINS,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "What is done to one is done to the other, mirrored, until unlinked"
        ),
    ),
    _spec(
        "sew",
        QT_TRANSLATE_NOOP("DraftAction", "Pair sewn edges"),
        "piece",
        "Shift+E",
        section=5,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "With one edge selected, then again with the other: their lengths are compared"
        ),
    ),
    _spec("duplicate", QT_TRANSLATE_NOOP("DraftAction", "Duplicate the piece"), "edit", "Ctrl+D", section=7),
    _spec(
        "delete_piece",
        QT_TRANSLATE_NOOP("DraftAction", "Delete the piece"),
        "edit",
        "Shift+Del",
        section=7,
    ),
    _spec(
        "add_drawn",
        QT_TRANSLATE_NOOP("DraftAction", "Add pieces of a drawing…"),
        "edit",
        "Ctrl+Shift+A",
        section=7,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "Pieces of another DXF come into this style, edges and axis proposed"
        ),
    ),
    _spec(
        "add_shape",
        QT_TRANSLATE_NOOP("DraftAction", "Draw a new piece…"),
        "edit",
        "Shift+G",
        icon="add",
        section=7,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction",
            "A rectangle or a shape through typed corners, as an upper or as a backing without upper",
        ),
    ),
    _spec(
        "show_nest",
        QT_TRANSLATE_NOOP("DraftAction", "Size nest"),
        "look",
        "Shift+N",
        checkable=True,
        section=2,
        tip=QT_TRANSLATE_NOOP("DraftAction", "The outlines of all sizes over the one shown"),
    ),
)
