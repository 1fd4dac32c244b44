"""Lay plan: where every piece lies on the roll, for the cutter and for the machine."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from app.style.model import Style
from nesting.fault import Verdict


def write_lay(
    document: dict[str, Any],
    verdict: Verdict,
    out_dir: Path,
    style: Style | None = None,
    *,
    stem: str = "lay",
) -> list[Path]:
    """Write lay.pdf, lay-1to1.pdf, lay.dxf, lay.plt and lay.svg (``stem`` = "lay") into ``out_dir``.

    ``document`` is the object of lay.json; ``verdict`` is nesting.verify's judgement of it.
    Raises UnverifiedError, and writes nothing, when the verdict is not ok.
    """
    raise NotImplementedError
