"""Boards: card patterns at full size, of each upper and its backing, apart and overlaid."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from app.style.model import Style
from geometry.piece import BackingPiece, UpperPiece

Pair = tuple[UpperPiece, BackingPiece | None]


def write_boards(
    style: Style, uppers_and_backings: Sequence[Pair], out_dir: Path, *, sheet: str = "", tiled: bool = False
) -> list[Path]:
    """Write boards.pdf, boards.dxf and boards.plt into ``out_dir`` and return their paths.

    One entry a piece, size and hand (an upper with several layers: one entry a layer; None = not
    backed). ``sheet``: ``A4`` .. ``A0`` or ``roll:WIDTH_MM``; '' takes the smallest that holds the
    largest board. ``tiled`` cuts the boards into A4 or A3 pages to be stuck together.
    Raises UsageError when the sheet is unknown or a board does not fit it.
    """
    raise NotImplementedError
