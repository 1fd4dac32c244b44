"""Words that a footwear technician would not use, and what stands in their place.

The left side is what once stood in a label, on a paper or in a message; none of it may come back.
"""

from __future__ import annotations

import ast
import re
from pathlib import Path

ROOT = Path(__file__).parents[2]

NOUNS = (
    "amount|closed|direction|DXF|edge|file|grade|length|list|number|object|outline|picture|point|price|ranking|"
    "regular|roll|spreadsheet|strip|style|table|text|width"
)

SAID_NOW = {
    r"^hand drawn$": "Left or right",
    r"\bsays who\b": "Source",
    r"\bknown by\b": "How known",
    r"vapour burns": "vapour is flammable and harmful: use extraction",
    r"\bwith tons\b": "with tonnes of force",
    r"turn granted|^may turn$": "Permitted tilt",
    r"least corner radius": "Minimum knife corner radius",
    r"^most plies": "Maximum plies",
    r"^(setting up a lay|spreading a ply-metre|cutting a lay-metre)$": "Set-up cost per lay, ...",
    r"\b(cost|price|quick|nested|net|gross|roll) a (pair|metre|yard)\b(?!\.$)": "per",
    r"\b(pieces|layers) a (metre|stroke)\b": "per",
    r"^lay and count$": "Nest and cost",
    r"what moves (it|the cost)": "Sensitivity",
    r"^leave (it|them as they were)$": "Cancel",
    r"light as the system": "Follow system theme",
    r"^(longer|narrower)$": "Extension, Narrowing",
    r"^not looked at$|^to be seen$|not to be sold": "not assessed, visible, reject",
    r"really (cut|took|used)": "actually",
    r"fewer than no ": "a negative number of",
    rf"(?<!there )\b(is|are) no ({NOUNS})\b": "is not a ...",
    r"\bcannot be told\b|\bhangs? together\b": "cannot be identified, is in one part",
    r"\blook whether\b": "check that",
}
"""What a text said -> what it says now."""

ON_PAPER = {
    r"\bface up\b": "glue side up: the cloth's face is its uncoated or its coated side",
    r"\bin all$": "total",
    r"^(assumed|checked) and ": "Assumptions and verification, Checks and assumptions",
    r"\(--[a-z]": "no switch of the command line: say what is done",
    r"\bcost of all\b": "cost of the order",
    r"\bcounted in\b": "included",
    r"\(s\)": "counted(number, word)",
    r"rows? (going|ran) on\b|\bown strips\b": "endless rows, each die on its own strip",
    r"\bpairs (held|of sizes)\b": "pairs in the lay",
    r"\bin the mean\b": "on average",
    r"^overlaid$": "backing on upper: an overlay is an edge that lies over another piece",
}
"""What a paper said -> what it says now."""

POETRY = re.compile(
    r"\b(snug\w*|vain|leant|lest|whence|thence|thither|nay|wander\w*|begs?|honest\w*|ghost\w*|hungry|"
    r"whisper\w*|alas|mercy|believed|anew)\b",
    re.I,
)
NAMELESS = re.compile(
    r"course notes|trade sources|several (trade )?sources|web handbook|handbook examples|leather school|"
    "textbook",
    re.I,
)
"""A source that no reader can find: give its name, or 'common practice, no source'."""

TIGHT_PERCENT = re.compile(r"[\d}]%(?!%)")
"""A per cent sign without its space."""

CODE = ("app", "geometry", "nesting", "sample_styles")


def _texts(packages: tuple[str, ...] = CODE, *, spaced: bool = True) -> list[tuple[str, str]]:
    """Every text of the program that somebody may read: (place, text); ``spaced``: of several words."""
    found = []
    for path in [p for name in packages for p in sorted((ROOT / name).rglob("*.py"))]:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        notes = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}  # docstrings
        for node in ast.walk(tree):
            if id(node) in notes or not isinstance(node, ast.Constant):
                continue
            if isinstance(node.value, str) and (" " in node.value.strip() or not spaced):
                found.append((f"{path.relative_to(ROOT)}:{node.lineno}", " ".join(node.value.split())))
    return found


