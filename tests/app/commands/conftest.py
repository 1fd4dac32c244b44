"""Calling a command as a person does, in this process."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import ezdxf
import pytest

from app.__main__ import main


@dataclass(frozen=True)
class Called:
    """What a call left: exit status and both streams."""

    status: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        return json.loads(self.out)


Call = Callable[..., Called]


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Call:
    """Call a command in a folder of its own, with house rules of its own."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("STAYPLY_CONFIG_DIR", str(tmp_path / "config"))

    def go(*words: object) -> Called:
        capsys.readouterr()
        status = main([str(word) for word in words])
        out, err = capsys.readouterr()
        return Called(status, out, err)

    return go


@pytest.fixture
def drawing(tmp_path: Path) -> Path:
    """A drawing in mm of two closed outlines with names inside."""
    document = ezdxf.new("R2010", units=4)
    space = document.modelspace()
    space.add_lwpolyline([(0, 0), (100, 0), (100, 60), (0, 60)], close=True)
    space.add_text("STRAP", height=5).set_placement((20, 20))
    space.add_lwpolyline([(200, 0), (270, 0), (280, 90), (235, 120), (190, 90)], close=True)
    space.add_text("TONGUE", height=5).set_placement((220, 40))
    path = tmp_path / "upper.dxf"
    document.saveas(path)
    return path
