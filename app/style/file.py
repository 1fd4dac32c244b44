"""The style file: JSON that a person can read, written whole or not at all.

By custom it is called ``NAME.style.json``. ``docs/formats.md`` describes it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from app.atomic import write_whole
from app.errors import StyleFileError
from app.style.checks import first_problem
from app.style.model import FORMAT, VERSION, PieceData, Style
from app.style.on_disk import changed_since
from geometry.said import said
from nesting.system.files import held

EXTENSION = ".style.json"
DECIMALS = 6  # of a millimetre: far below any drawing, and files stay short
LINE = 100  # values that fit stand on one line


def load_style(path: str | Path) -> Style:
    """Read a style file.

    Raises StyleFileError when it is missing, is no style file, is damaged, comes from a newer
    version of the program, or holds something that cannot be (the field is named).
    """
    file = str(path)
    try:
        text = Path(path).read_bytes().decode("utf-8-sig")
    except FileNotFoundError:
        raise StyleFileError("there is no such file", file=file, remedy="check the name") from None
    except UnicodeDecodeError:
        raise StyleFileError(
            "is not a style file (not UTF-8 text)", file=file, remedy=_remedy_for_kind(path)
        ) from None
    except OSError as error:
        raise StyleFileError(
            said("cannot be read ({0})", error.strerror),
            file=file,
            remedy="check the file and its permissions",
        ) from None
    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        what = "is empty" if not text.strip() else f"is damaged at line {error.lineno} ({error.msg})"
        raise StyleFileError(what, file=file, remedy=_remedy_for_kind(path)) from None
    except (RecursionError, ValueError):
        raise StyleFileError("is damaged", file=file, remedy=_remedy_for_kind(path)) from None
    return style_of(data, file=file)


def style_of(data: Any, *, file: str = "") -> Style:
    """Return the style that parsed JSON stands for; raises StyleFileError as ``load_style``."""
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        raise StyleFileError(
            said('is not a style file (its "format" is not "{0}")', FORMAT),
            file=file,
            remedy=_remedy_for_kind(file),
        )
    version = data.get("version")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        raise StyleFileError(
            "is damaged (version is not a whole number from 1)", file=file, remedy="restore a copy"
        )
    if version > VERSION:
        raise StyleFileError(
            said(
                "was written by a newer stayply (file version {0}, this program reads up to {1})",
                version,
                VERSION,
            ),
            file=file,
            remedy="update stayply",
        )
    try:
        style = Style.model_validate(data)
    except ValidationError as error:
        raise StyleFileError(_said(error, data), file=file, remedy="correct the field") from None
    problem = first_problem(style)
    if problem:
        raise StyleFileError(problem, file=file, remedy="correct the file")
    return style


def save_style(style: Style, path: str | Path, *, known: str | None = None) -> None:
    """Write a style file whole or not at all; raises StyleFileError when it cannot be written.

    ``known`` is the fingerprint (``on_disk``) that the file had before anything was read: where it holds
    something else by now, somebody else's work would be lost, and StyleFileError is raised instead.
    """
    text = style_text(style)
    try:
        with held(Path(path)):
            if known is not None:
                require_unchanged(path, known)
            write_whole(path, text)
    except OSError as error:
        raise StyleFileError(
            said("cannot be written ({0})", error.strerror or error),
            file=str(path),
            remedy="the old file is untouched; choose another place",
        ) from None


def require_unchanged(path: str | Path, known: str) -> None:
    """Raise StyleFileError where a file holds something else than it did when ``known`` was taken."""
    if changed_since(Path(path), known):
        raise StyleFileError(
            "was written by another program in the meantime; nothing was saved",
            file=str(path),
            remedy="check it and run the command again",
        )


def style_text(style: Style) -> str:
    """Return the text of the style's file: lengths rounded, point lists on a line each.

    The text of a piece is remembered while the piece is the same: of a style that is written again and again,
    mostly one has changed.
    """
    told = style.model_dump(mode="json", exclude={"pieces"})
    lines = []
    for key in (*Style.model_fields, *(key for key in told if key not in Style.model_fields)):
        text = _pieces_text(style.pieces) if key == "pieces" else _text_of(told[key], key)
        lines.append(f"  {json.dumps(key, ensure_ascii=False)}: {text}")
    return "{\n" + ",\n".join(lines) + "\n}\n"


MOST_TEXTS = 400
"""Pieces whose text is remembered between two savings; more than any style of the trade has (our own choice,
no source)."""

_piece_texts: dict[int, tuple[PieceData, str]] = {}


def _pieces_text(pieces: tuple[PieceData, ...]) -> str:
    if not pieces:
        return "[]"
    texts = []
    for piece in pieces:
        held = _piece_texts.get(id(piece))
        if held is None or held[0] is not piece:
            while len(_piece_texts) >= MOST_TEXTS:
                _piece_texts.pop(next(iter(_piece_texts)), None)
            held = _piece_texts[id(piece)] = (
                piece,
                _laid_out(_rounded(piece.model_dump(mode="json")), "    "),
            )
        texts.append("    " + held[1])
    return "[\n" + ",\n".join(texts) + "\n  ]"


def _text_of(value: Any, key: str) -> str:
    return _laid_out(_rounded(value, key.endswith("_mm")), "  ")


def _rounded(value: Any, length: bool = False) -> Any:
    if isinstance(value, dict):
        return {key: _rounded(part, str(key).endswith("_mm")) for key, part in value.items()}
    if isinstance(value, list):
        return [_rounded(part, length) for part in value]
    if isinstance(value, float) and length:
        return round(value, DECIMALS) + 0.0  # + 0.0 turns -0.0 into 0.0
    return value


def _laid_out(value: Any, indent: str) -> str:
    """JSON with what is short, and every list of numbers or points, on one line."""
    if not value or not isinstance(value, dict | list) or _is_numbers(value):
        return json.dumps(value, ensure_ascii=False)
    if _is_shallow(value):
        flat = json.dumps(value, ensure_ascii=False)
        if len(flat) + len(indent) <= LINE:
            return flat
    inner = indent + "  "
    if isinstance(value, dict):
        lines = [
            f"{inner}{json.dumps(key, ensure_ascii=False)}: {_laid_out(part, inner)}"
            for key, part in value.items()
        ]
        return "{\n" + ",\n".join(lines) + f"\n{indent}}}"
    return "[\n" + ",\n".join(inner + _laid_out(part, inner) for part in value) + f"\n{indent}]"


def _is_numbers(value: Any) -> bool:
    """Whether a list holds numbers, or pairs of numbers, only."""
    if not isinstance(value, list):
        return False
    return all(isinstance(part, int | float) or _is_pair(part) for part in value)


def _is_pair(part: Any) -> bool:
    if not isinstance(part, list) or len(part) != 2:
        return False
    return isinstance(part[0], int | float) and isinstance(part[1], int | float)


def _is_shallow(value: Any) -> bool:
    """Whether dicts and lists are stacked no more than one deep below a value."""
    inside = [part for part in _parts(value) if isinstance(part, dict | list)]
    return not any(isinstance(part, dict | list) and part for each in inside for part in _parts(each))


def _parts(value: dict[str, Any] | list[Any]) -> Iterable[Any]:
    return value.values() if isinstance(value, dict) else value


def _said(error: ValidationError, data: dict[str, Any]) -> str:
    """Say the first thing that pydantic found in the words of the file."""
    errors = error.errors(include_url=False)
    first = errors[0]
    place = ""
    name = ""
    here: Any = data
    for step in first["loc"]:
        place += f"[{step}]" if isinstance(step, int) else f".{step}" if place else str(step)
        try:
            here = here[step]
        except (KeyError, IndexError, TypeError):
            here = None
        if not name and place.startswith("pieces[") and isinstance(here, dict):
            name = str(here.get("name", ""))
    more = f" (and {len(errors) - 1} more)" if len(errors) > 1 else ""
    piece = f"piece {name}: " if name else ""
    said = first["msg"][0].lower() + first["msg"][1:]
    value = first.get("input")
    shown = f", not {json.dumps(value)}" if isinstance(value, str | int | float | None) else ""
    if first["type"] == "missing":
        return f"{piece}the field {place} is missing{more}"
    return f"{piece}the field {place} is wrong: {said}{shown}{more}"


def _remedy_for_kind(path: str | Path) -> str:
    """What to do about a file that is no style file, as far as its name tells."""
    if str(path).lower().endswith(".dxf"):
        return f"a drawing becomes a style with: stayply new {path} -o NAME{EXTENSION}"
    return "name a style file, or restore a copy"
