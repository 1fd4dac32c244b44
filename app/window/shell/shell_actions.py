"""The shell's part of the action table."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

from app.window.shell.actions import ActionSpec

MENUS = {
    "file": QT_TRANSLATE_NOOP("Shell", "&File"),
    "edit": QT_TRANSLATE_NOOP("Shell", "&Edit"),
    "piece": QT_TRANSLATE_NOOP("Shell", "&Work"),
    "look": QT_TRANSLATE_NOOP("Shell", "&View"),
    "help": QT_TRANSLATE_NOOP("Shell", "&Help"),
}
DESK_KEYS = ("F5", "F6", "F7", "F8")


def _spec(id: str, text: object, menu: str, *keys: str, **more: object) -> ActionSpec:
    return ActionSpec(id, "Shell", str(text), menu, keys, **more)  # type: ignore[arg-type]


SHELL = (
    _spec(
        "file.new",
        QT_TRANSLATE_NOOP("Shell", "&New style from DXF…"),
        "file",
        "Ctrl+N",
        icon="new",
        tip=QT_TRANSLATE_NOOP("Shell", "Read one or several drawings and make a style of their pieces"),
    ),
    _spec(
        "file.open",
        QT_TRANSLATE_NOOP("Shell", "&Open…"),
        "file",
        "Ctrl+O",
        icon="open",
        tip=QT_TRANSLATE_NOOP("Shell", "Open a style file"),
    ),
    _spec(
        "file.revise",
        QT_TRANSLATE_NOOP("Shell", "Import a &revised drawing…"),
        "file",
        "Ctrl+Shift+N",
        tip=QT_TRANSLATE_NOOP("Shell", "New outlines for the pieces; what was marked on the old ones stays"),
    ),
    _spec(
        "file.trace",
        QT_TRANSLATE_NOOP("Shell", "&Card patterns from a picture…"),
        "file",
        "Ctrl+Shift+T",
        icon="trace",
        tip=QT_TRANSLATE_NOOP(
            "Shell",
            "Outlines from a photograph on the printed sheet, or from a scan, into the open style or a new one",
        ),
    ),
    _spec(
        "file.save",
        QT_TRANSLATE_NOOP("Shell", "&Save"),
        "file",
        "Ctrl+S",
        icon="save",
        section=1,
        tip=QT_TRANSLATE_NOOP("Shell", "Write the style to its file"),
    ),
    _spec(
        "file.save_as",
        QT_TRANSLATE_NOOP("Shell", "Save &as…"),
        "file",
        "Ctrl+Shift+S",
        section=1,
        tip=QT_TRANSLATE_NOOP("Shell", "Write the style to another file"),
    ),
    _spec(
        "file.print",
        QT_TRANSLATE_NOOP("Shell", "&Print…"),
        "file",
        "Ctrl+P",
        icon="print",
        section=3,
        tip=QT_TRANSLATE_NOOP(
            "Shell", "The papers of this desk, with a preview; full size where the paper is to be cut along"
        ),
    ),
    _spec(
        "file.close",
        QT_TRANSLATE_NOOP("Shell", "&Close style"),
        "file",
        "Ctrl+W",
        section=8,
        tip=QT_TRANSLATE_NOOP("Shell", "Back to the start page"),
    ),
    _spec("file.quit", QT_TRANSLATE_NOOP("Shell", "&Quit"), "file", "Ctrl+Q", section=9),
    _spec(
        "edit.undo",
        QT_TRANSLATE_NOOP("Shell", "&Undo"),
        "edit",
        "Ctrl+Z",
        icon="undo",
        tip=QT_TRANSLATE_NOOP("Shell", "Undo the last step, on whichever desk it was done"),
    ),
    _spec(
        "edit.redo",
        QT_TRANSLATE_NOOP("Shell", "&Redo"),
        "edit",
        "Ctrl+Y",
        "Ctrl+Shift+Z",
        icon="redo",
        tip=QT_TRANSLATE_NOOP("Shell", "Redo the step"),
    ),
    _spec(
        "edit.rules",
        QT_TRANSLATE_NOOP("Shell", "&House rules…"),
        "edit",
        "Ctrl+,",
        section=9,
        tip=QT_TRANSLATE_NOOP("Shell", "Setbacks and allowances by edge kind, gap, margins, knife"),
    ),
    _spec(
        "look.mm",
        QT_TRANSLATE_NOOP("Shell", "Lengths in &millimetres"),
        "look",
        "Ctrl+Alt+M",
        section=5,
        choice=True,
    ),
    _spec(
        "look.inch",
        QT_TRANSLATE_NOOP("Shell", "Lengths in &inches"),
        "look",
        "Ctrl+Alt+I",
        section=5,
        choice=True,
    ),
    _spec("look.system", QT_TRANSLATE_NOOP("Shell", "Follow system theme"), "look", section=6, choice=True),
    _spec("look.day", QT_TRANSLATE_NOOP("Shell", "&Day"), "look", section=6, choice=True),
    _spec("look.night", QT_TRANSLATE_NOOP("Shell", "&Night"), "look", section=6, choice=True),
    _spec("look.english", "English", "look", section=7, choice=True),
    _spec("look.italian", "Italiano", "look", section=7, choice=True),
    _spec("look.full", QT_TRANSLATE_NOOP("Shell", "&Full screen"), "look", "F11", section=8, choice=True),
    _spec(
        "help.keys",
        QT_TRANSLATE_NOOP("Shell", "&Keys"),
        "help",
        "F1",
        "Ctrl+?",
        icon="keys",
        tip=QT_TRANSLATE_NOOP("Shell", "Every action with its keys; type to find one"),
    ),
    _spec(
        "help.said",
        QT_TRANSLATE_NOOP("Shell", "&Last messages"),
        "help",
        "F4",
        icon="note",
        tip=QT_TRANSLATE_NOOP("Shell", "The messages of the status line, the newest first"),
    ),
    _spec(
        "help.tour",
        QT_TRANSLATE_NOOP("Shell", "Five-minute &tour"),
        "help",
        icon="tour",
        tip=QT_TRANSLATE_NOOP("Shell", "Walk through the job on a sample style"),
    ),
    _spec("help.about", QT_TRANSLATE_NOOP("Shell", "&About stayply"), "help", section=9),
)
