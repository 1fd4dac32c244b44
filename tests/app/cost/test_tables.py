"""What moves a pair's cost, and one cloth beside another: each line a lay of its own, all verified."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.cost.cloths import cloths_wanted, compare_cloths, hold_verdict
from app.cost.per_pair import ClothCost, Width, cloth_width, nest_width, net_m2_per_pair
from app.cost.sensitivity import lays_by_gap, sensitivity
from app.cost.text import change_text
from app.errors import UsageError
from app.lay.job import judged
from app.style.model import ClothData, HoldLine, SheetConstants, Style, UpperMaterial
from nesting.free import first_layout
from nesting.known import Pool
from nesting.lay import Lay
from nesting.problem import LayProblem

ORDER = {"36": 4, "37": 8, "38": 4}


class Engine:
    """The first layout as the engine, and what it was asked."""

    def __init__(self) -> None:
        self.asked: list[LayProblem] = []

    def __call__(self, problem: LayProblem, label: str) -> Lay:
        self.asked.append(problem)
        return first_layout.solve(problem)


@pytest.fixture
def engine(tmp_path, monkeypatch: pytest.MonkeyPatch) -> Engine:
    monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path))
    return Engine()


def costed(style: Style, engine: Engine) -> ClothCost:
    cloth = style.cloths[0]
    nested = nest_width(style, cloth, ORDER, cloth_width(cloth), engine)
    return ClothCost(cloth, nested, net_m2_per_pair(style, list(ORDER), cloth.id))


def test_cloth_grows_with_the_gap_and_every_lay_is_verified(plain_style: Style, engine: Engine) -> None:
    pool = Pool()

    def search(problem, label):
        lay = engine(problem, label)
        pool.keep(problem, lay)
        return lay

    def known(problem, label):
        lay = pool.best(problem)
        assert lay is not None
        return lay

    lays_by_gap(plain_style, ORDER, costed(plain_style, search), search)
    by_gap = lays_by_gap(plain_style, ORDER, costed(plain_style, known), known)
    assert list(by_gap) == [1.0, 2.0, 3.0, 4.0]
    lengths = [lay.lay.length_mm for lay in by_gap.values()]
    assert lengths == sorted(lengths), "a lay of a wider gap serves a narrower one"
    for gap, lay in by_gap.items():
        assert lay.problem.gap_mm == gap
        assert judged(lay.problem, lay.lay).ok


def test_what_moves_the_cost(plain_style: Style, engine: Engine) -> None:
    cost = costed(plain_style, engine)
    told = sensitivity(plain_style, ORDER, cost, engine)
    for table in ("gap", "end_loss", "plies", "order"):
        (own,) = [row for row in told[table] if row["own"]]
        assert own["metres_per_pair"] == pytest.approx(cost.average_m(ORDER), abs=1e-6), table
    zero, *_, forty = told["end_loss"]
    assert (zero["end_loss_mm"], forty["end_loss_mm"]) == (0.0, 40.0)
    more = 80.0 / 1000 / 16 * cost.nested.consumption.extra
    assert forty["metres_per_pair"] - zero["metres_per_pair"] == pytest.approx(more, abs=2e-6)
    assert zero["yield"] == forty["yield"] and zero["utilisation"] > forty["utilisation"]
    assert [(row["plies"], row["pairs_in_lay"]) for row in told["plies"]] == [
        (1, 16),
        (2, 8),
        (4, 4),
        (8, 2),
        (16, 1),
    ]
    assert [row["pairs"] for row in told["order"]] == [1, 2, 4, 8, 16, 32]
    single, twice = told["order"][0], told["order"][-1]
    assert single["metres_per_pair"] > twice["metres_per_pair"], "one pair alone wastes most"


def test_cloths_side_by_side(plain_style: Style, engine: Engine) -> None:
    wide = ClothData(
        id="wide",
        name="Wide",
        width_mm=1520.0,
        usable_width_mm=1500.0,
        price_per_m=Decimal("3.00"),
        currency="CHF",
    )
    dear = plain_style.cloths[0].model_copy(update={"id": "dear", "price_per_m": Decimal("9.00")})
    cost = costed(plain_style, engine)
    engine.asked.clear()
    widths = {"wide": [Width(1020.0, 1000.0, Decimal("2.00"))]}
    cloths = [plain_style.cloths[0], dear, wide]
    own, like, other, narrow = compare_cloths(plain_style, ORDER, cost, cloths, widths, [], engine)
    assert len(engine.asked) == 2, "the pieces lie alike on the dear cloth: it is not nested again"
    assert own["metres_per_pair"] == like["metres_per_pair"] and like["price_per_m"] == "9.00"
    assert (other["cloth"], other["width_mm"], other["currency"]) == ("wide", 1520.0, "CHF")
    assert narrow["width_mm"] == 1020.0 and not narrow["own_width"]
    assert {sum(row["pairs"].values()) for row in (own, like, other, narrow)} == {16}, (
        "the same pairs on each"
    )
    assert own["holds"] is None and "not known" in own["hold"], "nobody pulled a strip of it"


def sheet(stiff: float) -> SheetConstants:
    return SheetConstants(e1_n_per_mm=stiff, e2_n_per_mm=stiff, g12_n_per_mm=stiff / 2.6, nu12=0.3)


def test_the_hold_stands_beside_the_price(plain_style: Style, engine: Engine) -> None:
    strap = plain_style.pieces[0].model_copy(
        update={"hold_line": HoldLine(from_mm=(10.0, 30.0), to_mm=(90.0, 30.0), limit_mm=2.0)}
    )
    cloth = plain_style.cloths[0].model_copy(update={"sheet": sheet(60.0)})
    soft = cloth.model_copy(update={"id": "soft", "sheet": sheet(2.0)})
    style = plain_style.model_copy(
        update={
            "pieces": (strap, *plain_style.pieces[1:]), "cloths": (cloth, soft),
            "upper_material": UpperMaterial(name="calf", sheet=sheet(10.0)),
        }
    )  # fmt: skip
    cost = costed(style, engine)
    stiff, weak = compare_cloths(style, ORDER, cost, cloths_wanted(style, "twill-140,soft"), {}, [], engine)
    assert stiff["holds"] is True and stiff["hold"] == "holds"
    assert weak["holds"] is False and weak["hold"] == "breaks: strap"
    assert hold_verdict(plain_style.model_copy(update={"cloths": (cloth,)})).holds is None
    with pytest.raises(UsageError, match="neither the style nor the register"):
        cloths_wanted(style, "velvet")


def test_what_comes_to_nothing_is_called_no_difference():
    own = {"metres_per_pair": 0.1046, "lay_length_mm": 5132.0}
    assert change_text(own, {**own}) == "no difference"
    assert change_text({**own, "metres_per_pair": 0.104599}, own) == "no difference"
    assert change_text({**own, "metres_per_pair": 0.1050}, own) == "+0.4 %"
