"""Papers in another language: every text of a paper passes through the catalogue, and has its Italian."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from pypdf import PdfReader

from app.__main__ import main
from app.hold.verdicts import style_hold
from app.lay.job import LayJob, document_of, judged, problem_of
from app.papers import registry
from app.papers.formats.drawing import Text
from app.papers.lay_overview import FOUND_BY
from app.papers.shown import CardSheet, Drafted, Held, Laid, Reinforced
from app.papers.ticket_figures import CutTicket, TicketLay
from app.style.file import load_style
from app.style.pieces import uppers_and_backings
from app.words import in_language, say, told
from app.words.language import catalogue, shared
from geometry.said import said
from geometry.trace.sheet import trace_sheet
from nesting.free import first_layout

ROOT = Path(__file__).parents[3]
STYLE = ROOT / "sample_styles" / "court" / "court.style.json"
ITALIAN = catalogue("it")
GAP = re.compile(r"\{\d+\}")
NAMING = {"name", "id", "fibre", "weave", "glue", "source", "drawing", "lot"}
UNITS = {"m²", "mm", "cm", "MPa", "EUR", "EVA", "PET", "stayply"}
SPEAKERS = [
    *(ROOT / "app" / "papers").rglob("*.py"),
    *(
        ROOT / "app" / name
        for name in ("cost/text.py", "cost/report.py", "press/report.py", "plan/report.py")
    ),
    *(ROOT / "app" / "hold" / name for name in ("two_models.py", "on_lay.py", "materials.py")),
]
"""Whose sentences with figures papers show."""


def marked(words: str) -> str | None:
    """A language in which every letter is an ø, of the texts that have their Italian."""
    if words not in ITALIAN:
        return None
    return re.sub(r"\{\d+\}|[^\W\d_]+", lambda m: m[0] if m[0][0] == "{" else "ø" * len(m[0]), words)


def names_in(saved: object) -> Iterator[str]:
    """Names and descriptions that a person gave: they stay as they are."""
    if isinstance(saved, dict):
        for key, value in saved.items():
            if isinstance(value, str) and key in NAMING:
                yield value
            yield from names_in(value)
    elif isinstance(saved, list):
        for each in saved:
            yield from names_in(each)


def shown_of_a_style() -> list[object]:
    style = load_style(STYLE)
    base = (style.size_run.base,)
    job = LayJob(style, {"37": 1})
    problem = problem_of(job)
    lay = first_layout.solve(problem)
    document, verdict = document_of(job, problem, lay), judged(problem, lay)
    ticket = CutTicket(style, {"37": 1}, (TicketLay("1", document, verdict, 1),), job.cloth.id)
    return [
        Drafted(style, uppers_and_backings(style, base, ("left",))),
        Reinforced(style, uppers_and_backings(style, base, ("left",))),
        Held(style, style_hold(style)),
        Laid(document, verdict, style, ticket),
        CardSheet(trace_sheet("A4")),
    ]


def test_no_drawn_text_but_names_lacks_its_italian() -> None:
    saved = json.loads(STYLE.read_text(encoding="utf-8"))
    names = set(re.findall(r"[^\W\d_]+", " ".join(names_in(saved)))) | UNITS
    left: set[str] = set()
    for shown in shown_of_a_style():
        for paper in registry.papers_of(type(shown)):
            with in_language("ø", marked):
                pages = paper._loaded().pages(shown)
            for page in pages:
                for mark in page.drawing.walk():
                    if isinstance(mark, Text):
                        words = set(re.findall(r"[^\W\d_]{2,}", mark.text)) - names
                        left |= {mark.text for word in words if set(word) != {"ø"}}
    assert not left


def test_every_sentence_with_figures_has_its_italian() -> None:
    missing = set()
    for path in SPEAKERS:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        errors = {id(n) for r in ast.walk(tree) if isinstance(r, ast.Raise) for n in ast.walk(r)}
        for node in ast.walk(tree):
            if id(node) in errors:  # tests/app/window/test_core_words.py looks after these
                continue
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") in ("say", "said"):
                words = node.args[0]
                texts = [words] if isinstance(words, ast.Constant) else []
                missing |= {
                    text.value
                    for text in texts
                    if re.search(r"[^\W\d_]{3,}", GAP.sub("", str(text.value))) and text.value not in ITALIAN
                }
    assert not missing


def test_every_way_a_lay_was_found_has_its_italian() -> None:
    """The names that engines write into a lay, part by part, as the lay plan tells them."""
    names = set()
    for path in (ROOT / "nesting" / "free").glob("*.py"), (ROOT / "nesting" / "rows").glob("*.py"):
        for module in path:
            source = module.read_text(encoding="utf-8")
            named = r'(?:engine(?: \+)?=|(?:ENGINE|SQUEEZED|BANDS|WINDOWS|WHOLE|AROUND) = )\s*"([^"]+)"'
            names |= set(re.findall(named, source))
    parts = {part for name in names for part in name.split(", ") if part}
    assert {"first layout", "squeezed", "in sections", "bands of rows", "shortened in windows"} <= parts
    assert {"shortened as a whole", "shortened around"} <= parts
    assert {FOUND_BY.get(part, part) for part in parts} <= ITALIAN.keys()


def test_a_hold_sheet_tells_in_italian_how_its_cloth_is_known() -> None:
    held = style_hold(load_style(STYLE))
    with in_language("it"):
        assert "strips" in held.how_known and "strips" not in told(held.how_known)


def test_no_text_has_two_italian_versions_and_all_keep_their_figures() -> None:
    file = ROOT / "app" / "words" / "it.json"
    own = json.loads(file.read_text(encoding="utf-8")).keys()
    assert not own & shared("it").keys()
    for words in own:
        assert sorted(GAP.findall(words)) == sorted(GAP.findall(ITALIAN[words])), words
        again = ITALIAN.get(ITALIAN[words], ITALIAN[words])
        assert again == ITALIAN[words], f"{words} would be told twice"


def test_a_text_keeps_its_figures_and_a_name_stays() -> None:
    with in_language("it"):
        assert say("sheet {0} of {1}", 2, 3) == "foglio 2 di 3"
        assert told(said("gap {0} mm", "2")) == "distanza 2 mm"
        assert told("Vamp") == "Vamp"
    assert say("sheet {0} of {1}", 2, 3) == "sheet 2 of 3"


def test_a_command_writes_its_papers_in_the_language_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["boards", str(STYLE), "--sizes", "37", "--hands", "left", "-o", str(tmp_path / "o")]
    assert main([*words, "--language", "it"]) == 0
    assert "lato colla in alto" in PdfReader(tmp_path / "o" / "boards.pdf").pages[0].extract_text()
    assert main([*words, "--language", "xx"]) == 2
