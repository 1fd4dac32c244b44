"""Reinforcement sheet: one page a style, every piece with its backing, for the bench."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from app.papers.boards import Pair
from app.style.model import Style


def write(style: Style, uppers_and_backings: Sequence[Pair], out_dir: Path) -> list[Path]:
    """Write reinforcement-sheet.pdf and return its path; pass the base size, one hand."""
    raise NotImplementedError
