"""The cost desk's part of the action table."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

from app.window.shell.actions import ActionSpec


def _spec(id: str, text: object, menu: str, *keys: str, **more: object) -> ActionSpec:
    return ActionSpec(f"cost.{id}", "CostAction", str(text), menu, keys, **more)  # type: ignore[arg-type]


COST = (
    _spec(
        "compare",
        QT_TRANSLATE_NOOP("CostAction", "Nest and cost"),
        "piece",
        "F9",
        icon="cost",
        section=1,
        tip=QT_TRANSLATE_NOOP(
            "CostAction", "Nest the lays of this page, one after another, and work out what a pair takes"
        ),
    ),
    _spec(
        "stop",
        QT_TRANSLATE_NOOP("CostAction", "Stop"),
        "piece",
        "Shift+F9",
        icon="stop",
        section=1,
        tip=QT_TRANSLATE_NOOP("CostAction", "What has been costed so far is kept"),
    ),
    _spec(
        "plan",
        QT_TRANSLATE_NOOP("CostAction", "Plan the run"),
        "piece",
        "F10",
        icon="lay",
        section=2,
        tip=QT_TRANSLATE_NOOP("CostAction", "Lays and plies for the order; lays that are kept stay"),
    ),
    _spec(
        "stop_plan",
        QT_TRANSLATE_NOOP("CostAction", "Stop planning or press cutting"),
        "piece",
        "Shift+F10",
        icon="stop",
        section=2,
        tip=QT_TRANSLATE_NOOP(
            "CostAction",
            "The best plan so far is kept; of a press list that is not finished nothing is written",
        ),
    ),
    _spec(
        "open_lay",
        QT_TRANSLATE_NOOP("CostAction", "Open on the Lay desk"),
        "piece",
        "Ctrl+L",
        icon="lay",
        section=2,
        tip=QT_TRANSLATE_NOOP(
            "CostAction", "The selected lay of the plan, to be worked on by hand and given back to the plan"
        ),
    ),
    _spec(
        "let_go",
        QT_TRANSLATE_NOOP("CostAction", "Release locked lays"),
        "piece",
        section=2,
        tip=QT_TRANSLATE_NOOP(
            "CostAction", "Lays given back by hand no longer bind the plan; undo locks them again"
        ),
    ),
    _spec(
        "export_plan",
        QT_TRANSLATE_NOOP("CostAction", "Export the plan…"),
        "piece",
        icon="save",
        section=2,
        tip=QT_TRANSLATE_NOOP("CostAction", "Run plan, cut tickets and every lay"),
    ),
    _spec(
        "press",
        QT_TRANSLATE_NOOP("CostAction", "Press cutting…"),
        "piece",
        icon="press",
        section=2,
        tip=QT_TRANSLATE_NOOP("CostAction", "Dies, strokes and rows for the order, cut on a press"),
    ),
    _spec(
        "turn_page",
        QT_TRANSLATE_NOOP("CostAction", "Run plan"),
        "piece",
        "Ctrl+Tab",
        icon="cost",
        checkable=True,
        section=2,
        tip=QT_TRANSLATE_NOOP("CostAction", "The lays of the order instead of the cost of a pair"),
    ),
    _spec(
        "page_widths",
        QT_TRANSLATE_NOOP("CostAction", "Roll widths"),
        "look",
        "Alt+1",
        checkable=True,
        section=3,
        tip=QT_TRANSLATE_NOOP("CostAction", "What a pair costs on rolls of other widths"),
    ),
    _spec(
        "page_cloths",
        QT_TRANSLATE_NOOP("CostAction", "Cloths"),
        "look",
        "Alt+2",
        checkable=True,
        section=3,
        tip=QT_TRANSLATE_NOOP("CostAction", "What a pair costs in other cloths, and whether they hold"),
    ),
    _spec(
        "page_what_if",
        QT_TRANSLATE_NOOP("CostAction", "Sensitivity"),
        "look",
        "Alt+3",
        checkable=True,
        section=3,
        tip=QT_TRANSLATE_NOOP("CostAction", "How gap, end loss, plies and order affect the cost"),
    ),
    _spec(
        "page_runs",
        QT_TRANSLATE_NOOP("CostAction", "Runs"),
        "look",
        "Alt+4",
        checkable=True,
        section=3,
        tip=QT_TRANSLATE_NOOP(
            "CostAction", "Runs planned, what their lays actually used, and what the next may take"
        ),
    ),
    _spec(
        "order",
        QT_TRANSLATE_NOOP("CostAction", "Open an order…"),
        "piece",
        icon="open",
        section=2,
        tip=QT_TRANSLATE_NOOP("CostAction", "Pairs per size from a CSV or XLSX file"),
    ),
    _spec(
        "copy",
        QT_TRANSLATE_NOOP("CostAction", "Copy the tables"),
        "piece",
        "Ctrl+Shift+C",
        icon="copy",
        section=3,
        tip=QT_TRANSLATE_NOOP("CostAction", "As text for pasting into a spreadsheet"),
    ),
    _spec(
        "export",
        QT_TRANSLATE_NOOP("CostAction", "Export the figures…"),
        "piece",
        "Ctrl+E",
        icon="save",
        section=3,
        tip=QT_TRANSLATE_NOOP("CostAction", "Fabric per pair as PDF, CSV and XLSX"),
    ),
)
