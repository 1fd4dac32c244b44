"""The bytes of a drawing file, or a plain reason why they are not a DXF."""

from __future__ import annotations

import stat
from pathlib import Path

from geometry import tolerances
from geometry.errors import DrawingError
from geometry.said import said

BINARY_SENTINEL = b"AutoCAD Binary DXF"

_NOT_DXF = (
    (b"%PDF", "IS_PDF", "this is a PDF"),
    (b"{\\rtf", "IS_TEXT", "this is a word processor's file"),
    (b"PK\x03\x04", "IS_ARCHIVE", "this is a packed archive (or an office file)"),
    (b"Rar!", "IS_ARCHIVE", "this is a packed archive"),
    (b"7z\xbc\xaf", "IS_ARCHIVE", "this is a packed archive"),
    (b"\x1f\x8b", "IS_ARCHIVE", "this is a packed archive"),
    (b"\x89PNG", "IS_PICTURE", "this is a picture"),
    (b"\xff\xd8\xff", "IS_PICTURE", "this is a picture"),
    (b"GIF8", "IS_PICTURE", "this is a picture"),
    (b"BM", "IS_PICTURE", "this is a picture"),
    (b"II*\x00", "IS_PICTURE", "this is a picture"),
    (b"MM\x00*", "IS_PICTURE", "this is a picture"),
    (b"%!PS", "IS_POSTSCRIPT", "this is a PostScript drawing"),
    (b"\xd0\xcf\x11\xe0", "IS_OFFICE", "this is an office file"),
    (b"\x7fELF", "IS_PROGRAM", "this is a program"),
    (b"MZ", "IS_PROGRAM", "this is a program"),
    (b"SQLite format", "IS_DATABASE", "this is a database"),
    (b"IN;", "IS_PLOT", "this is a plot file (HP-GL)"),
    (b"\x1b%", "IS_PLOT", "this is a plot file (HP-GL)"),
    (b"{", "IS_JSON", "this is a JSON file"),
    (b"version https://git-lfs", "IS_POINTER", "this is only a pointer to a file kept elsewhere"),
)
_SAVE_AS = "save it as DXF in the program that made it"


def read_bytes(path: Path) -> bytes:
    """Return the file's bytes.

    Raises DrawingError when the file is missing, no regular file, not readable, empty, too
    large, or known by its first bytes to be something else than a DXF.
    """
    name = path.name
    try:
        status = path.stat()
        if stat.S_ISDIR(status.st_mode):
            raise DrawingError(
                "this is a folder", file=name, remedy="name a DXF file in it", code="IS_FOLDER"
            )
        if not stat.S_ISREG(status.st_mode):
            raise DrawingError(
                "this is not a regular file", file=name, remedy="name a DXF file", code="NO_FILE"
            )
        if status.st_size > tolerances.MAX_FILE_BYTES:
            raise DrawingError(
                said(
                    "the file is too large ({0} MB, the limit is {1} MB)",
                    f"{status.st_size / 1000000.0:.0f}",
                    f"{tolerances.MAX_FILE_BYTES / 1000000.0:.0f}",
                ),
                file=name,
                remedy="save only the pieces that are needed",
                code="FILE_TOO_LARGE",
            )
        data = path.read_bytes()
    except FileNotFoundError:
        raise DrawingError(
            "there is no such file", file=str(path), remedy="check the name", code="NO_FILE"
        ) from None
    except PermissionError:
        raise DrawingError(
            "the file may not be read", file=name, remedy="check its permissions", code="NO_PERMISSION"
        ) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise DrawingError(
            said("the file cannot be read ({0})", reason),
            file=name[:80],
            remedy="check the disk",
            code="UNREADABLE",
        ) from None
    refuse_other_kinds(data, name)
    return data


def refuse_other_kinds(data: bytes, name: str) -> None:
    """Raise DrawingError when the bytes are empty or those of another kind of file."""
    if not data:
        raise DrawingError(
            "the file is empty (0 bytes)", file=name, remedy="export the drawing again", code="EMPTY_FILE"
        )
    if not data.strip(b" \t\r\n\x00\xef\xbb\xbf"):
        raise DrawingError(
            said("the file is blank ({0} bytes, all of them blanks)", len(data)),
            file=name,
            remedy="export the drawing again",
            code="EMPTY_FILE",
        )
    head = data[:512].lstrip(b"\xef\xbb\xbf \t\r\n")
    if data[:4] == b"AC10" or data[:6] in (b"AC1.50", b"AC2.10", b"AC402a"):
        raise DrawingError("this is a DWG drawing", file=name, remedy="save it as DXF", code="IS_DWG")
    if head.startswith(b"<"):
        lower = data[:4096].lower()
        kind = "an SVG drawing" if b"<svg" in lower else "a web page" if b"<html" in lower else "an XML file"
        raise DrawingError(said("this is {0}", kind), file=name, remedy=_SAVE_AS, code="IS_XML")
    for magic, code, text in _NOT_DXF:
        if head.startswith(magic):
            raise DrawingError(text, file=name, remedy=_SAVE_AS, code=code)
