"""Fabric and cost of a pair by command: figures that add up and say what they rest on."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from app.cost.per_pair import Width, lay_pairs, nest_width, net_m2_per_pair, roll_width
from app.errors import UnverifiedError
from app.style.file import load_style, save_style
from app.style.model import ClothData, LayerData, Style
from app.workshop.ledger import Ledger, LedgerLay, LedgerRun
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from tests.app.commands.conftest import Call


@pytest.fixture
def costed(call: Call, plain_file: Path) -> Any:
    widths = ["--widths", "1420,1000,44in@3.00"]
    called = call("cost", plain_file, "--pairs", "36:10,37:20,38:10", *widths, "--seconds", "0.5", "--json")
    assert called.status == 0, called.err
    return called.json


def test_net_area_is_that_of_both_feet(plain_style: Style) -> None:
    net = net_m2_per_pair(plain_style, ["37"], "twill-140")
    tongue = load_area(plain_style)
    assert net["37"] == pytest.approx(2 * (4784.0 + tongue) / 1e6)


def load_area(style: Style) -> float:
    from app.style.pieces import piece_backings

    return piece_backings(style, "tongue", "37", "left")[0].area_mm2


def test_every_figure_follows_from_the_lay(costed: Any, plain_style: Style) -> None:
    (cloth,) = costed["cloths"]
    rules = plain_style.rules
    pairs = sum(cloth["pairs"].values())
    spread = cloth["lay_length_mm"] + 2 * rules.end_loss_mm
    metres = spread / 1000 * (1 + (rules.roll_end_percent + rules.reject_percent) / 100)
    assert cloth["pairs"] == {"36": 10, "37": 20, "38": 10}, "the whole order fits one lay"
    assert costed["average"]["metres"] == pytest.approx(metres / pairs, abs=1e-6)
    assert costed["total"]["metres"]["twill-140"] == pytest.approx(metres, abs=6e-4)
    assert costed["average"]["gross_m2"] == pytest.approx(metres / pairs * 1.42, abs=1e-6)
    assert costed["utilisation"] == pytest.approx(
        costed["average"]["net_m2"] / costed["average"]["gross_m2"], rel=1e-4
    )
    assert costed["utilisation"] < costed["yield"] < 1.0
    assert sum(cloth["shares"].values()) == pytest.approx(1.0, abs=1e-5)


def test_money_is_decimal_and_adds_up_to_the_cent(costed: Any) -> None:
    total = sum(
        Decimal(pair["cost"]) * count
        for pair, count in zip(costed["per_pair"], costed["order"].values(), strict=True)
    )
    assert abs(Decimal(costed["total"]["cost"]) - total) < Decimal("0.01")
    for pair in costed["per_pair"]:
        assert isinstance(pair["cost"], str)
        assert Decimal(pair["cost"]) == pytest.approx(
            Decimal("2.50") * Decimal(str(pair["metres"])), abs=Decimal("1e-4")
        )
    assert costed["currency"] == "EUR"


def test_the_average_is_weighted_by_the_order(costed: Any) -> None:
    sizes = {pair["size"]: pair["metres"] for pair in costed["per_pair"]}
    weighted = (10 * sizes["36"] + 20 * sizes["37"] + 10 * sizes["38"]) / 40
    assert costed["average"]["metres"] == pytest.approx(weighted, abs=2e-6)
    assert sizes["36"] < sizes["37"] < sizes["38"]


def test_widths_side_by_side(costed: Any) -> None:
    widths = {row["width_mm"]: row for row in costed["widths"]}
    assert list(widths) == [1420.0, 1000.0, 1117.6]
    assert widths[1000.0]["usable_width_mm"] == 980.0, "the selvedges stay as wide as they are"
    assert widths[1420.0]["metres_per_pair"] == pytest.approx(costed["average"]["metres"], abs=1e-6)
    assert Decimal(widths[1420.0]["price_per_m"]) == Decimal("2.50")
    assert Decimal(widths[1000.0]["price_per_m"]) == Decimal("1.7606"), "in proportion to the width"
    assert widths[1117.6]["price_per_m"] == "3.00", "as given"
    for row in widths.values():
        cost = Decimal(row["price_per_m"]) * Decimal(str(row["metres_per_pair"]))
        assert Decimal(row["cost_per_pair"]) == pytest.approx(cost, abs=Decimal("1e-4"))


def test_what_was_assumed_is_said(costed: Any) -> None:
    said = "\n".join(costed["assumptions"])
    for word in (
        "gap 2 mm",
        "20 mm lost at each end",
        "1 % ends of rolls",
        "weighted by the order",
        "2.50 EUR",
    ):
        assert word in said
    assert "verified" in costed["verdict"]


def test_the_quick_estimate_of_the_trade_stands_beside_the_nested_figure(costed: Any) -> None:
    """A rectangle fills its rows but for the gap: (92 x 52) / (94 x 54) of the cloth."""
    (quick,) = costed["quick"]
    assert quick["density"]["strap"] == pytest.approx(92 * 52 / (94 * 54), rel=2e-3)
    assert 0.8 < quick["density"]["tongue"] < 1.0
    lay = costed["cloths"][0]
    nested_m2 = lay["lay_length_mm"] * lay["usable_width_mm"] / 1e6 / sum(lay["pairs"].values())
    assert quick["nested_over_estimate"] == pytest.approx(nested_m2 / quick["m2_per_pair"], rel=1e-3)
    assert quick["metres_per_pair"] * 1.4 == pytest.approx(quick["m2_per_pair"], rel=1e-4)
    for pair in costed["per_pair"]:
        assert pair["net_m2"] < pair["quick_m2"] and pair["net_m2"] < pair["lay_m2"] < pair["gross_m2"]
    assert costed["average"]["lay_m2"] == pytest.approx(quick["lay_m2_per_pair"], abs=2e-6)


def test_the_quick_estimate_alone_before_any_lay(
    call: Call, plain_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, costed: Any
) -> None:
    monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path / "data"))
    order = ("--pairs", "36:10,37:20,38:10")
    (cloth,) = call("cost", plain_file, *order, "--quick", "--json").json["cloths"]
    assert cloth["proved"] is None and cloth["average"]["expected_metres"] is None
    assert cloth["average"]["quick_m2"] == pytest.approx(costed["quick"][0]["m2_per_pair"], rel=2e-3)
    run = LedgerRun(
        "week 1", "Plain", "twill-140", Decimal(1400), "face-up", 40, Decimal("0.03"), Decimal("1"), "EUR",
        (LedgerLay("A", {"37": 40}, 1, 40, Decimal("1.00")),), Decimal("0.04"), Decimal("0.05"),
    )  # fmt: skip
    Ledger(tmp_path / "data" / "ledger.sqlite").plan(run)
    (cloth,) = call("cost", plain_file, *order, "--quick", "--json").json["cloths"]
    average = cloth["average"]
    assert average["expected_metres"] == pytest.approx(1.25 * average["quick_metres"], abs=2e-6)
    assert "expect" in call("cost", plain_file, *order, "--quick", "--units", "yard").out
    history = call("history", "--units", "yard", "-o", "hist")
    assert "1.250" in history.out and {p.name for p in (tmp_path / "hist").iterdir()} == {
        "history.csv", "history.xlsx",
    }  # fmt: skip


def test_two_cloths_are_added_and_shown_apart(call: Call, plain_file: Path) -> None:
    style = load_style(plain_file)
    thin = ClothData(
        id="thin", name="Thin", width_mm=1000.0, usable_width_mm=980.0, price_per_m=Decimal("1.00")
    )
    tongue = style.pieces[1].model_copy(update={"layers": (LayerData(cloth="thin"),)})
    style = style.model_copy(update={"pieces": (style.pieces[0], tongue), "cloths": (*style.cloths, thin)})
    save_style(style, plain_file)
    called = call("cost", plain_file, "--pairs", "37:4", "--seconds", "0.3", "--json")
    assert called.status == 0, called.err
    first, second = called.json["cloths"]
    assert (first["id"], second["id"]) == ("twill-140", "thin")
    (pair,) = called.json["per_pair"]
    both = Decimal(first["per_pair"][0]["cost"]) + Decimal(second["per_pair"][0]["cost"])
    assert Decimal(pair["cost"]) == pytest.approx(both, abs=Decimal("1e-4"))
    assert "Thin: " in called.json["verdict"], "each cloth's own checks are told"
    assert Decimal(called.json["total"]["cost"]) == Decimal(first["cost"]) + Decimal(second["cost"])
    assert pair["net_m2"] == pytest.approx(
        first["per_pair"][0]["net_m2"] + second["per_pair"][0]["net_m2"], abs=2e-6
    )


def test_without_a_price_there_are_metres_and_no_money(call: Call, plain_file: Path) -> None:
    style = load_style(plain_file)
    free = style.cloths[0].model_copy(update={"price_per_m": None})
    save_style(style.model_copy(update={"cloths": (free,)}), plain_file)
    called = call("cost", plain_file, "--pairs", "37:1", "--seconds", "0.3", "--json")
    assert called.json["per_pair"][0]["cost"] is None and called.json["total"]["cost"] is None
    assert called.json["per_pair"][0]["metres"] > 0
    priced = call(
        "cost",
        plain_file,
        "--pairs",
        "37:1",
        "--seconds",
        "0.3",
        "--price",
        "4,00",
        "--currency",
        "CHF",
        "--json",
    )
    assert priced.json["currency"] == "CHF" and Decimal(priced.json["per_pair"][0]["cost"]) > 0


def test_the_figures_are_written_as_papers(call: Call, plain_file: Path, tmp_path: Path) -> None:
    called = call("cost", plain_file, "--seconds", "0.3", "-o", "cost", "--units", "yard")
    assert called.status == 0, called.err
    assert {path.suffix for path in (tmp_path / "cost").iterdir()} == {".pdf", ".csv", ".xlsx"}
    assert "no order given" in called.err and "average" in called.out
    assert "gross ft2" in called.out and "2.2860 EUR per yard" in called.out


def test_a_large_order_is_costed_on_a_lay_in_its_proportions() -> None:
    order = {"36": 300, "37": 600, "38": 900}
    pairs = lay_pairs(order, dict.fromkeys(order, 0.1), 1400.0, 16)
    assert sum(pairs.values()) == 25, "400 pieces of 16 a pair"
    assert pairs == {"36": 4, "37": 8, "38": 13}
    assert lay_pairs({"36": 2, "37": 1}, {"36": 0.1, "37": 0.1}, 1400.0, 16) == {"36": 2, "37": 1}
    assert sum(lay_pairs({"36": 5000}, {"36": 0.0999}, 1400.0, 2).values()) == 63, "6 m of roll"


def test_a_lay_that_does_not_verify_is_not_costed(plain_style: Style) -> None:
    def careless(problem: LayProblem, label: str) -> Lay:
        first = problem.items[0]
        assert first.turns_deg
        return Lay(tuple(Placement(item.id, first.turns_deg[0], 0.0, 0.0) for item in problem.items), 100.0)

    cloth = plain_style.cloths[0]
    with pytest.raises(UnverifiedError, match="does not verify"):
        nest_width(plain_style, cloth, {"37": 1}, Width(1420.0, 1400.0), careless)


def test_selvedges_are_taken_off_every_width(plain_style: Style) -> None:
    cloth = plain_style.cloths[0]
    width = roll_width(cloth, 1200.0)
    assert width == Width(1200.0, 1180.0, Decimal("2.1127"))
