"""hold, cloth, stretch and trial, called as at the desk."""

import shutil
from pathlib import Path

import pypdf
import pytest

from app.style.file import load_style

COURT = Path(__file__).parents[3] / "sample_styles/court/court.style.json"
STRIPS = [
    f"--strip={angle}:25x100:25={extension}"
    for angle, extensions in ((90, (2.5, 2.4)), (45, (22.5, 23.0)), (0, (6.2, 6.4)))
    for extension in extensions
]


@pytest.fixture
def court(tmp_path, monkeypatch):
    """A copy of the court style, and records of its own."""
    monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path / "data"))
    return Path(shutil.copy(COURT, tmp_path / "court.style.json"))


def text_of(path):
    return " ".join(" ".join(page.extract_text().split()) for page in pypdf.PdfReader(path).pages)


def test_hold_prints_the_contract(call, court):
    got = call("hold", court, "--json")
    assert got.status == 0
    assert "example, 12 strips" in got.json["how_known"] and got.json["cloth"] == "Cotton twill 150, EVA dots"
    assert "No published measurement" in got.json["note"]
    for piece in got.json["pieces"]:
        assert abs(piece["angle_deg"]) < 1 and piece["pull_n_per_mm"] == 1.0
        low, high = piece["with_backing_percent"]
        assert 0 < low <= high < piece["upper_percent"]
        assert piece["with_backing_mm"][1] == pytest.approx(high * piece["distance_mm"] / 100, rel=1e-3)
        assert piece["with_backing_mm"][1] <= piece["limit_mm"] and piece["holds"] is True


def test_hold_turned_by_90_fails_with_status_1(call, court, tmp_path):
    got = call("hold", court, "--turn", 90, "--json", "-o", tmp_path / "out")
    assert got.status == 1
    assert [piece["holds"] for piece in got.json["pieces"]] == [False, False, False]
    assert "limit" in got.err
    text = text_of(tmp_path / "out/hold-sheet.pdf")
    assert "LIMIT BROKEN: Vamp, Quarter outer, Quarter inner" in text
    assert "ALL BACKING TURNED BY 90 DEG" in text
    assert "No published measurement" in text and "supplier" in text


def test_hold_compares_with_cloths_of_the_register(call, court):
    call("cloth", "take", court, "plain-110")
    call("cloth", "set", "plain-110", "--set", "price_per_m=9.9")
    got = call("hold", court, "--compare", "twill-150,plain-110", "--json")
    assert [(c["cloth"], c["holds"]) for c in got.json["compare"]] == [
        ("twill-150", True),
        ("plain-110", False),
    ]
    assert call("hold", court, "--compare", "velvet").status == 2


@pytest.mark.parametrize(
    ("words", "what"),
    [
        (("--pull", "-1"), "a pull of -1"),
        (("--size", "50"), "size 50"),
        (("--turn", "nan"), "--turn nan"),
    ],
)
def test_hold_refuses_what_makes_no_sense(call, court, words, what):
    got = call("hold", court, *words)
    assert got.status == 2 and what in got.err and got.out == ""


def test_the_strips_of_a_cloth_become_its_card(call, court, tmp_path):
    """Entered: tight across. Kept: constants, direction, how known."""
    got = call("stretch", court, "--only", *STRIPS, "--save", "--json", "-o", tmp_path / "out")
    assert got.status == 0 and got.json["tight_deg"] == 90.0 and got.json["tight_told"]
    assert got.json["e1_n_per_mm"]["low"] < 25 / 25 / 0.0245 < got.json["e1_n_per_mm"]["high"]
    cloth = load_style(court).cloths[0]
    assert (cloth.tight_direction_deg, cloth.how_known, len(cloth.tests)) == (90.0, "tested", 6)
    assert cloth.sheet.fitted.strips == 6 and "fitted" not in cloth.sheet.source
    assert call("hold", court).status == 0  # laid as the strips say, it holds
    assert "stretch test: 6 strips at 3 angles" in text_of(tmp_path / "out/stretch-report.pdf")


def test_a_card_that_contradicts_its_strips_is_called_out(call, court):
    call("cloth", "take", court, "twill-150")
    call("cloth", "set", "twill-150", "--set", "tight_direction_deg=90")
    got = call("stretch", "--cloth", "twill-150")
    assert "THE CARD SAYS 90 DEG, the strips 0" in got.out
    call("cloth", "use", court, "twill-150")
    assert call("hold", court).status == 1


