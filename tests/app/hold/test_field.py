"""``hold --field`` on the samples: the contract, the pictures, and plain errors."""

from __future__ import annotations

import json
from pathlib import Path

import pypdfium2
import pytest

from app.__main__ import main
from app.hold.field import field_of
from app.style.file import load_style, save_style

SAMPLES = Path(__file__).parents[3] / "sample_styles"
COURT = SAMPLES / "court" / "court.style.json"


def test_the_object_is_what_the_contract_says(tmp_path, capsys) -> None:
    assert main(["hold", str(COURT), "--field", "--json", "-o", str(tmp_path)]) in (0, 1)
    payload = json.loads(capsys.readouterr().out)
    field = payload["field"]
    assert [case["case"] for case in field["cases"]] == ["alone", "backed", "turned"]
    for case in field["cases"]:
        for key in ("throat_mm", "vamp_mm", "side_mm"):
            low, high = case[key]
            assert low <= high
        assert case["strain_percent"]["median"] <= case["strain_percent"]["max"]
    assert field["mesh"]["elements"] > 500 and field["pieces"] == ["Vamp"]
    sheet = tmp_path / "field-sheet.pdf"
    assert str(sheet) in payload["files"]
    text = pypdfium2.PdfDocument(sheet)[0].get_textpage().get_text_range()
    for told in ("upper alone", "backed as drafted", "turned by 90 deg", "largest strain, %", "trial"):
        assert told in text


def test_soft_leather_alone_misses_the_mark_by_far_and_its_backing_keeps_it() -> None:
    """Common practice, no source: alone close to a centimetre; backed within a few mm; turned in between."""
    _, field = field_of(load_style(COURT))
    alone, backed, turned = (field.case(name).throat_mm for name in ("alone", "backed", "turned"))
    assert alone[0] > 5.0 and alone[1] < 15.0
    assert backed[1] < 0.5 * alone[0]
    assert backed[1] < turned[0] < alone[0]


@pytest.mark.parametrize(
    ("words", "said"), [(["--piece", "Sole"], "Sole"), (["--size", "99"], "99"), (["--pull", "0"], "pull")]
)
def test_bad_words_are_named(words, said, capsys) -> None:
    assert main(["hold", str(COURT), "--field", *words]) == 2
    assert said in capsys.readouterr().err


def test_a_style_of_unknown_stretch_is_refused(tmp_path, capsys) -> None:
    style = load_style(COURT)
    bare = style.model_copy(update={"upper_material": type(style.upper_material)()})
    path = tmp_path / "bare.style.json"
    save_style(bare, path)
    assert main(["hold", str(path), "--field"]) == 2
    assert "Traceback" not in capsys.readouterr().err
