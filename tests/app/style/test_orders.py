"""Orders as clerks really send them."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from app.errors import OrderError
from app.style.checks import first_problem
from app.style.file import load_style
from app.style.model import Style
from app.style.orders import for_style, kept_order, parse_pairs, read_order, with_order

SAMPLES = Path(__file__).resolve().parents[3] / "sample_styles"


def test_pairs_on_the_command_line() -> None:
    assert parse_pairs("36:2,37:4") == {"36": 2, "37": 4}
    assert parse_pairs(" 36 : 2 ; 37.5:1") == {"36": 2, "37.5": 1}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "SIZE:PAIRS"),
        ("36", "36 is not SIZE:PAIRS"),
        ("36:two", "must be a whole number"),
        ("36:-1", "must be a whole number"),
        ("36:1.5", "must be a whole number"),
        ("36:1,36:2", "twice"),
        ("36:0", "no pairs"),
        ("36:99999999999", "cannot be right"),
        ("36:1e400", "must be a whole number"),
    ],
)
def test_slips_on_the_command_line_are_named(text: str, said: str) -> None:
    with pytest.raises(OrderError, match=said):
        parse_pairs(text)


@pytest.mark.parametrize(
    "text",
    [
        "size,pairs\n36,20\n37,40\n",
        "Size;Pairs\r\n36;20\r\n37;40\r\n",
        "\ufeffGröße;Paare\n36;20\n\n37;40\n",
        "36\t20\n37\t40\n",
        "article,size,colour,pairs\nC12,36,black,20\nC12,37,black,40\n",
        "qty,size\n20,36\n40,37\n",
        "size,pairs\n36,20\n37,40\ntotal,60\n",
        '"size","pairs"\n"36","20"\n"37","40.0"\n',
    ],
)
def test_csv_files_with_other_headers_and_separators(tmp_path: Path, text: str) -> None:
    path = tmp_path / "order.csv"
    path.write_bytes(text.encode("utf-8"))
    assert read_order(path) == {"36": 20, "37": 40}


def test_a_csv_file_of_an_old_spreadsheet(tmp_path: Path) -> None:
    path = tmp_path / "order.csv"
    path.write_bytes("Größe;Menge\n37,5;3\n38½;4\n".encode("cp1252"))
    assert read_order(path) == {"37.5": 3, "38.5": 4}


def test_a_spreadsheet(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    book.active.append(["Size", None, "Pairs ordered"])
    book.active.append([36, None, 20])
    book.active.append([37.5, None, 40.0])
    book.active.append([None, None, None])
    book.active.append(["Total", None, 60])
    book.save(tmp_path / "order.xlsx")
    assert read_order(tmp_path / "order.xlsx") == {"36": 20, "37.5": 40}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "is empty"),
        ("size,pairs\n", "no pairs"),
        ("36,20,x\n", "columns of sizes and pairs"),
        ("size,price\n36,20\n", "columns of sizes and pairs"),
        ("size,pairs\n36,many\n", "line 2: the pairs of size 36"),
        ("size,pairs\n36,\n", "line 2: the pairs of size 36"),
        ("size,pairs\n36,20\n,4\n", "line 3: there is no size"),
        ("size,pairs\n36,20\n36,5\n", "line 3: size 36 appears twice"),
        ("size,pairs\n36,20\n37,40\ntotal,61\n", "line 4: the total says 61"),
        ("size,pairs\n36,20.5\n", "whole number"),
        ('size,pairs\n"36,20\n', "line 2"),
    ],
)
def test_what_is_wrong_in_an_order_is_named_with_its_line(tmp_path: Path, text: str, said: str) -> None:
    path = tmp_path / "order.csv"
    path.write_text(text)
    with pytest.raises(OrderError) as caught:
        read_order(path)
    assert said in str(caught.value)
    assert str(path) in str(caught.value)
    assert caught.value.remedy


def test_what_is_no_order_is_refused(tmp_path: Path) -> None:
    (tmp_path / "order.xlsx").write_bytes(b"PK\x03\x04 broken")
    (tmp_path / "order.csv").write_bytes(b"a\0b")
    for name in ("order.xlsx", "order.csv", "none.csv", "."):
        with pytest.raises(OrderError):
            read_order(tmp_path / name)


def test_an_order_in_the_sizes_of_the_style(plain_style: Style) -> None:
    assert for_style({"38": 1, "36.0": 2, "37": 0}, plain_style) == {"36": 2, "38": 1}
    with pytest.raises(OrderError, match=r"size 45 is not a size of Plain \(36, 37, 38\)"):
        for_style({"45": 2}, plain_style, source="order.csv")


def test_the_order_kept_with_a_style_comes_before_the_one_beside_it() -> None:
    path = SAMPLES / "court" / "court.style.json"
    style = load_style(path)
    beside = for_style(read_order(path.with_name("order.csv")), style)
    assert {size: n for size, n in kept_order(style, path).items() if n} == beside
    own = with_order(style, {"36": 3})
    assert {size: n for size, n in kept_order(own, path).items() if n} == {"36": 3}
    assert kept_order(style, None) == dict.fromkeys(style.size_run.sizes, 1)


def test_an_order_kept_with_a_style_names_only_its_sizes() -> None:
    style = load_style(SAMPLES / "court" / "court.style.json")
    with pytest.raises(OrderError, match="size 99"):
        with_order(style, {"99": 1})
    broken = style.model_copy(update={"order": {"99": 1}})
    assert "size 99" in first_problem(broken)


def test_an_order_may_be_large_but_not_absurd() -> None:
    assert sum(parse_pairs("36:60000,37:40000").values()) == 100_000
    with pytest.raises(OrderError, match="in one order cannot be right") as caught:
        parse_pairs("36:700000,37:700000")
    assert caught.value.remedy
