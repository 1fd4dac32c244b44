"""``hold --field`` on the samples: the contract, the pictures, and plain errors."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pypdfium2
import pytest

from app.__main__ import main
from app.errors import UsageError
from app.hold.field import FieldOptions, field_question, predicted_throat_mm, pull_upper
from app.hold.two_models import two_models, why
from app.hold.verdicts import style_hold
from app.style.file import load_style, save_style
from app.style.model import SheetConstants

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
    for told in (
        "upper alone",
        "backed as drafted",
        "turned by 90°",
        "largest strain, %",
        "trial",
        "throat, line",
    ):
        assert told in text
    hold_sheet = pypdfium2.PdfDocument(tmp_path / "hold-sheet.pdf")
    words = " ".join(page.get_textpage().get_text_range() for page in hold_sheet)
    assert "The field model puts the throat of Vamp" in " ".join(words.split())


def test_screen_and_sheet_tell_a_figure_with_the_same_digits(tmp_path, capsys) -> None:
    assert main(["hold", str(COURT), "--field", "-o", str(tmp_path)]) in (0, 1)
    told = re.findall(r"throat (.+? mm) \(line: (.+? mm)\)", capsys.readouterr().out)
    sheet = pypdfium2.PdfDocument(tmp_path / "field-sheet.pdf")[0].get_textpage().get_text_range()
    assert len(told) == 3
    for field, line in told:
        assert field in sheet and line in sheet


def test_every_case_tells_field_and_line_peel_and_mesh(capsys) -> None:
    assert main(["hold", str(COURT), "--field", "--json", "--compare", "all"]) in (0, 1)
    payload = json.loads(capsys.readouterr().out)
    field = payload["field"]
    vamp = next(piece for piece in payload["pieces"] if piece["piece"] == "Vamp")
    alone, backed, _ = field["cases"]
    assert alone["line_mm"] == pytest.approx([vamp["upper_mm"]] * 2, abs=0.01)
    assert backed["line_mm"] == pytest.approx(vamp["with_backing_mm"], abs=0.01)
    assert "bears" in field["why"] and "strip of one width" in field["why"]
    assert alone["peel"] == [] and backed["peel"]
    forces = [place["force_n_per_mm"] for place in backed["peel"]]
    assert forces == sorted(forces, reverse=True)
    assert all(place["shear_n_per_mm"] <= place["force_n_per_mm"] for place in backed["peel"])
    assert field["mesh"]["throat_change_percent"] < 1.0
    assert [each["cloth"] for each in field["cloths"]] == ["plain-110"], "the first cloth is the backed case"
    assert field["cloths"][0]["throat_mm"][0] > backed["throat_mm"][1], "the lighter cloth gives more"
    assert backed["large_strain"] is None, "not asked for"
    assert [step["turn_deg"] for step in field["sweep"]] == [0, 15, 30, 45, 60, 75, 90]


def test_the_second_level_is_told_where_it_is_asked_for(capsys) -> None:
    assert main(["hold", str(COURT), "--field", "--large", "--json"]) in (0, 1)
    for case in json.loads(capsys.readouterr().out)["field"]["cases"]:
        assert case["large_strain"]["vamp_mm"] < case["vamp_mm"][1]
        assert case["tension_field"] is not None or "tension field" in case["unsettled"]


def test_without_the_field_the_hold_command_says_where_it_is(capsys) -> None:
    assert main(["hold", str(COURT)]) in (0, 1)
    assert "hold --field" in capsys.readouterr().out


@pytest.mark.parametrize("sample", ["boot", "court", "derby", "sandal"])
def test_every_sample_has_its_three_cases_and_says_why_line_and_field_differ(sample) -> None:
    style = load_style(SAMPLES / sample / f"{sample}.style.json")
    pulled = pull_upper(style)
    alone, backed, turned = (pulled.field.case(name) for name in ("alone", "backed", "turned"))
    assert backed.best.throat_mm < turned.best.throat_mm < alone.best.throat_mm
    told = two_models(style, pulled, FieldOptions())
    assert told.line_mm.keys() >= {"alone", "backed", "turned"}
    assert ("nearer to the job" in why(told)) == (sample == "sandal"), "an arched strap bends in its plane"


def test_pieces_drawn_assembled_are_joined_and_their_chain_is_the_line() -> None:
    """Heel piece and vamp cut from one court vamp, lapped by 8 mm: nearly the whole vamp again."""
    style = load_style(COURT)
    both = tuple(
        p.model_copy(update={"assembled": p.name in ("Vamp", "Quarter outer")}) for p in style.pieces
    )
    question = field_question(style.model_copy(update={"pieces": both}))
    assert {piece.name for piece in question.upper.pieces} == {"Vamp", "Quarter outer"}
    assert question.called == "Outer side", "the chain over both is what the throat moves by"


def test_the_prediction_of_a_trial_is_the_backed_throat_and_goes_with_the_size() -> None:
    style = load_style(COURT)
    here = predicted_throat_mm(style, "Vamp")
    case = pull_upper(style).field.case("backed")
    assert here == pytest.approx(case.best.throat_mm)
    largest = style.size_run.sizes[-1]
    line = {
        size: next(p for p in style_hold(style, size=size).pieces if p.piece == "Vamp").hold.best_mm
        for size in ("", largest)
    }
    assert predicted_throat_mm(style, "Vamp", largest) / here == pytest.approx(
        line[largest] / line[""], rel=0.15
    )
    with pytest.raises(UsageError, match="no throat"):
        predicted_throat_mm(style, "Outer side")


@pytest.mark.parametrize(
    ("constants", "said"),
    [
        ({"e1_n_per_mm": 0.014, "e2_n_per_mm": 0.009, "g12_n_per_mm": 0.004, "nu12": 0.2}, "its own length"),
        ({"e1_n_per_mm": 14.0, "e2_n_per_mm": 9.0, "g12_n_per_mm": 4.0, "nu12": 3.0}, "nu12"),
    ],
)
def test_absurd_constants_are_refused_in_plain_words(constants, said, tmp_path, capsys) -> None:
    style = load_style(COURT)
    sheet = SheetConstants(source="absurd", **constants)
    upper = style.upper_material.model_copy(update={"tests": (), "sheet": sheet})
    path = tmp_path / "absurd.style.json"
    save_style(style.model_copy(update={"upper_material": upper}), path)
    assert main(["hold", str(path), "--field"]) == 2
    told = capsys.readouterr().err
    assert said in told and "Traceback" not in told


def test_soft_leather_alone_misses_the_mark_by_far_and_its_backing_keeps_it() -> None:
    """Common practice, no source: alone close to a centimetre; backed within a few mm; turned in between."""
    field = pull_upper(load_style(COURT)).field
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
