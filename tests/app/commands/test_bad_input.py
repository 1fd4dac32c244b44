"""Bad input of every kind: exit status 2, one line that names the file and the remedy, no traceback,
nothing half-written."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import ezdxf
import pytest

from tests.app.commands.conftest import Call

ROOT = Path(__file__).parents[3]


def _only_one_line(err: str) -> str:
    lines = err.strip().splitlines()
    assert len(lines) == 1, err
    assert lines[0].startswith("stayply: ")
    assert "Traceback" not in err and "should not have happened" not in err
    return lines[0]


def _files(folder: Path) -> set[str]:
    return {str(path.relative_to(folder)) for path in folder.rglob("*")}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["nonsense"], "there is no command nonsense"),
        (["lya"], "did you mean lay?"),
        (["--nonsense"], "--help"),
        (["lay"], "style"),
        (["lay", "STYLE"], "--pairs"),
        (["lay", "STYLE", "--pairs", "36"], "SIZE:PAIRS"),
        (["lay", "STYLE", "--pairs", "45:2"], "size 45 is not a size of Plain"),
        (["lay", "STYLE", "--pairs", "37:2", "--run", "x.csv"], "not allowed with"),
        (["lay", "STYLE", "--run", "none.csv"], "none.csv: there is no such file"),
        (["lay", "STYLE", "--pairs", "37:2", "--cloth", "felt"], "no cloth felt; its cloths are twill-140"),
        (["lay", "STYLE", "--pairs", "37:2", "--width", "0"], "--width 0 mm is not valid"),
        (["lay", "STYLE", "--pairs", "37:2", "--width", "60"], "strap"),
        (["lay", "STYLE", "--pairs", "37:2", "--gap", "-1"], "--gap -1 mm"),
        (["lay", "STYLE", "--pairs", "37:2", "--gap", "nan"], "--gap nan mm"),
        (["lay", "STYLE", "--pairs", "37:2", "--plies", "0"], "0 plies"),
        (
            ["lay", "STYLE", "--pairs", "37:2", "--plies", "3", "--mode", "face-to-face"],
            "even number of plies",
        ),
        (["lay", "STYLE", "--pairs", "37:2", "--seconds", "0"], "--seconds 0"),
        (["lay", "STYLE", "--pairs", "37:2", "--workers", "0"], "--workers 0"),
        (["lay", "STYLE", "--pairs", "37:2", "-o", "STYLE"], "is a file, not a folder"),
        (["lay", "none.style.json", "--pairs", "37:2"], "none.style.json: there is no such file"),
        (["lay", "DRAWING", "--pairs", "37:2"], "stayply new"),
        (["backing", "STYLE", "--sizes", "50"], "there is no size 50"),
        (["backing", "STYLE", "--sizes", "40-36"], "runs backwards"),
        (["backing", "STYLE", "-o", "out.pdf"], "name it OUT.dxf"),
        (["backing", "DRAWING"], "stayply new"),
        (["verify", "none.json"], "none.json: there is no such file"),
        (["verify", "STYLE"], "not a lay made by this program"),
        (["verify", "DRAWING"], "is not a JSON file"),
        (["cost", "STYLE", "--widths", "wide"], "wide is not a roll width"),
        (["cost", "STYLE", "--widths", "40"], "40 is not a roll width"),
        (["cost", "STYLE", "--price", "much"], "much is not a price"),
        (["cost", "STYLE", "--price", "-2"], "-2"),
        (["cost", "STYLE", "--cloth", "felt"], "nothing of Plain is cut from felt"),
        (["new", "none.dxf"], "none.dxf"),
        (["new", "STYLE", "-o", "x.style.json"], "plain.style.json"),
        (["new", "DRAWING", "-o", "x.style.json"], "--base-size"),
        (["new", "DRAWING", "-o", "STYLE", "--base-size", "37"], "there is a file of this name already"),
        (["new", "DRAWING", "-o", "x.style.json", "--base-size", "37", "--tight", "up"], "--tight up"),
        (["new", "DRAWING", "-o", "x.style.json", "--base-size", "37", "--width", "5"], "usable width"),
        (["new", "DRAWING", "-o", "x.style.json", "--base-size", "37", "--chord", "-1"], "chord"),
        (["new", "DRAWING", "-o", "x.style.json", "--base-size", "37", "--sizes", "a-b"], "size"),
        (["demo", "--out", "STYLE"], "is a file, not a folder"),
    ],
    ids=lambda part: " ".join(part) if isinstance(part, list) else "",
)
def test_it_is_said_in_one_line(
    call: Call, plain_file: Path, drawing: Path, tmp_path: Path, words: list[str], said: str
) -> None:
    before = _files(tmp_path)
    named = {"STYLE": plain_file, "DRAWING": drawing}
    called = call(*(named.get(word, word) for word in words))
    assert called.status == 2
    assert called.out == ""
    assert said in _only_one_line(called.err)
    assert _files(tmp_path) == before, "nothing is written"


def test_a_drawing_whose_unit_is_open_is_not_guessed(call: Call, tmp_path: Path) -> None:
    document = ezdxf.new("R2010", units=0)
    document.modelspace().add_lwpolyline([(0, 0), (10, 0), (10, 6), (0, 6)], close=True)
    document.saveas(tmp_path / "unitless.dxf")
    words = ["new", "unitless.dxf", "-o", "x.style.json", "--base-size", "37"]
    line = _only_one_line((refused := call(*words)).err)
    assert refused.status == 2
    assert "100 x 60 mm" in line and "254 x 152.4 mm" in line and "--unit" in line
    assert not (tmp_path / "x.style.json").exists()
    assert call(*words, "--unit", "in").status == 0


def test_a_damaged_style_names_the_piece_and_the_field(call: Call, plain_file: Path) -> None:
    data: dict[str, Any] = json.loads(plain_file.read_text())
    data["pieces"][1]["edges"][0]["kind"] = "velcro"
    plain_file.write_text(json.dumps(data))
    called = call("backing", plain_file)
    line = _only_one_line(called.err)
    assert called.status == 2
    assert "piece tongue" in line and "pieces[1].edges[0].kind" in line


def test_a_folder_that_cannot_be_written_is_named(call: Call, plain_file: Path, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file where a folder is needed")
    called = call("backing", plain_file, "-o", tmp_path / "taken" / "out.dxf")
    assert called.status == 2
    assert "taken" in _only_one_line(called.err)


def test_a_fault_of_the_program_is_one_line_and_a_log(
    call: Call, plain_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import app.commands.backing as backing

    def broken(*_: object) -> None:
        raise RuntimeError("a wheel came off")

    monkeypatch.setattr(backing, "load_style", broken)
    monkeypatch.setattr("platformdirs.user_log_dir", lambda *_, **__: str(tmp_path / "log"))
    called = call("backing", plain_file)
    assert called.status == 2
    assert "a wheel came off" in called.err and len(called.err.strip().splitlines()) == 1
    assert "Traceback" in (tmp_path / "log" / "errors.log").read_text()


def test_a_folder_without_rights_is_no_fault_of_the_program(
    call: Call, plain_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import app.commands.backing as backing

    def refused(*_: object) -> None:
        raise PermissionError(13, "Permission denied", "/locked/up.dxf")

    monkeypatch.setattr(backing, "load_style", refused)
    called = call("backing", plain_file)
    assert called.status == 2
    assert _only_one_line(called.err).startswith("stayply: /locked/up.dxf: Permission denied; check the path")


def test_with_json_nothing_else_is_on_standard_output(call: Call, plain_file: Path) -> None:
    called = call("backing", plain_file, "--json")
    assert called.status == 0
    assert called.json["style"] == "Plain"
    assert "assumed" in called.err, "what is open is said on standard error"
    assert call("backing", plain_file, "--sizes", "50", "--json").out == ""


def test_the_same_through_the_command_line_of_a_shell(plain_file: Path) -> None:
    command = [sys.executable, "-m", "app", "backing", str(plain_file), "--sizes", "99"]
    result = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False)
    assert result.returncode == 2
    assert result.stdout == ""
    assert "there is no size 99" in _only_one_line(result.stderr)


def test_a_reader_that_has_read_enough_is_no_error(plain_file: Path) -> None:
    command = f'"{sys.executable}" -m app backing "{plain_file}" --json | head -c 10'
    result = subprocess.run(command, shell=True, capture_output=True, text=True, cwd=ROOT, check=False)
    assert result.stdout == '{"style": '
    assert "Traceback" not in result.stderr and "Exception" not in result.stderr
