"""The workshop's databases keep the journal that their drive allows."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from app.errors import DatabaseError
from app.workshop import database
from app.workshop.database import Database
from nesting.system.drives import kind_at, mounts_of_linux, mounts_of_mac

SCRIPT = "CREATE TABLE IF NOT EXISTS words (word TEXT)"


def _journal(path: Path) -> str:
    db = sqlite3.connect(path)
    try:
        return str(db.execute("PRAGMA journal_mode").fetchone()[0])
    finally:
        db.close()


def test_a_local_drive_keeps_the_write_ahead_log(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(database, "is_network", lambda path: False)
    Database(tmp_path / "a.db", SCRIPT, 1)
    assert _journal(tmp_path / "a.db") == "wal"


def test_a_network_drive_keeps_the_rollback_journal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(database, "is_network", lambda path: True)
    Database(tmp_path / "a.db", SCRIPT, 1)
    assert _journal(tmp_path / "a.db") == "delete"


def test_a_register_moved_to_the_network_gives_up_its_log(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(database, "is_network", lambda path: False)
    kept = Database(tmp_path / "a.db", SCRIPT, 1)
    with kept.write() as db:
        db.execute("INSERT INTO words VALUES ('twill')")
    monkeypatch.setattr(database, "is_network", lambda path: True)
    moved = Database(tmp_path / "a.db", SCRIPT, 1)
    assert _journal(tmp_path / "a.db") == "delete"
    with moved.read() as db:
        assert [row["word"] for row in db.execute("SELECT word FROM words")] == ["twill"]


def test_who_holds_the_file_is_told_by_the_code_and_not_by_the_text(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(database, "WAIT_S", 0.0)
    path = tmp_path / "a.db"
    kept = Database(path, SCRIPT, 1)
    holder = sqlite3.connect(path, isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")
    with pytest.raises(DatabaseError) as caught, kept.write():
        pass
    assert "another program holds it" in str(caught.value)
    holder.execute("ROLLBACK")
    holder.close()
    with pytest.raises(DatabaseError) as caught, kept.write() as db:
        db.execute("INSERT INTO locked VALUES (1)")  # no such table: the word alone says nothing
    assert "another program" not in str(caught.value)


def test_mount_tables_tell_the_kind_of_the_drive() -> None:
    table = (
        "22 1 8:1 / / rw,relatime shared:1 - ext4 /dev/sda1 rw\n"
        "40 22 0:35 / /srv/work\\040shop rw - nfs4 host:/export rw\n"
        "41 22 0:36 / /srv/work\\040shop/scratch rw - tmpfs tmpfs rw\n"
    )
    mounts = mounts_of_linux(table)
    assert kind_at(Path("/srv/work shop/data/register.db"), mounts) == "nfs4"
    assert kind_at(Path("/srv/work shop/scratch/register.db"), mounts) == "tmpfs"
    assert kind_at(Path("/srv/work shop2/register.db"), mounts) == "ext4"
    listing = "/dev/disk3s1 on / (apfs, local)\n//me@host/share on /Volumes/share (smbfs, nodev)\n"
    assert kind_at(Path("/Volumes/share/x.db"), mounts_of_mac(listing)) == "smbfs"
