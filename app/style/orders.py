"""Orders: pairs per size, from the command line, a CSV file or a spreadsheet."""

from __future__ import annotations

import contextlib
import csv
import io
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from app.errors import OrderError
from app.style.model import Style
from geometry.said import said

Cells = Sequence[Any]

SIZE_HEADERS = {"size", "sizes", "sz", "taille", "pointure", "größe", "groesse", "grösse", "talla", "taglia"}
PAIR_HEADERS = {
    "pairs", "pair", "prs", "quantity", "qty", "count", "order", "ordered", "paires", "paare", "paar",
    "menge", "pares", "paia", "quantità", "quantite", "quantité", "cantidad",
}  # fmt: skip
TOTAL_WORDS = {"total", "totals", "sum", "summe", "gesamt", "somme", "suma", "totale"}
PASTED = "the cells pasted"
LAYOUT = "give a column of sizes and a column of pairs, headed size and pairs"
MOST_PAIRS = 1_000_000
"""Above this, a number (or the sum of an order) is a slip, an article number say, and not an order: a large
factory makes that many pairs of all its styles in a month or more (from memory)."""


def parse_pairs(text: str) -> dict[str, int]:
    """Return pairs by size of a text like ``36:2,37:4``; raises OrderError."""
    pairs: dict[str, int] = {}
    for part in text.replace(";", ",").split(","):
        size, colon, count = part.strip().partition(":")
        if not colon or not size.strip():
            raise OrderError(
                said("--pairs: {0} is not SIZE:PAIRS", part.strip() or "an empty entry"),
                remedy="write 36:2,37:4",
            )
        _add(pairs, _size(size), _count(count, "--pairs", "", size.strip()), "--pairs", "")
    return _some(pairs, "--pairs")


def read_order(path: str | Path) -> dict[str, int]:
    """Return pairs by size of a CSV file (comma, semicolon or tab) or an XLSX sheet.

    Columns are found by their headers; two columns without headers are sizes and pairs. A line
    called total must agree with the others. Raises OrderError with the line and the remedy.
    """
    file = str(path)
    suffix = Path(path).suffix.lower()
    if not Path(path).is_file():
        what = "is a folder" if Path(path).is_dir() else "there is no such file"
        raise OrderError(what, file=file, remedy="check the name of the order")
    return _order_of(_sheet(path) if suffix in (".xlsx", ".xlsm") else _lines(path), file)


def _order_of(rows: list[tuple[int, Cells]], file: str) -> dict[str, int]:
    rows = [(number, cells) for number, cells in rows if any(str(c).strip() for c in cells if c is not None)]
    if not rows:
        raise OrderError("the order is empty", file=file, remedy=LAYOUT)
    size_column, pair_column, headed = _columns(rows[0][1], file)
    pairs: dict[str, int] = {}
    for number, cells in rows[1:] if headed else rows:
        where = f"line {number}"
        size = _size(_cell(cells, size_column))
        count_text = _cell(cells, pair_column)
        if size.lower() in TOTAL_WORDS:
            stated = _count(count_text, where, file, size)
            if stated != sum(pairs.values()):
                raise OrderError(
                    said(
                        "{0}: the total says {1}, the sizes above add up to {2}",
                        where,
                        stated,
                        sum(pairs.values()),
                    ),
                    file=file,
                    remedy="correct one of them",
                )
            continue
        if not size:
            raise OrderError(
                said("{0}: there is no size", where), file=file, remedy="fill it in or remove the line"
            )
        _add(pairs, size, _count(count_text, where, file, size), where, file)
    return _some(pairs, file)


def order_of_text(text: str) -> dict[str, int]:
    """Return pairs by size of cells copied from a spreadsheet or a mail: two columns, or two rows.

    Raises OrderError with the line and the remedy.
    """
    rows = _rows_of(text, PASTED)
    if len(rows) == 2 and len(rows[0][1]) > 2:  # sizes above their pairs
        down = zip(rows[0][1], rows[1][1], strict=False)
        rows = [(number, cells) for number, cells in enumerate(down, start=1)]
    return _order_of(rows, PASTED)


def kept_order(style: Style, source: Path | None) -> dict[str, int]:
    """Return the order of a style: its own, else the one beside its file, else one pair of every size.

    ``source`` is the file the style came from. Sizes without pairs stand there with 0.
    """
    every = dict.fromkeys(style.size_run.sizes, 0)
    if style.order:
        return every | style.order
    if source is not None:
        with contextlib.suppress(OrderError):  # no order there, or one of another style
            return every | for_style(read_order(source.with_name("order.csv")), style)
    return dict.fromkeys(every, 1)


def with_order(style: Style, pairs: dict[str, int]) -> Style:
    """Return the style with an order kept in it; raises OrderError for a size it does not have."""
    order = dict.fromkeys(style.size_run.sizes, 0) | for_style(pairs, style)
    return style.model_copy(update={"order": order})


def read_orders(path: str | Path) -> dict[str, dict[str, int]]:
    """Return pairs by size for each style of a CSV file with the columns style, size and pairs.

    Raises OrderError with the line and the remedy.
    """
    rows = [(number, cells) for number, cells in _lines(path) if any(str(c).strip() for c in cells)]
    names = [str(cell).strip().lower() for cell in rows[0][1]] if rows else []
    if not {"style", "size", "pairs"} <= set(names):
        raise OrderError(
            "an order of several styles needs the columns style, size and pairs",
            file=str(path),
            remedy="name the columns style, size, pairs",
        )
    orders: dict[str, dict[str, int]] = {}
    for number, cells in rows[1:]:
        style, size, count = (_cell(cells, names.index(name)) for name in ("style", "size", "pairs"))
        where = f"line {number}"
        pairs = _count(count, where, str(path), _size(size))
        _add(orders.setdefault(str(style).strip(), {}), _size(size), pairs, where, str(path))
    return orders


