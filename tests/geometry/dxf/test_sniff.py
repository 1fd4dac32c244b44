"""What is no DXF is refused in one sentence, before anything tries to read it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from geometry import tolerances
from geometry.dxf.read import read_drawing
from geometry.errors import DrawingError

LINE_FILE = "0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n0\n10\n0\n20\n0\n11\n9\n21\n9\n0\nENDSEC\n0\nEOF\n"


def _refusal(path: Path) -> DrawingError:
    with pytest.raises(DrawingError) as caught:
        read_drawing(path)
    assert path.name in str(caught.value)
    assert caught.value.remedy
    assert "\n" not in str(caught.value)
    return caught.value


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "EMPTY_FILE"),
        (b" \n\n\t", "EMPTY_FILE"),
        (b"\0" * 500, "EMPTY_FILE"),
        (b"AC1027\0\0\0\0\0", "IS_DWG"),
        (b'<?xml version="1.0"?><svg/>', "IS_XML"),
        (b"\xef\xbb\xbf<svg></svg>", "IS_XML"),
        (b"%PDF-1.4", "IS_PDF"),
        (b"PK\x03\x04....", "IS_ARCHIVE"),
        (b"\x89PNG\r\n", "IS_PICTURE"),
        (b"IN;SP1;PU0,0;", "IS_PLOT"),
        (b'{"type": "x"}', "IS_JSON"),
        (b"someone@desk.12345", "NOT_DXF"),
        (b"1\n2\n3\n4\n", "NOT_DXF"),
        (b"AutoCAD Binary DXF\r\n\x1a\x00", "BAD_DRAWING"),
        (bytes(range(1, 256)) * 20, "NOT_DXF"),
    ],
)
def test_other_files_are_named_for_what_they_are(tmp_path: Path, content: bytes, code: str) -> None:
    path = tmp_path / "piece.dxf"
    path.write_bytes(content)
    assert _refusal(path).code == code


def test_a_missing_file_a_folder_and_a_pipe(tmp_path: Path) -> None:
    assert _refusal(tmp_path / "none.dxf").code == "NO_FILE"
    folder = tmp_path / "folder.dxf"
    folder.mkdir()
    assert _refusal(folder).code == "IS_FOLDER"
    if hasattr(os, "mkfifo"):
        pipe = tmp_path / "pipe.dxf"
        os.mkfifo(pipe)
        assert _refusal(pipe).code == "NO_FILE"


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may read everything")
def test_a_file_that_may_not_be_read(tmp_path: Path) -> None:
    path = tmp_path / "locked.dxf"
    path.write_text(LINE_FILE)
    path.chmod(0)
    assert _refusal(path).code == "NO_PERMISSION"


def test_a_file_beyond_the_limit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tolerances, "MAX_FILE_BYTES", 50)
    path = tmp_path / "large.dxf"
    path.write_text(LINE_FILE)
    assert _refusal(path).code == "FILE_TOO_LARGE"


def test_tolerances_and_units_that_make_no_sense(tmp_path: Path) -> None:
    path = tmp_path / "line.dxf"
    path.write_text(LINE_FILE)
    for how in ({"chord_mm": 0.0}, {"join_mm": float("nan")}, {"unit": "furlong"}):
        with pytest.raises(DrawingError, match=r"line\.dxf"):
            read_drawing(path, **how)  # type: ignore[arg-type]


def test_no_closed_outline_is_said_plainly(tmp_path: Path) -> None:
    path = tmp_path / "line.dxf"
    path.write_text(LINE_FILE)
    error = _refusal(path)
    assert error.code == "NO_OUTLINE"
    assert "no closed outline" in error.message
    assert "open LINE" in error.message