@pytest.mark.parametrize(
    ("words", "what"),
    [
        (("--strip=0:25x100:25=2.5",), "one angle only"),
        (("--strip=0:25x100:-25=2.5", *STRIPS), "a load of -25 N"),
        (("--strip=90:25x100:25=9", *STRIPS), "contradict each other"),
        (("--strip=0-25",), "does not describe a strip"),
        (("--readings", "none.csv"), "none.csv"),
        ((), "whose strips"),
        (("--cloth", "velvet"), "no cloth velvet"),
        (("--hand", "0<0<90"), "twice"),
        (("--hand", "0=90<45"), "feel alike"),
    ],
)
def test_strips_that_tell_nothing_are_refused_in_one_line(call, court, words, what):
    got = call("stretch", *words)
    assert got.status == 2 and what in got.err and len(got.err.splitlines()) == 1


def test_a_pull_by_hand_is_kept_as_assumed(call, court):
    got = call("stretch", court, "--hand", "90<0<45", "--save")
    assert got.status == 0 and "measures nothing" in got.out
    cloth = load_style(court).cloths[0]
    assert (cloth.tight_direction_deg, cloth.how_known) == (90.0, "assumed")


def test_strips_travel_as_a_table(call, court, tmp_path):
    call("stretch", court, "--table", tmp_path / "strips.csv")
    again = call("stretch", "--readings", tmp_path / "strips.csv", "--json")
    assert again.json["e1_n_per_mm"] == call("stretch", court, "--json").json["e1_n_per_mm"]


def test_who_has_no_strips_yet_gets_a_form_to_fill_in(call, plain_file, tmp_path):
    form = tmp_path / "strips.csv"
    asked = call("stretch", plain_file, "--table", form)
    assert asked.status == 0 and "fill in the table" in asked.out
    empty = call("stretch", plain_file, "--readings", form)
    assert empty.status == 2 and "has no readings" in empty.err
    pulled = {"0": "12", "90": "25"}  # mm at 25 N on 25 x 100 mm; two strips of the form are left out
    rows = [row.split(",") for row in form.read_text().splitlines()]
    filled = [[n, a, "25", "100", "25", pulled.get(a, "40"), "", ""] for n, a, *_ in rows[1:5]]
    form.write_text("\n".join(",".join(row) for row in [rows[0], *filled, *rows[5:]]))
    read = call("stretch", plain_file, "--readings", form, "--json")
    assert read.status == 0 and read.json["strips"] == 4 and abs(read.json["tight_deg"]) < 45


def test_the_life_of_a_card(call, court, tmp_path):
    assert call("cloth", "--json").json["cloths"] == []
    added = call("cloth", "add", "drill", "--set", "width_mm=1500", "--set", "price_per_m=2,90", "--json")
    assert added.json["revision"] == 1 and added.json["card"]["price_per_m"] == "2.90"
    assert call("cloth", "list").out.startswith("1 cloth in ")
    wide = call("cloth", "add", "poplin", "--set", "width_mm=44in", "--json").json["card"]
    assert wide["width_mm"] == wide["usable_width_mm"] == pytest.approx(1117.6)
    refused = call("cloth", "set", "poplin", "--set", "width_mm=wide")
    assert refused.status == 2 and "that is not a width" in refused.err and "width_mm=44in" in refused.err
    call("cloth", "remove", "poplin")
    call("cloth", "set", "drill", "--set", "press.temperature_c=120", "--set", "press.source=sheet 4")
    shown = call("cloth", "show", "drill")
    assert "120 C" in shown.out and "sheet 4" in shown.out and "caution" in shown.out
    assert call("cloth", "export", tmp_path / "cloths.csv").status == 0
    call("cloth", "remove", "drill")
    assert call("cloth", "show", "drill").status == 2
    assert call("cloth", "import", tmp_path / "cloths.csv", "--json").json["cloths"][0]["revision"] == 4
    assert len(call("cloth", "history", "drill", "--json").json["revisions"]) == 4
    call("cloth", "use", court, "drill", "--first")
    assert load_style(court).cloths[0].id == "drill"
    call("cloth", "set", "drill", "--set", "name=Other")
    assert load_style(court).cloths[0].name == "drill"  # the style's copy stays true


