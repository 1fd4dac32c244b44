"""The style file: JSON that a person can read, written whole or not at all.

By custom it is called ``NAME.style.json``. ``docs/formats.md`` describes it.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from app.atomic import write_whole
from app.errors import StyleFileError
from app.style.checks import first_problem
from app.style.model import FORMAT, VERSION, Style
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
    """Return the text of the style's file: lengths rounded, point lists on a line each."""
    return _laid_out(_rounded(style.model_dump(mode="json")), "") + "\n"


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
    if not value or not isinstance(value, dict | list):
        return json.dumps(value, ensure_ascii=False)
    flat = json.dumps(value, ensure_ascii=False)
    if _is_numbers(value) or (len(flat) + len(indent) <= LINE and _depth(value) <= 1):
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
    return all(
        isinstance(part, int | float)
        or (isinstance(part, list) and len(part) == 2 and all(isinstance(x, int | float) for x in part))
        for part in value
    )


def _depth(value: Any) -> int:
    """How deep dicts and lists are stacked below a value."""
    parts = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return max((1 + _depth(part) for part in parts if isinstance(part, dict | list) and part), default=0)


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
