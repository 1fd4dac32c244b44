"""An order becomes lays that a cutter can spread, and a killed plan goes on where it was."""

import json
import signal
from decimal import Decimal
from pathlib import Path

import pytest

from app.__main__ import main
from app.plan.job import PlanJob
from app.style.file import load_style
from nesting.files import lay_file
from nesting.planning.run_plan import CuttingTable, Rates
from nesting.verify import verify_document
from tests.app.killed_program import run_and_kill

ROOT = Path(__file__).parents[3]
COURT = ROOT / "sample_styles" / "court" / "court.style.json"
DERBY = ROOT / "sample_styles" / "derby" / "derby.style.json"
LIMITS = ["--table", "1500", "--plies", "6", "--setup", "12", "--spreading", "0.06", "--cutting", "1.5"]


@pytest.fixture(autouse=True)
def own_history(tmp_path, monkeypatch):
    monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path / "data"))


def plan(capsys, *words):
    status = main(["plan", *map(str, words), "--json"])
    out = capsys.readouterr()
    return status, json.loads(out.out) if out.out else {}, out.err


def check(payload, out_dir, mode="face-up"):
    for size, pairs in payload["pairs_ordered"].items():
        assert payload["pairs_cut"][size] >= pairs
    total_m: dict[str, float] = {}
    cut: dict[tuple[str, str], int] = {}
    for lay in payload["lays"]:
        document = lay_file.read(out_dir / lay["lay_file"])
        assert verify_document(document).ok
        assert document["plies"] == lay["plies"]
        total_m[lay["cloth"]] = total_m.get(lay["cloth"], 0.0) + lay["metres"]
        hands = [placement["hand"] for placement in document["placements"]]
        if mode == "face-up":
            assert hands.count("left") == hands.count("right")
        else:
            assert set(hands) == {"left"} and lay["plies"] % 2 == 0
        for size, n in lay["sets"].items():
            times = lay["plies"] if mode == "face-up" else lay["plies"] // 2
            cut[lay["cloth"], size] = cut.get((lay["cloth"], size), 0) + n * times
    for (_, size), pairs in cut.items():
        assert pairs >= payload["pairs_ordered"][size]
    for cloth, metres in payload["cloth_m"].items():
        assert metres == pytest.approx(total_m[cloth], abs=0.01)
        assert payload["lower_bound_m"][cloth] <= metres
    assert 0.0 <= payload["gap"] < 1.0


def test_an_order_of_the_court_shoe_is_cut_in_full(tmp_path, capsys):
    status, payload, _ = plan(
        capsys, COURT, "--pairs", "36:7,37:12,38:9", *LIMITS, "--seconds", "4", "-o", tmp_path / "run"
    )
    assert status == 0
    check(payload, tmp_path / "run")
    assert Decimal(payload["cost"]["total"]) > 0
    assert payload["cost"]["currency"] == "EUR"


def test_face_to_face_needs_one_hand_and_even_plies(tmp_path, capsys):
    words = [COURT, "--pairs", "37:8", *LIMITS, "--mode", "face-to-face", "--seconds", "3"]
    status, payload, _ = plan(capsys, *words, "-o", tmp_path / "run")
    assert status == 0
    check(payload, tmp_path / "run", "face-to-face")


def test_two_styles_share_the_lays_of_a_cloth(tmp_path, capsys):
    order = tmp_path / "order.csv"
    order.write_text("style,size,pairs\nCourt C12,37,4\nDerby D4,42,3\n")
    status, payload, err = plan(
        capsys, COURT, DERBY, "--run", order, "--cloth", "twill-150", *LIMITS, "--seconds", "4",
        "-o", tmp_path / "run",
    )  # fmt: skip
    assert status == 0, err
    check(payload, tmp_path / "run")
    assert payload["pairs_ordered"] == {"Court C12/37": 4, "Derby D4/42": 3}
    document = lay_file.read(tmp_path / "run" / payload["lays"][0]["lay_file"])
    for size in document["pairs"]:
        false = document | {
            "pairs": document["pairs"] | {size: document["pairs"][size] + 1},
            "pairs_cut": None,
        }
        assert "pairs" in {fault.kind.value for fault in verify_document(false).faults}


def test_plies_come_from_the_rolls_in_stock(tmp_path, capsys):
    rolls = tmp_path / "rolls.csv"
    rolls.write_text("roll,length_m,lot,flaws_m\nR1,8,a,2-2.1\nR2,12,b,\n")
    status, payload, err = plan(
        capsys, COURT, "--pairs", "37:12", *LIMITS, "--rolls", rolls, "--seconds", "3", "-o", tmp_path / "run"
    )
    assert status == 0, err
    uses = payload["rolls"]["twill-150"]["uses"]
    assert sum(sum(use["plies"].values()) for use in uses) == sum(lay["plies"] for lay in payload["lays"])
    used_m = sum(use["length_m"] - use["left_m"] for use in uses)
    assert used_m == pytest.approx(payload["cloth_m"]["twill-150"], abs=0.01)
    price = Decimal(json.loads(COURT.read_text())["cloths"][0]["price_per_m"])
    cloth_money = Decimal(str(payload["cloth_m"]["twill-150"])) * price
    assert abs(Decimal(payload["cost"]["cloth"]) - cloth_money) <= Decimal("0.01")
    assert sum(payload["shares"]["twill-150"].values()) == pytest.approx(1.0, abs=1e-5)
    ticket = (tmp_path / "run" / "twill-150-A" / "cut-ticket.csv").read_text()
    assert "R2 (b)" in ticket or "R1 (a)" in ticket
    assert {"lay.dxf", "lay.plt", "lay.pdf"} <= {
        path.name for path in (tmp_path / "run" / "twill-150-A").iterdir()
    }


