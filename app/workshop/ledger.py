"""What runs were planned to take and what they actually took: the history behind an estimate.

Money and metres are kept as decimal text, never as binary floats.
"""

from __future__ import annotations

import json
import os
import sqlite3
from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path
from statistics import mean, stdev

import platformdirs

from app.errors import OrderError
from app.workshop.database import Database
from app.workshop.run_sums import RunSums, sums_of
from geometry.said import said

_SCHEMA = """
CREATE TABLE IF NOT EXISTS run (
    id INTEGER PRIMARY KEY, made_at TEXT NOT NULL, name TEXT NOT NULL, style TEXT NOT NULL,
    cloth TEXT NOT NULL, usable_width_mm TEXT NOT NULL, mode TEXT NOT NULL, pairs INTEGER NOT NULL,
    net_m2_per_pair TEXT NOT NULL, cost TEXT NOT NULL, currency TEXT NOT NULL);
CREATE TABLE IF NOT EXISTS lay (
    run_id INTEGER NOT NULL REFERENCES run(id), name TEXT NOT NULL, sets TEXT NOT NULL,
    plies INTEGER NOT NULL, pairs INTEGER NOT NULL, planned_m TEXT NOT NULL,
    PRIMARY KEY (run_id, name));
CREATE TABLE IF NOT EXISTS used (
    id INTEGER PRIMARY KEY, run_id INTEGER NOT NULL, lay TEXT NOT NULL, at TEXT NOT NULL,
    metres TEXT NOT NULL, note TEXT NOT NULL,
    FOREIGN KEY (run_id, lay) REFERENCES lay(run_id, name));
CREATE TABLE IF NOT EXISTS quick (
    run_id INTEGER PRIMARY KEY REFERENCES run(id), quick_m2_per_pair TEXT NOT NULL,
    nested_m2_per_pair TEXT NOT NULL);
CREATE INDEX IF NOT EXISTS used_lay ON used (run_id, lay, id);
CREATE INDEX IF NOT EXISTS run_cloth ON run (cloth, style);
"""
VERSION = 3
"""2 added ``quick``: runs entered before have no quick estimate. 3 added the two indexes: without them
10,000 runs took 23 s to read."""


@dataclass(frozen=True)
class LedgerLay:
    """A lay as planned: ``metres`` of cloth for all its plies, end loss included."""

    name: str
    sets: dict[str, int]
    plies: int
    pairs: int
    metres: Decimal


@dataclass(frozen=True)
class LedgerRun:
    """A run as planned. ``quick_m2_per_pair`` is what the quick estimate gave before any lay was
    nested, ``nested_m2_per_pair`` what the nested lays take, both without ends of plies."""

    name: str
    style: str
    cloth: str
    usable_width_mm: Decimal
    mode: str
    pairs: int
    net_m2_per_pair: Decimal
    cost: Decimal
    currency: str
    lays: tuple[LedgerLay, ...]
    quick_m2_per_pair: Decimal | None = None
    nested_m2_per_pair: Decimal | None = None


@dataclass(frozen=True)
class LayRecord:
    """A lay with what was used for it; ``used_m`` is None until it was entered."""

    run: int
    lay: str
    plies: int
    pairs: int
    planned_m: Decimal
    used_m: Decimal | None
    note: str = ""

    @property
    def variance_m(self) -> Decimal | None:
        """Used less planned."""
        return None if self.used_m is None else self.used_m - self.planned_m


@dataclass(frozen=True)
class RunRecord:
    """A run in the history."""

    id: int
    made_at: str
    name: str
    style: str
    cloth: str
    usable_width_mm: Decimal
    pairs: int
    net_m2_per_pair: Decimal
    cost: Decimal
    currency: str
    lays: tuple[LayRecord, ...]
    quick_m2_per_pair: Decimal | None = None
    nested_m2_per_pair: Decimal | None = None

    @property
    def used_m2_per_pair(self) -> Decimal | None:
        """Cloth used for a pair, on the usable width, ends of plies in it; None while not all is cut."""
        return None if self.used_m is None else self.used_m * self.usable_width_mm / 1000 / self.pairs

    @property
    def planned_m(self) -> Decimal:
        """Metres planned."""
        return sum((lay.planned_m for lay in self.lays), Decimal(0))

    @property
    def used_m(self) -> Decimal | None:
        """Metres used, None while a lay is missing."""
        used = [lay.used_m for lay in self.lays if lay.used_m is not None]
        return sum(used, Decimal(0)) if len(used) == len(self.lays) else None

    @property
    def sums(self) -> RunSums:
        """The run in numbers, for the ratios."""
        quick, nested = self.quick_m2_per_pair, self.nested_m2_per_pair
        return RunSums(
            self.id,
            self.pairs,
            float(self.usable_width_mm),
            float(self.net_m2_per_pair),
            None if quick is None else float(quick),
            None if nested is None else float(nested),
            len(self.lays),
            float(self.planned_m),
            None if self.used_m is None else float(self.used_m),
        )