def test_texts_say_it_as_the_trade_does() -> None:
    wrong = [
        f"{place}: {text[:80]!r}, say {better!r}"
        for place, text in _texts()
        for pattern, better in SAID_NOW.items()
        if re.search(pattern, text, re.I)
    ]
    assert wrong == []


def test_papers_say_it_as_the_bench_does() -> None:
    wrong = [
        f"{place}: {text[:80]!r}, say {better!r}"
        for place, text in _texts(("app/papers", "app/cost", "app/press"), spaced=False)
        for pattern, better in ON_PAPER.items()
        if re.search(pattern, text, re.I)
    ]
    assert wrong == []


def test_a_percentage_is_written_one_way() -> None:
    """68.0 % in every language, by ``geometry.said.percent``: a space before the sign, as before any unit."""
    wrong = [f"{place}: {text[:80]!r}" for place, text in _texts() if TIGHT_PERCENT.search(text)]
    for path in (p for name in CODE for p in sorted((ROOT / name).rglob("*.py"))):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            spec = node.format_spec if isinstance(node, ast.FormattedValue) else None
            if isinstance(spec, ast.JoinedStr) and ast.unparse(spec).endswith("%'"):
                wrong.append(f"{path.relative_to(ROOT)}:{node.lineno}: say percent(...)")
    for path in sorted((ROOT / "app").rglob("*_it.ts")) + sorted((ROOT / "app" / "words").glob("*.json")):
        wrong += [
            f"{path.name}: {line.strip()}"
            for line in path.read_text("utf-8").splitlines()
            if TIGHT_PERCENT.search(line)
        ]
    assert wrong == []


def test_no_text_leaves_it_open_whether_there_are_several() -> None:
    """'edges: 1' or counted words, not 'edge(s)'; the papers have their own tests."""
    wrong = [place for place, text in _texts() if re.search(r"\w\((s|es)\)", text)]
    assert [place for place in wrong if not place.startswith("app/papers")] == []


def test_neither_code_nor_docs_wax_poetic() -> None:
    paths = [p for name in (*CODE, "docs") for p in (ROOT / name).rglob("*") if p.suffix in (".py", ".md")]
    paths += [ROOT / "README.md", ROOT / "DEVELOPERS.md", ROOT / "start.py"]
    wrong = [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:80]}"
        for path in paths
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if POETRY.search(line)
    ]
    assert wrong == []


def test_every_source_can_be_found_by_its_reader() -> None:
    paths = [
        p for name in (*CODE, "docs", "tests") for p in (ROOT / name).rglob("*") if p.suffix in (".py", ".md")
    ]
    wrong = [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:80]}"
        for path in paths
        if path != Path(__file__)
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if NAMELESS.search(line)
    ]
    assert wrong == []


def test_a_drawing_layer_is_not_named_as_an_edge_kind() -> None:
    """'overlay' is an edge that lies over another piece; a layer of that name would be read as one."""
    from app.papers.formats.dxf import LAYERS
    from geometry.edge_kinds import EdgeKind

    assert not {kind.value for kind in EdgeKind} & set(LAYERS)


def test_the_coated_side_is_named_one_way() -> None:
    """Face and back of the cloth, in window and papers: the inside of a roll depends on how it was wound."""
    wrong = [place for place, text in _texts() if re.search(r"\b(in|out)side of the roll\b", text)]
    assert wrong == []


def test_single_keys_are_not_those_of_a_drawing_program() -> None:
    """V selects, Z zooms, F fits and Space drags in one family of programs; ours are none of these."""
    import pytest

    pytest.importorskip("PySide6.QtWidgets")
    from app.window.desks import desk_types
    from app.window.shell.shell_actions import SHELL

    keys = {key for kind in desk_types() for spec in kind.specs() for key in spec.keys}
    keys |= {key for spec in SHELL for key in spec.keys}
    assert not keys & {"V", "Z", "F", "Space"}
    assert {"Home", "Ctrl+0"} <= keys
