"""The lays a workshop has found, kept on disk: the same style is laid all season.

Never needed for a right answer: what is read is judged again before use, and a store that is damaged is set
aside. Bounded: the lays used longest ago go first.
"""

from __future__ import annotations

import json
import time
import zlib
from collections.abc import Iterable
from datetime import date
from pathlib import Path

from app.errors import DatabaseError
from app.workshop.database import Database
from app.workshop.folder import data_path
from geometry.said import said
from nesting.known import KnownLay, exact_key, family_key, from_data, record_of, to_data
from nesting.known.folder import VERSION as FOLDER_VERSION
from nesting.known.pool import SHORTER_MM
from nesting.known.record import VERSION
from nesting.lay import Lay
from nesting.problem import LayProblem

MOST_LAYS = 3000
"""Lays kept; a workshop's season is some hundreds (styles x widths x orders). About 30 MB."""

SCRIPT = """
CREATE TABLE IF NOT EXISTS lays (
  key TEXT PRIMARY KEY, family TEXT NOT NULL, gap_mm REAL NOT NULL, width_mm REAL NOT NULL,
  length_mm REAL NOT NULL, searches INTEGER NOT NULL, found TEXT NOT NULL, used REAL NOT NULL,
  record BLOB NOT NULL
);
CREATE INDEX IF NOT EXISTS lays_family ON lays (family, gap_mm, width_mm);
CREATE INDEX IF NOT EXISTS lays_used ON lays (used)
"""


class KeptLays:
    """Kept lays in one file, safe for several processes. Raises DatabaseError when it cannot be used."""

    def __init__(self, path: Path | None = None) -> None:
        self.path = path or data_path(f"lays-{VERSION}.db")
        self.found_in = self.path.with_name(f"lattices-{FOLDER_VERSION}")  # sections lie there too
        self._db = Database(self.path, SCRIPT, 1)

    def candidates(self, problem: LayProblem) -> Iterable[KnownLay]:
        """Return kept lays of the problem's family that its gap and width allow."""
        with self._db.read() as db:
            rows = db.execute(
                "SELECT * FROM lays WHERE family = ? AND gap_mm >= ? AND width_mm <= ?",
                (family_key(problem), problem.gap_mm - 1e-9, problem.roll.usable_width_mm + 1e-9),
            ).fetchall()
        for row in rows:
            known = _read(row["record"], row["searches"], row["found"])
            if known is not None:
                yield known

    def searches(self, problem: LayProblem) -> int:
        """Return how often this very problem was searched before."""
        with self._db.read() as db:
            row = db.execute("SELECT searches FROM lays WHERE key = ?", (exact_key(problem),)).fetchone()
        return 0 if row is None else int(row["searches"])

    def keep(self, problem: LayProblem, lay: Lay) -> None:
        """Keep a verified lay, unless a better one of the same problem is there; counts the search."""
        key = exact_key(problem)
        record = _written(record_of(problem, lay))
        with self._db.write() as db:
            row = db.execute("SELECT length_mm FROM lays WHERE key = ?", (key,)).fetchone()
            if row is not None and row["length_mm"] <= lay.length_mm + SHORTER_MM:
                db.execute(
                    "UPDATE lays SET searches = searches + 1, used = ? WHERE key = ?", (time.time(), key)
                )
                return
            db.execute(
                "INSERT INTO lays VALUES (?, ?, ?, ?, ?, 1, ?, ?, ?) ON CONFLICT (key) DO UPDATE SET "
                "length_mm = excluded.length_mm, searches = searches + 1, found = excluded.found, "
                "used = excluded.used, record = excluded.record",
                (
                    key,
                    family_key(problem),
                    problem.gap_mm,
                    problem.roll.usable_width_mm,
                    lay.length_mm,
                    f"{date.today():%Y-%m-%d}",
                    time.time(),
                    record,
                ),
            )
            db.execute(
                "DELETE FROM lays WHERE key NOT IN (SELECT key FROM lays ORDER BY used DESC LIMIT ?)",
                (MOST_LAYS,),
            )


def open_kept(tell: object = None, path: Path | None = None) -> KeptLays | None:
    """Return the workshop's store; a damaged one is set aside, and None comes back where none can be had.

    ``tell`` is called with a line for the person when something was set aside.
    """
    say = tell if callable(tell) else (lambda text: None)
    try:
        return KeptLays(path)
    except DatabaseError as error:
        if "another program holds it" in error.remedy:
            return None
        damaged = Path(error.file)
    try:
        aside = damaged.with_name(f"{damaged.name}.damaged-{time.strftime('%Y%m%d-%H%M%S')}")
        there = damaged.exists()
        for end in ("", "-wal", "-shm"):
            part = damaged.with_name(damaged.name + end)
            if part.exists():
                part.replace(aside.with_name(aside.name + end))
        if there:
            say(
                said(
                    "{0}: kept lays could not be read and were set aside as {1}; nothing else is lost",
                    damaged,
                    aside.name,
                )
            )
        return KeptLays(path)
    except (DatabaseError, OSError):
        say(said("{0}: lays cannot be kept there; the work goes on without it", damaged))
        return None


def _written(known: KnownLay) -> bytes:
    return zlib.compress(json.dumps(to_data(known)).encode())


def _read(record: bytes, searches: int, found: str) -> KnownLay | None:
    """A record that cannot be read is as good as none: it is never needed."""
    try:
        data = json.loads(zlib.decompress(record))
    except (ValueError, TypeError, zlib.error):
        return None
    return from_data(data, searches=searches, name=said("kept lay of {0}", found))
