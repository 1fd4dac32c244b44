"""Lays of an earlier plan that stay as they are while the rest of the order is planned again."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

from app.errors import UsageError
from nesting.files import lay_file
from nesting.planning.run_plan import RunLay


def read_kept(out_dir: Path, words: str) -> dict[str, tuple[RunLay, ...]]:
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
            "there is no plan of which a lay could be kept",
            file=str(path),
            remedy="plan without --keep first",
        ) from None
    kept: dict[str, list[RunLay]] = {}
    for word in (part.strip() for part in words.split(",")):
        name, equals, plies = word.partition("=")
        found = [key for key, lay in entries.items() if name in (key, lay["name"])]
        if len(found) != 1:
            told = ", ".join(entries)
            raise UsageError(
                f"the plan has {'several lays' if found else 'no lay'} called {name}",
                file=str(path),
                remedy=f"name one of {told}",
            )
        lay = _run_lay(entries[found[0]], out_dir)
        if equals:
            lay = replace(lay, plies=_plies(plies, entries[found[0]]))
        kept.setdefault(entries[found[0]]["cloth"], []).append(lay)
    return {cloth: tuple(lays) for cloth, lays in kept.items()}


def _run_lay(entry: dict[str, Any], out_dir: Path) -> RunLay:
    _, lay = lay_file.read_lay(out_dir / entry["lay_file"])
    return RunLay(dict(entry["sets"]), int(entry["plies"]), lay.length_mm, lay)


def _plies(text: str, entry: dict[str, Any]) -> int:
    plies = int(text) if text.strip().isdecimal() else 0
    if plies < 1 or (entry["mode"] == "face-to-face" and plies % 2):
        even = "an even number" if entry["mode"] == "face-to-face" else "a number"
        raise UsageError(f"lay {entry['name']} cannot be cut in {text} plies", remedy=f"give {even} from 1")
    return plies
