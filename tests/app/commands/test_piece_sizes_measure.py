"""Edits of whole pieces, the size run and measures, by commands."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from app.style.file import load_style
from tests.app.commands.conftest import Call

ROOT = Path(__file__).resolve().parents[3]


@pytest.fixture
def derby(tmp_path: Path) -> Path:
    path = tmp_path / "derby.style.json"
    shutil.copy(ROOT / "sample_styles/derby/derby.style.json", path)
    return path


def test_a_half_stops_the_lay_names_the_remedy_and_the_remedy_works(call: Call, derby: Path) -> None:
    assert call("piece", derby, "fold", "--piece", "Counter").status == 0
    refused = call("lay", derby, "--pairs", "42:1", "-o", "out")
    assert refused.status == 2 and "Counter" in refused.err and "unfold" in refused.err
    called = call("piece", derby, "unfold", "--piece", "Counter", "--json")
    half, whole = called.json["area_mm2"]
    assert called.status == 0 and whole == pytest.approx(2 * half, rel=1e-6)
    laid = call("lay", derby, "--pairs", "42:1", "--seconds", "1", "--workers", "1", "-o", "out")
    assert laid.status == 0, laid.err
    assert call("verify", "out/lay.json").status == 0


def test_twins_pieces_and_shapes(call: Call, derby: Path) -> None:
    assert call("piece", derby, "mirror", "--piece", "Vamp", "--name", "Vamp 2", "--linked").status == 0
    assert load_style(derby).piece("Vamp 2").twin == "Vamp"
    copied = call("piece", derby, "twin", "--piece", "Quarter outer", "--json")
    assert copied.json["to"] == "Quarter inner" and copied.json["edges_carried"] == 4
    assert call("piece", derby, "unlink", "--piece", "Vamp").status == 0
    assert call("piece", derby, "link", "--piece", "Vamp", "--to", "Vamp 2").status == 0
    assert call("piece", derby, "duplicate", "--piece", "Tongue", "--json").json["added"] == ["Tongue 2"]
    assert call("piece", derby, "delete", "--piece", "Tongue 2").status == 0
    made = call("piece", derby, "rectangle", "--name", "Stay", "--size", "120x18", "--backing-only", "--json")
    assert made.json["added"] == ["Stay"] and load_style(derby).piece("Stay").backing_only
    corners = ("--points", "0,0", "40,0", "40,25")
    assert call("piece", derby, "shape", "--name", "Tab", *corners, "-o", "other.style.json").status == 0
    assert all(p.name != "Tab" for p in load_style(derby).pieces), "written beside it"
    boards = call("boards", derby, "--sizes", "42", "-o", "boards")
    assert boards.status == 0, boards.err


def test_the_size_run_is_shown_and_changed(call: Call, derby: Path) -> None:
    shown = call("sizes", derby, "--json")
    assert [row["size"] for row in shown.json["sizes"]] == ["40", "41", "42", "43", "44", "45"]
    assert shown.json["style"] is None
    assert call("sizes", derby, "add", "46-47").status == 0
    assert call("sizes", derby, "cut-as", "43=44", "--piece", "Counter").status == 0
    told = call("sizes", derby, "draw", "40", "--json").json
    assert told["sizes"][0]["drawn"] == 5 and told["sizes"][-1]["size"] == "47"
    assert told["pieces"][4]["cut_as"] == {"43": "44"}


def test_measures_and_a_seam_that_does_not_fit(call: Call, derby: Path) -> None:
    told = call("measure", derby, "--against", "45", "--json")
    assert told.status == 0 and len(told.json["pieces"]) == 5
    assert {each["piece"] for each in told.json["compared"]} == {p["piece"] for p in told.json["pieces"]}
    best = told.json["proposed_seams"][0]
    edges = "=".join(f"{name}:{start}" for name, _, start in (best["first"], best["second"]))
    assert call("measure", derby, "--sew", edges).status == 0
    assert len(load_style(derby).seams) == 1
    eased = call("measure", derby, "--sew", edges, "--ease", "9")
    assert eased.status == 1 and "DOES NOT FIT" in eased.out
    assert call("measure", derby, "--unsew", edges).status == 0


@pytest.mark.parametrize(
    "words",
    [
        ["piece", "unfold", "--piece", "Vamp"],
        ["piece", "unfold", "--piece", "Nobody"],
        ["piece", "unfold"],
        ["piece", "fold", "--piece", "Vamp", "--line", "1,2"],
        ["piece", "rectangle", "--name", "A", "--size", "wide"],
        ["piece", "shape", "--name", "A", "--points", "0,0", "5,5"],
        ["piece", "add", "--drawing", "missing.dxf"],
        ["sizes", "add", "large"],
        ["sizes", "remove", "42"],
        ["sizes", "cut-as", "43=44"],
        ["sizes", "girth", "much"],
        ["measure", "--sew", "Vamp=Tongue"],
        ["measure", "--size", "99"],
    ],
)
def test_bad_input_is_one_line_and_changes_nothing(call: Call, derby: Path, words: list[str]) -> None:
    before = derby.read_bytes()
    called = call(words[0], derby, *words[1:])
    assert called.status == 2 and called.out == ""
    assert len(called.err.strip().splitlines()) == 1 and "Traceback" not in called.err
    assert derby.read_bytes() == before
