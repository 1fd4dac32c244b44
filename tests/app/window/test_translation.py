"""The second language is whole, current, and carries every placeholder and key mark over."""

import re
import shutil
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import pytest

from app.window.application import TRANSLATIONS
from tests.app.window.hands import ROOT

TS = TRANSLATIONS / "stayply_it.ts"
HOW = "see 'A text changed' in docs/window.md"


def messages(file: Path) -> dict[tuple[str, str], ElementTree.Element]:
    return {
        (context.findtext("name", ""), message.findtext("source", "")): message.find("translation")
        for context in ElementTree.parse(file).getroot().findall("context")
        for message in context.findall("message")
    }


def tool(name: str) -> str:
    found = Path(sys.executable).with_name(name)
    path = str(found) if found.exists() else shutil.which(name)
    if not path:
        pytest.skip(f"{name} is not installed")
    return path


def test_nothing_is_left_untranslated():
    for (context, source), translation in messages(TS).items():
        assert translation.get("type") is None and translation.text, f"{context}: {source}"


def test_placeholders_and_file_patterns_are_carried_over():
    for (_, source), translation in messages(TS).items():
        for pattern in (r"\{\d\}", r"\*\.\w+"):
            assert sorted(re.findall(pattern, source)) == sorted(re.findall(pattern, translation.text)), (
                source
            )
        assert ("&" in source) == ("&" in translation.text), source


def test_every_text_of_the_window_is_in_the_catalogue(tmp_path):
    fresh = tmp_path / "fresh.ts"
    files = [str(path) for path in (ROOT / "app/window").rglob("*.py")]
    command = [tool("pyside6-lupdate"), *files, "-ts", str(fresh), "-locations", "none"]
    subprocess.run(command, check=True, capture_output=True, timeout=600)
    missing = set(messages(fresh)) - set(messages(TS))
    assert not missing, f"{HOW}: {sorted(missing)[:5]}"


def test_the_compiled_catalogue_is_that_of_the_texts(tmp_path):
    made = tmp_path / "made.qm"
    command = [tool("pyside6-lrelease"), str(TS), "-qm", str(made)]
    subprocess.run(command, check=True, capture_output=True, timeout=600)
    assert made.read_bytes() == (TRANSLATIONS / "stayply_it.qm").read_bytes(), HOW
