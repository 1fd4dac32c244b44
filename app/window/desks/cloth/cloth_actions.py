"""The cloth desk's part of the action table."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

from app.window.shell.actions import ActionSpec


def _spec(id: str, text: object, menu: str, *keys: str, **more: object) -> ActionSpec:
    return ActionSpec(f"cloth.{id}", "ClothAction", str(text), menu, keys, **more)  # type: ignore[arg-type]


CLOTH = (
    _spec(
        "add",
        QT_TRANSLATE_NOOP("ClothAction", "Add a cloth"),
        "piece",
        "Ins",
        icon="add",
        section=1,
        tip=QT_TRANSLATE_NOOP("ClothAction", "A copy of the one shown, to be edited"),
    ),
    _spec(
        "remove",
        QT_TRANSLATE_NOOP("ClothAction", "Remove the cloth"),
        "piece",
        "Shift+Del",
        icon="remove",
        section=1,
        tip=QT_TRANSLATE_NOOP("ClothAction", "Only while no piece is backed with it"),
    ),
    _spec(
        "turn",
        QT_TRANSLATE_NOOP("ClothAction", "Tight direction: along or across"),
        "piece",
        "T",
        icon="axis",
        section=2,
        tip=QT_TRANSLATE_NOOP(
            "ClothAction", "The direction in which the cloth gives least; the pull axes will lie along it"
        ),
    ),
    _spec(
        "remove_flaw",
        QT_TRANSLATE_NOOP("ClothAction", "Remove the selected flaw"),
        "piece",
        "Del",
        icon="flaw",
        section=3,
        tip=QT_TRANSLATE_NOOP("ClothAction", "Click a flaw to select it; drag on the roll to mark a new one"),
    ),
    _spec("let_go", QT_TRANSLATE_NOOP("ClothAction", "Deselect"), "edit", "Esc", section=6),
    _spec("next", QT_TRANSLATE_NOOP("ClothAction", "Next cloth"), "piece", "PgDown", section=6),
    _spec("previous", QT_TRANSLATE_NOOP("ClothAction", "Previous cloth"), "piece", "PgUp", section=6),
    _spec("fit", QT_TRANSLATE_NOOP("ClothAction", "Show the roll"), "look", "Home", "Ctrl+0", icon="fit"),
    _spec(
        "zoom_in",
        QT_TRANSLATE_NOOP("ClothAction", "Zoom in"),
        "look",
        "+",
        "Ctrl++",
        "Ctrl+=",
        icon="zoom-in",
    ),
    _spec("zoom_out", QT_TRANSLATE_NOOP("ClothAction", "Zoom out"), "look", "-", "Ctrl+-", icon="zoom-out"),
    _spec(
        "page_roll",
        QT_TRANSLATE_NOOP("ClothAction", "Roll"),
        "look",
        "Alt+1",
        checkable=True,
        section=3,
    ),
    _spec(
        "page_strips",
        QT_TRANSLATE_NOOP("ClothAction", "Stretch tests"),
        "look",
        "Alt+2",
        checkable=True,
        section=3,
    ),
    _spec(
        "page_hold",
        QT_TRANSLATE_NOOP("ClothAction", "Hold"),
        "look",
        "Alt+3",
        checkable=True,
        section=3,
    ),
    _spec(
        "page_trials",
        QT_TRANSLATE_NOOP("ClothAction", "Trials"),
        "look",
        "Alt+4",
        checkable=True,
        section=3,
    ),
    _spec(
        "page_register",
        QT_TRANSLATE_NOOP("ClothAction", "Register"),
        "look",
        "Alt+5",
        checkable=True,
        section=3,
    ),
    _spec(
        "page_pull",
        QT_TRANSLATE_NOOP("ClothAction", "Pull"),
        "look",
        "Alt+6",
        checkable=True,
        section=3,
        tip=QT_TRANSLATE_NOOP(
            "ClothAction", "Where the throat goes over the whole piece: alone, backed, turned"
        ),
    ),
    _spec(
        "add_strip",
        QT_TRANSLATE_NOOP("ClothAction", "Add a strip"),
        "piece",
        "Ctrl+Ins",
        icon="add",
        section=4,
        tip=QT_TRANSLATE_NOOP("ClothAction", "A copy of the selected strip, to be overwritten"),
    ),
    _spec(
        "remove_strip",
        QT_TRANSLATE_NOOP("ClothAction", "Remove the strip"),
        "piece",
        "Ctrl+Del",
        icon="remove",
        section=4,
    ),
    _spec(
        "read_strips",
        QT_TRANSLATE_NOOP("ClothAction", "Strips from CSV…"),
        "piece",
        icon="open",
        section=4,
        tip=QT_TRANSLATE_NOOP(
            "ClothAction",
            "CSV with strip, angle_deg, width_mm, gauge_mm, load_n, extension_mm, narrowing_mm, note",
        ),
    ),
    _spec(
        "export_strips",
        QT_TRANSLATE_NOOP("ClothAction", "Export report…"),
        "piece",
        "Ctrl+R",
        icon="copy",
        section=4,
        tip=QT_TRANSLATE_NOOP("ClothAction", "The report as PDF and the strips as CSV"),
    ),
    _spec(
        "take_direction",
        QT_TRANSLATE_NOOP("ClothAction", "Copy tested direction to the card"),
        "piece",
        "Ctrl+T",
        icon="axis",
        section=4,
        tip=QT_TRANSLATE_NOOP(
            "ClothAction", "The card's tight direction becomes the one the strips show, marked as tested"
        ),
    ),
    _spec(
        "export_hold",
        QT_TRANSLATE_NOOP("ClothAction", "Export the hold sheet"),
        "piece",
        "Ctrl+E",
        icon="copy",
        section=4,
        tip=QT_TRANSLATE_NOOP(
            "ClothAction", "Every piece with its hold line, how much it gives and what a tilt does, as PDF"
        ),
    ),
    _spec(
        "read_cards",
        QT_TRANSLATE_NOOP("ClothAction", "Cards from CSV…"),
        "piece",
        icon="open",
        section=5,
        tip=QT_TRANSLATE_NOOP("ClothAction", "All of them or none; strips on file are kept"),
    ),
    _spec(
        "export_cards",
        QT_TRANSLATE_NOOP("ClothAction", "Cards to CSV…"),
        "piece",
        icon="copy",
        section=5,
        tip=QT_TRANSLATE_NOOP("ClothAction", "All cloths of the register as CSV"),
    ),
)
