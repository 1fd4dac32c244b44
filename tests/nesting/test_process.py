"""Our own processes find the project's packages on every system."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from nesting.process import PROJECT, child_environment

PRODUCT = ("app", "geometry", "nesting")


@pytest.mark.parametrize("separator", [":", ";"])
def test_the_search_path_is_joined_as_the_system_joins_it(
    separator: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "pathsep", separator)
    asked = child_environment({"PYTHONPATH": "elsewhere", "HOME": "x"})
    assert asked == {"PYTHONPATH": f"{PROJECT}{separator}elsewhere", "HOME": "x"}
    assert child_environment({})["PYTHONPATH"] == str(PROJECT)


def test_nobody_else_joins_it() -> None:
    users = {
        path.relative_to(PROJECT).as_posix()
        for package in PRODUCT
        for path in Path(PROJECT, package).rglob("*.py")
        if "PYTHONPATH" in path.read_text("utf-8")
    }
    assert users == {"nesting/process.py"}
