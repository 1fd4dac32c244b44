"""The words of the trade as the window says them: names, and what they mean."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QLocale

from app.words import LANGUAGES
from geometry.findings import Severity
from geometry.sizing.sizes import SizeSystem

translate = QCoreApplication.translate


def axis_source(source: str) -> str:
    """Return where a pull axis comes from."""
    return {
        "grain line": translate("Axis", "from the drawing's grain line"),
        "symmetry": translate("Axis", "from the piece's symmetry"),
        "longest direction": translate("Axis", "from the piece's longest direction"),
        "assembly": translate("Axis", "from the assembled upper"),
        "person": translate("Axis", "set by hand"),
    }.get(source, source)


def severity_name(severity: Severity) -> str:
    """Return the name of a severity."""
    return {
        Severity.NOTE: translate("Finding", "Note"),
        Severity.WARNING: translate("Finding", "Warning"),
        Severity.QUESTION: translate("Finding", "To confirm"),
        Severity.ERROR: translate("Finding", "Error"),
    }[severity]


def severity_count(severity: Severity, count: int) -> str:
    """Return how many findings of a severity there are."""
    if severity is Severity.ERROR:
        text = translate("Finding", "1 error") if count == 1 else translate("Finding", "{0} errors")
    elif severity is Severity.WARNING:
        text = translate("Finding", "1 warning") if count == 1 else translate("Finding", "{0} warnings")
    elif severity is Severity.QUESTION:
        text = translate("Finding", "1 question") if count == 1 else translate("Finding", "{0} questions")
    else:
        text = translate("Finding", "1 note") if count == 1 else translate("Finding", "{0} notes")
    return text.format(count)


def hand_name(hand: str) -> str:
    """Return the name of a hand."""
    return translate("Piece", "left") if hand == "left" else translate("Piece", "right")


def step_name(step: str, piece: str = "") -> str:
    """Return the name of a step for undo, with the piece it was done on."""
    name = {
        "turn axis": translate("Step", "Turn pull axis"),
        "confirm axis": translate("Step", "Confirm pull axis"),
        "move break": translate("Step", "Move break point"),
        "add break": translate("Step", "Add break point"),
        "remove break": translate("Step", "Remove break point"),
        "kind": translate("Step", "Edge kind"),
        "setback": translate("Step", "Setback"),
        "allowance": translate("Step", "Allowance"),
        "confirm edges": translate("Step", "Confirm edges"),
        "confirm piece": translate("Step", "Confirm piece"),
        "confirm all": translate("Step", "Confirm everything"),
        "copy kinds": translate("Step", "Copy edge kinds"),
        "draw cut": translate("Step", "Draw cut line"),
        "draw region": translate("Step", "Draw region"),
        "draw split": translate("Step", "Split backing"),
        "draw change": translate("Step", "Change stretch by hand"),
        "draw smooth": translate("Step", "Smooth stretch"),
        "draw slit": translate("Step", "Draw slit"),
        "draw mark": translate("Step", "Draw mark"),
        "draw notch": translate("Step", "Set notch"),
        "draw drill": translate("Step", "Set drill hole"),
        "draw relief": translate("Step", "Relief cuts"),
        "draw text": translate("Step", "Write word"),
        "taper": translate("Step", "Setback along edge"),
        "break corners": translate("Step", "Break at corners"),
        "join": translate("Step", "One backing for two pieces"),
        "take back": translate("Step", "Remove what was drawn"),
        "hold line": translate("Step", "Draw hold line"),
        "move hold line": translate("Step", "Move hold line"),
        "remove hold line": translate("Step", "Remove hold line"),
        "hold limit": translate("Step", "Hold limit"),
        "hold chain": translate("Step", "Chain of hold lines"),
        "remove hold chain": translate("Step", "Remove chain of hold lines"),
        "rename": translate("Step", "Rename piece"),
        "hand": translate("Step", "Left or right"),
        "per shoe": translate("Step", "Pieces per shoe"),
        "backing": translate("Step", "Backing layers"),
        "assembled": translate("Step", "Drawn as assembled"),
        "remove piece": translate("Step", "Remove piece"),
        "unfold": translate("Step", "Unfold half pattern"),
        "fold": translate("Step", "Fold to half pattern"),
        "mirror piece": translate("Step", "Mirror to a twin"),
        "copy to twin": translate("Step", "Copy all to the twin"),
        "link twin": translate("Step", "Keep twins alike"),
        "unlink twin": translate("Step", "Unlink twins"),
        "sew": translate("Step", "Pair sewn edges"),
        "unsew": translate("Step", "Take seam apart"),
        "duplicate": translate("Step", "Duplicate piece"),
        "add pieces": translate("Step", "Add pieces"),
        "size system": translate("Step", "Size system"),
        "base size": translate("Step", "Base size"),
        "girth": translate("Step", "Ball girth"),
        "add sizes": translate("Step", "Add sizes"),
        "remove size": translate("Step", "Remove size"),
        "draw size": translate("Step", "Keep size as drawn"),
        "grade size": translate("Step", "Grade size again"),
        "grading": translate("Step", "Grading of a piece"),
        "cut as": translate("Step", "Cut as another size"),
        "cloth": translate("Step", "Cloth"),
        "add cloth": translate("Step", "Add cloth"),
        "remove cloth": translate("Step", "Remove cloth"),
        "tight direction": translate("Step", "Tight direction"),
        "upper material": translate("Step", "Upper material"),
        "pull": translate("Step", "Working pull"),
        "filed": translate("Step", "Filed in the register"),
        "strips": translate("Step", "Strip tests"),
        "flaw": translate("Step", "Mark flaw"),
        "remove flaw": translate("Step", "Remove flaw"),
        "rules": translate("Step", "House rules"),
        "revise": translate("Step", "Revised drawing"),
        "theirs": translate("Step", "Other version of the file"),
        "open planned lay": translate("Step", "Open lay of the run plan"),
        "let planned lay go": translate("Step", "Release locked lay"),
        "give back": translate("Step", "Give lay back to the plan"),
        "order": translate("Step", "Order of lay"),
        "style order": translate("Step", "Pairs ordered"),
        "fill": translate("Step", "Fill lay"),
        "move pieces": translate("Step", "Move pieces of lay"),
        "slide pieces": translate("Step", "Slide pieces of lay"),
        "turn pieces": translate("Step", "Turn pieces of lay"),
        "pin pieces": translate("Step", "Pin pieces of lay"),
        "lift pieces": translate("Step", "Lift pieces of lay"),
        "put back": translate("Step", "Put piece back on lay"),
        "swap pieces": translate("Step", "Swap pieces of lay"),
        "another lay": translate("Step", "Another lay"),
        "remove lay": translate("Step", "Remove lay"),
    }.get(step, step)
    return f"{name} · {piece}" if piece else name


def system_name(system: SizeSystem) -> str:
    """Return what a size system is called."""
    return {
        "paris": translate("Sizes", "Paris points"),
        "uk": translate("Sizes", "UK"),
        "us-men": translate("Sizes", "US, men"),
        "us-women": translate("Sizes", "US, women"),
        "mondopoint": translate("Sizes", "Mondopoint"),
    }[system]


def paper_name(code: str) -> str:
    """Return what a paper that the window prints is called."""
    return {
        "boards": translate("Draft", "Boards"),
        "reinforcement-sheet": translate("Draft", "Reinforcement sheet"),
        "lay-plan": translate("Lay", "Lay plan"),
        "cut-ticket": translate("Lay", "Cut ticket"),
        "lay-1to1": translate("Lay", "Lay at full size"),
        "run-plan": translate("Cost", "Run plan"),
        "cut-tickets": translate("Cost", "Cut tickets of the run"),
        "fabric-per-pair": translate("Cost", "Fabric per pair"),
        "hold-sheet": translate("Cloth", "Hold sheet"),
        "field-sheet": translate("Cloth", "Field sheet"),
        "trial-report": translate("Cloth", "Trial report"),
        "stretch-report": translate("Cloth", "Stretch test"),
    }[code]


def paper_language() -> str:
    """Return the language of the window, which its papers are made in too."""
    language = QLocale().name()[:2]
    return language if language in LANGUAGES else "en"


def yield_means() -> str:
    """Return what yield counts; it stands as a tooltip on every figure of it."""
    return translate("Cost", "Yield: net area of the pieces / (usable width x lay length)")
