"""The tree shows the flow of the work: no circles, small packages, and one place that makes verdicts."""

from __future__ import annotations

import ast
from functools import lru_cache
from pathlib import Path

import grimp
import pytest

ROOT = Path(__file__).parents[2]
PACKAGES = ("geometry", "nesting", "app")
MOST_MODULES = 15
MORE_MODULES = {
    "app/commands": "a module a command",
    "app/papers": "a module a paper",
}
"""Packages that may hold more than MOST_MODULES, each with its reason."""

LOOSE_IN_APP = 6


@lru_cache(maxsize=1)
def _imports() -> dict[str, set[str]]:
    graph = grimp.build_graph(*PACKAGES)
    return {module: graph.find_modules_directly_imported_by(module) for module in graph.modules}


def _circles(imports: dict[str, set[str]]) -> list[list[str]]:
    """Return the strongly connected sets of more than one module (Tarjan 1972)."""
    number: dict[str, int] = {}
    low: dict[str, int] = {}
    stack: list[str] = []
    circles: list[list[str]] = []

    def visit(module: str) -> None:
        number[module] = low[module] = len(number)
        stack.append(module)
        for other in sorted(imports[module]):
            if other not in number:
                visit(other)
                low[module] = min(low[module], low[other])
            elif other in stack:
                low[module] = min(low[module], number[other])
        if low[module] == number[module]:
            circle = stack[stack.index(module) :]
            del stack[stack.index(module) :]
            if len(circle) > 1:
                circles.append(sorted(circle))

    for module in sorted(imports):
        if module not in number:
            visit(module)
    return circles


def test_circles_would_be_found() -> None:
    assert _circles({"a": {"b"}, "b": {"c"}, "c": {"a"}, "d": {"a"}}) == [["a", "b", "c"]]


def test_no_modules_import_each_other_in_a_circle() -> None:
    assert _circles(_imports()) == []


@pytest.mark.parametrize("package", PACKAGES)
def test_packages_stay_small_enough_to_read(package: str) -> None:
    for folder in [path.parent for path in (ROOT / package).rglob("__init__.py")]:
        name = folder.relative_to(ROOT).as_posix()
        modules = [path for path in folder.glob("*.py") if path.stem not in ("__init__", "__main__")]
        assert len(modules) <= MOST_MODULES or name in MORE_MODULES, f"{name} holds {len(modules)} modules"


def test_few_modules_lie_loose_in_app() -> None:
    loose = [path.name for path in (ROOT / "app").glob("*.py") if path.name != "__init__.py"]
    assert len(loose) <= LOOSE_IN_APP, loose


@pytest.mark.parametrize("package", PACKAGES)
def test_every_package_says_what_it_answers(package: str) -> None:
    for path in (ROOT / package).rglob("__init__.py"):
        text = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or ""
        assert len(text) > 30, f"{path.relative_to(ROOT)} does not say what its package takes and gives"


def test_only_the_judge_makes_verdicts() -> None:
    """An empty verdict made elsewhere would open the gate before every export."""
    made = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for package in PACKAGES
        for path in (ROOT / package).rglob("*.py")
        if not path.is_relative_to(ROOT / "nesting" / "verify")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
        and getattr(node.func, "id", getattr(node.func, "attr", "")) == "Verdict"
    ]
    assert made == []


def test_only_the_entry_calls_commands_from_outside() -> None:
    """What window and commands both need lies below them: a command is one of two faces, not a library."""
    users = {
        user
        for user, used in _imports().items()
        for module in used
        if f"{module}.".startswith("app.commands.") and not user.startswith("app.commands")
    }
    assert users == {"app.__main__"}
