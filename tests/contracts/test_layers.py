"""The layers hold at run time: no display library below the window."""

from __future__ import annotations

import importlib.util
import pkgutil
import subprocess
import sys
from pathlib import Path

import pytest

import geometry
import nesting
from app.commands import COMMANDS
from tests.without_qt import NO_QT

ROOT = Path(__file__).parents[2]


def _python(code: str) -> str:
    result = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=False
    )
    assert result.returncode == 0, result.stderr
    return result.stdout.strip()


def _modules(package: object) -> list[str]:
    return [m.name for m in pkgutil.walk_packages(package.__path__, package.__name__ + ".")]  # type: ignore[attr-defined]


def test_geometry_and_nesting_leave_qt_alone() -> None:
    names = [n for n in _modules(geometry) + _modules(nesting) if not n.endswith("__main__")]
    assert len(names) > 10
    code = "import sys, importlib\n" + "".join(f"importlib.import_module({n!r})\n" for n in names)
    assert _python(code + "print([m for m in sys.modules if m.startswith('PySide6')])") == "[]"


def test_geometry_knows_no_nesting_and_nesting_no_app() -> None:
    for package, forbidden in ((geometry, ("nesting", "app")), (nesting, ("app",))):
        names = [n for n in _modules(package) if not n.endswith("__main__")]
        code = "import sys, importlib\n" + "".join(f"importlib.import_module({n!r})\n" for n in names)
        code += f"print([m for m in sys.modules if m.split('.')[0] in {forbidden!r}])"
        assert _python(code) == "[]"


@pytest.mark.parametrize("command", [name for name in COMMANDS if name != "window"])
def test_every_command_works_where_there_is_no_qt(command: str) -> None:
    module = f"app.commands.{COMMANDS[command].module}"
    assert importlib.util.find_spec(module), f"{command} is listed but not there"
    _python(NO_QT + f"import {module}")
    said = _python(NO_QT + f"from app.__main__ import main\nmain([{command!r}, '--help'])")
    assert f"stayply {command}" in said


def test_the_judge_of_lays_shares_no_code_with_the_engines() -> None:
    """What is loaded with the judge is plain data: the problem, the lay, and its file's shape."""
    names = [n for n in _modules(nesting) if n.startswith("nesting.verify.")]
    assert "nesting.verify.judge" in names
    code = "import sys, importlib\n" + "".join(f"importlib.import_module({n!r})\n" for n in names)
    loaded = _python(code + "print(*[m for m in sys.modules if m.startswith('nesting.')])").split()
    allowed = {"verify", "errors", "items", "lay", "lay_document", "problem", "roll", "tolerances"}
    assert {name.split(".")[1] for name in loaded} <= allowed
