"""Cut ticket, fabric per pair and reinforcement sheet: the figures and the warnings they carry."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import Any

import pytest
from openpyxl import load_workbook
from pypdf import PdfReader

from app.cost.money import with_money
from app.errors import UnverifiedError
from app.lay.job import LayJob, document_of, judged, problem_of
from app.measures import YARD
from app.papers import cut_ticket, fabric_per_pair, reinforcement_sheet
from app.papers.formats.drawing import Text
from app.papers.layout.flow import Flow
from app.papers.shown import Costed, Laid, Reinforced
from app.papers.ticket_figures import CutTicket, TicketLay
from app.style.model import KeepData, LayerData, PressSetting, Style
from app.style.pieces import uppers_and_backings
from nesting.free import first_layout
from nesting.verify.fault import Fault, FaultKind, Verdict


def laid(ticket: CutTicket) -> Laid:
    return Laid(ticket.lays[0].document, ticket.lays[0].verdict, ticket.style, ticket)


def ticket_lay(
    style: Style, name: str, pairs: dict[str, int], plies: int, mode: Any = "face-up"
) -> TicketLay:
    """A verified first layout as a line of the ticket."""
    job = LayJob(style, pairs, mode=mode, plies=plies)
    problem = problem_of(job)
    lay = first_layout.solve(problem)
    verdict = judged(problem, lay)
    assert verdict.ok, verdict.faults
    return TicketLay(name, document_of(job, problem, lay), verdict, plies, mode)


def text_of(path: Path) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(path).pages).split())


@pytest.fixture
def ticket(plain_style: Style) -> CutTicket:
    lays = (
        ticket_lay(plain_style, "A", {"36": 1, "37": 2}, 5),
        ticket_lay(plain_style, "B", {"37": 1, "38": 1}, 4, "face-to-face"),
    )
    return CutTicket(
        plain_style, {"36": 5, "37": 11, "38": 3}, lays, order="Q-104", last="L 22", colour="tan"
    )


def test_pairs_are_counted_from_the_lays(ticket: CutTicket) -> None:
    """Five plies face up give 5 x (1, 2); four plies face to face give 2 x (1, 1)."""
    assert ticket.pairs_cut == {"36": 5, "37": 12, "38": 2}
    assert ticket.shoes_cut == {"36": (5, 5), "37": (12, 12), "38": (2, 2)}
    assert ticket.pieces["strap"]["37"] == (12, 12, 0)


def test_a_missing_piece_costs_the_pair(ticket: CutTicket) -> None:
    lay = ticket.lays[0]
    placements = [p for p in lay.document["placements"] if (p["piece"], p["hand"]) != ("tongue", "right")]
    short = TicketLay("A", {**lay.document, "placements": placements}, lay.verdict, 5)
    some = CutTicket(ticket.style, ticket.pairs, (short,))
    assert some.shoes_cut["37"] == (10, 0)
    assert some.pairs_cut["37"] == 0


def test_layers_and_parts_count_each_for_itself(plain_style: Style) -> None:
    """A strap in two layers, the second of another shape: both are needed for a shoe."""
    keep = KeepData(points_mm=((50.0, -5.0), (50.0, 70.0)), closed=False, side_mm=(80.0, 30.0))
    two = plain_style.pieces[0].model_copy(update={"layers": (LayerData(), LayerData(keep=keep))})
    style = plain_style.model_copy(update={"pieces": (two,)})
    ticket = CutTicket(style, {"37": 6}, (ticket_lay(style, "A", {"37": 3}, 2),))
    assert ticket.pairs_cut == {"37": 6}
    assert sorted(ticket.pieces) == ["strap", "strap, layer 2"]


def test_the_ticket_carries_what_the_cutter_signs(ticket: CutTicket, tmp_path: Path) -> None:
    cut_ticket.write(laid(ticket), tmp_path)
    text = text_of(tmp_path / "cut-ticket.pdf")
    for words in (
        "Q-104", "L 22", "tan", "Cotton twill 140 g (twill-140)", "usable 1400 mm",
        "tight direction along the roll (assumed)", "face to face", "lay A 1 2 0", "lay B 0 1 1",
        "pairs ordered 5 11 3 19", "pairs cut 5 12 2 19", "over (+), short (-) 0 +1 -1 0",
        "5 / 5", "glue side up", "supplier's sheet", "gap between pieces 2 mm", "verified: gap 2 mm",
        "100 mm square", "date and sign", "Knife", "Fusing press", "Solvent cement", "yield", "utilisation",
    ):  # fmt: skip
        assert words in text, words


def test_the_ticket_adds_up_the_cloth(ticket: CutTicket, tmp_path: Path) -> None:
    """Metres of a lay = plies x (length + 2 x 20 mm) x 1.01 with the house rules as they stand."""
    cut_ticket.write(laid(ticket), tmp_path)
    page = load_workbook(tmp_path / "cut-ticket.xlsx")["Lays"]
    head = [cell.value for cell in page[1]]
    for row, lay in zip(page.iter_rows(min_row=2, values_only=True), ticket.lays, strict=True):
        told = dict(zip(head, row, strict=True))
        spread = lay.plies * (lay.length_mm + 40.0) / 1000.0  # as the run plan counts it
        metres = spread * 1.01
        assert told["spread m of twill-140"] == pytest.approx(spread, abs=1e-4)
        assert told["roll m"] == pytest.approx(metres, abs=1e-4)
        assert told["gross m2"] == pytest.approx(metres * 1.42, abs=1e-4)
        assert told["utilisation"] < told["yield"]
        assert told["plies"] == lay.plies


def test_csv_and_workbook_hold_the_same_pairs(ticket: CutTicket, tmp_path: Path) -> None:
    cut_ticket.write(laid(ticket), tmp_path)
    with (tmp_path / "cut-ticket.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = [row[1:] for row in csv.reader(file) if row[0] == "Pairs"]
    page = load_workbook(tmp_path / "cut-ticket.xlsx")["Pairs"]
    assert rows == [[str(v) for v in row] for row in page.iter_rows(min_row=2, values_only=True)]
    assert rows[1] == ["37", "11", "12", "1", "12", "12"]


def test_a_ticket_with_an_unverified_lay_is_refused(ticket: CutTicket, tmp_path: Path) -> None:
    bad = TicketLay("C", ticket.lays[0].document, Verdict((Fault(FaultKind.MISSING, ()),)), 1)
    with pytest.raises(UnverifiedError, match="lay C"):
        cut_ticket.write(laid(CutTicket(ticket.style, ticket.pairs, (*ticket.lays, bad))), tmp_path)
    assert not list(tmp_path.iterdir())


def test_a_long_ticket_goes_on_to_further_sheets(plain_style: Style, tmp_path: Path) -> None:
    lay = ticket_lay(plain_style, "A", {"36": 1}, 1)
    many = tuple(TicketLay(str(i), lay.document, lay.verdict, 1) for i in range(60))
    cut_ticket.write(laid(CutTicket(plain_style, {"36": 60}, many)), tmp_path)
    pages = PdfReader(tmp_path / "cut-ticket.pdf").pages
    assert len(pages) > 2
    assert f"sheet 2 of {len(pages)}" in pages[1].extract_text()


def test_a_wide_table_is_set_smaller_then_split_and_never_shortened() -> None:
    heads = ["piece", *(str(size) for size in range(20, 48))]
    row = ["Quarter outer, lined", *("120 L + 120 R" for _ in heads[1:])]
    flow = Flow(210.0, 297.0, "Wide", "table")
    flow.table(heads, [row])
    texts = [m.text for page in flow.pages() for m in page.drawing.walk() if isinstance(m, Text)]
    assert texts.count("120 L + 120 R") == 28
    assert all(head in texts for head in heads)
    assert not any("…" in text for text in texts)


def counted(price: str | None = "2.50") -> dict[str, Any]:
    """A cost object as ``app.cost.report`` makes it, of two sizes on one cloth, its figures by hand."""
    figures = ("size", "net_m2", "quick_m2", "lay_m2", "gross_m2", "metres")
    sizes = [
        dict(zip(figures, row, strict=True))
        for row in (("36", 0.08, 0.09, 0.095, 0.10, 0.0704), ("37", 0.09, 0.10, 0.107, 0.1125, 0.0792))
    ]
    average = dict(zip(figures, ("average", 0.0875, 0.0975, 0.104, 0.109375, 0.077), strict=True))
    width = {
        "width_mm": 1420.0, "usable_width_mm": 1400.0, "yield": 0.84, "utilisation": 0.8,
        "metres_per_pair": 0.077, "m2_per_pair": 0.109375, "price_per_m": price, "lay_length_mm": 3000.0,
    }  # fmt: skip
    line = {key: value for key, value in width.items() if "width" not in key and "price" not in key}
    held = {"cloth": "thin", "name": "Thin", "currency": "EUR", "hold": "breaks: Vamp", "holds": False}
    return with_money(
        {
            "order": {"36": 10, "37": 30},
            "per_pair": sizes,
            "average": average,
            "total": {"pairs": 40, "metres": {"twill": 3.08}},
            "widths": [width, {**width, "width_mm": 1520.0, "price_per_m": None}],
            "by_cloth": [{**width, **held}],
            "sensitivity": {
                "gap": [{**line, "gap_mm": 2.0, "own": True}],
                "end_loss": [{**line, "end_loss_mm": 20.0, "own": True}],
                "plies": [{**line, "plies": 2, "pairs_in_lay": 20, "own": True}],
                "order": [{**line, "pairs": 40, "pairs_in_lay": 20, "own": True}],
            },
            "yield": 0.84,
            "utilisation": 0.8,
            "quick": [
                {
                    "cloth": "twill", "density": {"strap": 0.9}, "m2_per_pair": 0.0975,
                    "lay_m2_per_pair": 0.104, "nested_over_estimate": 1.0667,
                }
            ],
            "cloths": [
                {
                    "id": "twill", "name": "Twill", "currency": "EUR", "price_per_m": price,
                    "yield": 0.84, "utilisation": 0.8, "per_pair": sizes, "pairs": {"36": 5, "37": 15},
                    "width_mm": 1420.0, "usable_width_mm": 1400.0, "lay_length_mm": 3000.0,
                    "account": [
                        {"part": "pieces", "share": 0.8, "m2": 3.5},
                        {"part": "between_pieces", "share": 0.2, "m2": 0.875},
                    ],
                }
            ],
            "assumptions": ["gap 2 mm, edge margin 5 mm", "Twill: lay of 20 pairs at another price"],
            "verdict": "every lay verified",
        }
    )  # fmt: skip


def test_fabric_per_pair_keeps_yield_and_utilisation_apart(plain_style: Style, tmp_path: Path) -> None:
    fabric_per_pair.write(Costed(plain_style, counted()), tmp_path)
    text = text_of(tmp_path / "fabric-per-pair.pdf")
    for words in (
        "84.0 %", "80.0 %", "Yield: net area of the pieces / (usable width x lay length)",
        "utilisation: net area of the pieces / all cloth paid for", "0.1925 EUR",
        "average 40 0.0875 0.0975 0.1040 0.1094 0.0770 0.1925 7.70", "Gap 2 mm", "every lay verified",
        "between pieces 20.00 % 0.8750 1.54", "total 100.00 % 4.3750 7.70", "breaks: Vamp", "1.07 times that",
    ):  # fmt: skip
        assert words in text, words


def test_fabric_per_pair_tells_what_a_longer_search_is_likely_to_add(
    plain_style: Style, tmp_path: Path
) -> None:
    cost = counted()
    fabric_per_pair.write(Costed(plain_style, cost), tmp_path)
    assert "s of search" not in text_of(tmp_path / "fabric-per-pair.pdf"), "nothing is known of these lays"
    cost["widths"][1]["longer_search"] = {"seconds": 60.0, "gain": 0.032, "scatter": 0.013}
    fabric_per_pair.write(Costed(plain_style, cost), tmp_path)
    text = text_of(tmp_path / "fabric-per-pair.pdf")
    assert "60 s of search are likely to add to the yield, in points: 1520 mm: 3.2 ± 1.3." in text


def test_fabric_per_pair_as_numbers(plain_style: Style, tmp_path: Path) -> None:
    fabric_per_pair.write(Costed(plain_style, counted()), tmp_path)
    book = load_workbook(tmp_path / "fabric-per-pair.xlsx")
    rows = list(book["Per pair"].iter_rows(values_only=True))
    assert rows[0][:4] == ("size", "pairs", "net m2", "quick m2")
    assert rows[1] == ("36", 10, 0.08, 0.09, 0.095, 0.10, 0.0704, 0.176, 1.76)
    assert rows[3][0:2] == ("average of the order", 40)
    assert rows[1][8] + rows[2][8] == pytest.approx(rows[3][8], abs=1e-9)
    assert book["Widths"]["H3"].value is None
    assert book["Cloths"]["K2"].value == "breaks: Vamp"
    assert [row[0] for row in book["Sensitivity"].iter_rows(min_row=2, values_only=True)] == [
        "gap mm", "loss at each end mm", "plies", "pairs ordered",
    ]  # fmt: skip
    assert book["Quick estimate"]["F2"].value == 1.0667


def test_fabric_per_pair_in_yards_costs_the_same(plain_style: Style, tmp_path: Path) -> None:
    """0.077 m = 0.084208 yd, 0.109375 m2 = 1.177303 ft2; 2.50 a metre is 2.286 a yard."""
    fabric_per_pair.write(Costed(plain_style, counted(), measures=YARD), tmp_path)
    book = load_workbook(tmp_path / "fabric-per-pair.xlsx")
    assert book["Per pair"]["G4"].value == pytest.approx(0.077 / 0.9144, abs=1e-6)
    assert book["Per pair"]["F4"].value == pytest.approx(0.109375 / 0.3048**2, abs=1e-6)
    assert book["Per pair"]["I4"].value == 7.70
    assert book["Widths"]["G2"].value == 2.286
    text = text_of(tmp_path / "fabric-per-pair.pdf")
    assert "0.0842 yd" in text
    assert "3.281 yd on 55.12 in usable of 55.91 in; 2.2860 EUR per yard" in text, "as priced now"


def test_fabric_without_a_price_says_so(plain_style: Style, tmp_path: Path) -> None:
    fabric_per_pair.write(Costed(plain_style, counted(None)), tmp_path)
    assert "no price" in text_of(tmp_path / "fabric-per-pair.pdf")


def test_the_reinforcement_sheet_is_one_page_with_every_piece(plain_style: Style, tmp_path: Path) -> None:
    press = PressSetting(temperature_c=118.0, seconds=9.0, pressure_mpa=0.2, source="sheet 7 of the mill")
    cloth = plain_style.cloths[0].model_copy(update={"press": press})
    bare = plain_style.pieces[1].model_copy(update={"name": "Öse", "layers": ()})
    style = plain_style.model_copy(update={"cloths": (cloth,), "pieces": (*plain_style.pieces, bare)})
    pairs = uppers_and_backings(style, ["37"], ["left"])
    (path,) = reinforcement_sheet.write(Reinforced(style, pairs), tmp_path)
    reader = PdfReader(path)
    assert len(reader.pages) == 1
    text = text_of(path)
    for words in (
        "strap", "tongue", "Öse", "no backing", "4 raw", "118 °C, 9 s, 0.2 MPa (source: sheet 7 of the mill)",
        "along the roll (assumed)", "supplier's sheet", "Knife", "Solvent cement", "Fusing press", "pull",
        "curves within 0.05 mm".capitalize(), "the cloth must not show at a cut edge",
    ):  # fmt: skip
        assert words in text, words


def test_a_press_setting_nobody_gave_is_not_made_up(plain_style: Style, tmp_path: Path) -> None:
    pairs = uppers_and_backings(plain_style, ["37"], ["left"])
    (path,) = reinforcement_sheet.write(Reinforced(plain_style, pairs), tmp_path)
    assert "not stated: take it from the supplier's sheet" in text_of(path)


def test_many_pieces_still_share_one_page(plain_style: Style, tmp_path: Path) -> None:
    pieces = tuple(plain_style.pieces[1].model_copy(update={"name": f"piece {i}"}) for i in range(24))
    style = plain_style.model_copy(update={"pieces": pieces})
    (path,) = reinforcement_sheet.write(
        Reinforced(style, uppers_and_backings(style, ["37"], ["left"])), tmp_path
    )
    text = text_of(path)
    assert len(PdfReader(path).pages) == 1
    assert all(f"piece {i}" in text for i in range(24))
