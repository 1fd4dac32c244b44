"""A drawing table for tests: draw with ezdxf, save, read back as the program would."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from ezdxf.document import Drawing as DxfDocument

from geometry.dxf.read import ReadDrawing, read_drawing

Read = Callable[..., ReadDrawing]
RECTANGLE = [(0.0, 0.0), (120.0, 0.0), (120.0, 80.0), (0.0, 80.0)]


class Table:
    """A document with its model space; ``read`` saves it and reads it as pieces."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.document: DxfDocument = ezdxf.new("R2010")
        self.unit(4)

    @property
    def model(self) -> Any:
        return self.document.modelspace()

    def new(self, version: str) -> None:
        self.document = ezdxf.new(version)

    def unit(self, code: int, measurement: int = 1) -> None:
        self.document.header["$INSUNITS"] = code
        self.document.header["$MEASUREMENT"] = measurement

    def rectangle(
        self, x: float = 0.0, y: float = 0.0, w: float = 120.0, h: float = 80.0, **how: Any
    ) -> None:
        corners = [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
        self.model.add_lwpolyline(corners, close=True, dxfattribs=how)

    def lines(self, points: Sequence[tuple[float, float]], close: bool = True, **how: Any) -> None:
        count = len(points)
        for i in range(count if close else count - 1):
            self.model.add_line(points[i], points[(i + 1) % count], dxfattribs=how)

    def save(self, name: str = "table.dxf", **how: Any) -> Path:
        path = self.folder / name
        self.document.saveas(path, **how)
        return path

    def read(self, **how: Any) -> ReadDrawing:
        return read_drawing(self.save(), **how)


@pytest.fixture
def table(tmp_path: Path) -> Table:
    return Table(tmp_path)
