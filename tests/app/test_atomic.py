"""Files and folders of files appear whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.atomic import whole_file, whole_folder, write_whole
from app.errors import UsageError


def test_a_write_that_fails_changes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    write_whole(path, "before")
    with pytest.raises(RuntimeError), whole_file(path) as draft:
        draft.write_text("half")
        raise RuntimeError
    assert path.read_text() == "before"
    assert [p.name for p in tmp_path.iterdir()] == ["a.txt"]


def test_missing_folders_are_made(tmp_path: Path) -> None:
    write_whole(tmp_path / "x" / "y" / "a.bin", b"\0")
    assert (tmp_path / "x" / "y" / "a.bin").read_bytes() == b"\0"


def test_a_folder_of_files_comes_whole_and_leaves_strangers_alone(tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "mine.txt").write_text("keep")
    (out / "lay.json").write_text("old")
    with whole_folder(out) as draft:
        (draft / "lay.json").write_text("new")
        (draft / "deep").mkdir()
        (draft / "deep" / "b.txt").write_text("b")
    assert (out / "mine.txt").read_text() == "keep"
    assert (out / "lay.json").read_text() == "new"
    assert (out / "deep" / "b.txt").read_text() == "b"


def test_a_folder_whose_making_fails_is_as_it_was(tmp_path: Path) -> None:
    with pytest.raises(RuntimeError), whole_folder(tmp_path / "out") as draft:
        (draft / "lay.json").write_text("new")
        raise RuntimeError
    assert list(tmp_path.iterdir()) == []


def test_an_error_names_the_folder_asked_for_and_not_the_draft(tmp_path: Path) -> None:
    with pytest.raises(UsageError) as told, whole_folder(tmp_path / "out") as draft:
        raise UsageError("cannot be written", file=str(draft / "lay.pdf"), remedy="choose another folder")
    assert str(told.value) == f"{tmp_path / 'out' / 'lay.pdf'}: cannot be written; choose another folder"
