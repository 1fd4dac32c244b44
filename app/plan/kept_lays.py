"""Lays of an earlier plan that stay as they are while the rest of the order is planned again."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from app.errors import UsageError
from geometry.said import said
from nesting.files import lay_file
from nesting.planning.run_plan import RunLay


@dataclass(frozen=True)
class KeptLay:
    """A lay that stays, under its name. ``locked``: a person laid it and gave it back; ``reason``: why it may
    break a hold limit ('' = it may not)."""

    name: str
    lay: RunLay
    locked: bool = False
    reason: str = ""


def read_kept(out_dir: Path, words: str) -> dict[str, tuple[KeptLay, ...]]:
    """Return the lays named in ``words`` ("A,B=4": lay A as it is, lay B in 4 plies), by cloth.

    A lay is called by its name, or by its folder (cloth-name) where several cloths have one of
    that name. Raises UsageError when there is no plan or no such lay, or plies that cannot be.
    """
    path = out_dir / "plan.json"
    try:
        plan: dict[str, Any] = json.loads(path.read_text("utf-8"))
        entries = {f"{lay['cloth']}-{lay['name']}": lay for lay in plan["lays"]}
    except (OSError, ValueError, KeyError, TypeError):
        raise UsageError(
            "there is no plan to keep a lay of",
            file=str(path),
            remedy="plan without --keep first",
        ) from None
    kept: dict[str, list[KeptLay]] = {}
    for word in (part.strip() for part in words.split(",")):
        name, equals, plies = word.partition("=")
        found = [key for key, lay in entries.items() if name in (key, lay["name"])]
        if len(found) != 1:
            told = ", ".join(entries)
            raise UsageError(
                said("the plan has {0} called {1}", "several lays" if found else "no lay", name),
                file=str(path),
                remedy=said("name one of {0}", told),
            )
        lay = _run_lay(entries[found[0]], out_dir)
        if equals:
            lay = replace(lay, plies=_plies(plies, entries[found[0]]))
        entry = entries[found[0]]
        kept.setdefault(entry["cloth"], []).append(KeptLay(entry["name"], lay))
    return {cloth: tuple(lays) for cloth, lays in kept.items()}


def with_locked(
    kept: Mapping[str, tuple[KeptLay, ...]], locked: Mapping[str, tuple[KeptLay, ...]]
) -> dict[str, tuple[KeptLay, ...]]:
    """Return the kept lays with those locked by hand, each in place of the one of its name.

    The plies are those that the kept one of the name has: they may have been changed since.
    """
    together: dict[str, tuple[KeptLay, ...]] = dict(kept)
    for cloth, lays in locked.items():
        before = {each.name: each for each in together.get(cloth, ())}
        for each in lays:
            plies = before[each.name].lay.plies if each.name in before else each.lay.plies
            before[each.name] = replace(each, lay=replace(each.lay, plies=plies))
        together[cloth] = tuple(before.values())
    return together


def _run_lay(entry: dict[str, Any], out_dir: Path) -> RunLay:
    _, lay = lay_file.read_lay(out_dir / entry["lay_file"])
    return RunLay(dict(entry["sets"]), int(entry["plies"]), lay.length_mm, lay)


def _plies(text: str, entry: dict[str, Any]) -> int:
    plies = int(text) if text.strip().isdecimal() else 0
    if plies < 1 or (entry["mode"] == "face-to-face" and plies % 2):
        even = "an even number" if entry["mode"] == "face-to-face" else "a number"
        raise UsageError(
            said("lay {0} cannot be cut in {1} plies", entry["name"], text),
            remedy=said("give {0} from 1", even),
        )
    return plies
