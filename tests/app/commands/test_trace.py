"""``trace`` from the printed sheet to a style, and what it refuses."""

from __future__ import annotations

import json

import cv2
import numpy as np
import pytest

from app.__main__ import main
from app.style.file import load_style
from geometry.dxf.read import read_drawing


def scanned(tmp_path):
    """A card of 80 x 50 mm on a white lid at 150 dpi."""
    per_mm = 150 / 25.4
    picture = np.full((int(120 * per_mm), int(140 * per_mm), 3), 250, np.uint8)
    corner = [round(30 * per_mm), round(40 * per_mm)]
    cv2.rectangle(
        picture, corner, [corner[0] + round(80 * per_mm), corner[1] + round(50 * per_mm)], (60, 90, 140), -1
    )
    path = tmp_path / "card.png"
    cv2.imwrite(str(path), picture)
    return path


def test_a_scan_becomes_a_drawing_and_a_style(tmp_path, capsys) -> None:
    out, style = tmp_path / "card.dxf", tmp_path / "card.style.json"
    words = ["trace", str(scanned(tmp_path)), "--dpi", "150", "-o", str(out), "--style", str(style)]
    assert main([*words, "--base-size", "37", "--json"]) == 0
    payload = json.loads(capsys.readouterr().out)
    assert set(payload) >= {"pieces", "uncertainty_mm", "scale_from"} and payload["scale_from"] == "dpi"
    (piece,) = payload["pieces"]
    x0, y0, x1, y1 = piece["bbox_mm"]
    assert (x1 - x0, y1 - y0) == (pytest.approx(80, abs=0.3), pytest.approx(50, abs=0.3))
    (read,) = read_drawing(out).pieces
    assert read.outline.area_mm2 == pytest.approx(piece["area_mm2"], rel=1e-4) and read.name == "card 1"
    assert load_style(style).pieces[0].name == "card 1"


def test_cards_are_named_in_the_language_they_are_traced_in(tmp_path, capsys) -> None:
    words = ["trace", str(scanned(tmp_path)), "--dpi", "150", "--no-lines", "--language", "it", "--json"]
    assert main(words) == 0
    assert json.loads(capsys.readouterr().out)["pieces"][0]["name"] == "cartone 1"


def test_the_sheet_is_printed_once_and_not_over_another_file(tmp_path, capsys) -> None:
    out = tmp_path / "sheet.pdf"
    assert main(["trace", "--print-sheet", "A3", "-o", str(out)]) == 0
    assert out.read_bytes().startswith(b"%PDF")
    assert main(["trace", "--print-sheet", "A3", "-o", str(out)]) == 2
    assert "--force" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ([], "no picture"),
        (["PICTURE"], "--dpi"),
        (["PICTURE", "--sheet", "A3", "--dpi", "300"], "--dpi"),
        (["PICTURE", "--sheet", "A9"], "A9"),
        (["PICTURE", "--dpi", "300", "--style", "x.style.json"], "--base-size"),
        (["gone.png", "--dpi", "300"], "gone.png"),
        (["--print-sheet", "B7"], "B7"),
    ],
)
def test_what_is_missing_or_wrong_is_named(words, said, tmp_path, capsys) -> None:
    picture = str(scanned(tmp_path))
    assert main(["trace", *(picture if word == "PICTURE" else word for word in words)]) == 2
    assert said in capsys.readouterr().err.splitlines()[-1]


def test_notches_and_lines_of_a_card_come_along_or_are_left(tmp_path, capsys) -> None:
    picture = scanned(tmp_path)
    card = cv2.imread(str(picture))
    per_mm = 150 / 25.4
    nick = np.array([(68.5, 39), (71.5, 39), (71.5, 44), (68.5, 44)]) * per_mm
    cv2.fillPoly(card, [nick.round().astype(np.int32)], (250, 250, 250))
    ends = [[round(v * per_mm) for v in end] for end in ((45, 60), (95, 75))]
    cv2.line(card, *ends, (35, 55, 85), 3, cv2.LINE_AA)
    cv2.imwrite(str(picture), card)
    out, style = tmp_path / "card.dxf", tmp_path / "card.style.json"
    words = ["trace", str(picture), "--dpi", "150", "--json"]
    assert main([*words, "-o", str(out), "--style", str(style), "--base-size", "37"]) == 0
    (piece,) = json.loads(capsys.readouterr().out)["pieces"]
    assert piece["area_mm2"] == pytest.approx(80 * 50, rel=0.01)
    (notch,), (line,) = piece["notches_mm"], piece["marks"]
    assert (notch["width_mm"], notch["depth_mm"]) == (pytest.approx(3, abs=0.4), pytest.approx(4, abs=0.4))
    assert len(read_drawing(out).pieces) == 1
    kept = load_style(style).pieces[0].drawings["37"]
    assert len(kept.notches) == 1 and len(kept.marks) == 1
    assert np.hypot(*np.subtract(*[line["points_mm"][k] for k in (0, -1)])) == pytest.approx(52.2, abs=1)
    assert main([*words, "--no-notches", "--no-lines"]) == 0
    (bare,) = json.loads(capsys.readouterr().out)["pieces"]
    assert not bare["notches_mm"] and not bare["marks"] and bare["area_mm2"] < piece["area_mm2"] - 8
