"""What the core says of stretch and hold is said in the language of the window, figures and all."""

import ast

import pytest
from PySide6.QtCore import QCoreApplication, QTranslator

from app.hold.verdicts import style_hold
from app.style.file import load_style
from app.window.application import TRANSLATIONS
from app.window.wording.core_phrases import PHRASES
from app.window.wording.core_words import told_finding, told_text
from geometry.errors import SheetError
from geometry.stretch.fit import fit_strips
from geometry.stretch.strips import Strip
from tests.app.window.hands import ROOT, SAMPLES

SPEAKERS = (
    *(ROOT / "geometry/stretch" / f"{name}.py" for name in ("fit", "strips", "sheet", "hand_pull", "hold")),
    *(ROOT / "app/hold" / f"{name}.py" for name in ("verdicts", "piece_hold", "chain", "materials")),
)
GAP = "{}"


def clauses(node) -> list[str]:
    """The clauses of a text in the source, its gaps as {}."""
    if isinstance(node, ast.IfExp):
        return [*clauses(node.body), *clauses(node.orelse)]
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        text = node.value
    elif isinstance(node, ast.JoinedStr):
        parts = (part.value if isinstance(part, ast.Constant) else GAP for part in node.values)
        text = "".join(str(part) for part in parts)
    else:
        return []
    return [clause for clause in text.split("; ") if clause.strip("{}: ")]


def said_in(path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "id", getattr(node.func, "attr", ""))
        if name == "Finding":
            texts = [k.value for k in node.keywords if k.arg in ("message", "done", "advice")]
        elif name in ("SheetError", "UsageError"):
            texts = [*node.args[:1], *(k.value for k in node.keywords if k.arg == "remedy")]
        else:
            texts = {"say": node.args[2:], "refuse": node.args}.get(name, [])
        found |= {clause for text in texts for clause in clauses(text)}
    return found


def test_every_clause_of_the_core_is_known():
    known = {phrase.translate({ord(d): None for d in "0123456789"}) for phrase in PHRASES}
    said = {
        clause.translate({ord(d): None for d in "0123456789"})
        for path in SPEAKERS
        for clause in said_in(path)
    }
    assert len(said) > 60
    assert not {clause for clause in said - known if not clause.startswith(GAP + ": ")}


@pytest.fixture
def italian(qapp):
    translator = QTranslator()
    assert translator.load(str(TRANSLATIONS / "stayply_it.qm"))
    QCoreApplication.installTranslator(translator)
    yield
    QCoreApplication.removeTranslator(translator)


def test_a_finding_keeps_its_figures_in_another_language(italian):
    style = load_style(SAMPLES["court"])
    broken = [f for f in style_hold(style, turn_deg=90.0).findings if f.code == "HOLD_BROKEN"]
    vamp = told_finding(broken[0])
    assert vamp.startswith("Vamp 37: cede 2.5-2.6 mm sotto 1 N/mm, limite 2 mm; girare il tessuto")
    chain = told_finding(next(f for f in broken if "chain" in f.message))
    assert "la catena Outer side cede 7.6-8.0 mm sotto 1 N/mm, limite 5 mm" in chain


def test_a_refusal_is_told_with_its_place(italian):
    strips = [Strip(0, 25, 100, (-25.0,), (2.0,)), Strip(45, 25, 100, (25.0,), (20.0,))]
    with pytest.raises(SheetError) as refused:
        fit_strips(strips, 1.0)
    assert told_text(str(refused.value)) == (
        "striscia a 0°: un carico di -25 N; i carichi sono maggiori di zero; "
        "lasciare fuori la lettura scarica"
    )


def test_what_is_not_known_stays_as_it_is(italian):
    assert told_text("Vamp: a word of another part; and more") == "Vamp: a word of another part; and more"
    assert told_text("12 mm under 25 N") == "12 mm sotto 25 N"
    assert told_text("notes under some N") == "notes under some N"
