"""The sample styles that come with the program."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import resources
from pathlib import Path

from app.errors import UsageError

NAMES = ("court", "derby", "boot", "sandal")


@dataclass(frozen=True)
class Sample:
    """Files of a sample: its drawing, its style file, an order."""

    name: str
    drawing: Path
    style: Path
    order: Path


def sample(name: str) -> Sample:
    """Return a sample by name; raises UsageError where the samples are not installed."""
    folder = Path(str(resources.files("sample_styles"))) / name
    found = Sample(name, folder / f"{name}.dxf", folder / f"{name}.style.json", folder / "order.csv")
    for path in (found.drawing, found.style, found.order):
        if not path.is_file():
            raise UsageError("the sample is not complete", file=str(path), remedy="install the program again")
    return found
