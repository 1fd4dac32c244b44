"""What differs between two styles, in lines that a person can read: pieces, cloths, lays, rules."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from app.style.model import Style

NAMED = {"pieces": "name", "cloths": "id", "lays": "name", "locked_lays": "name"}
"""The lists of a style whose entries are told apart by a name of their own."""


@dataclass(frozen=True)
class Difference:
    """One thing that differs: ``part`` of the style, ``name`` of the entry, ``fields`` of it.

    ``kind`` is "changed", "added" (the second style has it) or "removed" (the first has it).
    """

    kind: str
    part: str
    name: str = ""
    fields: tuple[str, ...] = ()

    def __str__(self) -> str:
        what = f"{self.part} {self.name}".strip()
        return f"{what}: {', '.join(self.fields) or self.kind}"


def differences(first: Style, second: Style) -> tuple[Difference, ...]:
    """Return what of ``second`` is not as in ``first``; none when the two are equal."""
    if first == second:
        return ()
    found: list[Difference] = []
    for part in type(first).model_fields:
        before, after = getattr(first, part), getattr(second, part)
        if before == after:
            continue
        if part in NAMED:
            found += _of_list(part, _by_name(before, NAMED[part]), _by_name(after, NAMED[part]))
        else:
            found.append(Difference("changed", part, fields=tuple(_fields(before, after))))
    return tuple(found) or (Difference("changed", "unknown fields"),)


def _by_name(entries: Iterable[Any], key: str) -> dict[str, Any]:
    return {str(getattr(entry, key)): entry for entry in entries}


def _of_list(part: str, before: Mapping[str, Any], after: Mapping[str, Any]) -> list[Difference]:
    found = [Difference("removed", part, name) for name in before if name not in after]
    found += [Difference("added", part, name) for name in after if name not in before]
    for name, entry in after.items():
        if name in before and before[name] != entry:
            found.append(Difference("changed", part, name, tuple(_fields(before[name], entry))))
    if not found:
        found.append(Difference("changed", part, fields=("order",)))
    return found


def _fields(before: Any, after: Any) -> list[str]:
    if not (isinstance(before, BaseModel) and isinstance(after, BaseModel)):
        return []
    return [name for name in type(after).model_fields if getattr(before, name) != getattr(after, name)]
