"""Every way of adding up the money of an order comes to the same cent."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from app.cost.money import shared_out, with_money
from nesting.planning.consumption import Consumption

CENT = Decimal("0.01")
weights = st.lists(st.floats(0, 1e6, allow_nan=False), min_size=1, max_size=12)


@given(st.integers(0, 10**9), weights)
def test_shares_add_up_and_none_is_a_cent_off(cents: int, parts: list[float]) -> None:
    total = cents * CENT
    shares = shared_out(total, parts)
    assert sum(shares) == total
    whole = sum(Decimal(repr(part)) for part in parts)
    if whole:
        for share, part in zip(shares, parts, strict=True):
            assert abs(share - total * Decimal(repr(part)) / whole) < CENT
    assert all(share.as_tuple().exponent == -2 for share in shares), "never written like 0E+16"


def lay(net: float, length: float, selvedge: float, losses: tuple[float, float, float, float]) -> Consumption:
    end, rolls, splices, rejects = losses
    return Consumption(
        net * length * 1400.0, length, 1400.0, 1400.0 + selvedge, 7,
        end_loss_mm=end, roll_end_percent=rolls, splice_percent=splices, reject_percent=rejects,
    )  # fmt: skip


losses = st.tuples(st.floats(0, 100), st.floats(0, 5), st.floats(0, 5), st.floats(0, 10))
lays = st.builds(lay, st.floats(0.1, 1), st.floats(100, 9000), st.floats(0, 60), losses)
prices = st.decimals("0.01", "99.99", places=2)
orders = st.lists(st.integers(1, 5000), min_size=3, max_size=3)


def counted(lays_: list[Consumption], prices_: list[Decimal], pairs: list[int]) -> dict[str, Any]:
    """A cost object of three sizes on several cloths, its money not worked out yet."""
    order = dict(zip(("36", "37", "38"), pairs, strict=True))
    net = {"36": 0.08, "37": 0.09, "38": 0.1}
    cloths = [
        {
            "id": str(k), "name": str(k), "currency": "EUR", "price_per_m": str(price),
            "per_pair": [
                {"size": size, "metres": round(used.metres_of(m2 * 1e6), 6)} for size, m2 in net.items()
            ],
            "account": [{"part": part, "share": share} for part, share in used.shares().items()],
        }
        for k, (used, price) in enumerate(zip(lays_, prices_, strict=True))
    ]  # fmt: skip
    per_pair = [{"size": size} for size in order]
    return {
        "order": order, "cloths": cloths, "per_pair": per_pair, "average": {}, "total": {}, "widths": [],
    }  # fmt: skip


@given(st.lists(st.tuples(lays, prices), min_size=1, max_size=3), orders)
def test_metres_add_up_from_lay_to_order_to_cent(
    cloths: list[tuple[Consumption, Decimal]], pairs: list[int]
) -> None:
    cost = with_money(counted([lay for lay, _ in cloths], [price for _, price in cloths], pairs))
    total = Decimal(cost["total"]["cost"])
    assert sum(Decimal(cloth["cost"]) for cloth in cost["cloths"]) == total
    assert sum(Decimal(row["order_cost"]) for row in cost["per_pair"]) == total
    for cloth in cost["cloths"]:
        bought = Decimal(cloth["cost"])
        assert sum(Decimal(part["cost"]) for part in cloth["account"]) == bought
        assert sum(Decimal(row["order_cost"]) for row in cloth["per_pair"]) == bought
        metres = sum(
            Decimal(f"{row['metres']:.6f}") * cost["order"][row["size"]] for row in cloth["per_pair"]
        )
        assert bought == (metres * Decimal(cloth["price_per_m"])).quantize(CENT, ROUND_HALF_UP)
    each = sum(Decimal(row["cost"]) * cost["order"][row["size"]] for row in cost["per_pair"])
    rounded = Decimal("0.00005") * sum(pairs) + CENT / 2 * len(
        cloths
    )  # a pair's price, and each cloth's cost
    assert abs(each - total) <= rounded


@given(lays)
def test_every_loss_is_named_and_they_reconcile(used: Consumption) -> None:
    """Pieces and losses are the cloth bought; each loss is what its own rule says, counted apart."""
    shares = used.shares()
    assert list(shares) == [
        "pieces", "between_pieces", "ends_of_plies", "selvedge", "ends_of_rolls", "splices", "rejects",
    ]  # fmt: skip
    bought = used.gross_m2
    spread = used.width_mm * used.ply_length_mm / 1e6
    area = {part: share * bought for part, share in shares.items()}
    lay_m2 = used.usable_width_mm * used.lay_length_mm / 1e6
    close = 1e-9 * bought
    assert abs(sum(area.values()) - bought) < close
    assert abs(area["pieces"] + area["between_pieces"] - lay_m2) < close
    assert abs(area["pieces"] / lay_m2 - used.lay_yield) < 1e-9
    assert abs(shares["pieces"] - used.utilisation) < 1e-9
    assert abs(area["ends_of_plies"] - used.usable_width_mm * 2 * used.end_loss_mm / 1e6) < close
    assert abs(area["selvedge"] - (used.width_mm - used.usable_width_mm) * used.ply_length_mm / 1e6) < close
    for part, percent in (
        ("ends_of_rolls", used.roll_end_percent),
        ("splices", used.splice_percent),
        ("rejects", used.reject_percent),
    ):
        assert abs(area[part] - spread * percent / 100) < close


def test_two_currencies_are_never_added() -> None:
    used = lay(0.8, 3000.0, 40.0, (20.0, 1.0, 0.0, 0.0))
    told = counted([used, used], [Decimal("1.00"), Decimal("2.00")], [1, 2, 3])
    told["cloths"][1]["currency"] = "CHF"
    cost = with_money(told)
    assert cost["total"]["cost"] is None and cost["per_pair"][0]["cost"] is None
    assert all(Decimal(cloth["cost"]) > 0 for cloth in cost["cloths"]), "each cloth in its own money"
