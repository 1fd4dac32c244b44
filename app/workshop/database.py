"""The workshop's small databases: one file each, safe with several users and when a process is killed.

SQLite with a write-ahead log on a local disk: a reader never waits for a writer, writers wait for each
other, and what was committed survives kill -9 (SQLite's own guarantee with ``synchronous = FULL``). The
log needs memory that all processes share, which a network file system cannot give ("WAL does not work over
a network filesystem", sqlite.org/wal.html): there, and where the database itself declines, the rollback
journal is kept, under which readers and writers wait for each other.
"""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from app.errors import DatabaseError
from geometry.said import said
from nesting.system.drives import is_network

WAIT_S = 20.0
"""How long one user waits for another to finish writing; a write here takes milliseconds."""


class Database:
    """A database file with a schema; made on first use.

    ``script`` creates the tables of version ``version`` where they are missing: a version adds
    tables and takes none away, so an older file gains what is new. Raises DatabaseError when the file is
    damaged, newer than the program, or cannot be written.
    """

    def __init__(self, path: Path, script: str, version: int) -> None:
        self.path = path
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            with self._connection() as db:
                found = db.execute("PRAGMA user_version").fetchone()[0]
                if found > version:
                    raise DatabaseError(
                        said(
                            "was written by a newer program (version {0}, this one knows {1})", found, version
                        ),
                        remedy="update the program",
                        file=str(path),
                    )
                _keep_journal(db, "DELETE" if is_network(path) else "WAL")
                if found < version:
                    db.executescript(f"BEGIN IMMEDIATE; {script}; PRAGMA user_version = {version}; COMMIT;")
        except (sqlite3.Error, OSError) as error:
            raise self._failed(error) from error

    @contextmanager
    def write(self) -> Iterator[sqlite3.Connection]:
        """Give a connection inside one transaction: all of it is kept, or nothing."""
        try:
            with self._connection() as db:
                db.execute("BEGIN IMMEDIATE")
                try:
                    yield db
                except BaseException:
                    db.execute("ROLLBACK")
                    raise
                db.execute("COMMIT")
        except sqlite3.Error as error:
            raise self._failed(error) from error

    @contextmanager
    def read(self) -> Iterator[sqlite3.Connection]:
        """Give a connection for reading."""
        try:
            with self._connection() as db:
                yield db
        except sqlite3.Error as error:
            raise self._failed(error) from error

    @contextmanager
    def _connection(self) -> Iterator[sqlite3.Connection]:
        db = sqlite3.connect(self.path, timeout=WAIT_S, isolation_level=None)
        try:
            db.row_factory = sqlite3.Row
            db.execute("PRAGMA foreign_keys = ON")
            db.execute("PRAGMA synchronous = FULL")
            yield db
        finally:
            db.close()

    def _failed(self, error: Exception) -> DatabaseError:
        if isinstance(error, sqlite3.Error) and _is_busy(error):
            remedy = "another program holds it: close that, and try again"
        else:
            remedy = "check the disk and the rights to it, bring back the last copy, or name another folder "
            remedy += "in STAYPLY_DATA_DIR"
        return DatabaseError(said("cannot be used ({0})", error), remedy=remedy, file=str(self.path))


def _is_busy(error: sqlite3.Error) -> bool:
    """Whether somebody else holds the file, by SQLite's primary result code: the low byte of the extended."""
    code = getattr(error, "sqlite_errorcode", None)
    return code is not None and code & 0xFF in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


def _keep_journal(db: sqlite3.Connection, wanted: str) -> None:
    """Go to a journal mode; SQLite does not wait for others at this, so desks that start at once ask again.

    The answer tells which journal is kept. A file system that declines the log answers with the rollback
    journal, which is as safe and lets readers wait: that is not an error.
    """
    if db.execute("PRAGMA journal_mode").fetchone()[0].upper() == wanted:
        return
    give_up = time.monotonic() + WAIT_S
    while True:
        try:
            kept = db.execute(f"PRAGMA journal_mode = {wanted}").fetchone()[0].upper()
        except sqlite3.OperationalError as error:
            if not _is_busy(error) or time.monotonic() > give_up:
                raise
        else:
            if kept == wanted or wanted == "WAL":
                return
            if time.monotonic() > give_up:
                raise sqlite3.OperationalError(
                    said("its journal mode stays {0}, although it lies on a network drive", kept.lower())
                )
        time.sleep(0.02)
