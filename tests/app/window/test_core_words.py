"""What the core says of stretch and hold is said in the language of the window, figures and all."""

import ast
import pickle
import re

import pytest
from PySide6.QtCore import QCoreApplication, QLocale, QTranslator

from app.hold.verdicts import style_hold
from app.papers.formats.drawing import Drawing
from app.style.file import load_style
from app.window.application import TRANSLATIONS
from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths, Unit
from app.window.wording.core_words import clauses_of, tell_lengths_as, told_finding, told_text
from app.window.wording.phrases import PHRASES
from geometry.errors import SheetError
from geometry.said import Said, joined, said
from geometry.stretch.fit import fit_strips
from geometry.stretch.strips import PulledStrip
from tests.app.window.hands import ROOT, SAMPLES

NESTING = ("engine", "files", "free", "planning", "press", "rows")
APP = ("cost", "hold", "lay", "papers", "plan", "press", "style", "workshop")
RUN = ("backing", "boards", "cost", "plan", "press", "arguments", "report", "solving")
"""Modules of the commands that the window runs; what they say on the way is shown there."""
SPEAKERS = [
    *(ROOT / "geometry").rglob("*.py"),
    *(path for name in NESTING for path in (ROOT / "nesting" / name).rglob("*.py")),
    ROOT / "nesting" / "remnant.py",
    ROOT / "nesting" / "lay_document.py",
    *(path for name in APP for path in (ROOT / "app" / name).rglob("*.py")),
    *(ROOT / "app" / "commands" / f"{name}.py" for name in RUN),
]
"""Whose findings and errors the window shows."""

PLAIN = {"ValueError", "TypeError", "KeyError", "RuntimeError", "AssertionError", "OSError"}
TEXTS = ("message", "done", "advice", "remedy")
HELPERS = {
    ("fit", "say"), ("strips", "refuse"), ("drafting", "_finding"), ("mirror_line", "_kept"),
    ("report", "add"), ("report", "cuts"), ("job", "tell"), ("run_plan", "tell"), ("kept", "say"),
    ("pieces", "_question"), ("revise", "RevisionQuestion"),
}  # fmt: skip
"""Functions of a module that are handed the texts of a finding or an error."""


def words_of(node) -> list[str]:
    """The words of a text in the source, without its figures."""
    if isinstance(node, ast.IfExp):
        return [*words_of(node.body), *words_of(node.orelse)]
    if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "said":
        return words_of(node.args[0])
    plain = isinstance(node, ast.Constant) and isinstance(node.value, str) and not node.value.isupper()
    return [node.value] if plain else []


def texts_in(path) -> list[ast.expr]:
    """What findings and errors of a module say, as it stands in the source."""
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "id", getattr(node.func, "attr", ""))
        keywords = [k.value for k in node.keywords if k.arg in TEXTS]
        if name == "Finding":
            found += keywords
        elif name.endswith("Error") and name not in PLAIN:
            found += [*node.args[:1], *keywords]
        elif (path.stem, name) in HELPERS or (path.parent.name == "commands" and name == "say"):
            found += [*node.args, *keywords]
        elif name == "add" and len(node.args) > 2 and words_of(node.args[0]) == []:
            found += [node.args[2], *keywords]  # a report's finding: code, severity, message
    return found


def known(clause: str) -> bool:
    """Whether the window has words for a clause, or for what stands on both sides of its colon."""
    _, colon, rest = clause.partition(": ")
    return clause in PHRASES or not re.sub(r"\{\d\}|\W", "", clause) or bool(colon and known(rest))


def test_every_finding_and_error_has_its_words_in_the_window():
    missing = {
        clause
        for path in SPEAKERS
        for text in texts_in(path)
        for words in words_of(text)
        for clause in clauses_of(words)
        if not known(clause)
    }
    assert not missing


def test_figures_are_never_baked_into_a_text():
    """A text put together on the spot could not be said in another language: ``said`` keeps it apart."""
    baked = {
        f"{path.relative_to(ROOT)}:{text.lineno}"
        for path in SPEAKERS
        for text in texts_in(path)
        if isinstance(text, ast.JoinedStr | ast.BinOp)
    }
    assert not baked


