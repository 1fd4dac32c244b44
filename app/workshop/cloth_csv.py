"""Cloth cards and strip readings as CSV, for exchange with a spreadsheet.

One row per card (nested fields as ``press_...`` and ``sheet_...`` columns); one row per reading, the
readings of one strip sharing its number. Comma, semicolon or tab; decimal comma is understood.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from app.atomic import write_whole
from app.errors import AppError
from app.style.model import ClothData, StretchReading
from geometry.said import said

PLAIN = (
    "id", "name", "fibre", "weave", "mass_g_per_m2", "thickness_mm", "glue", "coated_side", "width_mm",
    "usable_width_mm", "roll_length_m", "tight_direction_deg", "how_known", "one_way", "price_per_m",
    "currency", "lot", "note",
)  # fmt: skip
NESTED = {
    "press": ("temperature_c", "seconds", "pressure_mpa", "source"),
    "sheet": ("e1_n_per_mm", "e2_n_per_mm", "g12_n_per_mm", "nu12", "source"),
}
READING = ("strip", "angle_deg", "width_mm", "gauge_mm", "load_n", "extension_mm", "narrowing_mm", "note")
_TEXTS = {
    "id",
    "name",
    "fibre",
    "weave",
    "glue",
    "coated_side",
    "how_known",
    "currency",
    "lot",
    "note",
    "source",
}


class CsvError(AppError):
    """A table that cannot be read: file, line and remedy."""


def cards_csv(cloths: Iterable[ClothData]) -> str:
    """Return cards as CSV."""
    columns = [*PLAIN, *(f"{part}_{field}" for part, fields in NESTED.items() for field in fields)]
    rows = []
    for cloth in cloths:
        row = {name: getattr(cloth, name) for name in PLAIN}
        for part, fields in NESTED.items():
            value = getattr(cloth, part)
            row |= {f"{part}_{field}": None if value is None else getattr(value, field) for field in fields}
        if cloth.sheet is not None:
            row["sheet_source"] = cloth.sheet.origin  # read back as data: app.style.saved.constants
        rows.append({k: "" if v is None else str(v) for k, v in row.items()})
    return _text(columns, rows)


def read_cards(path: Path) -> tuple[ClothData, ...]:
    """Return the cards of a table; raises CsvError with the line and the remedy."""
    cards = []
    for line, row in _rows(path):
        data: dict[str, Any] = {k: _value(k, v) for k, v in row.items() if k in PLAIN and v != ""}
        for part, fields in NESTED.items():
            nested = {f: _value(f, row[f"{part}_{f}"]) for f in fields if row.get(f"{part}_{f}", "") != ""}
            if nested and not (part == "sheet" and set(nested) == {"source"}):
                data[part] = nested
        data.setdefault("usable_width_mm", data.get("width_mm"))
        data.setdefault("name", data.get("id"))
        try:
            card = ClothData.model_validate(data)
            if card.usable_width_mm > card.width_mm:
                raise CsvError(
                    said(
                        "line {0}: {1}: usable {2} of {3} mm",
                        line,
                        card.id,
                        f"{card.usable_width_mm:g}",
                        f"{card.width_mm:g}",
                    ),
                    remedy="usable_width_mm is the width without the selvedges",
                    file=str(path),
                )
            cards.append(card)
        except ValidationError as error:
            first = error.errors(include_url=False)[0]
            column = "_".join(str(step) for step in first["loc"])
            raise CsvError(
                said("line {0}: {1}: {2}", line, column, first["msg"].lower()),
                remedy="correct the table",
                file=str(path),
            ) from None
    if not cards:
        raise CsvError(
            "has no cards", remedy="one row a cloth under the headers id, name, width_mm, ...", file=str(path)
        )
    return tuple(cards)


def readings_csv(readings: Iterable[StretchReading]) -> str:
    """Return strip readings as CSV."""
    rows = []
    for number, strip in enumerate(readings, 1):
        narrowings = strip.narrowings_mm or ("",) * len(strip.loads_n)
        for load, extension, narrowing in zip(strip.loads_n, strip.extensions_mm, narrowings, strict=True):
            shape = (number, strip.angle_deg, strip.width_mm, strip.gauge_mm)
            values = (*shape, load, extension, narrowing, strip.note)
            rows.append(dict(zip(READING, map(str, values), strict=True)))
    return _text(list(READING), rows)


FORM_ANGLES_DEG = (0, 30, 60, 90, 120, 150)
"""Strips that a form asks for: every 30 degrees, as docs/hold.md says."""


def readings_form() -> str:
    """Return the table of strip readings to be filled in by who has none yet."""
    rows = [{"strip": str(n), "angle_deg": str(angle)} for n, angle in enumerate(FORM_ANGLES_DEG, 1)]
    return _text(list(READING), rows)


def read_readings(path: Path) -> tuple[StretchReading, ...]:
    """Return the strips of a table; raises CsvError with the line and the remedy.

    Rows with the same strip number are readings of one strip; without numbers each row is a strip. A row of
    the form with nothing but its number and angle is a strip that was not pulled.
    """
    strips: dict[str, list[tuple[int, Mapping[str, str]]]] = {}
    for line, row in _rows(path):
        if not any(text for column, text in row.items() if column not in ("strip", "angle_deg")):
            continue
        strips.setdefault(row.get("strip") or f"line {line}", []).append((line, row))
    found = []
    for rows in strips.values():
        line, first = rows[0]
        missing = [
            c for c in ("angle_deg", "width_mm", "gauge_mm", "load_n", "extension_mm") if not first.get(c)
        ]
        if missing:
            raise CsvError(
                said("line {0}: {1} is missing", line, missing[0]),
                remedy=said("columns are {0}", ", ".join(READING)),
                file=str(path),
            )
        try:
            narrow = [_value("narrowing_mm", r["narrowing_mm"]) for _, r in rows if r.get("narrowing_mm")]
            found.append(
                StretchReading(
                    angle_deg=_value("angle_deg", first["angle_deg"]),
                    width_mm=_value("width_mm", first["width_mm"]),
                    gauge_mm=_value("gauge_mm", first["gauge_mm"]),
                    loads_n=tuple(_value("load_n", r.get("load_n", "")) for _, r in rows),
                    extensions_mm=tuple(_value("extension_mm", r.get("extension_mm", "")) for _, r in rows),
                    narrowings_mm=tuple(narrow),
                    note=first.get("note", ""),
                )
            )
        except ValidationError as error:
            bad = error.errors(include_url=False)[0]
            raise CsvError(
                said("line {0}: {1}: {2}", line, bad["loc"][0], bad["msg"].lower()),
                remedy="correct the table",
                file=str(path),
            ) from None
    if not found:
        raise CsvError("has no readings", remedy=said("columns are {0}", ", ".join(READING)), file=str(path))
    return tuple(found)


def write_table(path: Path, text: str) -> None:
    """Write a table, whole or not at all; raises CsvError."""
    try:
        write_whole(path, text.encode("utf-8"))
    except OSError as error:
        raise CsvError(
            said("cannot be written ({0})", error.strerror), remedy="choose another place", file=str(path)
        ) from None


def _text(columns: list[str], rows: Iterable[Mapping[str, str]]) -> str:
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()


def _rows(path: Path) -> list[tuple[int, dict[str, str]]]:
    try:
        raw = path.read_bytes()
    except OSError as error:
        raise CsvError(
            said("cannot be read ({0})", error.strerror), remedy="check the name", file=str(path)
        ) from None
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = raw.decode("cp1252", errors="replace")
    if "\0" in text:
        raise CsvError("is not a table", remedy="save it as CSV", file=str(path))
    head = text.lstrip().partition("\n")[0]
    reader = csv.DictReader(io.StringIO(text), delimiter=max(",;\t", key=head.count))
    rows = []
    for row in reader:
        if None in row:
            raise CsvError(
                said("line {0}: more cells than headers", reader.line_num),
                remedy="quote texts that hold the separator",
                file=str(path),
            )
        cells = {str(k).strip(): (v or "").strip() for k, v in row.items()}
        if any(cells.values()):
            rows.append((reader.line_num, cells))
    return rows


def _value(column: str, text: str) -> Any:
    if column in _TEXTS:
        return text
    if column == "one_way":
        return text.lower() in ("1", "true", "yes")
    return text.replace(",", ".") if text.count(",") == 1 and "." not in text else text
