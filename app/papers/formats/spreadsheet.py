"""Tables for the costing clerk: one CSV with a block per table, or one XLSX with a sheet per table."""

from __future__ import annotations

import csv
import io
import re
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from pathlib import Path

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter

from app.papers.formats.paper_file import write_paper, write_text
from app.words import told

Cell = str | int | float | Decimal | None

_NEVER = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f]")
"""Control characters that a workbook may not hold."""

MADE = datetime(2000, 1, 1)
"""When every workbook says that it was made: the same tables give the same bytes."""

_SAVED_AT = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*<")

_FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""A text that starts like this would be run as a formula when a spreadsheet opens the CSV."""


@dataclass(frozen=True)
class TableSheet:
    """A named table: heads, then rows; numbers stay numbers."""

    name: str
    heads: Sequence[str]
    rows: Sequence[Sequence[Cell]]


def write_csv(sheets: Sequence[TableSheet], path: Path) -> Path:
    """Write all tables to one UTF-8 CSV: the table's name in the first column of every row."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    for sheet in sheets:
        writer.writerow([told("table"), *map(told, sheet.heads)])
        for row in sheet.rows:
            writer.writerow([told(sheet.name), *(_safe(_told(cell)) for cell in row)])
    return write_text(path, "\ufeff" + out.getvalue())


def write_xlsx(sheets: Sequence[TableSheet], path: Path) -> Path:
    """Write a workbook, a sheet per table, heads frozen, columns as wide as their words."""
    book = Workbook()
    book.remove(book.active)
    book.properties.creator = "stayply"
    book.properties.created = MADE
    for sheet in sheets:
        page = book.create_sheet(told(sheet.name))
        heads = [told(head) for head in sheet.heads]
        rows = [[_told(cell) for cell in row] for row in sheet.rows]
        for column, head in enumerate(heads, 1):
            cell = page.cell(1, column, head)
            cell.font = Font(bold=True)
        for number, row in enumerate(rows, 2):
            for column, value in enumerate(row, 1):
                cell = page.cell(number, column)
                if isinstance(value, str):
                    cell.value = _NEVER.sub("", value)
                    cell.data_type = "s"  # never a formula
                    cell.alignment = Alignment(vertical="top", wrap_text=len(value) > 60)
                else:
                    cell.value = value
        for column, head in enumerate(heads, 1):
            longest = max([len(head), *(len(str(row[column - 1])) for row in rows)])
            page.column_dimensions[get_column_letter(column)].width = min(70, longest + 2)
        page.freeze_panes = "A2"
    return write_paper(path, lambda draft: _save(book, draft))


def _save(book: Workbook, path: Path) -> None:
    """Save a workbook with no clock time in it: the library writes when it saves, in each of its parts."""
    kept = io.BytesIO()
    book.save(kept)
    with zipfile.ZipFile(kept) as parts, zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as out:
        for part in parts.infolist():
            content = parts.read(part)
            if part.filename == "docProps/core.xml":
                content = _SAVED_AT.sub(MADE.strftime(r"\g<1>%Y-%m-%dT%H:%M:%SZ<").encode(), content)
            out.writestr(zipfile.ZipInfo(part.filename, MADE.timetuple()[:6]), content, zipfile.ZIP_DEFLATED)


def _told(cell: Cell) -> Cell:
    return told(cell) if isinstance(cell, str) else cell


def _safe(cell: Cell) -> Cell:
    if isinstance(cell, str) and cell.startswith(_FORMULA):
        return "'" + cell
    return "" if cell is None else cell
