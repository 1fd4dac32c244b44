"""The lay desk's part of the action table."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

from app.window.shell.actions import ActionSpec


def _spec(id: str, text: object, menu: str, *keys: str, **more: object) -> ActionSpec:
    return ActionSpec(f"lay.{id}", "LayAction", str(text), menu, keys, **more)  # type: ignore[arg-type]


LAY = (
    _spec(
        "take_order",
        QT_TRANSLATE_NOOP("LayAction", "Lay the order"),
        "piece",
        "Ctrl+Alt+Return",
        section=1,
        tip=QT_TRANSLATE_NOOP("LayAction", "This lay holds all pairs ordered; then fill the roll"),
    ),
    _spec(
        "open_order",
        QT_TRANSLATE_NOOP("LayAction", "Open an order…"),
        "piece",
        icon="open",
        section=1,
        tip=QT_TRANSLATE_NOOP("LayAction", "Pairs by size from a CSV file or a spreadsheet"),
    ),
    _spec(
        "fill",
        QT_TRANSLATE_NOOP("LayAction", "Fill the roll"),
        "piece",
        "Ctrl+Return",
        icon="fill",
        section=1,
        tip=QT_TRANSLATE_NOOP("LayAction", "Lay all pieces of the pairs; pinned pieces stay where they are"),
    ),
    _spec(
        "improve",
        QT_TRANSLATE_NOOP("LayAction", "Go on improving"),
        "piece",
        "Ctrl+Shift+Return",
        icon="fill",
        section=1,
        tip=QT_TRANSLATE_NOOP(
            "LayAction",
            "Goes on from this lay in the background until it is stopped; pinned pieces stay, each shorter lay "
            "is shown",
        ),
    ),
    _spec(
        "stop",
        QT_TRANSLATE_NOOP("LayAction", "Stop and keep the best"),
        "piece",
        "Ctrl+.",
        icon="stop",
        section=1,
        tip=QT_TRANSLATE_NOOP("LayAction", "At once; the best lay found so far stays"),
    ),
    _spec(
        "turn",
        QT_TRANSLATE_NOOP("LayAction", "Turn by 180°"),
        "piece",
        "R",
        icon="turn",
        section=2,
        tip=QT_TRANSLATE_NOOP(
            "LayAction", "About its own centre; the pull axis stays on the tight direction"
        ),
    ),
    _spec(
        "turn_left",
        QT_TRANSLATE_NOOP("LayAction", "Turn left by 1°"),
        "piece",
        "Alt+Left",
        section=2,
        tip=QT_TRANSLATE_NOOP(
            "LayAction", "Off the tight direction the cloth gives more; the board says by how many degrees"
        ),
    ),
    _spec("turn_right", QT_TRANSLATE_NOOP("LayAction", "Turn right by 1°"), "piece", "Alt+Right", section=2),
    _spec(
        "pin",
        QT_TRANSLATE_NOOP("LayAction", "Pin or unpin"),
        "piece",
        "P",
        icon="pin",
        section=2,
        tip=QT_TRANSLATE_NOOP("LayAction", "A pinned piece stays where it lies, whatever is filled round it"),
    ),
    _spec(
        "lift",
        QT_TRANSLATE_NOOP("LayAction", "Lift to the side table"),
        "piece",
        "Del",
        icon="lift",
        section=2,
        tip=QT_TRANSLATE_NOOP(
            "LayAction", "Off the roll; it waits on the side table and is dragged or double-clicked back"
        ),
    ),
    _spec(
        "swap",
        QT_TRANSLATE_NOOP("LayAction", "Swap two pieces"),
        "piece",
        "X",
        icon="swap",
        section=2,
        tip=QT_TRANSLATE_NOOP("LayAction", "Each in the other's place, centre on centre"),
    ),
    *(
        _spec(f"nudge.{way}", text, "piece", key, section=3)
        for way, text, key in (
            ("left", QT_TRANSLATE_NOOP("LayAction", "Nudge towards the start"), "Left"),
            ("right", QT_TRANSLATE_NOOP("LayAction", "Nudge towards the end"), "Right"),
            ("up", QT_TRANSLATE_NOOP("LayAction", "Nudge up"), "Up"),
            ("down", QT_TRANSLATE_NOOP("LayAction", "Nudge down"), "Down"),
        )
    ),
    *(
        _spec(
            f"slide.{way}",
            text,
            "piece",
            key,
            icon=f"slide-{way}",
            section=4,
            tip=QT_TRANSLATE_NOOP(
                "LayAction", "As far as it goes without coming closer to a piece or an edge than the gap"
            ),
        )
        for way, text, key in (
            ("left", QT_TRANSLATE_NOOP("LayAction", "Slide to the start until it touches"), "Ctrl+Left"),
            ("right", QT_TRANSLATE_NOOP("LayAction", "Slide to the end until it touches"), "Ctrl+Right"),
            ("up", QT_TRANSLATE_NOOP("LayAction", "Slide up until it touches"), "Ctrl+Up"),
            ("down", QT_TRANSLATE_NOOP("LayAction", "Slide down until it touches"), "Ctrl+Down"),
        )
    ),
    _spec("all", QT_TRANSLATE_NOOP("LayAction", "All pieces"), "edit", "Ctrl+A", section=6),
    _spec("let_go", QT_TRANSLATE_NOOP("LayAction", "Deselect"), "edit", "Esc", section=6),
    _spec("next_fault", QT_TRANSLATE_NOOP("LayAction", "Next fault"), "piece", "N", icon="error", section=6),
    _spec(
        "another",
        QT_TRANSLATE_NOOP("LayAction", "Keep and try another lay"),
        "piece",
        "Ctrl+D",
        icon="add",
        section=7,
        tip=QT_TRANSLATE_NOOP("LayAction", "A copy beside this one, to be compared"),
    ),
    _spec(
        "remove",
        QT_TRANSLATE_NOOP("LayAction", "Remove this lay"),
        "piece",
        "Shift+Del",
        icon="remove",
        section=7,
    ),
    _spec(
        "give_back",
        QT_TRANSLATE_NOOP("LayAction", "Give back to the plan"),
        "piece",
        "Ctrl+G",
        icon="lock",
        section=1,
        tip=QT_TRANSLATE_NOOP(
            "LayAction", "This lay was opened out of the run plan: it is verified, put back there and locked"
        ),
    ),
    _spec("next", QT_TRANSLATE_NOOP("LayAction", "Next lay"), "piece", "PgDown", section=7),
    _spec("previous", QT_TRANSLATE_NOOP("LayAction", "Previous lay"), "piece", "PgUp", section=7),
    _spec(
        "export",
        QT_TRANSLATE_NOOP("LayAction", "Write lay plan and cutter files…"),
        "file",
        "Ctrl+E",
        icon="save",
        section=3,
        tip=QT_TRANSLATE_NOOP(
            "LayAction", "PDF, DXF, SVG, plotter file and cut ticket; only for a lay without faults"
        ),
    ),
    _spec("fit", QT_TRANSLATE_NOOP("LayAction", "Show the lay"), "look", "Home", "Ctrl+0", icon="fit"),
    _spec(
        "fit_chosen",
        QT_TRANSLATE_NOOP("LayAction", "Show selection"),
        "look",
        "Shift+Home",
        icon="fit-piece",
    ),
    _spec(
        "zoom_in", QT_TRANSLATE_NOOP("LayAction", "Zoom in"), "look", "+", "Ctrl++", "Ctrl+=", icon="zoom-in"
    ),
    _spec("zoom_out", QT_TRANSLATE_NOOP("LayAction", "Zoom out"), "look", "-", "Ctrl+-", icon="zoom-out"),
)
