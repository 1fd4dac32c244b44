"""The draft desk's part of the action table."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

from app.window.desks.draft.drawing.specs import DRAW
from app.window.shell.actions import ActionSpec
from app.window.wording.edge_words import kind_action
from geometry.edge_kinds import EDGE_KINDS


def _spec(id: str, text: object, menu: str, *keys: str, **more: object) -> ActionSpec:
    return ActionSpec(f"draft.{id}", "DraftAction", str(text), menu, keys, **more)  # type: ignore[arg-type]


KINDS = str(QT_TRANSLATE_NOOP("DraftAction", "Edge kind"))
PULL = str(QT_TRANSLATE_NOOP("DraftAction", "Pull axis and hold line"))

DRAFT = (
    _spec(
        "select",
        QT_TRANSLATE_NOOP("DraftAction", "Select and drag"),
        "piece",
        "E",
        icon="select",
        checkable=True,
        section=1,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "Click an edge or a piece, sweep over edges, drag a break point or the pull axis"
        ),
    ),
    _spec(
        "breaks",
        QT_TRANSLATE_NOOP("DraftAction", "Break points"),
        "piece",
        "B",
        icon="break",
        checkable=True,
        section=1,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "Click an outline to end an edge there; click a break point to remove it"
        ),
    ),
    _spec(
        "hold",
        QT_TRANSLATE_NOOP("DraftAction", "Hold line"),
        "piece",
        "H",
        icon="hold",
        checkable=True,
        section=1,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction",
            "Drag on a piece from heel to throat; drag an end or the line to move it. Ctrl keeps to the pull axis, Alt is free",
        ),
    ),
    _spec(
        "measure",
        QT_TRANSLATE_NOOP("DraftAction", "Measure"),
        "piece",
        "M",
        icon="measure",
        checkable=True,
        section=1,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "Drag between two points; ends snap to drawn points, Alt measures freely"
        ),
    ),
    *DRAW,
    *(
        _spec(f"kind.{kind.value}", kind_action(kind), "piece", entry.key, section=2, submenu=KINDS)
        for kind, entry in EDGE_KINDS.items()
    ),
    _spec(
        "setback",
        QT_TRANSLATE_NOOP("DraftAction", "Type a setback"),
        "piece",
        "S",
        section=3,
        tip=QT_TRANSLATE_NOOP("DraftAction", "How far the backing stops short of the selected edges"),
    ),
    _spec(
        "more",
        QT_TRANSLATE_NOOP("DraftAction", "Increase setback"),
        "piece",
        "Alt+Up",
        section=3,
        tip=QT_TRANSLATE_NOOP("DraftAction", "Half a millimetre at a time"),
    ),
    _spec(
        "less",
        QT_TRANSLATE_NOOP("DraftAction", "Reduce setback"),
        "piece",
        "Alt+Down",
        section=3,
        tip=QT_TRANSLATE_NOOP("DraftAction", "Half a millimetre at a time"),
    ),
    _spec(
        "rule",
        QT_TRANSLATE_NOOP("DraftAction", "Setback by house rule"),
        "piece",
        "Alt+Backspace",
        section=3,
        tip=QT_TRANSLATE_NOOP("DraftAction", "Remove the edge's own setback"),
    ),
    _spec(
        "axis",
        QT_TRANSLATE_NOOP("DraftAction", "Type the pull axis"),
        "piece",
        "A",
        icon="axis",
        section=3,
        submenu=PULL,
        tip=QT_TRANSLATE_NOOP("DraftAction", "Heel to toe, the way lasting pulls the piece"),
    ),
    _spec(
        "turn_left",
        QT_TRANSLATE_NOOP("DraftAction", "Turn the pull axis left"),
        "piece",
        "Alt+Left",
        section=3,
        submenu=PULL,
        tip=QT_TRANSLATE_NOOP("DraftAction", "One degree at a time"),
    ),
    _spec(
        "turn_right",
        QT_TRANSLATE_NOOP("DraftAction", "Turn the pull axis right"),
        "piece",
        "Alt+Right",
        section=3,
        submenu=PULL,
        tip=QT_TRANSLATE_NOOP("DraftAction", "One degree at a time"),
    ),
    _spec(
        "hold_limit",
        QT_TRANSLATE_NOOP("DraftAction", "Type the hold limit"),
        "piece",
        "Shift+H",
        section=3,
        submenu=PULL,
        tip=QT_TRANSLATE_NOOP("DraftAction", "How far the hold line may give under the pull"),
    ),
    _spec(
        "remove_hold",
        QT_TRANSLATE_NOOP("DraftAction", "Remove the hold line"),
        "piece",
        "Del",
        section=3,
        submenu=PULL,
        tip=QT_TRANSLATE_NOOP("DraftAction", "Of the selected piece, with its limit"),
    ),
    _spec(
        "confirm",
        QT_TRANSLATE_NOOP("DraftAction", "Confirm what is selected"),
        "piece",
        "Return",
        "Enter",
        icon="confirm",
        section=4,
        tip=QT_TRANSLATE_NOOP("DraftAction", "The selected edges, or the pull axis when no edge is selected"),
    ),
    _spec(
        "confirm_piece",
        QT_TRANSLATE_NOOP("DraftAction", "Confirm the piece"),
        "piece",
        "Shift+Return",
        section=4,
        tip=QT_TRANSLATE_NOOP("DraftAction", "All edges and the pull axis of the selected piece as they are"),
    ),
    _spec(
        "confirm_all",
        QT_TRANSLATE_NOOP("DraftAction", "Confirm everything"),
        "piece",
        "Ctrl+Return",
        icon="confirm-all",
        section=4,
        tip=QT_TRANSLATE_NOOP("DraftAction", "All suggestions of all pieces as they are"),
    ),
    _spec(
        "copy_mirror",
        QT_TRANSLATE_NOOP("DraftAction", "Copy kinds to the mirrored edges"),
        "piece",
        "K",
        icon="mirror",
        section=5,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction",
            "To the edges that mirror the selected ones, on this piece or on its mirrored twin; as suggestions",
        ),
    ),
    _spec(
        "copy_similar",
        QT_TRANSLATE_NOOP("DraftAction", "Copy kinds to similar edges"),
        "piece",
        "Shift+K",
        section=5,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "To edges of nearly the same length and shape on all pieces; as suggestions"
        ),
    ),
    _spec("next_piece", QT_TRANSLATE_NOOP("DraftAction", "Next piece"), "piece", "PgDown", section=6),
    _spec("previous_piece", QT_TRANSLATE_NOOP("DraftAction", "Previous piece"), "piece", "PgUp", section=6),
    _spec("next_edge", QT_TRANSLATE_NOOP("DraftAction", "Next edge"), "piece", "Ctrl+Right", section=6),
    _spec(
        "previous_edge", QT_TRANSLATE_NOOP("DraftAction", "Previous edge"), "piece", "Ctrl+Left", section=6
    ),
    _spec(
        "all_edges", QT_TRANSLATE_NOOP("DraftAction", "All edges of the piece"), "edit", "Ctrl+A", section=6
    ),
    _spec(
        "next_open",
        QT_TRANSLATE_NOOP("DraftAction", "Next to confirm"),
        "piece",
        "N",
        icon="question",
        section=6,
        tip=QT_TRANSLATE_NOOP("DraftAction", "Go to the next edge or pull axis that is still a suggestion"),
    ),
    _spec(
        "let_go",
        QT_TRANSLATE_NOOP("DraftAction", "Deselect"),
        "edit",
        "Esc",
        section=6,
        tip=QT_TRANSLATE_NOOP("DraftAction", "Cancel the gesture; then deselect the edges, then the piece"),
    ),
    _spec(
        "export",
        QT_TRANSLATE_NOOP("DraftAction", "Write boards and backing…"),
        "file",
        "Ctrl+E",
        icon="save",
        section=3,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction",
            "Card patterns at full size (PDF, DXF, HP-GL) and the backing (DXF), all sizes, both hands",
        ),
    ),
    _spec("fit", QT_TRANSLATE_NOOP("DraftAction", "Show everything"), "look", "Home", "Ctrl+0", icon="fit"),
    _spec(
        "fit_piece",
        QT_TRANSLATE_NOOP("DraftAction", "Show selection"),
        "look",
        "Shift+Home",
        icon="fit-piece",
    ),
    _spec(
        "zoom_in",
        QT_TRANSLATE_NOOP("DraftAction", "Zoom in"),
        "look",
        "+",
        "Ctrl++",
        "Ctrl+=",
        icon="zoom-in",
    ),
    _spec("zoom_out", QT_TRANSLATE_NOOP("DraftAction", "Zoom out"), "look", "-", "Ctrl+-", icon="zoom-out"),
    _spec(
        "solo",
        QT_TRANSLATE_NOOP("DraftAction", "Only the selected piece"),
        "look",
        "O",
        icon="solo",
        checkable=True,
        section=1,
        tip=QT_TRANSLATE_NOOP("DraftAction", "Show one piece by itself"),
    ),
    _spec(
        "flip",
        QT_TRANSLATE_NOOP("DraftAction", "Glue side up"),
        "look",
        "G",
        icon="flip",
        checkable=True,
        section=1,
        tip=QT_TRANSLATE_NOOP(
            "DraftAction", "Turn the pieces over: the coated side of the backing, left and right exchanged"
        ),
    ),
    _spec("show_upper", QT_TRANSLATE_NOOP("DraftAction", "Upper"), "look", "U", checkable=True, section=2),
    _spec(
        "show_backing", QT_TRANSLATE_NOOP("DraftAction", "Backing"), "look", "C", checkable=True, section=2
    ),
    _spec(
        "show_setbacks",
        QT_TRANSLATE_NOOP("DraftAction", "Setback figures"),
        "look",
        "D",
        icon="setbacks",
        checkable=True,
        section=2,
    ),
    _spec(
        "show_hold", QT_TRANSLATE_NOOP("DraftAction", "Hold lines"), "look", "L", checkable=True, section=2
    ),
    _spec("show_axis", QT_TRANSLATE_NOOP("DraftAction", "Pull axis"), "look", "P", checkable=True, section=2),
)