def for_style(pairs: dict[str, int], style: Style, *, source: str = "") -> dict[str, int]:
    """Return the order in the style's own sizes and their order, sizes without pairs left out.

    Raises OrderError for a size that the style does not have.
    """
    known = style.size_run.sizes
    by_value = {_value(size): size for size in known}
    found: dict[str, int] = {}
    for size, count in pairs.items():
        name = size if size in known else by_value.get(_value(size), "")
        if not name:
            raise OrderError(
                said("size {0} is not a size of {1} ({2})", size, style.name, ", ".join(known)),
                file=source,
                remedy=said("correct the order, or add the size: stayply sizes STYLE add {0}", size),
            )
        found[name] = found.get(name, 0) + count
    return {size: found[size] for size in known if found.get(size)}


def _lines(path: str | Path) -> list[tuple[int, Cells]]:
    try:
        raw = Path(path).read_bytes()
    except OSError as error:
        raise OrderError(said("cannot be read ({0})", error.strerror), file=str(path)) from None
    if b"\0" in raw:
        raise OrderError("is not a text file", file=str(path), remedy="save the order as CSV or XLSX")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = raw.decode("cp1252", errors="replace")
    return _rows_of(text, str(path))


def _rows_of(text: str, file: str) -> list[tuple[int, Cells]]:
    first = next((line for line in text.splitlines() if line.strip()), "")
    separator = max(";\t,", key=first.count)  # on a tie the rarer one in numbers
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
    try:
        return [(reader.line_num, row) for row in reader]
    except csv.Error as error:
        raise OrderError(
            said("line {0} is damaged ({1})", reader.line_num, error),
            file=file,
            remedy="save the order again",
        ) from None


def _sheet(path: str | Path) -> list[tuple[int, Cells]]:
    import openpyxl  # slow to load, and most orders are CSV

    try:
        book = openpyxl.load_workbook(path, read_only=True, data_only=True)
        try:
            sheet = book.worksheets[0]
            return [(number, row) for number, row in enumerate(sheet.iter_rows(values_only=True), start=1)]
        finally:
            book.close()
    except Exception as error:  # openpyxl lets many kinds through on a damaged file
        raise OrderError(
            said("is not a readable spreadsheet ({0})", type(error).__name__),
            file=str(path),
            remedy="save it again as XLSX or CSV",
        ) from None


def _columns(first: Cells, file: str) -> tuple[int, int, bool]:
    """Return the columns of sizes and of pairs, and whether the first row is a header."""
    names = [str(cell).strip().lower() if cell is not None else "" for cell in first]
    sizes = [i for i, name in enumerate(names) if name.split(" ")[0] in SIZE_HEADERS]
    counts = [i for i, name in enumerate(names) if name.split(" ")[0] in PAIR_HEADERS]
    if len(sizes) == 1 and len(counts) == 1:
        return sizes[0], counts[0], True
    used = [i for i, name in enumerate(names) if name]
    if len(used) == 2 and not sizes and not counts and _is_number(names[used[1]]):
        return used[0], used[1], False
    raise OrderError(
        said("the columns of sizes and pairs cannot be recognised in {0}", ", ".join(n for n in names if n)),
        file=file,
        remedy=LAYOUT,
    )


def _cell(cells: Cells, column: int) -> Any:
    return cells[column] if column < len(cells) and cells[column] is not None else ""


def _size(cell: Any) -> str:
    """The name of a size: 37.0 of a spreadsheet is 37, a decimal comma or a half sign a point."""
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    text = str(cell).strip().replace("½", ".5").replace(" .5", ".5")
    head, comma, tail = text.partition(",")
    return f"{head}.{tail}" if comma and head.isdigit() and tail.isdigit() else text


def _count(cell: Any, where: str, file: str, size: str) -> int:
    text = str(cell).strip()
    try:
        count = float(text.replace(",", ".")) if not isinstance(cell, bool) else float("nan")
    except ValueError:
        count = float("nan")
    if not text or count != count or count != int(count if abs(count) < 1e18 else 0) or count < 0:
        raise OrderError(
            said(
                "{0}: the pairs of size {1} must be a whole number from 0, not {2}",
                where,
                size,
                text or "empty",
            ),
            file=file,
            remedy="correct it",
        )
    if count > MOST_PAIRS:
        raise OrderError(
            said("{0}: {1} pairs of size {2} cannot be right", where, text, size),
            file=file,
            remedy="correct it",
        )
    return int(count)


def _add(pairs: dict[str, int], size: str, count: int, where: str, file: str) -> None:
    if size in pairs:
        raise OrderError(
            said("{0}: size {1} appears twice", where, size),
            file=file,
            remedy="join the two entries into one",
        )
    pairs[size] = count


def _some(pairs: dict[str, int], source: str) -> dict[str, int]:
    if not any(pairs.values()):
        raise OrderError("no pairs are ordered", file=source, remedy=LAYOUT)
    if sum(pairs.values()) > MOST_PAIRS:
        raise OrderError(
            said(
                "{0} pairs in one order cannot be right (the maximum is {1})",
                f"{sum(pairs.values()):,}",
                f"{MOST_PAIRS:,}",
            ),
            file=source,
            remedy="correct it, or split the order",
        )
    return pairs


def _value(size: str) -> float | str:
    return float(size) if _is_number(size) else size.strip().lower()


def _is_number(text: str) -> bool:
    try:
        return float(text) == float(text)
    except ValueError:
        return False
