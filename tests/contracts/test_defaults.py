"""Every figure that stands in for what nobody has said: one place, with unit, reason and source."""

from __future__ import annotations

import argparse
import ast
import importlib
from pathlib import Path

import pytest

from app.__main__ import Parser
from app.commands import COMMANDS
from app.defaults.page import ROOT, constants, defaults, page
from app.style.model import HouseRules
from geometry.edge_kinds import EDGE_RULES

PACKAGES = ("geometry", "nesting", "app")
FOR_THE_EYE = ("app/window", "app/papers", "app/tools")
"""Sizes of lettering, pixels of the screen: their reason is that they look right."""

SEARCH = ("nesting/compaction", "nesting/contact", "nesting/free", "nesting/lattice", "nesting/rows")
"""How engines search is no word of the bench; docs/nesting.md tells it."""

TRADE = (
    "_mm", "_deg", "_m", "_percent", "_n_per_mm", "_s", "seconds", "plies", "layers", "pairs", "overcut",
    "price", "max_lays",
)  # fmt: skip
"""How a field or parameter ends that a person at the bench would have a word about."""

COMMANDS_OWN = ("chord", "join", "nu12")
"""Options whose default is a tolerance with its reason (geometry.tolerances, geometry.stretch.fit)."""


def _modules() -> list[Path]:
    return [path for package in PACKAGES for path in sorted((ROOT / package).rglob("*.py"))]


def _literal(node: ast.expr | None) -> bool:
    """Whether an expression is a figure written out (zero and one are counts, not choices)."""
    if isinstance(node, ast.UnaryOp):
        return _literal(node.operand)
    return (
        isinstance(node, ast.Constant)
        and isinstance(node.value, int | float)
        and not isinstance(node.value, bool)
        and node.value not in (0, 1)
    )


def test_every_default_has_unit_reason_and_source() -> None:
    found = defaults()
    assert len(found) > 25
    for name, default in found.items():
        assert (default.what and len(default.reason) > 10) or default.value == 0, name
        assert default.source, name
    for kind, rule in EDGE_RULES.items():
        assert rule.reason and rule.source, kind


def test_docs_hold_the_page_of_defaults() -> None:
    text = (ROOT / "docs" / "defaults.md").read_text(encoding="utf-8")
    assert text == page(), "run: python -m app.defaults > docs/defaults.md"


def test_every_named_figure_has_a_reason_beside_it() -> None:
    bare = [
        f"{constant.module}.{constant.name}"
        for path in _modules()
        if not path.relative_to(ROOT).as_posix().startswith(FOR_THE_EYE)
        for constant in constants(path)
        if not constant.reason
    ]
    assert bare == [], "say why beside it, or name it in a module of defaults"


def test_house_rules_take_their_figures_from_the_register() -> None:
    tree = ast.parse((ROOT / "app" / "style" / "model.py").read_text(encoding="utf-8"))
    (rules,) = [n for n in tree.body if isinstance(n, ast.ClassDef) and n.name == HouseRules.__name__]
    written = [
        ast.unparse(node.target)
        for node in rules.body
        if isinstance(node, ast.AnnAssign) and isinstance(node.value, ast.Constant)
        if node.value.value is not None
    ]
    assert written == []


def test_no_field_or_parameter_of_the_trade_has_a_figure_of_its_own() -> None:
    found = []
    for path in _modules():
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            pairs: list[tuple[str, ast.expr | None]] = []
            if isinstance(node, ast.ClassDef):
                pairs = [
                    (ast.unparse(item.target), item.value)
                    for item in node.body
                    if isinstance(item, ast.AnnAssign)
                ]
            elif isinstance(node, ast.FunctionDef):
                arguments = node.args
                named = arguments.args[len(arguments.args) - len(arguments.defaults) :]
                pairs = [(a.arg, d) for a, d in zip(named, arguments.defaults, strict=True)]
                pairs += [
                    (a.arg, d) for a, d in zip(arguments.kwonlyargs, arguments.kw_defaults, strict=True)
                ]
            found += [
                f"{path.relative_to(ROOT)}:{node.lineno} {name}"
                for name, value in pairs
                if name.endswith(TRADE) and _literal(value)
                if not path.relative_to(ROOT).as_posix().startswith((*FOR_THE_EYE, *SEARCH))
            ]
    assert found == []


@pytest.mark.parametrize("command", list(COMMANDS))
def test_options_take_their_figures_from_the_register(command: str) -> None:
    parser = Parser(prog=command)
    importlib.import_module(f"app.commands.{COMMANDS[command].module}").add_arguments(parser)
    known = {default.value for default in defaults().values()}
    known |= {100.0 * value for value in known} | {1}
    for action in parser._actions:
        if action.dest in (*COMMANDS_OWN, "jobs") or isinstance(action, argparse._CountAction):
            continue
        if isinstance(action.default, int | float) and not isinstance(action.default, bool):
            assert action.default in known, f"--{action.dest} {action.default}"


def test_fields_of_the_window_begin_empty_or_from_the_register() -> None:
    """A figure written into ``set_value`` would be one that nobody gave and nobody can find."""
    found = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for path in (ROOT / "app" / "window").rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
        and getattr(node.func, "attr", "") == "set_value"
        and any(_literal(argument) for argument in node.args)
    ]
    assert found == []