@dataclass(frozen=True)
class Estimate:
    """Cloth per pair of a style not yet laid; low and high are one standard deviation away."""

    m2_per_pair: float
    low_m2: float
    high_m2: float
    runs: int
    from_runs: tuple[int, ...]


@dataclass(frozen=True)
class Proven:
    """How accurate the quick estimate was: mean of what was used (``cut``: runs all cut; else of what
    was nested) over it, and one standard deviation to each side (with one run: none)."""

    factor: float
    low: float
    high: float
    runs: int
    cut: bool


class Ledger:
    """The history, in one file."""

    def __init__(self, path: Path) -> None:
        self._db = Database(path, _SCHEMA, VERSION)

    def plan(self, run: LedgerRun) -> int:
        """Enter a run as planned; returns its number.

        The same plan entered again before anything of it was cut is the same run: a plan that was
        killed after it was entered may be made once more.
        """
        with self._db.write() as db:
            known = self._same(db, run)
            if known is not None:
                return known
            number = db.execute(
                "INSERT INTO run (made_at, name, style, cloth, usable_width_mm, mode, pairs,"
                " net_m2_per_pair, cost, currency) VALUES (?,?,?,?,?,?,?,?,?,?)",
                (
                    datetime.now(UTC).isoformat(timespec="seconds"),
                    run.name,
                    run.style,
                    run.cloth,
                    str(run.usable_width_mm),
                    run.mode,
                    run.pairs,
                    str(run.net_m2_per_pair),
                    str(run.cost),
                    run.currency,
                ),
            ).lastrowid
            assert number is not None
            if run.quick_m2_per_pair is not None and run.nested_m2_per_pair is not None:
                db.execute(
                    "INSERT INTO quick (run_id, quick_m2_per_pair, nested_m2_per_pair) VALUES (?,?,?)",
                    (number, str(run.quick_m2_per_pair), str(run.nested_m2_per_pair)),
                )
            db.executemany(
                "INSERT INTO lay (run_id, name, sets, plies, pairs, planned_m) VALUES (?,?,?,?,?,?)",
                [
                    (number, lay.name, json.dumps(lay.sets), lay.plies, lay.pairs, str(lay.metres))
                    for lay in run.lays
                ],
            )
        return number

    @staticmethod
    def _same(db: sqlite3.Connection, run: LedgerRun) -> int | None:
        row = db.execute(
            "SELECT id FROM run WHERE name=? AND style=? AND cloth=? AND usable_width_mm=? AND mode=?"
            " AND pairs=? AND cost=? AND (SELECT quick_m2_per_pair FROM quick WHERE run_id=id) IS ?"
            " AND id NOT IN (SELECT run_id FROM used) ORDER BY id DESC LIMIT 1",
            (
                run.name,
                run.style,
                run.cloth,
                str(run.usable_width_mm),
                run.mode,
                run.pairs,
                str(run.cost),
                None if run.quick_m2_per_pair is None else str(run.quick_m2_per_pair),
            ),
        ).fetchone()
        if row is None:
            return None
        lays = db.execute("SELECT name, sets, plies, planned_m FROM lay WHERE run_id=?", (row["id"],))
        known = {lay["name"]: (json.loads(lay["sets"]), lay["plies"], lay["planned_m"]) for lay in lays}
        asked = {lay.name: (lay.sets, lay.plies, str(lay.metres)) for lay in run.lays}
        return int(row["id"]) if known == asked else None

    def used(self, run: int, lay: str, metres: Decimal, note: str = "") -> LayRecord:
        """Enter what a lay actually took. Entered again, the last entry counts; none is lost.

        Raises OrderError for a run or lay that was never planned, or metres below zero.
        """
        if metres < 0:
            raise OrderError(
                said("{0} m cannot have been used", metres), remedy="enter metres of zero or more"
            )
        with self._db.write() as db:
            if not db.execute("SELECT 1 FROM lay WHERE run_id=? AND name=?", (run, lay)).fetchone():
                known = [row["name"] for row in db.execute("SELECT name FROM lay WHERE run_id=?", (run,))]
                hint = f"its lays are {', '.join(known)}" if known else "see 'history' for the runs there are"
                raise OrderError(said("run {0} has no lay {1}", run, lay), remedy=hint)
            db.execute(
                "INSERT INTO used (run_id, lay, at, metres, note) VALUES (?,?,?,?,?)",
                (run, lay, datetime.now(UTC).isoformat(timespec="seconds"), str(metres), note),
            )
        return next(record for record in self.run(run).lays if record.lay == lay)

    def run(self, number: int) -> RunRecord:
        """Return one run; raises OrderError when there is none of that number."""
        with self._db.read() as db:
            records = _records(db, "run.id=?", (number,))
        if records:
            return records[0]
        raise OrderError(said("there is no run {0}", number), remedy="see 'history' for the runs there are")

    def history(self, style: str = "", cloth: str = "", *, most: int | None = None) -> tuple[RunRecord, ...]:
        """Return the runs of a style and cloth ('' = all), oldest first; of these the ``most`` last."""
        where, values = "(?='' OR style=?) AND (?='' OR cloth=?)", (style, style, cloth, cloth)
        with self._db.read() as db:
            if most is None:
                return _records(db, where, values)
            last = f"run.id IN (SELECT id FROM run WHERE {where} ORDER BY id DESC LIMIT ?)"
            return _records(db, last, (*values, most))

    def estimate(self, net_m2_per_pair: float, *, cloth: str = "", most: int = 8) -> Estimate:
        """Estimate the cloth of a style not yet laid from the runs of the most similar net area.

        The gross-to-net ratio of the ``most`` nearest runs is averaged; its spread gives low and
        high (with a single run: the run's own figure, without a spread to speak of). Raises
        OrderError when there is no run to learn from.
        """
        with self._db.read() as db:
            runs = [run for run in sums_of(db, cloth) if run.pairs and run.net_m2_per_pair > 0 and run.lays]
        if not runs:
            raise OrderError(
                "there is no run to estimate from yet",
                remedy="plan a run, or use 'cost STYLE --quick', which needs none",
            )
        runs.sort(key=lambda run: abs(run.net_m2_per_pair - net_m2_per_pair))
        near = runs[:most]
        ratios = [run.gross_per_net for run in near]
        middle = mean(ratios)
        spread = stdev(ratios) if len(ratios) > 1 else 0.0
        return Estimate(
            net_m2_per_pair * middle,
            net_m2_per_pair * (middle - spread),
            net_m2_per_pair * (middle + spread),
            len(near),
            tuple(run.id for run in near),
        )

    def proven(self, cloth: str = "") -> Proven | None:
        """Return how good the quick estimate proved over the runs of a cloth ('' = all); None without runs.

        Runs all cut speak first: what was used counts ends of plies and whatever went wrong.
        """
        with self._db.read() as db:
            runs = sums_of(db, cloth)
        cut = [run.used_over_quick for run in runs if run.used_over_quick is not None]
        ratios = cut or [run.nested_over_quick for run in runs if run.nested_over_quick is not None]
        if not ratios:
            return None
        middle, spread = mean(ratios), stdev(ratios) if len(ratios) > 1 else 0.0
        return Proven(middle, middle - spread, middle + spread, len(ratios), bool(cut))


