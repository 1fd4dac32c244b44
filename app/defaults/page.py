"""docs/defaults.md, made of the defaults and tolerances as the code has them."""

from __future__ import annotations

import ast
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType

import geometry.defaults
import nesting.defaults
from app.defaults import work, workshop
from geometry.defaults import OURS, PRACTICE, Default
from geometry.edge_kinds import EDGE_RULES

ROOT = Path(__file__).parents[2]

REGISTERS: tuple[ModuleType, ...] = (workshop, geometry.defaults, nesting.defaults, work)

LISTED = (
    "geometry/tolerances.py",
    "nesting/tolerances.py",
    "nesting/planning",
    "app/tolerances.py",
    "app/cost",
    "app/hold",
    "app/plan",
    "app/press",
)
"""Whose figures judge a drawing, a plan or a cost; those of other modules have their reasons in the code."""

HEAD = """\
# Defaults: figures used where none is given

Made from the code by `python -m app.defaults > docs/defaults.md`; a test fails when it is out of date, or
when a figure has no reason. "Common practice, no source" means that the trade does so and that no source
was found that a reader can look up; such a figure is a setting of the workshop, not a rule. The program asks
for what it cannot know: the length of the table, the plies of a run, the layers under a press die, and the
unit and size of a drawing that does not state them.
"""


@dataclass(frozen=True)
class Constant:
    """A named figure of a module, as written, with the reason that stands beside it ('' where none does)."""

    module: str
    name: str
    value: str
    reason: str

    @property
    def source(self) -> str:
        """Where the figure comes from, as far as its reason says so."""
        text = " ".join(self.reason.split())
        for word in (PRACTICE, "from memory"):
            if word in text.lower():
                return word
        if " measured (" in text or "benchmarks" in text or "docs/" in text or "tests/" in text:
            return "measured here"
        named = any(word in text for word in ("ISO", "ANSI", "ASTM", "p. ", "patent", "documentation"))
        return "named beside it" if named else OURS


def defaults() -> dict[str, Default[float] | Default[int]]:
    """Return every registered default by module and name."""
    found: dict[str, Default[float] | Default[int]] = {}
    for register in REGISTERS:
        for name, value in vars(register).items():
            if isinstance(value, Default):
                found[f"{register.__name__}.{name}"] = value
    return found


def constants(path: Path) -> list[Constant]:
    """Return the figures named at the top level of a module."""
    source = path.read_text(encoding="utf-8")
    lines = source.splitlines()
    body = ast.parse(source).body
    found = []
    for number, node in enumerate(body):
        target, value = _assigned(node)
        if not target.strip("_").isupper() or value is None or not _is_figure(value):
            continue
        after = body[number + 1] if number + 1 < len(body) else None
        said = after.value if isinstance(after, ast.Expr) else None
        if isinstance(said, ast.Constant) and isinstance(said.value, str):
            reason = said.value
        else:
            reason = _comment(lines, node)
        shown = ast.unparse(value)
        found.append(Constant(_module(path), target, shown, " ".join(reason.split())))
    return found


def listed() -> list[Constant]:
    """Return the figures of the modules that judge."""
    paths: list[Path] = []
    for name in LISTED:
        paths += [ROOT / name] if name.endswith(".py") else sorted((ROOT / name).rglob("*.py"))
    return [constant for path in paths for constant in constants(path)]


def page() -> str:
    """Return docs/defaults.md."""
    parts = [HEAD]
    titles = {
        workshop: "Of the workshop (house rules, cloth, order)",
        geometry.defaults: "Of a drawing",
        nesting.defaults: "Of lay and plan",
        work: "Of the work itself",
    }
    for register in REGISTERS:
        parts.append(f"## {titles[register]}\n")
        parts.append("| what | value | why | source |\n|---|---|---|---|")
        for default in (d for d in vars(register).values() if isinstance(d, Default)):
            value = f"{default.value:g} {default.unit}".strip()
            parts.append(f"| {default.what} | {value} | {default.reason} | {default.source} |")
        parts.append("")
    parts.append("## Of an edge\n")
    parts.append("| kind | setback mm | allowance mm | why | source |\n|---|---|---|---|---|")
    for kind, rule in EDGE_RULES.items():
        parts.append(
            f"| {kind.value} | {rule.setback_mm:g} | {rule.allowance_mm:g} | {rule.reason} | {rule.source} |"
        )
    parts.append("\n## Tolerances and limits that nobody is asked for\n")
    parts.append("| where | value | what and why | source |\n|---|---|---|---|")
    for constant in listed():
        reason = constant.reason.replace("|", "\\|")
        parts.append(
            f"| `{constant.module}.{constant.name}` | {constant.value} | {reason} | {constant.source} |"
        )
    return "\n".join(parts) + "\n"


def _assigned(node: ast.stmt) -> tuple[str, ast.expr | None]:
    if isinstance(node, ast.Assign) and len(node.targets) == 1 and isinstance(node.targets[0], ast.Name):
        return node.targets[0].id, node.value
    if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
        return node.target.id, node.value
    return "", None


def _is_figure(value: ast.expr) -> bool:
    if isinstance(value, ast.Constant):
        return isinstance(value.value, int | float) and not isinstance(value.value, bool)
    if isinstance(value, ast.UnaryOp):
        return _is_figure(value.operand)
    if isinstance(value, ast.BinOp):
        return _is_figure(value.left) and _is_figure(value.right)
    return isinstance(value, ast.Tuple) and bool(value.elts) and all(map(_is_figure, value.elts))


def _comment(lines: list[str], node: ast.stmt) -> str:
    line = lines[(node.end_lineno or node.lineno) - 1]
    return line.split("#", 1)[1].strip() if "#" in line else ""


def _module(path: Path) -> str:
    return ".".join(path.relative_to(ROOT).with_suffix("").parts)
