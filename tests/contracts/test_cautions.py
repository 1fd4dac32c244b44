"""One wording for one hazard, on every paper, in every text and object where hands meet it."""

from __future__ import annotations

import ast
import importlib
import re
from dataclasses import fields
from pathlib import Path

import pytest
from pypdf import PdfReader

from app.__main__ import Parser
from app.cautions import AUTHORITY, HAZARDS, USES, cautions
from app.commands import COMMANDS, Outcome
from app.papers import reinforcement_sheet
from app.papers.shown import Reinforced
from app.style.file import load_style
from app.style.pieces import uppers_and_backings

ROOT = Path(__file__).parents[2]
SAMPLES = ROOT / "sample_styles"
TABLE = ROOT / "app" / "cautions.py"
TOLD = re.compile(
    r"vapour|\btonnes?\b|\bburns?\b|\bcrush|lock(ed)? out|flammable|mesh glove|cut-resistant", re.I
)

PAPERS = {
    "boards.pdf": "boards",
    "cut-ticket.pdf": "cut ticket",
    "field-sheet.pdf": "field sheet",
    "hold-sheet.pdf": "hold sheet",
    "lay-1to1.pdf": "lay",
    "lay.pdf": "lay",
    "press-list.pdf": "press",
    "reinforcement-sheet.pdf": "reinforcement sheet",
    "run-plan.pdf": "plan",
    "stretch-report.pdf": "stretch",
}
"""Paper -> the use whose cautions stand on it. A new paper is named here, or among WITHOUT."""
WITHOUT = {
    "trial-report.pdf": "figures of trials that were made",
    "fabric-per-pair.pdf": "figures for a desk",
    "trace-sheet.pdf": "nothing is cut along it",
}


def run(command: str, *words: str) -> Outcome:
    module = importlib.import_module(f"app.commands.{COMMANDS[command].module}")
    parser = Parser(prog=command)
    module.add_arguments(parser)
    outcome = module.run(parser.parse_args(list(words)))
    assert isinstance(outcome, Outcome)
    return outcome


def text_of(path: Path) -> str:
    text = " ".join(page.extract_text() for page in PdfReader(path).pages)
    return re.sub(r"[-\s]+", " ", text)


def holds(text: str, use: str, where: object) -> None:
    for caution in cautions(use):
        assert re.sub(r"[-\s]+", " ", caution) in text, f"{where}: {caution}"


def test_every_hazard_is_used_and_every_use_knows_its_hazards() -> None:
    assert {hazard for hazards in USES.values() for hazard in hazards} == set(HAZARDS)
    assert {"press", "hot plate", "die", "knife", "cement vapour", "roll"} <= {*HAZARDS, "press"}
    assert all(use in USES for use in PAPERS.values())


def test_no_other_module_words_a_hazard_of_its_own() -> None:
    found = [
        f"{path.relative_to(ROOT)}:{node.lineno}: {node.value}"
        for path in (ROOT / "app").rglob("*.py")
        if path != TABLE
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and TOLD.search(node.value)
    ]
    assert found == []


def test_the_pages_word_no_hazard_of_their_own() -> None:
    """One page lists the cautions, word for word; all others point at it."""
    bench = (ROOT / "docs" / "howto-cutter.md").read_text(encoding="utf-8")
    told = {wording.en for wording in (*HAZARDS.values(), AUTHORITY)}
    assert [text for text in told if text not in bench] == []
    found = [
        f"{path.name}: {line}"
        for path in [*(ROOT / "docs").glob("*.md"), ROOT / "README.md"]
        for line in path.read_text(encoding="utf-8").splitlines()
        if TOLD.search(line) and line.removeprefix("- ") not in told
    ]
    assert found == []


def test_every_caution_is_worded_in_every_language_and_papers_say_it_so() -> None:
    from app.words import LANGUAGES, in_language, told

    for wording in (*HAZARDS.values(), AUTHORITY):
        assert {field.name for field in fields(wording)} == set(LANGUAGES)
        with in_language("it"):
            assert told(wording.en) == wording.it != wording.en


def test_the_window_says_them_in_its_language() -> None:
    pytest.importorskip("PySide6.QtWidgets")
    from PySide6.QtCore import QLocale

    from app.window.wording.cautions import told_cautions

    before = QLocale()
    try:
        for name in ("en", "it"):
            QLocale.setDefault(QLocale(name))
            assert told_cautions("press").splitlines() == cautions("press", name)
    finally:
        QLocale.setDefault(before)


QUICK = ("--seconds", "2", "--no-history")


@pytest.mark.parametrize(
    "command, use, words",
    [
        ("lay", "lay", ("sandal", "--pairs", "37:1", "--seconds", "1", "--fresh")),
        ("plan", "plan", ("sandal", "--pairs", "37:2", "--table", "2000", "--plies", "2", *QUICK)),
        ("press", "press", ("sandal", "--pairs", "37:2", "--layers", "2")),
        ("boards", "boards", ("sandal", "--sizes", "37")),
        ("hold", "hold sheet", ("court",)),
        ("stretch", "stretch", ("court",)),
    ],
)  # fmt: skip
def test_papers_text_and_object_of_a_command_carry_them(
    command: str, use: str, words: tuple[str, ...], tmp_path: Path
) -> None:
    style = SAMPLES / words[0] / f"{words[0]}.style.json"
    outcome = run(command, str(style), *words[1:], "-o", str(tmp_path / "out"))
    assert outcome.payload["cautions"] == cautions(use)
    for caution in cautions(use):
        assert caution in outcome.text
    papers = list((tmp_path / "out").rglob("*.pdf"))
    assert papers
    for path in papers:
        holds(text_of(path), PAPERS[path.name], path.name)


def test_the_sheet_for_the_bench_carries_them(tmp_path: Path) -> None:
    style = load_style(SAMPLES / "sandal" / "sandal.style.json")
    pairs = uppers_and_backings(style, [style.size_run.base], ["left"])
    (path,) = reinforcement_sheet.write(Reinforced(style, pairs), tmp_path)
    holds(text_of(path), "reinforcement sheet", path.name)


def test_every_paper_is_known_to_carry_them_or_to_need_none() -> None:
    """Names of papers as they stand in app/papers."""
    named = {
        node.value
        for path in (ROOT / "app" / "papers").glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.endswith(".pdf")
    }
    stems = {name.rpartition("/")[2] for name in named if not name.startswith((".", "-"))}
    assert stems <= {*PAPERS, *WITHOUT}, stems - {*PAPERS, *WITHOUT}
