"""Promises about the tree itself: what may be tracked, how long a module is, what README says."""

from __future__ import annotations

import ast
import importlib
import re
import shlex
import subprocess
from pathlib import Path

import pytest

from app.__main__ import Parser
from app.commands import COMMANDS

ROOT = Path(__file__).parents[2]
PACKAGES = ("geometry", "nesting", "app")
MAX_LINES = 440  # "about 400": a tenth over at the most
LANGUAGES = {".py", ".md", ".toml", ".txt", ".lock", ".json", ".csv", ".sh", ".yml", ".cfg", ""}


def _tracked() -> list[Path]:
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=False)
    if listed.returncode != 0:
        pytest.skip("not a git checkout")
    return [path for name in listed.stdout.decode().split("\0") if name and (path := ROOT / name).is_file()]


def test_no_registry_address_is_tracked() -> None:
    address = re.compile(rb"(py" rb"pi\.|pythonhosted|index-url|extra-index|registry\s*=|/simple/?[\"'\s])")
    named = [
        str(path.relative_to(ROOT))
        for path in _tracked()
        if path.suffix in LANGUAGES and path != Path(__file__) and address.search(path.read_bytes())
    ]
    assert named == []
    assert not any(path.name in ("uv.lock", "pylock.toml") for path in _tracked())


@pytest.mark.parametrize("package", PACKAGES)
def test_modules_stay_short_and_have_one_idea(package: str) -> None:
    for path in (ROOT / package).rglob("*.py"):
        assert len(path.read_text(encoding="utf-8").splitlines()) <= MAX_LINES, path
        assert path.stem not in ("utils", "util", "helpers", "common", "misc"), path


def test_every_module_that_the_pages_name_is_there() -> None:
    """A page that names a module by a name it has no more sends its reader nowhere."""
    modules = ["/" + path.relative_to(ROOT).as_posix() for path in _tracked() if path.suffix == ".py"]
    for page in [*(ROOT / "docs").rglob("*.md"), ROOT / "README.md", ROOT / "DEVELOPERS.md"]:
        for name in re.findall(r"[\w/]*\w\.py\b", page.read_text(encoding="utf-8")):
            there = "NAME" in name or any(module.endswith("/" + name.lstrip("/")) for module in modules)
            assert there, f"{page.name} names {name}"


def test_start_can_be_read_by_an_old_python() -> None:
    """Python 3.6 must get as far as being told that it is too old."""
    source = (ROOT / "start.py").read_text(encoding="utf-8")
    tree = ast.parse(source, feature_version=(3, 6))
    first = next(node for node in tree.body if not isinstance(node, ast.Expr | ast.Import))
    assert isinstance(first, ast.If), "the check of the version stands before everything else"
    assert "__future__" not in source


def test_start_needs_nothing_but_python() -> None:
    import sys

    tree = ast.parse((ROOT / "start.py").read_text(encoding="utf-8"))
    names = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    names |= {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    assert {name.split(".")[0] for name in names} <= sys.stdlib_module_names


def _commands_in(text: str) -> list[list[str]]:
    blocks = re.findall(r"```(?:sh|bash|console)?\n(.*?)```", text, re.S)
    lines = [line.strip() for block in blocks for line in block.splitlines()]
    return [
        shlex.split(line, comments=True)
        for line in lines
        if line.startswith(("stayply ", "python3 start.py"))
    ]


def test_every_command_that_the_readers_are_told_can_be_called_so() -> None:
    """README and docs: the command exists and takes these words and options."""
    texts = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
    told = [words for path in texts for words in _commands_in(path.read_text(encoding="utf-8"))]
    assert len(told) > 10
    for words in told:
        words = words[1:] if words[0] == "stayply" else words[2:]
        if not words or words[0] == "test" or "--help" in words:
            continue
        assert words[0] in COMMANDS, " ".join(words)
        parser = Parser(prog=words[0])
        importlib.import_module(f"app.commands.{COMMANDS[words[0]].module}").add_arguments(parser)
        parser.add_argument("--json", action="store_true")
        parser.parse_args(words[1:])


def test_links_between_the_documents_lead_somewhere() -> None:
    for path in [ROOT / "README.md", ROOT / "DEVELOPERS.md", *(ROOT / "docs").glob("*.md")]:
        for link in re.findall(r"\]\(([^)#\s]+)[^)]*\)", path.read_text(encoding="utf-8")):
            if "://" not in link:
                assert (path.parent / link).exists(), f"{path.name} links to {link}"
