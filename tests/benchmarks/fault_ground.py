"""What every fault made on purpose stands on: the style, records of its own, what counts as lost."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
STYLE = ROOT / "sample_styles" / "court" / "court.style.json"


class Lost(Exception):
    """Something that was told of is not there, or what is there is not whole."""


def lost_if(lost: bool, what: str) -> None:
    if lost:
        raise Lost(what)


def environment(folder: Path) -> dict[str, str]:
    """The environment of a victim: our packages, records of its own."""
    return os.environ | {"PYTHONPATH": str(ROOT), "STAYPLY_DATA_DIR": str(folder / "data")}


def sound(path: Path) -> None:
    with sqlite3.connect(path) as db:
        answer = db.execute("PRAGMA integrity_check").fetchone()[0]
    db.close()
    lost_if(answer != "ok", f"{path.name}: {answer}")
