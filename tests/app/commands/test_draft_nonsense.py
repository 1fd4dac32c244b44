"""Nonsense given to the commands that draft: one line names file and remedy; the style stays as it was."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.app.commands.conftest import Call

FILES = {
    "empty.json": b"",
    "random.json": bytes(range(128, 256)) * 8,
    "list.json": b"[]",
    "object.json": b'{"do": "cut"}',
    "half.json": b'[{"do": ',
    "latin.json": '[{"do": "è"}]'.encode("latin-1"),
    "deep.json": b"[" * 100_000,
    "nan.json": b"[NaN]",
}
WRONG = ("1e9", "nan", "inf", "", "  ", "è/ ..", "9" * 300)
EDITS = [
    ["edit", "STYLE", "--beside", "strap", "0", "?"],
    ["edit", "STYLE", "--beside", "?", "0", "4"],
    ["edit", "STYLE", "--taper", "strap", "?", "4", "8"],
    ["edit", "STYLE", "--split", "strap", "?,0", "50,60", "0"],
    ["edit", "STYLE", "--split", "strap", "?", "50,60", "0"],
    ["edit", "STYLE", "--setback", "strap", "0", "?"],
    ["edit", "STYLE", "--break-corners", "strap", "?"],
    ["piece", "STYLE", "centre", "--piece", "strap", "--edge", "?"],
    ["piece", "STYLE", "unfold", "--piece", "?"],
    ["piece", "STYLE", "fold", "--piece", "strap", "--line", "?,?,?,?"],
    ["piece", "STYLE", "twin", "--piece", "strap", "--to", "?"],
    ["piece", "STYLE", "link", "--piece", "strap", "--to", "?"],
    ["piece", "STYLE", "duplicate", "--piece", "?"],
    ["piece", "STYLE", "rectangle", "--name", "Tab", "--size", "10x?"],
    ["piece", "STYLE", "shape", "--name", "Tab", "--points", "0,0", "?,?", "40,0"],
    ["sizes", "STYLE", "add", "?"],
    ["sizes", "STYLE", "remove", "?"],
    ["sizes", "STYLE", "base", "?"],
    ["sizes", "STYLE", "system", "?"],
    ["sizes", "STYLE", "girth", "?"],
    ["sizes", "STYLE", "draw", "?"],
    ["sizes", "STYLE", "grade", "?"],
    ["sizes", "STYLE", "grading", "?", "--piece", "strap"],
    ["sizes", "STYLE", "cut-as", "?=?", "--piece", "strap"],
    ["measure", "STYLE", "--sew", "strap:0=tongue:?"],
    ["measure", "STYLE", "--sew", "strap:0=tongue:0", "--ease", "?"],
    ["revise", "STYLE", "DRAWING", "--join", "?"],
]
FIXED = [
    ["edit", "STYLE", "--edits", "none.json"],
    ["edit", "STYLE", "--beside", "strap", "0", "4", "-o", "DRAWING"],
    ["piece", "STYLE", "twin", "--piece", "strap", "--to", "strap"],
    ["piece", "STYLE", "rectangle", "--name", "Tab", "--size", "0.001x0.001"],
    ["piece", "STYLE", "add", "--drawing", "none.dxf"],
    ["piece", "STYLE", "add", "--drawing", "DRAWING", "--pieces", "Sole"],
    ["sizes", "STYLE", "add", "1-99999"],
    ["revise", "STYLE", "none.dxf"],
    ["revise", "STYLE", "DRAWING", "--refuse", "Sole"],
    *(["edit", "STYLE", "--edits", name] for name in FILES if name != "list.json"),
    *(["edit", name] for name in FILES),
    *(["piece", "STYLE", "add", "--drawing", name] for name in FILES),
    *(["revise", "STYLE", name] for name in FILES),
    *(["revise", name, "DRAWING"] for name in FILES),
    *(["measure", "STYLE", "--with", name] for name in FILES),
]


def told(call: Call, words: list[str], style: Path, drawing: Path) -> str:
    """What is said of a call that is refused; the style on disk is what it was."""
    before = style.read_bytes()
    named = {"STYLE": str(style), "DRAWING": str(drawing)}
    called = call(*(named.get(word, word) for word in words))
    line = called.err.strip()
    assert called.status == 2 and called.out == "", (words, called)
    assert len(line.splitlines()) == 1 and "should not have happened" not in line, (words, line)
    assert ";" in line, (words, line)
    assert style.read_bytes() == before
    return line


@pytest.mark.parametrize("words", EDITS, ids=" ".join)
def test_a_figure_or_name_that_makes_no_sense(
    call: Call, plain_file: Path, drawing: Path, words: list[str]
) -> None:
    for wrong in WRONG:
        line = told(call, [word.replace("?", wrong) for word in words], plain_file, drawing)
        usage = "--help" in line or "needs" in line  # the words themselves could not be read
        assert usage or plain_file.name in line or drawing.name in line, line


@pytest.mark.parametrize("words", FIXED, ids=" ".join)
def test_a_file_that_is_none_and_a_name_that_is_taken(
    call: Call, plain_file: Path, drawing: Path, tmp_path: Path, words: list[str]
) -> None:
    for name, data in FILES.items():
        (tmp_path / name).write_bytes(data)
    line = told(call, words, plain_file, drawing)
    named = [word for word in words[1:] if word.endswith((".json", ".dxf"))]
    assert any(name in line for name in (*named, plain_file.name, drawing.name)), line
