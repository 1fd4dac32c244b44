"""One meaning a word: no two public classes of the program share a name."""

from __future__ import annotations

import ast
from collections import defaultdict
from pathlib import Path

ROOT = Path(__file__).parents[2]

SHARED: dict[str, str] = {}
"""Names that two classes may share, each with the reason."""


def _places() -> dict[str, list[str]]:
    """Where each public class stands."""
    places = defaultdict(list)
    for package in ("app", "geometry", "nesting"):
        for path in sorted((ROOT / package).rglob("*.py")):
            for node in ast.parse(path.read_text(encoding="utf-8")).body:
                if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                    places[node.name].append(path.relative_to(ROOT).as_posix())
    return places


def test_no_two_public_classes_share_a_name() -> None:
    places = _places()
    assert len(places) > 300
    assert {name: at for name, at in places.items() if len(at) > 1 and name not in SHARED} == {}


def test_what_is_allowed_to_share_a_name_still_does() -> None:
    places = _places()
    assert [name for name in SHARED if len(places[name]) < 2] == []