@pytest.fixture
def italian(qapp):
    translator = QTranslator()
    assert translator.load(str(TRANSLATIONS / "stayply_it.qm"))
    QCoreApplication.installTranslator(translator)
    before = QLocale()
    QLocale.setDefault(QLocale("it"))
    yield
    QLocale.setDefault(before)
    QCoreApplication.removeTranslator(translator)


def test_a_finding_keeps_its_figures_in_another_language(italian):
    style = load_style(SAMPLES["court"])
    broken = [f for f in style_hold(style, turn_deg=90.0).findings if f.code == "HOLD_BROKEN"]
    vamp = told_finding(broken[0])
    assert vamp.startswith("Vamp 37: cede 2,5-2,6 mm sotto 1 N/mm, limite 2 mm; girare il tessuto")
    chain = told_finding(next(f for f in broken if "chain" in f.message))
    assert "la catena Outer side cede 7,6-8,0 mm sotto 1 N/mm, limite 5 mm" in chain


def test_a_refusal_is_told_with_its_place(italian):
    strips = [PulledStrip(0, 25, 100, (-25.0,), (2.0,)), PulledStrip(45, 25, 100, (25.0,), (20.0,))]
    with pytest.raises(SheetError) as refused:
        fit_strips(strips, 1.0)
    assert told_text(str(refused.value)) == (
        "striscia a 0°: un carico di -25 N; i carichi sono maggiori di zero; "
        "lasciare fuori la lettura scarica"
    )


def test_what_is_not_known_stays_as_it_is(italian):
    assert told_text("Vamp: a word of another part; and more") == "Vamp: a word of another part; and more"
    assert told_text(said("{0} mm under {1} N", 12, 25)) == "12 mm sotto 25 N"
    assert told_text("12 mm under 25 N") == "12 mm under 25 N", "no sentence is read back by its pattern"


def test_clauses_are_said_with_their_own_figures(italian):
    text = joined(
        said("{0}: {1}", "Vamp 37", said("{0} mm under {1} N", 3, 4)), "the direction counts as assumed"
    )
    assert str(text) == "Vamp 37: 3 mm under 4 N; the direction counts as assumed"
    assert told_text(text).startswith("Vamp 37: 3 mm sotto 4 N; ")
    assert pickle.loads(pickle.dumps(text)).values == text.values


def test_figures_stand_in_the_language_and_names_and_files_do_not_change(italian):
    assert localised("1,234.5 m2, 2.5-2.6 mm (+0.3 ± 0.1)") == "1.234,5 m2, 2,5-2,6 mm (+0,3 ± 0,1)"
    assert localised("2026-11-29, v1.2, 1.2.3") == "2026-11-29, v1.2, 1.2.3"
    assert localised(localised("2.500 m")) == "2,500 m", "turned twice is turned once"
    assert told_text(said("{0}: {1}", "order 2.5.csv", "2.5")) == "order 2.5.csv: 2,5"
    assert told_text(said("{0}: {1}", "Vamp", "20,000")) == "Vamp: 20\u202f000"


def test_english_keeps_the_point(qapp):
    assert localised("1,234.5 m2") == "1,234.5 m2"


def test_beside_inches_a_finding_tells_its_lengths_in_inches(qapp):
    """25.4 mm are an inch, and a force per mm of width stays what the test machine reads."""
    text = said("gives {0} mm under {1} N/mm, limit {2} mm", "2.5-5.1", "1", "25.4")
    tell_lengths_as(Lengths(Unit.INCH))
    try:
        assert told_text(text) == "gives 0.098-0.201 in under 1 N/mm, limit 1.000 in"
        assert told_text("still caught by a stitch 1.5-2 mm from the edge") == (
            "still caught by a stitch 0.06-0.08 in from the edge"
        )
    finally:
        tell_lengths_as(Lengths())
    assert told_text(text) == "gives 2.5-5.1 mm under 1 N/mm, limit 25.4 mm"


def test_words_of_papers_are_told_in_the_window_too(italian):
    assert told_text("predicted, mm") == "previsto, mm"
    assert told_text("still caught by a stitch 1.5-2 mm from the edge").endswith("1,5-2 mm dal bordo")


def test_a_picture_of_papers_keeps_its_words_apart_for_the_window():
    drawing = Drawing()
    drawing.text(0.0, 0.0, said("limit {0} mm", "2.0"), 3.0)
    (mark,) = drawing.walk()
    assert isinstance(mark.text, Said) and mark.text.values == ("2.0",)
