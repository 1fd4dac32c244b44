"""``pieces``: the import report, as one JSON object and for reading; bad input is one line."""

from __future__ import annotations

import json
import math
from pathlib import Path

import ezdxf
import pytest

from app.__main__ import main


@pytest.fixture
def drawing(tmp_path: Path) -> Path:
    document = ezdxf.new("R2010")
    document.header["$INSUNITS"] = 4
    model = document.modelspace()
    model.add_lwpolyline([(0, 0), (120, 0), (120, 80), (0, 80)], close=True)
    model.add_circle((60, 40), 10)
    model.add_point((60, 0))
    model.add_text("VAMP", height=5, dxfattribs={"insert": (10, 60)})
    model.add_line((300, 0), (400, 0))
    for a, b in [((200, 0.3), (290, 0)), ((290, 0), (290, 60)), ((290, 60), (200, 0))]:
        model.add_line(a, b, dxfattribs={"layer": "TONGUE"})
    path = tmp_path / "style.dxf"
    document.saveas(path)
    return path


def test_the_json_report_keeps_its_contract(drawing: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["pieces", str(drawing), "--json"]) == 0
    out, _ = capsys.readouterr()
    report = json.loads(out)
    vamp, tongue = report["pieces"]
    assert set(vamp) >= {
        "name", "size", "area_mm2", "perimeter_mm", "bbox_mm", "vertices", "holes", "notches",
        "pull_axis_deg", "pull_axis_from", "outline_mm", "holes_mm",
    }  # fmt: skip
    assert (vamp["name"], vamp["holes"], vamp["notches"]) == ("VAMP", 1, 1)
    assert vamp["area_mm2"] == pytest.approx(9600 - math.pi * 100, rel=1e-3)
    assert vamp["bbox_mm"] == [0, 0, 120, 80]
    assert vamp["vertices"] == len(vamp["outline_mm"]) + sum(map(len, vamp["holes_mm"]))
    assert len(vamp["notches_mm"]) == 1
    assert tongue["name"] == "TONGUE"
    assert [r["code"] for r in report["repairs"]] == ["GAP_CLOSED"]
    assert report["left_out"] == [{"what": "open LINE", "why": "outside every piece, bounds nothing"}]
    assert (report["unit"], report["unit_from"]) == ("mm", "header")
    assert [c["unit"] for c in report["unit_choices"]] == ["mm", "cm", "m", "in"]


def test_options_reach_the_reader(drawing: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["pieces", str(drawing), "--json", "--unit", "cm", "--join", "0.1", "--chord", "0.5"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert (report["unit"], report["unit_from"]) == ("cm", "person")
    assert report["pieces"][0]["bbox_mm"] == [0, 0, 1200, 800]


def test_the_report_for_reading(drawing: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["pieces", str(drawing)]) == 0
    out, _ = capsys.readouterr()
    for words in (
        "style.dxf: 2 pieces, unit mm (from header)",
        "VAMP",
        "[GAP_CLOSED]",
        "left out:",
        "open LINE",
    ):
        assert words in out


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "empty"),
        (b"AC1027\0\0", "DWG"),
        (
            b"0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n0\n10\n0\n20\n0\n11\n9\n21\n9\n0\nENDSEC\n0\nEOF\n",
            "no closed outline",
        ),
    ],
)
@pytest.mark.parametrize("as_json", [True, False])
def test_bad_input_is_one_line_and_status_2(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], content: bytes, words: str, as_json: bool
) -> None:
    path = tmp_path / "bad.dxf"
    path.write_bytes(content)
    assert main(["pieces", str(path), *(["--json"] if as_json else [])]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert "bad.dxf" in err and words in err
