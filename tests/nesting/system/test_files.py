"""Files on every system, the system faked: taking a place, locks, names, long paths."""

from __future__ import annotations

import importlib
import os
from pathlib import Path, PureWindowsPath
from types import SimpleNamespace

import pytest

from app.atomic import write_whole
from nesting import system
from nesting.system import files


@pytest.fixture
def windows(monkeypatch):
    monkeypatch.setattr(system, "WINDOWS", True)


def _pair(folder: Path) -> tuple[Path, Path]:
    draft, target = folder / "draft", folder / "style.json"
    draft.write_text("new", encoding="utf-8")
    target.write_text("old", encoding="utf-8")
    return draft, target


def test_a_file_held_open_for_a_moment_is_replaced_once_it_is_let_go(tmp_path, monkeypatch, windows) -> None:
    draft, target = _pair(tmp_path)
    held = [PermissionError(13, "used by another process")] * 3
    real = os.replace

    def replace(a, b) -> None:
        if held:
            raise held.pop()
        real(a, b)

    waits: list[float] = []
    monkeypatch.setattr(files.os, "replace", replace)
    files.settle(draft, target, wait=waits.append)
    assert target.read_text(encoding="utf-8") == "new" and len(waits) == 3


def test_a_file_that_stays_held_is_an_error_and_stays_as_it_was(tmp_path, monkeypatch, windows) -> None:
    draft, target = _pair(tmp_path)

    def replace(a, b) -> None:
        raise PermissionError(13, "used by another process")

    waits: list[float] = []
    monkeypatch.setattr(files.os, "replace", replace)
    with pytest.raises(PermissionError):
        files.settle(draft, target, wait=waits.append)
    assert target.read_text(encoding="utf-8") == "old"
    assert 1.0 <= sum(waits) <= 3.0, "a person is not kept waiting"


def test_elsewhere_a_refusal_is_final(tmp_path, monkeypatch) -> None:
    draft, target = _pair(tmp_path)
    tries: list[Path] = []

    def replace(a, b) -> None:
        tries.append(b)
        raise PermissionError(13, "read-only")

    monkeypatch.setattr(system, "WINDOWS", False)
    monkeypatch.setattr(files.os, "replace", replace)
    with pytest.raises(PermissionError):
        files.settle(draft, target)
    assert tries == [target]


def test_windows_is_not_asked_to_open_a_folder(tmp_path, monkeypatch, windows) -> None:
    draft, target = _pair(tmp_path)
    opened: list[Path] = []
    real = os.open
    monkeypatch.setattr(files.os, "open", lambda path, flags: opened.append(Path(path)) or real(path, flags))
    files.settle(draft, target)
    assert opened == [draft]


def test_text_goes_out_with_plain_line_feeds_on_every_system(tmp_path, windows) -> None:
    write_whole(tmp_path / "a.json", "one\ntwo\n")
    assert (tmp_path / "a.json").read_bytes() == b"one\ntwo\n"


def test_windows_locks_by_its_own_way(tmp_path, monkeypatch, windows) -> None:
    asked: list[tuple[int, int]] = []
    msvcrt = SimpleNamespace(LK_NBLCK=2, locking=lambda number, mode, count: asked.append((mode, count)))
    monkeypatch.setattr(importlib, "import_module", lambda name: {"msvcrt": msvcrt}[name])
    with (tmp_path / "lock").open("w", encoding="utf-8") as handle:
        files.take_lock(handle)
    assert asked == [(2, 1)]


@pytest.mark.parametrize(
    ("name", "safe"),
    [
        ("Court 37", "Court 37"),
        ("Derby: left/right?", "Derby- left-right-"),
        ("CON", "CON-"),
        ("aux.style", "aux-.style"),
        ("Com1", "Com1-"),
        ("console", "console"),
        ("ends in a dot.", "ends in a dot"),
        ("туфля №3", "туфля №3"),
        (" . ", "style"),
    ],
)
def test_a_name_of_a_style_becomes_a_name_that_every_system_takes(name: str, safe: str) -> None:
    got = files.safe_name(name, "style")
    assert got == safe
    assert not PureWindowsPath(got).is_reserved()


def test_names_that_differ_by_case_only_are_one_file_to_some_systems() -> None:
    assert files.alike(["Vamp", "Quarter", "vamp"]) == ("Vamp", "vamp")
    assert files.alike(["Vamp", "Quarter"]) is None


def test_a_long_path_is_given_to_windows_in_its_long_form(monkeypatch, windows) -> None:
    monkeypatch.setattr(files.os.path, "abspath", str)
    deep = "C:\\work\\" + "a" * 300
    assert str(files.long_path(Path(deep))) == "\\\\?\\" + deep
    share = "\\\\server\\share\\" + "a" * 300
    assert str(files.long_path(Path(share))) == "\\\\?\\UNC\\" + share[2:]
    assert files.long_path(Path("C:\\short")) == Path("C:\\short")


def test_elsewhere_a_path_is_taken_as_it_is(monkeypatch) -> None:
    monkeypatch.setattr(system, "WINDOWS", False)
    deep = Path("/work") / ("a" * 300)
    assert files.long_path(deep) == deep