def test_pairs_for_rejects_are_added_and_rounded_up():
    style = load_style(COURT)
    job = PlanJob((style,), ({"36": 30, "37": 1},), CuttingTable(1500.0, 6), Rates(Decimal(0)), extra=0.03)
    assert job.ordered == {"36": 30, "37": 1}
    assert job.demand == {"36": 31, "37": 2}


def test_rolls_of_two_cloths_are_told_apart_before_anything_is_nested(tmp_path, capsys):
    rolls = tmp_path / "rolls.csv"
    rolls.write_text("roll,length_m,cloth\nR1,80,twill-150\nR2,120,\n")
    words = [DERBY, "--pairs", "42:2", *LIMITS, "--rolls", rolls, "--seconds", "3", "-o", tmp_path / "run"]
    status, _, err = plan(capsys, *words)
    assert status == 2 and "R2" in err.splitlines()[-1] and "cloth" in err.splitlines()[-1]
    rolls.write_text("roll,length_m,cloth\nR1,80,twill-150\n")
    status, _, err = plan(capsys, *words)
    assert status == 2 and "plain-110" in err.splitlines()[-1]


def test_what_was_used_comes_back_as_variance(tmp_path, capsys):
    _, payload, _ = plan(capsys, COURT, "--pairs", "37:6", *LIMITS, "--seconds", "4", "-o", tmp_path / "run")
    run = str(payload["runs"][0])
    assert main(["used", run, "A", "9.99", "--json"]) == 0
    entry = json.loads(capsys.readouterr().out)
    assert Decimal(entry["variance_m"]) == Decimal("9.99") - Decimal(entry["planned_m"])
    assert main(["history", "--estimate", str(COURT), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["runs"][0]["used_m"] == "9.99"
    assert told["runs"][0]["nested_over_quick"] > 0.7 and told["quick_proved"]["against"] == "used"
    assert told["estimates"][0]["m2_per_pair"] > told["estimates"][0]["net_m2"]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--pairs", "37:6", "--table", "1500"], "--plies"),
        (["--pairs", "37:6", "--table", "300", "--end-loss", "130", "--plies", "5"], "table"),
        (["--pairs", "50:6", "--table", "1500", "--plies", "5"], "50"),
        (["--pairs", "37:6", "--table", "1500", "--plies", "5", "--setup", "x"], "--setup"),
        (["--run", "missing.csv", "--table", "1500", "--plies", "5"], "missing.csv"),
        (["--pairs", "37:6", "--table", "1500", "--plies", "5", "--cloth", "silk"], "silk"),
    ],
)
def test_bad_input_is_one_line(tmp_path, capsys, words, says):
    status, _, err = plan(capsys, COURT, *words, "--seconds", "3", "-o", tmp_path / "run")
    last = err.strip().splitlines()[-1]
    assert status == 2
    assert says in last
    assert "Traceback" not in err
    assert not (tmp_path / "run" / "plan.json").exists()


@pytest.mark.slow
def test_killed_between_two_lays_a_plan_goes_on_and_loses_none(tmp_path, capsys):
    """Two cloths are two lays at least, however little a busy machine finds in its time."""
    out = tmp_path / "run"
    words = ["plan", str(DERBY), "--pairs", "42:3", *LIMITS, "--seconds", "1", "-o", str(out)]
    for lays in (0, 1):
        assert run_and_kill(words, out / "lays-in-work", lays) == -signal.SIGKILL
        stored = [path for path in out.glob("lays-in-work/*.json") if not path.name.startswith(".")]
        assert len(stored) == lays
        for path in stored:
            assert json.loads(path.read_text())["lay"]
    status, payload, _ = plan(capsys, *words[1:])
    assert status == 0
    check(payload, out)
    assert not (out / "lays-in-work").exists()


def test_a_kept_lay_stays_and_only_the_rest_is_planned_anew(tmp_path, capsys):
    out = tmp_path / "run"
    words = [
        COURT,
        "--pairs",
        "36:9,37:20,38:11",
        "--table",
        "700",
        "--plies",
        "4",
        "--seconds",
        "3",
        "-o",
        out,
    ]
    _, before, _ = plan(capsys, *words)
    assert len(before["lays"]) > 1
    first = before["lays"][0]
    status, after, err = plan(capsys, *words, "--keep", f"A={first['plies'] - 1}")
    assert status == 0, err
    assert after["lays"][0]["sets"] == first["sets"]
    assert after["lays"][0]["length_mm"] == first["length_mm"]
    assert after["lays"][0]["plies"] == first["plies"] - 1
    check(after, out)
    assert {lay["lay_file"] for lay in after["lays"]} == {
        path.relative_to(out).as_posix() for path in out.glob("*/lay.json")
    }
    status, _, err = plan(capsys, *words, "--keep", "Q")
    assert status == 2
    assert "Q" in err.splitlines()[-1]
