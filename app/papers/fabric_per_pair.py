"""Fabric per pair: net, gross, metres and cost by size, and their average over the order."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from app.style.model import Style


def write(
    style: Style,
    cost: dict[str, Any],
    out_dir: Path,
    *,
    pairs: dict[str, int] | None = None,
    cloth_id: str = "",
) -> list[Path]:
    """Write fabric-per-pair.pdf, .csv and .xlsx.

    ``cost`` is the object of ``cost --json`` (design: per_pair, average, widths, currency);
    optional keys ``yield``, ``utilisation``, ``assumptions`` (list of lines) and ``verdict`` (a line)
    are printed where present. ``pairs`` is the order that weights the average.
    """
    raise NotImplementedError