def _records(db: sqlite3.Connection, where: str, values: tuple[object, ...]) -> tuple[RunRecord, ...]:
    """Return the runs that a condition on their table picks, oldest first, with their lays."""
    lays: dict[int, list[LayRecord]] = {}
    rows = db.execute(
        "SELECT lay.run_id, lay.name, plies, lay.pairs, planned_m, metres, note FROM lay"
        " JOIN run ON run.id = lay.run_id LEFT JOIN used ON used.id ="
        " (SELECT MAX(id) FROM used WHERE used.run_id = lay.run_id AND used.lay = lay.name)"
        f" WHERE {where} ORDER BY lay.run_id, lay.rowid",
        values,
    )
    for number, name, plies, pairs, planned_m, metres, note in rows:
        lays.setdefault(number, []).append(
            LayRecord(number, name, plies, pairs, Decimal(planned_m), _decimal(metres), note or "")
        )
    return tuple(
        RunRecord(
            row["id"],
            row["made_at"],
            row["name"],
            row["style"],
            row["cloth"],
            Decimal(row["usable_width_mm"]),
            row["pairs"],
            Decimal(row["net_m2_per_pair"]),
            Decimal(row["cost"]),
            row["currency"],
            tuple(lays.get(row["id"], ())),
            _decimal(row["quick_m2_per_pair"]),
            _decimal(row["nested_m2_per_pair"]),
        )
        for row in db.execute(
            "SELECT run.*, quick_m2_per_pair, nested_m2_per_pair FROM run"
            f" LEFT JOIN quick ON quick.run_id = run.id WHERE {where} ORDER BY run.id",
            values,
        )
    )


def _decimal(text: str | None) -> Decimal | None:
    return None if text is None else Decimal(text)


def ledger_path() -> Path:
    """Where the history lies; the variable STAYPLY_DATA_DIR moves it."""
    folder = os.environ.get("STAYPLY_DATA_DIR") or platformdirs.user_data_dir("stayply", appauthor=False)
    return Path(folder) / "ledger.sqlite"
