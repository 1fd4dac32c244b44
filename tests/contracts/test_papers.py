"""Every paper is one module with the same entry; commands, window, demo and docs take it from one list."""

from __future__ import annotations

import ast
import inspect
import re
from importlib import import_module
from pathlib import Path

import pytest

from app.commands import COMMANDS
from app.papers.registry import PAPERS, Paper
from app.window.wording.words import paper_name

ROOT = Path(__file__).parents[2]
DESKS = ROOT / "app" / "window" / "desks"
PARTS = {
    "fabric_tables", "lay_facts", "lay_folder", "lay_overview", "paper_folder", "press_tables",
    "registry", "shown",
    "ticket_figures",
}  # fmt: skip
"""Modules of the package that are part of a paper, or of none."""


def test_every_module_is_a_paper_of_the_list_or_part_of_one() -> None:
    modules = {path.stem for path in (ROOT / "app" / "papers").glob("*.py")} - {"__init__"}
    assert modules - PARTS == {paper.module for paper in PAPERS}
    assert len({paper.code for paper in PAPERS}) == len(PAPERS)


@pytest.mark.parametrize("paper", PAPERS, ids=lambda paper: paper.code)
def test_every_paper_has_the_same_entry_and_a_name(paper: Paper) -> None:
    module = import_module(f"app.papers.{paper.module}")
    for entry, parameters in ((module.pages, ["shown"]), (module.write, ["shown", "out_dir"])):
        found = inspect.signature(entry).parameters
        assert list(found) == parameters
        assert found["shown"].annotation == paper.shows.__name__
    assert not paper.desk or paper_name(paper.code)
    for command in paper.by:
        assert command.split()[0] in COMMANDS


def test_no_command_and_no_desk_writes_a_paper_past_the_list() -> None:
    """Whoever imported a paper's module could write it alone, and a new paper would be missed there."""
    papers = {paper.module for paper in PAPERS}
    words_of_a_paper = {("app/commands/stretch.py", "stretch_report")}
    words_of_a_paper |= {("app/window/desks/cloth/strips/strips_page.py", "stretch_report")}
    for folder in ("commands", "window"):
        for path in (ROOT / "app" / folder).rglob("*.py"):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.ImportFrom) and node.module == "app.papers":
                    name = path.relative_to(ROOT).as_posix()
                    found = {a.name for a in node.names} & papers
                    assert not {(name, each) for each in found} - words_of_a_paper, name


def test_the_docs_list_is_this_one() -> None:
    text = (ROOT / "docs" / "papers.md").read_text(encoding="utf-8")
    listed = re.findall(r"^\| ([a-z0-9-]+) \| ([^|]*) \| ([^|]*) \| ([^|]*) \|$", text, re.M)
    assert listed[0][0] == "paper"
    assert listed[1:] == [
        (
            paper.code,
            ", ".join(paper.files) or "those of each lay, in its folder",
            ", ".join(f"`{command}`" for command in paper.by),
            paper.desk or "-",
        )
        for paper in PAPERS
    ]


def test_the_desk_that_prints_a_paper_offers_its_kind() -> None:
    for paper in PAPERS:
        offering = {
            path.relative_to(DESKS).parts[0]
            for path in DESKS.rglob("*.py")
            if re.search(rf"offers\(\s*{paper.shows.__name__}\b", path.read_text(encoding="utf-8"))
        }
        assert offering == ({paper.desk.lower()} if paper.desk else set()), paper.code