def test_an_upper_material_is_filed_and_used(call, court):
    name = load_style(court).upper_material.name
    assert call("cloth", "take", court, name, "--upper").status == 0
    assert call("cloth", "list", "--upper", "--json").json["cloths"][0]["id"] == name
    derby = Path(
        shutil.copy(COURT.parents[1] / "derby/derby.style.json", court.with_name("derby.style.json"))
    )
    call("cloth", "use", derby, name, "--upper")
    assert load_style(derby).upper_material == load_style(court).upper_material


@pytest.mark.parametrize(
    ("words", "what"),
    [
        (("show",), "needs ID"),
        (("add", "drill"), "width_mm"),
        (("add", "drill", "--set", "width_mm=100", "--set", "usable_width_mm=200"), "usable 200"),
        (("add", "drill", "--set", "colour=red"), "no field colour"),
        (("add", "drill", "--set", "width_mm"), "is not FIELD=VALUE"),
        (("add", "drill", "--set", "width_mm=100", "--set", "press.heat=9"), "no field heat"),
        (("import", "none.csv"), "none.csv"),
        (("use", "none.style.json", "drill"), "none.style.json"),
    ],
)
def test_a_card_that_cannot_be_is_refused_in_one_line(call, court, words, what):
    got = call("cloth", *words)
    assert got.status == 2 and what in got.err and len(got.err.splitlines()) == 1


def test_trials_are_entered_found_and_calibrate(call, court):
    for mark in (1.8, 1.5, 1.9):
        got = call("trial", "add", court, "--piece", "Vamp", "--mark", mark, "--verdict", "good", "--json")
        assert got.status == 0 and got.json["predicted_mm"] == pytest.approx(1.61, abs=0.02)
    assert len(call("trial", "list", court, "--json").json["trials"]) == 3
    (found,) = call("trial", "calibration", court, "--json").json["calibrations"]
    assert found["factor"] == pytest.approx((1.8 + 1.5 + 1.9) / 3 / 1.61, rel=0.01)
    pieces = {p["piece"]: p for p in call("hold", court, "--json").json["pieces"]}
    models = call("trial", "models", court, "--json", "-o", court.parent / "report").json
    assert [each["line_mm"] for each in models["models"]["trials"]] == [got.json["predicted_mm"]] * 3
    assert models["models"]["line"]["miss_mm"] < models["models"]["field"]["miss_mm"]
    assert models["models"]["better"] is None, "three trials that scatter by 0.4 mm do not tell"
    assert [Path(each).name for each in models["files"]] == ["trial-report.pdf"]
    assert call("trial", "models", "--json").json["models"]["field"]["miss_mm"] > 0.5
    low, high = pieces["Vamp"]["calibrated_mm"]
    assert low < 1.73 < high
    assert "lasting trial" in call("hold", court).out
    side = call(
        "trial", "add", court, "--piece", "Outer side", "--mark", "4.9", "--verdict", "good", "--json"
    ).json
    (chain,) = (c for c in call("hold", court, "--json").json["chains"] if c["chain"] == "Outer side")
    assert side["predicted_mm"] == pytest.approx(sum(chain["with_backing_mm"]) / 2, rel=0.02)
    assert side["cloth"] == "twill-150" and chain["calibrated_mm"][0] < side["predicted_mm"]
    derby = COURT.parents[1] / "derby/derby.style.json"
    assert len(call("trial", "similar", derby, "--json").json["trials"]) == 4


def test_a_fused_sample_and_its_photographs(call, court):
    got = call(
        "trial", "add", court, "--kind", "fused-sample", "--peel", "0.4", "--ridge", "1",
        "--photo", "ridge.jpg", "--verdict", "doubtful", "--json",
    )  # fmt: skip
    assert got.json["peel_n_per_mm"] == 0.4 and got.json["ridge"] == 1
    assert got.json["photos"][0].endswith("ridge.jpg") and "no file ridge.jpg" in got.err


@pytest.mark.parametrize(
    ("words", "what"),
    [
        (("add",), "needs a style"),
        (("add", "STYLE", "--mark", "2"), "verdict"),
        (("add", "STYLE", "--verdict", "good"), "without a result"),
        (("add", "STYLE", "--verdict", "good", "--piece", "Wing", "--mark", "2"), "no piece Wing"),
        (("add", "STYLE", "--verdict", "good", "--kind", "fused-sample", "--ridge", "7"), "ridge"),
        (("similar",), "needs a style"),
    ],
)
def test_a_trial_that_says_nothing_is_refused_in_one_line(call, court, words, what):
    got = call("trial", *(court if word == "STYLE" else word for word in words))
    assert got.status == 2 and what in got.err and len(got.err.splitlines()) == 1
