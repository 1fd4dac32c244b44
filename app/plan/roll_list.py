"""Rolls in stock, from a CSV file: ``roll, length_m, lot, flaws_m, cloth`` (flaws as ``9-9.5; 20-20.2``)."""

from __future__ import annotations

import csv
from pathlib import Path

from app.errors import OrderError
from geometry.said import said
from nesting.planning.roll_allocation import StockRoll


def rolls_of(rolls: tuple[StockRoll, ...], cloth_id: str, cloths: tuple[str, ...]) -> tuple[StockRoll, ...]:
    """Return the rolls of a cloth. Raises OrderError where a roll does not say which cloth it is of
    although there are several, or names none of them, and when the cloth has no roll."""
    for roll in rolls:
        if roll.cloth not in cloths and (roll.cloth or len(cloths) > 1):
            told = f"is of {roll.cloth}" if roll.cloth else "does not say of which cloth it is"
            raise OrderError(
                said("roll {0} {1}; the run takes {2}", roll.id, told, ", ".join(cloths)),
                remedy="fill the column cloth of the roll list",
            )
    found = tuple(roll for roll in rolls if roll.cloth in ("", cloth_id))
    if not found:
        raise OrderError(said("the roll list has no roll of {0}", cloth_id), remedy="enter its rolls too")
    return found


def read_rolls(path: Path) -> tuple[StockRoll, ...]:
    """Return the rolls of a file; raises OrderError with the line and the remedy."""
    try:
        text = path.read_text("utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        raise OrderError(
            said("cannot be read ({0})", error), file=str(path), remedy="save it as CSV"
        ) from None
    first = text.splitlines()[0] if text.strip() else ""
    reader = csv.DictReader(text.splitlines(), delimiter="\t" if "\t" in first else ",")
    if not {"roll", "length_m"} <= set(reader.fieldnames or ()):
        raise OrderError(
            "has no columns roll and length_m", file=str(path), remedy="name the columns roll, length_m"
        )
    rolls: list[StockRoll] = []
    for row in reader:
        where = f"line {reader.line_num}"
        try:
            flaws = tuple(_flaw(part) for part in (row.get("flaws_m") or "").split(";") if part.strip())
            roll = StockRoll(
                row["roll"].strip(),
                float(row["length_m"]),
                (row.get("lot") or "").strip(),
                flaws,
                (row.get("cloth") or "").strip(),
            )
        except (ValueError, AttributeError, TypeError):
            raise OrderError(
                said(
                    "{0}: length_m must be a number and flaws_m like 9-9.5, semicolons between them",
                    where,
                ),
                file=str(path),
                remedy="correct it",
            ) from None
        if not roll.id or not 0.0 < roll.length_m < 10_000.0 or any(roll.id == known.id for known in rolls):
            raise OrderError(
                said("{0}: a roll needs a name of its own and a length above zero", where),
                file=str(path),
                remedy="correct it",
            )
        rolls.append(roll)
    return tuple(rolls)


def _flaw(text: str) -> tuple[float, float]:
    start, _, end = text.strip().partition("-")
    return float(start), float(end)
