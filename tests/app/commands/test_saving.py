"""A command that saves a style never overwrites what somebody else has saved meanwhile."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from app.__main__ import main
from app.commands import cloth, revise, stretch

SAMPLE = Path(__file__).parents[3] / "sample_styles" / "court"
THEIRS = "somebody else's work"


@pytest.fixture
def style(tmp_path: Path, monkeypatch) -> Path:
    monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path / "data"))
    return Path(shutil.copy(SAMPLE / "court.style.json", tmp_path / "court.style.json"))


def _written_meanwhile(monkeypatch, module, style: Path) -> None:
    """Let another program write the file right after the command has read it."""
    read = module.load_style

    def load(path):
        got = read(path)
        style.write_text(THEIRS, encoding="utf-8")
        return got

    monkeypatch.setattr(module, "load_style", load)


def _card(style: Path) -> str:
    return str(json.loads(style.read_text(encoding="utf-8"))["cloths"][0]["id"])


@pytest.mark.parametrize(
    ("module", "words"),
    [
        (revise, ["revise", "{style}", str(SAMPLE / "court.dxf"), "-o", "{style}"]),
        (cloth, ["cloth", "take", "{style}", "{card}"]),
        (
            stretch,
            ["stretch", "{style}", "--strip", "0:30x100:10=1.2", "--strip", "45:30x100:10=6.0"]
            + ["--strip", "90:30x100:10=3.1", "--save"],
        ),
    ],
    ids=["revise", "cloth take", "stretch --save"],
)
def test_a_file_written_meanwhile_is_left_and_told(module, words, style, monkeypatch, capsys) -> None:
    words = [word.format(style=style, card=_card(style)) for word in words]
    _written_meanwhile(monkeypatch, module, style)
    assert main(words) == 2
    assert "another program" in capsys.readouterr().err
    assert style.read_text(encoding="utf-8") == THEIRS


def test_a_card_used_in_a_style_written_meanwhile_is_told(style, monkeypatch, capsys) -> None:
    name = _card(style)
    assert main(["cloth", "take", str(style), name]) == 0
    _written_meanwhile(monkeypatch, cloth, style)
    assert main(["cloth", "use", str(style), name]) == 2
    assert style.read_text(encoding="utf-8") == THEIRS


def test_another_style_is_not_replaced_unasked(style, tmp_path, capsys) -> None:
    name, other = _card(style), tmp_path / "other.style.json"
    other.write_text(THEIRS, encoding="utf-8")
    assert main(["cloth", "take", str(style), name]) == 0
    assert main(["cloth", "use", str(style), name, "-o", str(other)]) == 2
    assert other.read_text(encoding="utf-8") == THEIRS
    assert main(["cloth", "use", str(style), name, "-o", str(other), "--force"]) == 0
    assert json.loads(other.read_text(encoding="utf-8"))["format"]


def test_a_file_nobody_touched_is_saved(style) -> None:
    assert main(["cloth", "take", str(style), _card(style)]) == 0
