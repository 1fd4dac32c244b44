"""Compiled kernels: few arguments, and each beside a slow, plain version of itself in a test.

A function ``plain_NAME`` is so written that anyone sees that it is right; the kernel NAME must agree with it.
Kernels whose names begin with _ are parts of another in their module, and are tested through it.
"""

from __future__ import annotations

import ast
import importlib
import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
MOST_ARGUMENTS = 10
"""More of them in a row are a swap waiting to happen: what belongs together is a named tuple."""

ELSEWHERE = {
    "stretches": "tests/nesting/contact/test_row_spans.py: rows against shapely's boxes of the same outline",
}
"""Kernels that a test compares with something plain of another name: where."""

NAMED_IN_CACHES = {
    "nesting.compaction.among": ("Among",),
    "nesting.compaction.seats": ("LaidStrip", "Wish"),
    "nesting.compaction.separation": ("Among", "Effort", "Pieces", "Walls"),
    "nesting.contact.penetration": ("DepthTable",),
    "nesting.free.bottom_left": ("Kinds", "Taken"),
}
"""Named tuples that kernels take. What numba keeps beside the sources names them, and is read before it is
found to be stale: after an update that renames or moves one, the program would end with an AttributeError."""


def _kernels() -> list[tuple[Path, ast.FunctionDef]]:
    return [
        (path, node)
        for package in ("geometry", "nesting", "app")
        for path in sorted((ROOT / package).rglob("*.py"))
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.FunctionDef)
        and any("njit" in ast.unparse(decorator) for decorator in node.decorator_list)
    ]


def test_no_kernel_takes_a_long_row_of_arguments() -> None:
    kernels = _kernels()
    assert len(kernels) > 20
    wide = {node.name: len(node.args.args) for _, node in kernels if len(node.args.args) > MOST_ARGUMENTS}
    assert wide == {}


def test_no_kernel_calls_linear_algebra_which_is_not_read() -> None:
    for path, node in _kernels():
        products = [part for part in ast.walk(node) if isinstance(part, ast.MatMult)]
        called = {part.attr for part in ast.walk(node) if isinstance(part, ast.Attribute)}
        assert not products and not called & {"dot", "vdot", "linalg", "kron"}, f"{path.name}: {node.name}"


def test_every_kernel_stands_beside_a_plain_version() -> None:
    tests = "".join(path.read_text(encoding="utf-8") for path in (ROOT / "tests" / "nesting").rglob("*.py"))
    bare = [
        node.name
        for _, node in _kernels()
        if not node.name.startswith("_")
        and node.name not in ELSEWHERE
        and not (f"def plain_{node.name}(" in tests and re.search(rf"(?<!plain_)\b{node.name}\(", tests))
    ]
    assert bare == []
    for place in ELSEWHERE.values():
        assert (ROOT / place.split(":")[0]).is_file()


def test_what_is_not_tested_by_itself_is_part_of_another_kernel() -> None:
    kernels = _kernels()
    for path, part in kernels:
        if part.name.startswith("_"):
            users = [
                node.name
                for other, node in kernels
                if other == path and node is not part and re.search(rf"\b{part.name}\(", ast.unparse(node))
            ]
            assert users, f"{path.name}: {part.name} is called by no kernel of its module"


def test_what_a_cache_of_an_older_version_names_is_still_there() -> None:
    for module, names in NAMED_IN_CACHES.items():
        for name in names:
            assert hasattr(importlib.import_module(module), name), f"leave {name} in {module}"
    taken = {
        argument.annotation.id
        for _, node in _kernels()
        for argument in node.args.args
        if isinstance(argument.annotation, ast.Name) and argument.annotation.id[0].isupper()
    }
    assert taken <= {"Array", "Ints", *sum(NAMED_IN_CACHES.values(), ())}
