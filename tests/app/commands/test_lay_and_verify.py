"""Laying, judging and writing by commands."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from shapely import affinity
from shapely.geometry import Polygon
from shapely.strtree import STRtree

from app.style.file import load_style, save_style
from app.style.model import HoldLine, SheetConstants, UpperMaterial
from nesting.verify.fault import Fault, FaultKind, Verdict
from tests.app.commands.conftest import Call

FILES = {
    "lay.json", "lay.pdf", "lay-1to1.pdf", "lay.dxf", "lay.plt", "lay.svg",
    "cut-ticket.pdf", "cut-ticket.csv", "cut-ticket.xlsx",
}  # fmt: skip


@pytest.fixture
def laid(call: Call, plain_file: Path, tmp_path: Path) -> Any:
    limits = ["--width", "500", "--gap", "3", "--seconds", "1"]
    called = call("lay", plain_file, "--pairs", "36:1,37:2", *limits, "-o", "lay", "--json")
    assert called.status == 0, called.err
    return called


def test_a_lay_is_written_whole_and_verifies(call: Call, laid: Any, tmp_path: Path) -> None:
    written = {path.name for path in (tmp_path / "lay").iterdir()}
    assert written >= FILES
    assert {Path(name).name for name in laid.json["files"]} == written
    verified = call("verify", "lay/lay.json", "--json")
    assert verified.status == 0
    assert verified.json["ok"] is True and verified.json["faults"] == []


def test_the_lay_can_be_checked_without_us(laid: Any, tmp_path: Path) -> None:
    """shapely alone, on what stands in lay.json."""
    document = json.loads((tmp_path / "lay" / "lay.json").read_text())
    shapes = [Polygon(at["outline_mm"], at["holes_mm"]) for at in document["placements"]]
    assert min(shape.bounds[1] for shape in shapes) >= 5.0 - 1e-3
    assert max(shape.bounds[3] for shape in shapes) <= 495.0 + 1e-3
    assert max(shape.bounds[2] for shape in shapes) == pytest.approx(document["length_mm"], abs=1e-3)
    tree = STRtree(shapes)
    for i, shape in enumerate(shapes):
        near = [j for j in tree.query(shape.buffer(3.0)) if j != i]
        assert all(shape.distance(shapes[j]) >= 3.0 - 1e-3 for j in near)
    assert sum(shape.area for shape in shapes) == pytest.approx(document["net_area_mm2"])
    assert document["yield"] == pytest.approx(document["net_area_mm2"] / (500.0 * document["length_mm"]))
    counts = Counter((at["piece"], at["size"], at["hand"]) for at in document["placements"])
    assert counts == {
        (piece, size, hand): pairs
        for piece in ("strap", "tongue")
        for size, pairs in (("36", 1), ("37", 2))
        for hand in ("left", "right")
    }
    assert all(at["pull_axis_deg"] == pytest.approx(0.0, abs=1e-9) for at in document["placements"])


def test_a_lay_that_was_tampered_with_is_found_out(call: Call, laid: Any, tmp_path: Path) -> None:
    path = tmp_path / "lay" / "lay.json"
    document = json.loads(path.read_text())
    moved = document["placements"][0]
    other = document["placements"][1]
    moved["outline_mm"] = other["outline_mm"]
    path.write_text(json.dumps(document))
    called = call("verify", path, "--json")
    assert called.status == 1
    assert "overlap" in {fault["kind"] for fault in called.json["faults"]}
    document["placements"].pop()
    moved["outline_mm"] = [
        list(point) for point in affinity.rotate(Polygon(other["outline_mm"]), 0.1).exterior.coords[:-1]
    ]
    path.write_text(json.dumps(document))
    kinds = {fault["kind"] for fault in call("verify", path, "--json").json["faults"]}
    assert "missing" in kinds


def test_a_lay_that_does_not_verify_is_not_written(
    call: Call, plain_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fault = Fault(FaultKind.OVERLAP, (0, 1), amount_mm=0.5, message="strap and tongue overlap by 0.500 mm")
    monkeypatch.setattr("app.commands.lay.judged", lambda problem, lay: Verdict((fault,)))
    called = call("lay", plain_file, "--pairs", "37:1", "--seconds", "0.5", "-o", "lay")
    assert called.status == 1
    assert "strap and tongue overlap" in called.err
    assert not (tmp_path / "lay").exists()


def test_an_order_too_long_for_the_table_is_sent_to_the_plan(
    call: Call, plain_file: Path, laid: Any, tmp_path: Path
) -> None:
    net_mm = laid.json["length_mm"] * laid.json["yield"]  # the cloth alone would fit, the lay does not
    words = ["--width", "500", "--gap", "3", "--seconds", "0.5", "--max-length", f"{net_mm + 5:.0f}"]
    called = call("lay", plain_file, "--pairs", "36:1,37:2", *words, "-o", "short")
    assert called.status == 2
    assert "plan them over several lays" in called.err
    assert not (tmp_path / "short").exists()


def test_face_to_face_says_what_it_is(call: Call, plain_file: Path, tmp_path: Path) -> None:
    words = ["lay", plain_file, "--pairs", "37:2", "--mode", "face-to-face", "--seconds", "0.5", "-o", "lay"]
    called = call(*words, "--plies", "6")
    assert called.status == 0, called.err
    assert "left pieces only" in called.out and "6 plies" in called.out
    document = json.loads((tmp_path / "lay" / "lay.json").read_text())
    assert {at["hand"] for at in document["placements"]} == {"left"}
    assert document["plies"] == 6 and document["pairs_cut"] == {"37": 6}
    assert document["mode"] == "face-to-face"


def test_a_lay_that_breaks_the_hold_limit_needs_a_reason(
    call: Call, plain_file: Path, tmp_path: Path
) -> None:
    style = load_style(plain_file)
    soft = SheetConstants(e1_n_per_mm=8.0, e2_n_per_mm=6.0, g12_n_per_mm=2.0, nu12=0.3)
    twill = SheetConstants(e1_n_per_mm=60.0, e2_n_per_mm=15.0, g12_n_per_mm=3.0, nu12=0.2)
    strap = style.pieces[0].model_copy(
        update={"hold_line": HoldLine(from_mm=(5.0, 30.0), to_mm=(95.0, 30.0), limit_mm=0.1)}
    )
    style = style.model_copy(
        update={
            "pieces": (strap, style.pieces[1]),
            "upper_material": UpperMaterial(name="nappa", sheet=soft),
            "cloths": (style.cloths[0].model_copy(update={"sheet": twill}),),
        }
    )
    save_style(style, plain_file)
    words = ["lay", plain_file, "--pairs", "37:1", "--seconds", "0.5", "-o", "lay"]
    refused = call(*words)
    assert refused.status == 1
    assert "hold limit" in refused.err and not (tmp_path / "lay").exists()
    allowed = call(*words, "--reason", "trial pair for the last maker")
    assert allowed.status == 0
    document = json.loads((tmp_path / "lay" / "lay.json").read_text())
    assert document["hold"]["reason"] == "trial pair for the last maker"
    assert "strap 37" in document["hold"]["pieces"][0]


def test_an_order_file_gives_the_pairs(call: Call, plain_file: Path, tmp_path: Path) -> None:
    (tmp_path / "order.csv").write_text("size;pairs\n37;1\n38;1\ntotal;2\n")
    called = call("lay", plain_file, "--run", "order.csv", "--seconds", "0.5", "-o", "lay", "--json")
    assert called.status == 0, called.err
    assert called.json["pairs"] == {"37": 1, "38": 1}


@pytest.mark.skipif(os.name != "posix", reason="interrupts as on POSIX")
def test_an_interrupted_lay_keeps_the_best_so_far(plain_file: Path, tmp_path: Path) -> None:
    words = ["lay", str(plain_file), "--pairs", "36:2,37:2", "--seconds", "300", "-o", str(tmp_path / "lay")]
    process = subprocess.Popen(
        [sys.executable, "-m", "app", *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=Path(__file__).parents[3],
        start_new_session=True,
    )
    assert process.stderr is not None
    first = process.stderr.readline()
    assert "yield" in first
    os.killpg(process.pid, signal.SIGINT)  # as a terminal does it: to the engine's process too
    out, err = process.communicate(timeout=600)
    assert process.returncode == 0, err
    assert "the best lay so far is kept" in err and "verified" in out
    document = json.loads((tmp_path / "lay" / "lay.json").read_text())
    assert document["verification"]["ok"] is True
    assert document["stopped"] != "finished"
