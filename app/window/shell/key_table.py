"""The keys of every desk as a Markdown table: ``python -m app.window.shell.key_table`` prints it.

docs/window.md holds its output between two markers; a test keeps them the same.
"""

from __future__ import annotations

from app.window.desks import desk_types
from app.window.shell.actions import ActionSpec
from app.window.shell.shell_actions import DESK_KEYS, SHELL


def key_table() -> str:
    """Return the table, in English."""
    parts = [_section("Everywhere", SHELL)]
    switch = " ".join(f"`{key}` {kind.title()}" for key, kind in zip(DESK_KEYS, desk_types(), strict=False))
    parts.append(f"Desks: {switch}\n")
    parts += [_section(f"{kind.title()} desk", kind.specs()) for kind in desk_types()]
    return "\n".join(parts)


def _section(title: str, specs: tuple[ActionSpec, ...]) -> str:
    lines = [f"### {title}", "", "| action | keys | |", "|---|---|---|"]
    for spec in specs:
        keys = " ".join(f"`{key}`" for key in spec.keys)
        lines.append(f"| {spec.text.replace('&', '').rstrip('…')} | {keys} | {spec.tip} |")
    return "\n".join([*lines, ""])


if __name__ == "__main__":
    print(key_table())
