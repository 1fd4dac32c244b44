"""A list of edits, as a file or the command line gives them, carried out one after the other.

docs/edit.md describes each. An edit is an object with ``do`` (which edit) and ``piece``; a field that the
edit does not know is an error, so that a misspelt one is never ignored.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from pydantic import ValidationError

from app.style import edits
from app.style.drafting import draw, where
from app.style.drafting.edges import break_at_corners, set_taper
from app.style.drafting.fields import EditFields, brief
from app.style.edits import EditError
from app.style.model import Style
from app.style.saved.drawn import (
    AreaData,
    BesideData,
    HoleDrawn,
    InFrameData,
    MarkDrawn,
    NotchDrawn,
    ReliefDrawn,
    SlitDrawn,
    WordDrawn,
)
from geometry.defaults import LETTERS_MM
from geometry.errors import DeskError
from geometry.said import said


def _cut(a: EditFields) -> Style:
    beside = a.fields.get("beside")
    line, keep = a.line(), a.take("keep", "inner")
    if isinstance(keep, str):
        if keep not in ("inner", "outer") or not isinstance(line, BesideData):
            raise a.wrong(f"keep is {brief(keep)}", "give a point [x, y] on the side that stays")
        edge = a.as_edge(dict(beside or {}).get("edge"))
        side = where.inner_side(a.style, a.piece, edge, line, inner=keep == "inner")
    else:
        side = a.place(keep, "keep")
    return draw.add_cut(a.style, a.piece, a.layer, line, side)


def _region(a: EditFields) -> Style:
    keep = a.take("keep", "inside")
    if keep not in ("inside", "outside"):
        raise a.wrong(f"keep is {brief(keep)}", 'give "inside" or "outside"')
    area: AreaData
    if "band" in a.fields:
        inner = a.inside("band")
        edge, width = inner.edge(), inner.number_of("width_mm")
        near = inner.number_of("near_mm", 0.0)
        area = where.band(a.style, a.piece, edge, width + near, near_mm=near, shares=inner.shares())
        inner.done()
    else:
        rounded = a.number_of("rounded_mm", 0.0)
        area = a.course("polygon", 3, closed=True, rounded_mm=rounded)
    style, layer = a.style, a.fields.get("layer", 1)
    if layer == "new":
        a.take("layer")
        style = draw.add_layer(style, a.piece, str(a.take("cloth", "")))
        return draw.add_region(
            style, a.piece, len(style.piece(a.piece).layers) - 1, area, inside=keep == "inside"
        )
    return draw.add_region(style, a.piece, a.layer, area, inside=keep == "inside")


def _split(a: EditFields) -> Style:
    names = a.take("names", ["", ""])
    if not isinstance(names, list) or len(names) != 2 or not all(isinstance(n, str) for n in names):
        raise a.wrong("names are two words", 'write "names": ["left of the line", "right of it"]')
    return draw.add_split(
        a.style,
        a.piece,
        a.layer,
        a.line(),
        names=(names[0], names[1]),
        overlap_mm=a.number_of("overlap_mm", 0.0),
        notches=a.count_of("notches", 2),
        part=str(a.take("part", "")),
    )


def _join(a: EditFields) -> Style:
    others = a.take("with")
    named = [others] if isinstance(others, str) else others
    if not isinstance(named, list) or not named or not all(isinstance(name, str) for name in named):
        raise a.wrong(f"with names no piece ({brief(others)})", 'write "with": "PIECE", or a list of names')
    return draw.join(a.style, a.piece, named, a.layer)


def _change(a: EditFields) -> Style:
    line = a.take("line")
    if not isinstance(line, list):
        raise a.wrong("line is not a list of points", "write it [[x, y], [x, y], ...]")
    points = [a.as_point(value, "line") for value in line]
    return draw.change_through(a.style, a.piece, a.layer, points, smooth=a.yes("smooth"))


def _detail(a: EditFields) -> Style:
    what = a.fields["do"]
    more: dict[str, Any] = {name: a.take(name) for name in ("kind", "on") if name in a.fields}
    more |= {name: a.number_of(name) for name in ("depth_mm", "width_mm") if name in a.fields}
    match what:
        case "notch":
            spot = a.place(a.take("at"), "at")
            if isinstance(spot, InFrameData):  # a notch stands on the outline: the nearest edge takes it
                spot = where.beside_outline(a.style, a.piece, (spot.x_mm, spot.y_mm))
            on_it = spot.model_copy(update={"inward_mm": 0.0, "aside_mm": 0.0})
            return draw.add_detail(a.style, a.piece, NotchDrawn(what="notch", at=on_it, **more))
        case "relief":
            edge = a.edge()
            first, last = where.stretch_places(a.style, a.piece, edge, a.shares())
            row = ReliefDrawn(what="relief", start=first, stop=last, pitch_mm=a.number_of("pitch_mm"), **more)
            return draw.add_detail(a.style, a.piece, row)
        case "slit":
            return draw.add_detail(a.style, a.piece, SlitDrawn(what="slit", line=a.course(), **more))
        case "mark":
            return draw.add_detail(a.style, a.piece, MarkDrawn(what="mark", line=a.course(), **more))
        case "drill":
            at = a.place(a.take("at"), "at")
            wide = a.number_of("diameter_mm", 0.0)
            return draw.add_detail(a.style, a.piece, HoleDrawn(what="drill", at=at, diameter_mm=wide, **more))
    at = a.place(a.take("at"), "at")
    word = WordDrawn(
        what="text",
        at=at,
        text=a.take("text"),
        height_mm=a.number_of("height_mm", LETTERS_MM.value),
        angle_deg=a.number_of("angle_deg", 0.0),
        **more,
    )
    return draw.add_detail(a.style, a.piece, word)


def _remove(a: EditFields) -> Style:
    what, number = a.take("what"), a.count_of("number", 1) - 1
    if what == "detail":
        return draw.remove_detail(a.style, a.piece, number)
    if what == "layer":
        return draw.remove_layer(a.style, a.piece, number)
    if what == "join":
        return draw.unjoin(a.style, a.piece, a.layer)
    if what == "keep":
        return draw.remove_keep(a.style, a.piece, a.layer)
    kinds = {"cut": "cuts", "region": "cuts", "change": "changes", "split": "splits"}
    if not isinstance(what, str) or what not in kinds:
        raise a.wrong(f"what is {brief(what)}", "name one of cut, keep, change, split, join, detail, layer")
    return draw.remove_drawn(a.style, a.piece, a.layer, kinds[what], number)  # type: ignore[arg-type]


def _setback(a: EditFields) -> Style:
    own = a.take("mm")
    value = None if own is None else a.within({"mm": own}).number_of("mm")
    return edits.set_setback(a.style, a.piece, a.edges(), value)


def _allowance(a: EditFields) -> Style:
    own = a.take("mm")
    value = None if own is None else a.within({"mm": own}).number_of("mm")
    return edits.set_allowance(a.style, a.piece, a.edges(), value)


DOES: dict[str, Callable[[EditFields], Style]] = {
    "cut": _cut,
    "region": _region,
    "split": _split,
    "join": _join,
    "change": _change,
    "smooth": lambda a: draw.smooth_stretch(a.style, a.piece, a.layer, a.point("from"), a.point("to")),
    "layer": lambda a: draw.add_layer(a.style, a.piece, str(a.take("cloth", ""))),
    "notch": _detail,
    "relief": _detail,
    "slit": _detail,
    "drill": _detail,
    "mark": _detail,
    "text": _detail,
    "taper": lambda a: set_taper(a.style, a.piece, a.edge(), a.number_of("from_mm"), a.number_of("to_mm")),
    "setback": _setback,
    "allowance": _allowance,
    "kind": lambda a: edits.set_edge_kind(a.style, a.piece, a.edges(), a.kind(a.take("kind"))),
    "break_corners": lambda a: break_at_corners(a.style, a.piece, a.number_of("corner_deg")),
    "remove": _remove,
}
"""Every edit by its name in a list."""


def carry_out(style: Style, asked: Sequence[Mapping[str, Any]]) -> tuple[Style, tuple[str, ...]]:
    """Return the style after all edits, and a line about each.

    Raises EditError (or an error of geometry) naming the first edit that cannot be done; nothing is changed.
    """
    lines = []
    for number, edit in enumerate(asked, start=1):
        if not isinstance(edit, Mapping):
            raise EditError(
                said("edit {0} is not an object", number), remedy='write {"do": ..., "piece": ...}'
            )
        what = edit.get("do")
        if not isinstance(what, str) or what not in DOES:
            names = ", ".join(DOES)
            raise EditError(
                said("edit {0}: there is no edit {1}", number, brief(what)),
                remedy=said("edits are {0}", names),
            )
        one = EditFields(style, number, dict(edit))
        name = one.piece
        try:
            style = DOES[what](one)
        except ValidationError as error:
            first = error.errors(include_url=False)[0]
            place = ".".join(str(step) for step in first["loc"])
            rule = str(first["msg"])
            told = f"{place} is {brief(first['input'])}: {rule[0].lower()}{rule[1:]}"
            raise one.wrong(told, "give another value") from None
        except DeskError as error:
            if error.message.startswith("edit "):
                raise
            told = error.message.removeprefix(f"{name}: ")  # the piece is named once
            raise EditError(
                said("edit {0}, {1} on {2}: {3}", number, what, name, told), remedy=error.remedy
            ) from None
        except (TypeError, ValueError):
            raise one.wrong("it cannot be read", "see docs/edit.md for its fields") from None
        one.done()
        lines.append(f"{number}. {what} on {name}")
    return style, tuple(lines)
