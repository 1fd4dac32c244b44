"""Where the workshop's own records lie: the register of cloths and the trial book."""

from __future__ import annotations

import getpass
import os
from pathlib import Path

import platformdirs


def data_path(name: str) -> Path:
    """Return the path of a record; the variable STAYPLY_DATA_DIR moves them all.

    Put that folder on a disk all desks reach to share the records (SQLite needs a file system
    with working locks; see the docs of the file server).
    """
    folder = os.environ.get("STAYPLY_DATA_DIR") or platformdirs.user_data_dir("stayply", appauthor=False)
    return Path(folder) / name


def who() -> str:
    """Return who is at the desk, as the system knows; '' when it does not."""
    try:
        return getpass.getuser()
    except (KeyError, OSError, ImportError):
        return ""
