"""Every figure that stands in for what nobody has said: one place, with unit, reason and source."""

from __future__ import annotations

import argparse
import ast
import importlib
from pathlib import Path

import pytest

from app.__main__ import Parser
from app.commands import COMMANDS
from app.defaults import workshop
from app.defaults.page import ROOT, constants, defaults, page
from app.style.model import HouseRules
from geometry.defaults import NOTCH_DEPTH_MM, OURS, PRACTICE
from geometry.edge_kinds import EDGE_RULES
from nesting.defaults import OVERCUT_PAIRS, OVERCUT_SHARE, REMNANT_FROM_M

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


def test_a_figure_without_a_reason_would_be_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The checks here can fail: of three figures, the one that nobody explains is found."""
    monkeypatch.setattr("app.defaults.page.ROOT", tmp_path)
    module = tmp_path / "limits.py"
    module.write_text('A_MM = 1.5  # a pin\nB_MM = 2.5\nC_MM = 3.5\n"""ISO 1, a nail."""\n', encoding="utf-8")
    explained = [(c.name, c.source) for c in constants(module) if c.reason]
    assert explained == [("A_MM", OURS), ("C_MM", "named beside it")]
    assert [c.name for c in constants(module) if not c.reason] == ["B_MM"]


ONCE_BARE = {
    "gap": (workshop.GAP_MM, 2),
    "edge margin": (workshop.EDGE_MARGIN_MM, 5),
    "ends of rolls": (workshop.ROLL_END_PERCENT, 1),
    "base girth": (workshop.BASE_GIRTH_MM, 220),
    "notch depth": (NOTCH_DEPTH_MM, 3),
    "overcut": (OVERCUT_SHARE, 0.02),
    "overcut of a small size": (OVERCUT_PAIRS, 2),
    "remnant worth keeping": (REMNANT_FROM_M, 1),
}
"""Defaults that once stood in the code without a word of where they come from."""


@pytest.mark.parametrize("what", list(ONCE_BARE))
def test_a_default_of_the_trade_names_its_source_or_says_that_there_is_none(what: str) -> None:
    default, value = ONCE_BARE[what]
    assert default.value == value
    assert default.source == PRACTICE or "(" in default.source, "a source that can be found, or none"
    row = f"| {default.what} | {default.value:g} {default.unit} |"
    assert row in (ROOT / "docs" / "defaults.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("module", "name", "value"),
    [
        ("app/hold/verdicts.py", "SLANTED_LINE_DEG", "30.0"),
        ("app/hold/materials.py", "OFF_CARD_DEG", "15.0"),
        ("app/cost/per_pair.py", "FIRST_YIELD", "0.75"),
        ("geometry/tolerances.py", "NEARLY_SAME_RATIO", "1.15"),
    ],
)
def test_a_limit_of_the_trade_has_its_reason_beside_it(module: str, name: str, value: str) -> None:
    (found,) = [c for c in constants(ROOT / module) if c.name == name]
    assert found.value == value and len(found.reason) > 40
    assert found.source in (PRACTICE, "measured here")


@pytest.mark.parametrize(
    ("command", "options"), [("plan", ("table", "plies")), ("press", ("layers", "cutting_height"))]
)
def test_what_only_the_workshop_knows_has_no_default(command: str, options: tuple[str, ...]) -> None:
    """Length of the table, plies of a run, layers under a die: the program asks for them."""
    parser = Parser(prog=command)
    importlib.import_module(f"app.commands.{COMMANDS[command].module}").add_arguments(parser)
    assert [parser.get_default(option) for option in options] == [None] * len(options)


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
